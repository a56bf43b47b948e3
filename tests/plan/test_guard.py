"""Where no order breaks every backup first, a load is let down onto one, and taken up again from there."""

from __future__ import annotations

from pathlib import Path

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.act import Hold, TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from tests.laws.walk import acts_of

BOOK = Path(__file__).parents[2] / "books" / "overtop" / "book.yaml"
UNIT = load_book(BOOK.read_bytes(), str(BOOK)).unit("OT6")
BENCH = Bench(UNIT)
LOADS = Loads(BENCH, Sizes(UNIT))
WHOLE = start_state(UNIT)
BROKEN_RING = WHOLE.with_condition("OT-043", Condition.BROKEN)


def taken_up(plan: Plan) -> list[tuple[str, ...]]:
    """How the direct spring is let go, in order: each release way with the parts that come off under it."""
    found: list[tuple[str, ...]] = []
    under: tuple[str, ...] | None = None
    for step in plan.steps:
        if step.kind == "hold" and step.load == "direct spring":
            under = (UNIT.loads["direct spring"].releases[step.release or 0].kind,)
        elif step.kind == "let off" and under is not None:
            found.append(under)
            under = None
        elif under is not None:
            under = (*under, step.parts[0])
    return found


def test_a_whole_unit_goes_through_the_press_alone() -> None:
    assert taken_up(order_teardown(BENCH, LOADS, WHOLE)) == [("press", "OT-043", "OT-042")]


def test_with_the_wave_ring_broken_the_screws_are_let_down_before_the_press() -> None:
    plan = order_teardown(BENCH, LOADS, BROKEN_RING)
    assert taken_up(plan) == [("long screws", "OT-011"), ("press", "OT-042")]
    let_down = next(step for step in plan.steps if step.kind == "let off" and step.load == "direct spring")
    assert [loaded.load for loaded in let_down.loaded_after] == ["direct spring"]


def test_every_step_of_it_is_allowed_by_the_judge() -> None:
    judge, state = Judge(BENCH, LOADS), BROKEN_RING
    for step in order_teardown(BENCH, LOADS, BROKEN_RING).steps:
        for act in acts_of(step):
            assert judge.may_i(state, act).is_yes, (step.number, act)
            state = judge.after(state, act)
    assert not LOADS.could_be_loaded(state)["direct spring"].is_loaded


def test_the_adapter_does_not_come_off_while_its_screws_carry_the_spring() -> None:
    judge = Judge(BENCH, LOADS)
    bolts = BENCH.mask(["OT-096"])
    unbolted = State(detached=bolts, attitude="nose up", conditions=BROKEN_RING.conditions)
    answer = judge.may_i(unbolted, TakeOff("OT-011"))
    assert [reason.id for reason in answer.reasons] == ["lets go"]
    held = judge.after(unbolted, Hold("direct spring", 2))
    assert judge.may_i(held, TakeOff("OT-011")).is_yes
    off = State(detached=bolts | BENCH.mask(["OT-011"]), attitude="nose up", conditions=BROKEN_RING.conditions)
    assert not judge.may_i(held, TakeOff("OT-010")).is_yes
    assert "direct spring" not in {step.load for step in judge.may_i(off, TakeOff("OT-010")).lets_go}
