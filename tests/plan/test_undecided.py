"""What is asked, or is to be measured with nothing left to measure by, stays open until somebody chooses."""

from __future__ import annotations

import pytest

from layshaft.book.definition import Choice, Look, Reading
from layshaft.paper.sheet import build_sheet
from layshaft.plan.rebuild import Rebuild, rebuild
from layshaft.plan.verdict import judge
from tests.paper.full_job import FullJob
from tests.plan.gap_box import job, shop, unit

ANSWER = "rite the answer as a choice of the job, `renew` or `keep`, with who decided and why."
ASKED = [
    ("layline", "alloy", "LL-042", "flanks", "light pits at the root"),
    ("twinpath", "TP2", "TP-015", "debris", "broken pieces"),
]


def opened(rebuilt: Rebuild) -> list[str]:
    return [one["sentence"] for one in build_sheet(rebuilt)["open"]]


def finished(book: str, variant: str) -> Rebuild:
    """A unit of which all is good, built and proved."""
    full = FullJob.of(book, variant)
    return full.worked_through(*full.built(), *full.proofs())


def looked_at(one: Rebuild, **look: str) -> Rebuild:
    looks = (*one.job.looks, Look.model_validate(look))
    return rebuild(one.unit, one.job.model_copy(update={"looks": looks}), one.shop)


@pytest.mark.parametrize(("book", "variant", "part", "look", "grade"), ASKED)
def test_what_is_asked_is_open_until_somebody_chooses(
    book: str, variant: str, part: str, look: str, grade: str
) -> None:
    asked = looked_at(finished(book, variant), part=part, look=look, grade=grade)
    assert asked.judgements[part].verdict == "ask"
    assert opened(asked) == [
        f"Ask the customer, or whoever answers for the unit, about {part} {asked.unit.parts[part].name}: "
        f"{look}: {grade}. Is it renewed or kept? W{ANSWER}"
    ]
    assert build_sheet(asked)["headline"][-1] == "The unit is not released while anything here is open."
    for answer in ("renew", "keep"):
        choice = Choice.model_validate({answer: part, "by": "maddick", "why": "the customer said so"})
        decided = rebuild(asked.unit, asked.job.model_copy(update={"choices": (choice,)}), asked.shop)
        assert not [line for line in opened(decided) if line.startswith("Ask ")]


def test_what_a_look_asks_to_measure_is_open_though_it_was_read_before() -> None:
    """The shaft was read without a moment beside it, so nothing says that this was after the look."""
    doubted = looked_at(finished("overtop", "OT4"), part="OT-080", look="spline twist", grade="doubtful")
    name = doubted.unit.parts["OT-080"].name
    assert opened(doubted) == [
        f"OT-080 {name} is not settled: spline twist: doubtful; look at it and measure it again, "
        f"with the moment written beside, or w{ANSWER}"
    ]


def test_a_used_part_of_a_set_that_stays_together_is_asked_about() -> None:
    looks = "  - {part: GB-12, look: tip, grade: worn}\n  - {part: GB-13, look: bore, grade: even}\n"
    (point,) = judge(unit(), job("", looks, ""), shop())["GB-13"].open
    assert point.sentence.startswith("Ask the customer, or whoever answers for the unit, about GB-13 ")
    assert not judge(unit(), job("", looks, "choices: [{keep: GB-13, by: customer}]\n"), shop())["GB-13"].open


def test_two_that_disagree_are_asked_once() -> None:
    looks = "  - {part: GB-09, look: track, grade: even}\n"
    both = "choices: [{renew: GB-09, by: customer}, {keep: GB-09, by: ferrow}]\n"
    (point,) = judge(unit(), job("", looks, both), shop())["GB-09"].open
    assert point.sentence.startswith("Say whether GB-09 ")


def test_a_new_part_outside_its_limit_is_open_until_another_is_measured() -> None:
    done = finished("overtop", "OT4")
    (part, reading) = next(
        (name, one)
        for name, part in done.unit.parts.items()
        for one, plan in part.readings.items()
        if part.count == 1 and plan.places == 1 and plan.new is not None and plan.new.high is not None
    )
    plan = done.unit.parts[part].readings[reading]
    assert plan.new is not None and plan.new.high is not None
    outside = Reading.model_validate(
        {"part": part, "reading": reading, "new": True, "figures": [f"{float(plan.new.high) * 1000 + 0.02:.3f} mm"]}
    )
    readings = (*done.job.readings, outside)
    bad = rebuild(done.unit, done.job.model_copy(update={"readings": readings}), done.shop)
    assert [line for line in opened(bad) if line.startswith(f"Take another new {part} ")]
