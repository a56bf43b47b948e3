"""What keeps a unit from being released stands on the sheet; what does not go in again is not counted as used again."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from layshaft.book.definition.job import Proved
from layshaft.paper.rebuild_text import rebuild_text
from layshaft.plan.fitted_verdict import fitted_verdicts
from layshaft.plan.job_order import NOTHING
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.lack import unsaid_length
from layshaft.plan.press import Refusal
from layshaft.plan.press_use import PressUse
from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import BOOKS, metric, resized, sheet_of, worked_through

REPLACED = ["OT-020", "OT-034", "OT-044"]
"""Of which the demo job has good ones of its own, and for which other sizes are chosen here."""


def grouped(data: dict[str, Any], title: str) -> list[str]:
    return [row["part"] for group in data["found"] if group["title"].startswith(title) for row in group["rows"]]


def opened(data: dict[str, Any]) -> list[str]:
    return [row["sentence"] for row in data["open"]]


def test_what_the_fit_replaces_is_not_used_again() -> None:
    data = sheet_of(resized())
    assert grouped(data, "To be replaced by a size that was chosen (3)") == REPLACED
    assert not set(REPLACED) & set(grouped(data, "To be used again"))
    assert "3 to be replaced by a size that was chosen" in data["headline"][0]
    again = next(group for group in data["found"] if group["title"].startswith("To be used again"))
    assert f"{len(again['rows'])} to be used again" in data["headline"][0]
    assert "OT-020 Hub gap spacer (selective): 3.90 mm goes in instead. As found: " in " ".join(
        rebuild_text(data).split()
    )


def test_a_part_whose_own_size_stays_is_used_again() -> None:
    shipped = metric()
    assert set(shipped.fit.own) == set(REPLACED)
    found = fitted_verdicts(shipped.judgements, shipped.fit)
    assert all(found[part].is_used_again for part in REPLACED)
    chosen = fitted_verdicts(resized().judgements, resized().fit)
    assert [part for part, one in chosen.items() if one.replaced_by] == REPLACED


def test_a_load_without_a_plan_keeps_the_unit_from_release() -> None:
    refused = PressUse(Refusal("direct spring", 0, (unsaid_length("direct spring"),)), ("putting together",))
    shipped = replace(metric(), presses=(refused,), presses_told=((),))
    data = sheet_of(shipped)
    assert opened(data)[0] == (
        "Direct spring, putting together: there is no plan to hold it by; see First of all."
    )
    assert data["headline"][-1] == "The unit is not released while anything here is open."


def test_no_order_to_go_together_by_is_open() -> None:
    data = sheet_of(replace(metric(), assembly=NOTHING))
    assert opened(data)[0] == "There is no order to put the unit together by; see First of all."


def test_what_stands_first_of_all_keeps_the_unit_from_release() -> None:
    assert "not released" in sheet_of(replace(metric(), now=("Stop here.",)))["headline"][-1]


def test_a_chosen_part_to_be_measured_settles_before_a_finer_gauge() -> None:
    shipped = metric()
    unsure = replace(shipped.results["hub gap"], verdict="not sure", settled_by=("Read it with a finer gauge.",))
    point = OpenPoint("OT-020", "reading", "thickness", (1,), "", None, 1.0, "Measure the new OT-020.", ("hub gap",))
    data = sheet_of(
        replace(
            shipped,
            results=shipped.results | {"hub gap": unsure},
            fit=replace(shipped.fit, waiting=(*shipped.fit.waiting, point)),
        )
    )
    (line,) = (one for one in opened(data) if one.startswith("Hub gap "))
    assert line == "Hub gap is inside its limit, but not surely enough. Measure the new OT-020."


def reworked(more: str) -> Rebuild:
    job, shop = ((BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop"))
    kept = "{part: OT-013, look: seal grooves and wall, grade: clean, by: maddick"
    assert kept in job
    return worked_through("overtop", job.replace(kept, kept.replace("grade: clean", more)), shop)


def test_what_is_to_be_reworked_is_open_and_says_what_to_do() -> None:
    data = sheet_of(reworked("grade: nick that polishes out"))
    assert grouped(data, "To be reworked") == ["OT-013"]
    assert (
        "Rework OT-013 Apply piston: seal grooves and wall: nick that polishes out; Polish it out, then look at it "
        "again."
        in opened(data)
    )


def test_what_may_be_added_names_its_part_once() -> None:
    notes = metric().price.open
    (cage,) = (one for one in notes if one.startswith("OT-071"))
    assert cage.count("One-way clutch roller cage") == 1
    assert not [one for one in notes if ".." in one]


def test_a_proof_settles_a_result_only_where_it_speaks_for_it() -> None:
    """The hub gap of the demo job stands partly as drawn; its limit is 0.50 to 0.90 mm."""
    told = [line for line in opened(sheet_of(metric())) if line.startswith("Hub gap stands partly")]
    assert told[0].endswith('The proof "Hub gap" settles it on the built unit.')

    def proved(figure: str) -> list[str]:
        record = Proved.model_validate({"proof": "hub gap", "figure": figure, "outcome": "held"})
        shipped = replace(metric(), job=metric().job.model_copy(update={"proved": (record,)}))
        return [line for line in opened(sheet_of(shipped)) if line.startswith("Hub gap stands partly")]

    assert proved("0.70 mm") == []
    assert [line.split(". ", 1)[1] for line in proved("0.95 mm")] == [
        'The proof "Hub gap" speaks against it: find why, mend it and prove again.'
    ]
