"""From a unit on the bench to its release: with every look, reading and proof no shipped book leaves a point open."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layshaft.paper.sheet import build_sheet
from layshaft.plan.rebuild import Rebuild
from tests.paper.full_job import FullJob

VARIANTS = [("overtop", "OT4"), ("overtop", "OT5"), ("overtop", "OT6"), ("twinpath", "TP2"), ("layline", "iron"),
            ("layline", "alloy")]  # fmt: skip
RELEASED = "the signatures at the end release the unit."


def opened(rebuilt: Rebuild) -> list[str]:
    return [one["sentence"] for one in build_sheet(rebuilt)["open"]]


def headline(rebuilt: Rebuild) -> list[str]:
    lines: list[str] = build_sheet(rebuilt)["headline"]
    return lines


@pytest.mark.parametrize(("book", "variant"), VARIANTS)
def test_every_shipped_book_can_be_worked_to_its_release(book: str, variant: str) -> None:
    job = FullJob.of(book, variant)
    rebuilt = job.worked_through(*job.built(), *job.proofs())
    assert opened(rebuilt) == []
    assert rebuilt.now == ()
    lines = headline(rebuilt)
    rows = [one for one in rebuilt.results.values() if one.limit is not None]
    assert any(line.startswith(f"{len(rows)} of {len(rows)} limited figures come inside") for line in lines)
    assert not [line for line in lines if "none is built yet" in line]
    assert lines[-1].startswith("Nothing is open; ")
    assert lines[-1].endswith(f" proofs have held, and {RELEASED}")


@pytest.mark.parametrize(("book", "variant"), [one for one in VARIANTS if one[0] != "overtop"])
def test_a_figure_that_a_proof_gave_need_not_be_typed_again(book: str, variant: str) -> None:
    """Every result that the two books say how to read on the unit has a proof that shows it."""
    job = FullJob.of(book, variant)
    assert opened(job.worked_through(*job.proofs())) == []


def test_a_figure_of_a_proof_is_a_reading_of_the_built_unit() -> None:
    job = FullJob.of("twinpath", "TP2")
    rebuilt = job.worked_through(
        "proved:", "  - {proof: input end play, figure: 0.11 mm, outcome: held, by: maddick, at: 2026-11-03}"
    )
    play = rebuilt.results["input end play"]
    assert (play.origin, float(play.value or 0), play.verdict) == ("read", pytest.approx(0.11e-3), "inside")
    (shown,) = [one for one in build_sheet(rebuilt)["proofs"] if one["name"] == "Input end play"]
    assert (shown["found"], shown["by"], shown["on"]) == ("0.11 mm held", "J. Maddick", "2026-11-03")
    assert any("1 of them shown by the built unit" in line for line in headline(rebuilt))


def test_a_reading_of_the_built_unit_stands_at_its_proof() -> None:
    job = FullJob.of("twinpath", "TP2")
    reading = (
        "  - {result: input end play, new: true, figures: [0.12 mm, 0.14 mm], gauge: dial 1, by: maddick}",
        "proved:",
        "  - {proof: input end play, outcome: held, by: maddick}",
    )
    (shown,) = [one for one in build_sheet(job.worked_through(*reading))["proofs"] if one["name"] == "Input end play"]
    assert shown["found"] == "0.12 mm, 0.14 mm held"
    other = (*reading[:2], "  - {proof: input end play, figure: 0.20 mm, outcome: held, by: maddick}")
    value = job.worked_through(*other).results["input end play"].value
    assert float(value or 0) == pytest.approx(0.13e-3), "the places tell more than the one figure"


@pytest.mark.parametrize("record", ["figure: 0.30 mm, outcome: held", "figure: 0.15 mm, outcome: did not hold"])
def test_a_proof_that_failed_gives_no_figure(record: str) -> None:
    """Up to 0.25 mm is allowed."""
    job = FullJob.of("twinpath", "TP2")
    rebuilt = job.worked_through("proved:", f"  - {{proof: input end play, {record}, by: maddick}}")
    assert rebuilt.results["input end play"].origin != "read"
    assert any(line.startswith('The proof "Input end play"') for line in opened(rebuilt))


def test_what_only_the_books_own_figures_make_up_is_no_open_point() -> None:
    """The clamp, the friction and the radii of the front clutch stand in the book, and nothing of them is read."""
    rebuilt = FullJob.of("twinpath", "TP2").worked_through()
    margin = rebuilt.results["front clutch margin"]
    assert (margin.origin, margin.is_settled) == ("given", True)
    assert margin.sentence.startswith("front clutch margin 1.209, by the book's own figures, none of which is measured")
    assert not [line for line in opened(rebuilt) if line.startswith("Front clutch margin")]


def test_a_torque_proof_bears_out_the_preload_that_gauges_leave_in_doubt() -> None:
    """Rib friction turns the force into a torque: in its limits, so are the force and the setting behind it."""
    job = FullJob.of("layline", "iron")
    names = ("Countershaft setting", "Preload force", "Hot setting")
    without = opened(job.worked_through(*job.proofs("rolling torque")))
    assert [name for name in names if any(line.startswith(f"{name} ") for line in without)] == list(names)
    rebuilt = job.worked_through(*job.proofs())
    assert not [line for line in opened(rebuilt) if line.startswith(names)]
    (told,) = [one["told"] for one in build_sheet(rebuilt)["fits"] if one["name"] == "Countershaft setting"]
    assert told.endswith('The proof "Countershaft rolling torque" bears it out.')
    bare = "  - {proof: rolling torque, outcome: held, by: maddick}"
    assert [line for line in opened(job.worked_through(*job.proofs("rolling torque"), bare)) if line.startswith(names)]


def test_a_proof_bears_out_nothing_that_is_measured_outside() -> None:
    job = FullJob.of("layline", "iron")
    rebuilt = job.worked_through(*job.proofs())
    outside = replace(rebuilt.results["countershaft setting"], verdict="outside")
    told = opened(replace(rebuilt, results=rebuilt.results | {"countershaft setting": outside}))
    assert [line for line in told if line.startswith("Countershaft setting is outside its limit.")]


def test_what_no_entry_could_close_is_open_only_where_its_worst_case_is_outside() -> None:
    """The spring's seat in the hub and a thrust plate have no reading; 75.9 to 76.1 mm lie inside 75 to 77 mm."""
    job = FullJob.of("overtop", "OT6")
    rebuilt = job.worked_through(*job.built(), *job.proofs())
    length = rebuilt.results["spring installed length"]
    assert (length.origin, length.verdict, length.settled_by) == ("part measured", "inside", ())
    (told,) = [one["told"] for one in build_sheet(rebuilt)["fits"] if one["name"] == "Spring installed length"]
    assert told.endswith("The book plans no reading of the rest; at its worst it is inside.")
    results = dict(job.unit.results)
    narrow = results["spring installed length"].model_validate(
        {"about": "The same", "chain": results["spring installed length"].chain, "limit": "75.87 .. 76.13 mm"}
    )
    unit = job.unit.model_copy(update={"results": results | {"spring installed length": narrow}})
    doubtful = replace(job, unit=unit)
    rebuilt = doubtful.worked_through(*doubtful.built(), *doubtful.proofs())
    (line,) = [line for line in opened(rebuilt) if line.startswith("Spring installed length")]
    assert line.endswith("at worst it is outside: give the book a reading of it, or of its links.")


def test_the_proofs_that_are_left_stand_between_a_unit_and_its_release() -> None:
    job = FullJob.of("twinpath", "TP2")
    rebuilt = job.worked_through(*job.built(), *job.proofs("B-T5", "B-T4"))
    assert opened(rebuilt) == []
    assert headline(rebuilt)[-1] == (
        "Nothing is open; 2 proofs are still to be made and written down before the unit is released."
    )


def test_who_accepted_the_price_stands_on_the_first_page() -> None:
    job = FullJob.of("twinpath", "TP2")
    facts = build_sheet(job.worked_through("accepted by: L. Quarm, by telephone 2026-11-03"))["facts"]
    assert ["accepted by", "L. Quarm, by telephone 2026-11-03"] in facts
    assert "accepted by" not in [name for name, _ in build_sheet(job.worked_through())["facts"]]
