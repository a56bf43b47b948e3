"""A plan that starts while a load is held: its figures are those of the load as it was taken up, all still on.

The box of `test_broken_piece`: four screws hold a cover at 36 mm, a ring behind them at 42.5 mm, the press at 35 mm.
"""

from __future__ import annotations

import pytest

from layshaft.plan.press import PressPlan
from layshaft.plan.press_use import press_uses
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.so_far import SoFar
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown
from layshaft.quantity import Show
from tests.plan.axle_box import shop
from tests.plan.press_box import presses
from tests.plan.test_broken_piece import BENCH, LOADS, told

SHOP = shop("  {}\n").model_copy(update={"presses": presses()})


def plan_of(found: SoFar) -> Plan:
    """The order from where a record leaves the box."""
    return order_teardown(BENCH, LOADS, found.state)


def stages_of(found: SoFar) -> PressPlan:
    """The press plan that the order from there uses."""
    down = plan_of(found)
    nothing = Plan((), down.cost, down.bound, down.is_proved, ())
    (use,) = press_uses(BENCH, LOADS, SHOP, (down, found.state), (nothing, found.state), Show())
    assert isinstance(use.plan, PressPlan), use.plan.sentences
    return use.plan


def test_a_held_load_was_taken_up_with_all_retainers_on() -> None:
    plan = stages_of(told("", "{held: main}"))
    assert not plan.hangs_apart
    assert [stage.part for stage in plan.stages] == [None, None, "BX-02", "BX-03", None]
    closed, held = plan.stages[:2]
    assert closed.held_by == ("cover on box",)
    assert closed.held.length.nominal == 0.036
    assert held.without is not None and held.without.still is not None


def test_a_held_load_with_its_screws_off_already_rests_on_the_ring_without_the_press() -> None:
    plan = stages_of(told("", "{held: main}, {off: BX-02}"))
    assert plan.hangs_apart
    assert round(plan.stages[0].held.length.nominal, 9) == 0.0425


def test_held_and_turned_over_it_is_let_off_onto_what_holds_it_before_anything_comes_off() -> None:
    found = told("", "{held: main}, {turned: nose down}")
    assert "let it off onto what still holds it, and take nothing off as it stands" in found.now[0]
    steps = plan_of(found).steps
    assert [step.kind for step in steps[:6]] == ["let off", "turn", "hold", "take off", "take off", "let off"]
    assert round(steps[0].loaded_after[0].length, 9) == 0.036
    assert not stages_of(found).hangs_apart


def test_held_and_turned_over_with_its_screws_off_it_is_let_down_onto_the_ring() -> None:
    steps = plan_of(told("", "{held: main}, {off: BX-02}, {turned: nose down}")).steps
    assert [step.kind for step in steps[:5]] == ["let off", "turn", "hold", "take off", "let off"]


def test_held_and_turned_over_it_is_not_let_off_onto_what_may_hold_nothing() -> None:
    """With the ring missing and the screws broken nobody knows what it would be let off onto."""
    found = told("{part: BX-03, is: missing}, {part: BX-02, is: broken}", "{held: main}, {turned: nose down}")
    assert "onto what still holds it" not in found.now[0]
    with pytest.raises(NoAnswer, match=r"BX-04 cover would fall out: the unit stands nose down\."):
        plan_of(found)
