"""The end of putting the demonstration overdrive together makes sense at the bench, and its beginning of taking down.

Common practice, no source: a unit is drawn together before anything is proved on it, a tap that is still needed is not
sealed, and a unit goes back on its gearbox only after the stand.
"""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.step import Plan, PlannedStep
from layshaft.plan.teardown import order_teardown, start_state
from tests.book.overtop import UNITS, VARIANTS

LAST = [
    "OT-010", "OT-011", "A-T1", "A-T3", "OT-093", "OT-091", "OT-092", "A-T2", "A-T4", "A-T5", "OT-095", "A-T6",
    "OT-096", "A-T7",
]


@cache
def plans(at: int, target: str | None = None) -> tuple[Plan, Plan]:
    unit = UNITS[at]
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    down = order_teardown(bench, loads, start_state(unit), [target] if target else [])
    return down, order_assembly(bench, loads, down.taken_off)


def names(steps: tuple[PlannedStep, ...]) -> list[str]:
    return [name for step in steps for name in (*step.parts, *([step.proof] if step.proof else []))]


@pytest.mark.parametrize("at", range(3), ids=VARIANTS)
def test_from_the_adapter_on_all_comes_where_it_can_be_done(at: int) -> None:
    assert names(plans(at)[1].steps)[-len(LAST):] == LAST
    assert plans(at)[1].is_proved


@pytest.mark.parametrize("at", range(3), ids=VARIANTS)
def test_off_the_gearbox_before_a_screw_of_the_adapter(at: int) -> None:
    order = plans(at)[0].taken_off
    assert order.index("OT-096") < order.index("OT-011") < order.index("OT-010")
    assert plans(at)[0].is_proved


def test_a_piston_job_that_leaves_the_plug_alone_is_still_checked_with_air() -> None:
    """The plug comes out for the check; it need not have been out for the piston."""
    down, up = plans(2, "OT-013")
    assert "OT-095" not in down.taken_off
    told = names(up.steps)
    assert told.index("OT-011") < told.index("A-T3") < told.index("A-T5") < told.index("OT-096")
    (air,) = (step for step in up.steps if step.proof == "A-T3")
    assert "Plug out of the pressure tap" in air.what
