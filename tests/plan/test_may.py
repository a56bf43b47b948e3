"""May I? The refusals and their figures, on a spring that two rings hold 2.7 mm apart.

The figures are those of one spring of 65.693 N/mm, free at 132.3 mm: 76.0 mm long on the outer ring and 78.7 mm on the
inner one, so E = k (L0 - L)^2 / 2 is 104.112 J and 94.367 J, and 9.747 J are let go between them (own arithmetic, from
the formula of stored energy in R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., 4-7).
"""

from __future__ import annotations

import pytest

from layshaft.plan.act import Hold, LetOff, TakeOff, TakePieces, Turn
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State
from tests.plan.two_rings import judge


@pytest.fixture(scope="module")
def judging() -> Judge:
    return judge()


def opened(judging: Judge) -> State:
    return State(detached=judging.bench.mask(["BX-06", "BX-07"]), attitude="nose up")


def test_the_outer_ring_is_refused_with_what_it_lets_go_and_what_still_holds(judging: Judge) -> None:
    answer = judging.may_i(opened(judging), TakeOff("BX-04"))
    assert [reason.sentence for reason in answer.reasons] == [
        "box spring: lets go 9.7 J; box, cap, inner ring still hold 94 J between them. Take it up in the press first."
    ]
    (step,) = answer.lets_go
    assert step.energy == pytest.approx(9.7465, abs=5e-4)
    assert step.still.energy == pytest.approx(94.367, abs=5e-4)
    assert step.still.length == pytest.approx(0.0787, abs=1e-9)


def test_the_slack_ring_lets_nothing_go_while_the_other_holds(judging: Judge) -> None:
    assert judging.may_i(opened(judging), TakeOff("BX-05")).is_yes


def test_the_slack_ring_lets_go_all_when_the_other_is_broken_or_not_known(judging: Judge) -> None:
    for known in (Condition.BROKEN, Condition.UNKNOWN):
        answer = judging.may_i(opened(judging).with_condition("BX-04", known), TakeOff("BX-05"))
        assert [reason.id for reason in answer.reasons] == ["lets go"]


def test_both_rings_come_off_in_the_press_and_the_cap_only_after_it_is_let_off(judging: Judge) -> None:
    state = judging.after(opened(judging), Hold("box spring"))
    for ring in ("BX-04", "BX-05"):
        assert judging.may_i(state, TakeOff(ring)).is_yes
        state = judging.after(state, TakeOff(ring))
    (refused,) = judging.may_i(state, TakeOff("BX-03")).reasons
    assert refused.id == "held load"
    state = judging.after(state, LetOff())
    assert judging.may_i(state, TakeOff("BX-03")).is_yes


def test_let_off_onto_one_ring_is_allowed_and_says_what_stays_loaded(judging: Judge) -> None:
    state = judging.after(judging.after(opened(judging), Hold("box spring")), TakeOff("BX-04"))
    answer = judging.may_i(state, LetOff())
    assert answer.is_yes
    assert [loaded.energy for loaded in answer.still_loaded] == pytest.approx([94.367], abs=5e-4)


def test_the_press_waits_for_the_cover(judging: Judge) -> None:
    (reason,) = judging.may_i(State(attitude="nose up"), Hold("box spring")).reasons
    assert reason.sentence == "box spring: taken up in the press only when BX-06 cover is out of the way."


def test_three_of_four_screws_off_still_hold_the_cover(judging: Judge) -> None:
    state = State(attitude="nose up")
    assert judging.may_i(state, TakePieces("BX-07", 3)).is_yes
    state = judging.after(state, TakePieces("BX-07", 3))
    (reason,) = judging.may_i(state, TakeOff("BX-06")).reasons
    assert reason.sentence == "BX-06 cover waits for BX-07 screw (four screws); 1 of 4 are still in."
    state = judging.after(state, TakePieces("BX-07", 4))
    assert judging.may_i(state, TakeOff("BX-06")).is_yes


def test_more_pieces_than_there_are_is_refused(judging: Judge) -> None:
    (reason,) = judging.may_i(State(attitude="nose up"), TakePieces("BX-07", 5)).reasons
    assert reason.sentence == "BX-07 screw has 4; 5 of them cannot be off."


def test_the_last_screw_is_refused_nose_down_for_the_cover_would_fall(judging: Judge) -> None:
    state = State(attitude="nose down")
    (reason,) = judging.may_i(state, TakeOff("BX-07")).reasons
    assert reason.sentence == "BX-06 cover would fall out: the unit stands nose down."


def test_turning_over_with_a_loose_cover_is_refused(judging: Judge) -> None:
    state = State(detached=judging.bench.bit("BX-07"), attitude="nose up")
    (reason,) = judging.may_i(state, Turn("nose down")).reasons
    assert reason.id == "falls"


def test_an_attitude_it_does_not_stand_in_is_named(judging: Judge) -> None:
    (reason,) = judging.may_i(State(attitude="nose up"), Turn("level")).reasons
    assert reason.sentence == "The unit does not stand level; it stands nose up, nose down."


def test_nothing_is_let_off_when_nothing_is_held(judging: Judge) -> None:
    assert not judging.may_i(State(attitude="nose up"), LetOff()).is_yes
