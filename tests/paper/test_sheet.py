"""What a sheet says of a job: nothing before it is so, what is open and what settles it, one unit, one full stop."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from layshaft.book.definition.job import Proved
from layshaft.book.definition.shop import Warranty
from layshaft.paper.rebuild_text import rebuild_text
from tests.paper.two_jobs import INCH_JOB, INCH_SHOP, READINGS, inch, metric, sheet_of, untouched, worked_through


def row(data: dict[str, Any], name: str) -> dict[str, Any]:
    return next(one for one in data["fits"] if one["name"] == name)


def told(value: Any) -> list[str]:
    """Every text of some data."""
    if isinstance(value, str):
        return [value]
    items = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return [text for item in items for text in told(item)]


def test_headline_says_nothing_is_built_yet() -> None:
    lines = sheet_of(metric())["headline"]
    assert lines[1] == (
        "8 of 9 limited figures come inside their limits with the sizes chosen, 5 of them partly as drawn or listed; "
        "none is built yet."
    )
    assert lines[2:] == ["Cannot be said yet: one-way grip.", "The unit is not released while anything here is open."]


def test_of_an_untouched_unit_nothing_is_said_to_be_inside() -> None:
    data = sheet_of(untouched())
    assert data["headline"][0] == "Nothing is looked at or measured yet."
    assert not any("inside" in line for line in data["headline"])
    assert data["chosen"] == []


def test_what_is_not_settled_is_open_and_says_what_settles_it() -> None:
    sentences = [one["sentence"] for one in sheet_of(metric())["open"]]
    assert (
        'Hub gap stands partly on drawn or listed sizes. The proof "Hub gap" settles it on the built unit.' in sentences
    )
    assert any(one.startswith("One-way grip cannot be said yet. Measure OT-070 ") for one in sentences)


def test_near_certainty_only_where_every_link_is_measured() -> None:
    """By the origin that the data give; both kinds are among them."""
    rows = sheet_of(metric())["fits"]
    assert {one["origin"] for one in rows} == {"measured", "part measured"}
    assert any("over 99.9 %" in one["sentence"] for one in rows)
    for one in rows:
        assert ("likely inside" in one["sentence"]) == (one["origin"] == "measured")


def test_a_preload_is_told_as_a_preload_in_inches() -> None:
    """A preload of 0.039 mm is 0.0015 in; 0.02 and 0.08 mm are 0.00079 and 0.00315 in; 0.019 mm of room, 0.0007 in."""
    told = row(sheet_of(inch()), "Countershaft setting")["told"]
    assert told.startswith("preload 0.0015 in")
    assert "inside 0.0008 .. 0.0031 in (0.02 .. 0.08 mm) by 0.0007 in" in told
    assert "-0" not in told


def test_inch_first_everywhere() -> None:
    """A metric figure stands only in brackets, behind one in inch units; ids, grades, odds and sockets aside."""
    data = sheet_of(inch())
    metric_figure = re.compile(r"(?<![\w.])[0-9.]+ (?:mm|N·m|kN|N|MPa|kPa|J|kg|°C)(?![\w·/])")
    outside = [
        text
        for text in told({key: item for key, item in data.items() if key != "found"})
        if metric_figure.search(re.sub(r"\([^()]*\)|[0-9]+ mm sockets", "", text))
        if not re.search(r"[0-9] in \(", text)
    ]
    assert outside == []


def test_of_several_pieces_the_count_is_said_once() -> None:
    rows = {one["part"]: one for group in sheet_of(metric())["found"] for one in group["rows"]}
    assert (rows["OT-011"]["count"], rows["OT-011"]["reason"]) == ("1 of 8 (piece 6)", "Thread and head: head rounded.")
    assert rows["OT-011"]["name"] == "Adapter screw M8x28"


@pytest.mark.parametrize("job", [metric, inch, untouched])
def test_no_full_stop_twice(job: Any) -> None:
    assert [text for text in told(sheet_of(job())) if re.search(r"[^.\s]\.\s*\.(\s*$|\s+[A-Z])", text)] == []


def test_plates_are_counted_in_the_proof() -> None:
    proofs = {one["name"]: one["count"] for one in sheet_of(metric())["proofs"]}
    assert proofs["Direct pack, count and height"].startswith("11 OT-045, 10 OT-046; direct plates 38.")
    assert proofs["Hub gap"] == ""


def test_deposits_are_told_with_what_may_be_renewed() -> None:
    """One carrier assembly is undecided, and its deposit is 90.00."""
    notes = sheet_of(metric())["price"]["notes"]
    assert notes[-1].endswith("CUR, and 90.00 CUR of core deposits until the old parts are back.")


def test_what_came_in_and_what_goes_out() -> None:
    data = sheet_of(metric())
    assert len(data["intake"]["evidence"]) == 3
    assert data["intake"]["missing"] == ["Shipping plate and lifting eye did not come with the unit"]
    assert data["handover"][0] == "Automatic transmission fluid as the gearbox takes: 1.1 L; change it after 500 km."
    assert data["passages"][0] == {
        "part": "OT-010",
        "sentence": "Apply passage: Adapter, tap boss to piston bore; flush it and count 3 openings.",
    }


@pytest.mark.parametrize("job", [metric, inch])
def test_terminal_text_says_what_the_sheet_says(job: Any) -> None:
    data = sheet_of(job())
    text = " ".join(rebuild_text(data).split())
    for sentence in (*data["now"], *data["notes"], *data["headline"], data["foot"], *data["handover"]):
        assert " ".join(sentence.split()) in text
    assert "Invented data: " in text
    if data["now"]:
        assert text.index(" ".join(data["now"][0].split())) < text.index(data["headline"][0])


def test_a_proof_that_did_not_hold_stands_first_among_what_is_open() -> None:
    shipped = metric()
    (proof, *_) = shipped.unit.proofs
    record = Proved(proof=proof, outcome="did not hold")
    data = sheet_of(replace(shipped, job=shipped.job.model_copy(update={"proved": (record,)})))
    assert data["open"][0]["sentence"] == (
        'The proof "Direct pack, count and height" did not hold: find why, mend it and prove again.'
    )
    assert "Proved, and not as it has to be: Direct pack, count and height." in data["headline"]
    assert data["headline"][-1] == "The unit is not released while anything here is open."


def test_a_job_that_the_shop_pays_stays_priced_and_nothing_is_due() -> None:
    back = INCH_JOB.replace("opened:", "comeback of: T-0\npaid by: shop\nopened:")
    found, before = (sheet_of(worked_through("layline", job, INCH_SHOP)) for job in (back, INCH_JOB))
    assert found["headline"][0] == "Comeback of job T-0; the shop pays."
    assert ["comeback of", "T-0"] in found["facts"]
    assert ["paid by", "the shop"] in found["facts"]
    assert (found["price"]["lines"], found["price"]["total"]) == (before["price"]["lines"], before["price"]["total"])
    assert found["price"]["due"] == [["To pay, as the shop pays for this job", "0.00 CUR"]]
    assert "To pay, as the shop pays for this job: 0.00 CUR" in rebuild_text(found)
    assert not before["price"]["due"]
    assert not any("pays" in line for line in before["headline"])


def test_a_part_kept_against_its_verdict_stands_on_the_first_page() -> None:
    looks = (
        "looks:\n"
        "  - {part: LL-032, look: rollers and races, grade: etch}\n"
        "choices:\n"
        "  - {keep: LL-032, by: customer, why: no money}\n"
    )
    shop = INCH_SHOP.replace("labour rate:", "comeback cost: 950.00 CUR\nlabour rate:")
    found = sheet_of(worked_through("layline", INCH_JOB + READINGS + looks, shop))
    kept = [line for line in found["headline"] if line.startswith("Kept against a verdict")]
    assert kept == [
        "Kept against a verdict: LL-032 Countershaft front bearing, cone and cup; customer chose to keep it: no money; "
        "this overrules the verdict to renew it (rollers and races: etch)."
    ]
    assert [(row["part"], row["cost"]) for row in found["risks"]] == [("LL-032", "950.00 CUR")]
    assert "LL-032 Countershaft front bearing, cone and cup: 950.00 CUR" in rebuild_text(found)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Twelve months or 20,000 km on parts.", "Warranty: Twelve months or 20,000 km on parts."),
        ("On parts and work.", "Warranty: 12 months. On parts and work."),
    ],
)
def test_how_long_a_warranty_runs_is_told_once(words: str, told: str) -> None:
    shop = inch().shop.model_copy(update={"warranty": Warranty(months=12, words=words)})
    assert [line for line in sheet_of(replace(inch(), shop=shop))["handover"] if "arranty" in line] == [told]


def test_a_fluid_is_handed_over_where_what_holds_it_was_opened() -> None:
    some = worked_through("layline", f"{INCH_JOB}wants: [LL-024]\n", INCH_SHOP)
    name, fluid = next(iter(some.unit.fluids.items()))
    told = f"{fluid.what}: 2.536 US qt ({fluid.amount}); change it after {fluid.change_after}."
    for opened, is_told in (((), True), (("LL-024",), True), (("LL-063",), False)):
        fluids = {name: fluid.model_copy(update={"when_opened": opened})}
        found = sheet_of(replace(some, unit=some.unit.model_copy(update={"fluids": fluids})))
        assert (told in found["handover"]) == is_told


def test_supplies_that_stop_at_their_ceiling_say_so() -> None:
    """By hand: the work on a whole Layline at 90.00 an hour is well past 20.00, of which 5 % are the 1.00 allowed."""
    shop = INCH_SHOP.replace("units: inch", "supplies: {percent of labour: 5, at most: 1.00 CUR}\nunits: inch")
    lines = dict(sheet_of(worked_through("layline", INCH_JOB, shop))["price"]["lines"])
    assert lines["Shop supplies, 5 % of labour, at most 1.00 CUR"] == "1.00 CUR"
    assert dict(sheet_of(metric())["price"]["lines"])["Shop supplies, 4 % of labour"] == "29.74 CUR"
