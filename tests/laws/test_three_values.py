"""A stop is whole, gone or not known: figures by hand for the box with two rings, some of them there several times.

The spring (65.693 N/mm, 132.3 mm free) is 76.0 mm long on the outer ring and 78.7 mm on the inner one, by the book's
faces: 100 - 22 - 2.0 and 100 - 22 + 0.7. Its energies follow: half the rate times the square of what is pressed in.
"""

from __future__ import annotations

import pytest

from layshaft.book import load_book
from layshaft.plan.act import TakeOff, TakePieces
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State
from tests.laws.walk import judge_of
from tests.plan.two_rings import TEXT

OUTER, INNER, FREE = 0.0760, 0.0787, 0.1338
"""Lengths on each ring, and the longest free length [m]."""
COUNTED = TEXT.replace("    name: Inner ring\n", "    name: Inner ring\n    count: 4\n").replace(
    "at most: 0.7 mm, by: [BX-05]", "at most: 0.7 mm, by: [BX-05], rated count: 3"
)


def energy(length: float) -> float:
    return 0.5 * 65_693.0 * (0.1323 - length) ** 2


def opened(text: str = TEXT) -> tuple[Judge, State]:
    """The box with its cover off."""
    judge = judge_of(load_book(text, "two-rings.yaml").unit("plain"))
    return judge, State(judge.bench.mask(["BX-06", "BX-07"]), "nose up")


@pytest.mark.parametrize(
    ("outer", "inner", "could_be", "surely"),
    [
        (Condition.WHOLE, Condition.WHOLE, OUTER, OUTER),
        (Condition.BROKEN, Condition.WHOLE, INNER, INNER),
        (Condition.WHOLE, Condition.UNKNOWN, OUTER, OUTER),
        (Condition.UNKNOWN, Condition.WHOLE, OUTER, INNER),
        (Condition.UNKNOWN, Condition.UNKNOWN, OUTER, FREE),
        (Condition.BROKEN, Condition.UNKNOWN, INNER, FREE),
        (Condition.BROKEN, Condition.MISSING, FREE, FREE),
    ],
)
def test_what_is_not_known_holds_nothing_and_frees_nothing(
    outer: Condition, inner: Condition, could_be: float, surely: float
) -> None:
    judge, state = opened()
    state = state.with_condition("BX-04", outer).with_condition("BX-05", inner)
    assert judge.loads.could_be_loaded(state)["box spring"].length == pytest.approx(could_be, abs=1e-9)
    assert judge.loads.surely_held(state)["box spring"].length == pytest.approx(surely, abs=1e-9)


@pytest.mark.parametrize(
    ("inner", "lets_go"),
    [
        (Condition.WHOLE, energy(OUTER) - energy(INNER)),
        (Condition.UNKNOWN, energy(OUTER)),
        (Condition.BROKEN, energy(OUTER)),
    ],
)
def test_taking_the_outer_ring_off_lets_go_the_most_that_may_be(inner: Condition, lets_go: float) -> None:
    judge, state = opened()
    answer = judge.may_i(state.with_condition("BX-05", inner), TakeOff("BX-04"))
    assert [step.energy for step in answer.lets_go] == [pytest.approx(lets_go, abs=1e-6)]
    assert not answer.is_yes


@pytest.mark.parametrize(("off", "may_be_taken"), [(1, True), (2, False), (3, False), (4, False)])
def test_a_retainer_that_is_there_several_times_holds_down_to_its_rated_count(off: int, may_be_taken: bool) -> None:
    judge, state = opened(COUNTED)
    state = state.with_condition("BX-04", Condition.BROKEN)
    answer = judge.may_i(state, TakePieces("BX-05", off))
    assert answer.is_yes is may_be_taken
    if not may_be_taken:
        assert [step.energy for step in answer.lets_go] == [pytest.approx(energy(INNER), abs=1e-6)]


def test_a_part_still_waits_for_a_retainer_with_one_piece_left() -> None:
    judge, state = opened(COUNTED)
    state = state.with_condition("BX-04", Condition.BROKEN).with_partial("BX-05", 3)
    assert "held" in {reason.id for reason in judge.may_i(state, TakeOff("BX-03")).reasons}
    assert not judge.loads.surely_held(state)["box spring"].is_loaded
