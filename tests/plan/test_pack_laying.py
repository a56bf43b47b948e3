"""Plates that alternate are laid by turns, in one step, from the inner end of their pack.

What is expected is worked out by hand from the pack's order: from the axis start to its end, the first of a pair
outermost, and a pack that is laid from its end is that order read backwards.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.pack_laying import laid_by_turns, layings
from layshaft.plan.step import PlannedStep
from layshaft.plan.teardown import order_teardown, start_state
from tests.book.overtop import UNITS
from tests.paper.two_jobs import BOOKS

OT6 = UNITS[2]
TP2 = load_book((BOOKS / "twinpath" / "book.yaml").read_bytes(), "twinpath").unit("TP2")


@cache
def fits(name: str) -> tuple[PlannedStep, ...]:
    unit = {"OT4": UNITS[0], "OT5": UNITS[1], "OT6": OT6, "TP2": TP2}[name]
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    down = order_teardown(bench, loads, start_state(unit))
    return order_assembly(bench, loads, down.taken_off).steps


def laying(name: str, part: str) -> PlannedStep:
    (step,) = (step for step in fits(name) if step.kind == "fit" and part in step.parts)
    return step


@pytest.mark.parametrize("name", ["OT4", "OT5", "OT6"])
def test_no_kind_of_plate_of_the_overtop_is_laid_by_itself(name: str) -> None:
    assert {laying(name, part).parts for part in ("OT-045", "OT-046")} == {("OT-045", "OT-046")}
    assert {laying(name, part).parts for part in ("OT-032", "OT-033")} == {("OT-032", "OT-033")}


def test_the_step_says_counts_order_way_round_and_soak() -> None:
    """Book: OT-044, then 11 OT-045 and 10 OT-046 by turns, then OT-047, front to rear; it is filled from the front."""
    step = laying("OT6", "OT-045")
    assert step.what == (
        "11 OT-045 Direct friction plate and 10 OT-046 Direct steel plate, by turns, OT-045 first, "
        "into OT-040 on the bench"
    )
    assert step.way_round == "OT-046: As found, order and face; coned plates nest"
    assert step.notes[0] == (
        "Pack direct, laid from the rear: OT-045 first, on OT-047; then OT-046 and OT-045 by turns, one of each; "
        "OT-045 last, under OT-044."
    )
    assert "OT-045: Fluid: soaked" in step.notes
    assert any(note.startswith("OT-045: not before 120 min of: Lay the friction plates") for note in step.notes)
    assert step.minutes == pytest.approx(2.6 + 2.6)


def test_a_drum_that_opens_to_the_rear_is_laid_from_the_front() -> None:
    """Book: 9 TP-073 and 8 TP-072 by turns, then TP-074, front to rear; the plates come out toward the rear."""
    step = laying("TP2", "TP-072")
    assert step.parts == ("TP-073", "TP-072")
    assert step.notes[0] == (
        "Pack front clutch, laid from the front: TP-073 first; then TP-072 and TP-073 by turns, one of each; "
        "TP-073 last, under TP-074."
    )


def test_the_proof_of_a_pack_comes_after_all_of_it() -> None:
    steps = fits("OT6")
    proof = next(at for at, step in enumerate(steps) if step.proof == "brake pack count and height")
    assert proof > next(at for at, step in enumerate(steps) if "OT-033" in step.parts and step.kind == "fit")


def with_plates(first: tuple[str, int], second: tuple[str, int], toward: str) -> Unit:
    """The Overtop with another pair in its direct pack: so many of each, coming out toward one end."""
    parts = dict(OT6.parts)
    for name, count in (first, second):
        ways = tuple(way.model_copy(update={"toward": toward}) for way in parts[name].ways)
        parts[name] = parts[name].model_copy(update={"count": count, "ways": ways})
    pack = OT6.packs["direct"]
    items = tuple(
        item.model_copy(update={"alternate": (first[0], second[0])}) if item.alternate else item for item in pack.order
    )
    packs = {"direct": pack.model_copy(update={"order": items})}
    return OT6.model_copy(update={"parts": parts, "packs": packs})


@pytest.mark.parametrize(
    ("first", "second", "toward", "order"),
    [
        # F S F S | from the rear: S F S F.
        (("OT-045", 2), ("OT-046", 2), "front", ("OT-046", "OT-045", "OT-045")),
        (("OT-045", 2), ("OT-046", 2), "rear", ("OT-045", "OT-046", "OT-046")),
        # F S F S F, the same both ways.
        (("OT-045", 3), ("OT-046", 2), "front", ("OT-045", "OT-046", "OT-045")),
        (("OT-045", 3), ("OT-046", 2), "rear", ("OT-045", "OT-046", "OT-045")),
        (("OT-046", 6), ("OT-045", 6), "front", ("OT-045", "OT-046", "OT-046")),
    ],
)
def test_which_goes_first_and_last(
    first: tuple[str, int], second: tuple[str, int], toward: str, order: tuple[str, str, str]
) -> None:
    (found,) = layings(with_plates(first, second, toward), {"OT-045": 0, "OT-046": 0})
    assert (found.first, found.second, found.last) == order
    assert (found.on, found.under) == (("OT-047", "OT-044") if toward == "front" else ("OT-044", "OT-047"))


def test_one_of_each_is_not_said_to_alternate() -> None:
    (found,) = layings(with_plates(("OT-045", 1), ("OT-046", 1), "front"), {"OT-045": 0})
    assert found.sentence == "Pack direct, laid from the rear: OT-046 first, on OT-047; OT-045 last, under OT-044."


def test_plates_that_cannot_be_laid_in_one_step_each_say_so() -> None:
    apart = [
        PlannedStep(0, "fit", "11 OT-045", parts=("OT-045",), way=0),
        PlannedStep(0, "fit", "OT-044", parts=("OT-044",), way=0),
        PlannedStep(0, "fit", "10 OT-046", parts=("OT-046",), way=0),
    ]
    told = laid_by_turns(OT6, apart, str)
    assert [step.parts for step in told] == [step.parts for step in apart]
    assert all("by turns, one of each" in told[at].cautions[0] for at in (0, 2))
    assert told[1] == apart[1]
    neighbours = [replace(apart[0], tool="drift"), apart[2]]
    assert len(laid_by_turns(OT6, neighbours, str)) == 2
