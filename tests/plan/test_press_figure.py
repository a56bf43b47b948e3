"""Beside each step under load stand the figures of its press plan, on paper and on a terminal.

The figures are those of the plan itself, and that they are told alike is what is checked; the force and the energy of
the direct spring are also worked out apart, from the drawing: k = G d^4 / (8 D^3 n), F = k x, E = k x^2 / 2.
"""

from __future__ import annotations

import re
from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, plan_press
from layshaft.plan.press_figure import figures
from layshaft.plan.press_text import Teller
from layshaft.plan.press_use import warned_by_book
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.state import Condition
from layshaft.plan.step import Plan, PlannedStep
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import Show
from tests.book.overtop import UNITS
from tests.paper.two_jobs import metric
from tests.plan.two_rings import TEXT as TWO_RINGS

OT6 = UNITS[2]


@cache
def plan() -> Plan:
    bench = Bench(OT6)
    loads = Loads(bench, Sizes(OT6))
    start = start_state(OT6)
    return warned_by_book(bench, loads, order_teardown(bench, loads, start), start)


@cache
def job() -> Rebuild:
    return metric()


def step(kind: str, load: str) -> PlannedStep:
    (found,) = (one for one in plan().steps if (one.kind, one.load) == (kind, load))
    return found


def test_the_terminal_says_travel_stop_and_force_of_the_direct_spring() -> None:
    """Modulus 79500 MPa, wire 11.5, mean diameter 88, 3.25 coils, free 132.7, pressed 8 past 76: 64.7 mm short."""
    rate = 79500 * 11.5**4 / (8 * 88**3 * 3.25)
    told = step("hold", "direct spring").notes[0]
    assert told.startswith("Taken up at 76.00 mm long, up to ")
    assert "Stop 8.00 mm beyond installed, at 68.00 mm long" in told
    most = re.search(r"never more than ([\d.]+) mm beyond installed", told)
    assert most is not None
    assert 8 < float(most[1]) <= 13
    pressed = re.search(r"68\.00 mm long, up to ([\d.]+) kN, up to ([\d.]+) J", told)
    assert pressed is not None
    drawn = rate * 64.7
    assert drawn < float(pressed[1]) * 1000 < drawn * 1.1
    assert drawn * 64.7 / 2000 < float(pressed[2]) < drawn * 64.7 / 2000 * 1.15
    assert "No press is judged here" in told
    assert step("let off", "direct spring").notes[0].startswith("To free, margin counted: 7")


@pytest.mark.parametrize("load", ["direct spring", "piston return"])
def test_paper_tells_each_step_the_figures_of_its_plan(load: str) -> None:
    use = next(one for one in job().presses if one.plan.load == load)
    assert isinstance(use.plan, PressPlan)
    lines = " ".join(Teller(Bench(job().unit), use.show).plan(use.plan))
    steps = [one for one in job().assembly.steps if one.load == load]
    assert [one.kind for one in steps] == ["compress", "let home"]
    told = " ".join(one.notes[0] for one in steps)
    amounts = re.findall(r"\d+\.?\d* (?:mm|kN|N|J)\b", told)
    assert len(amounts) >= 8
    assert all(amount in lines for amount in amounts)


def test_the_gauge_of_the_shop_s_press_is_told() -> None:
    use = next(one for one in job().presses if one.plan.load == "direct spring")
    assert isinstance(use.plan, PressPlan)
    shown = re.search(r"its gauge shows (.+ MPa)\.", " ".join(Teller(Bench(job().unit)).plan(use.plan)))
    assert shown is not None
    (note,) = (one.notes[0] for one in job().assembly.steps if (one.kind, one.load) == ("compress", "direct spring"))
    assert f"gauge {shown[1]}." in note


def test_what_is_wound_is_told_by_its_angle() -> None:
    (found,) = (one for one in plan().steps if one.load == "pawl spring")
    assert any(note.startswith("Wound: 45.0 deg to free, up to 0.0") for note in found.notes)


def test_one_figure_of_a_spring_in_the_plan_and_at_the_step() -> None:
    """What a spring holds as drawn goes up in both: 352 N is never 351 N elsewhere."""
    bench = Bench(OT6)
    found = plan_press(bench, Loads(bench, Sizes(OT6)), "piston return", 0, None)
    assert isinstance(found, PressPlan)
    lines = " ".join(Teller(bench).plan(found))
    drawn = re.search(r"long, ([\d.]+ N) as drawn .*? ([\d.]+ J) as drawn", lines)
    assert drawn is not None
    why = " ".join(step("hold", "piston return").why)
    assert f"pushing with {drawn[1]} and holding {drawn[2]}" in why


def test_a_step_that_moves_no_load_has_no_figures() -> None:
    found = next(one.plan for one in job().presses if isinstance(one.plan, PressPlan))
    assert figures(found, "turn", Show()) == ""


def test_a_load_that_has_jumped_is_pressed_from_where_it_hangs() -> None:
    """On the inner ring it is 100 - 22 + 0.7 = 78.7 mm long, in the whole unit 76 mm: to 68 mm it is 10.7 mm."""
    unit = load_book(TWO_RINGS.replace("bridge: {}", "bridge: {rating: 12 kN}"), "two-rings.yaml").unit("plain")
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    jumped = start_state(unit).with_condition("BX-04", Condition.MISSING)
    plan = warned_by_book(bench, loads, order_teardown(bench, loads, jumped), jumped)
    told = next(one for one in plan.steps if one.kind == "hold").notes[0]
    assert "Taken up at 78.70 mm long" in told
    assert "Stop 8.00 mm beyond installed, at 68.00 mm long" in told
    assert ", 10.70 mm from where it hangs now; never more than" in told
    assert "hangs now" not in step("hold", "direct spring").notes[0]
