"""Pressing home: stages in order, each with its force; what drops when splines find each other."""

from __future__ import annotations

import pytest

from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.press import Refusal
from layshaft.plan.press_home import HomePlan, drop_in, plan_home
from tests.book.overtop import UNITS
from tests.plan.press_box import bench_of, presses, unit

RATE = 79_500 * 11**4 / (8 * 88**3 * 3.25)
"""N/mm of the amber spring, G d^4 / (8 D^3 n): Shigley's Mechanical Engineering Design, 10th ed., eq. 10-9."""


def overtop_home() -> HomePlan:
    bench = Bench(UNITS[1])
    found = plan_home(bench, Loads(bench, Sizes(UNITS[1])), "direct spring", 0, presses())
    assert isinstance(found, HomePlan)
    return found


def test_stages_of_the_overdrive_come_in_order():
    kinds = [(stage.kind, stage.part) for stage in overtop_home().stages]
    assert kinds == [
        ("free", None), ("align", None), ("find splines", None), ("find splines", None), ("at installed length", None),
        ("pressed", None), ("seat", "OT-043"), ("seat", "OT-042"), ("let off", None), ("let off", None),
        ("let off", None), ("record", None),
    ]  # fmt: skip


def test_forces_of_the_stages_are_those_of_the_lengths():
    """65.693 N/mm, free at 132.3 mm: 76 mm installed, 68 mm pressed, then 70, 72 and 76 mm on the way back."""
    stages = overtop_home().stages
    kinds = ("pressed", "at installed length", "let off")
    forces = [stage.held.force.nominal for stage in stages if stage.kind in kinds]
    assert forces == pytest.approx([RATE * (132.3 - length) for length in (76, 68, 70, 72, 76)])
    assert stages[0].held.force.high == 0.0


def test_splines_that_find_each_other_drop_by_the_quarter_inch_of_the_book():
    """1/4 in is 6.35 mm; at the stiffest, 1.05 x 65.693 N/mm, the force of the spring jumps by 438 N at most."""
    found = next(stage for stage in overtop_home().stages if stage.kind == "find splines")
    assert found.drop == pytest.approx(0.00635)
    assert found.load_step == pytest.approx(1.05 * RATE * 6.35)


@pytest.mark.parametrize(
    "text, drop",
    [
        ("it drops about 1/4 in (6 mm)", 0.00635), ("drops 6.5 mm", 0.0065), ("1 1/8 in at once", 0.028575),
        ("one plate at a time", None), ("20 minutes, 3 teeth in all", None),
    ],
)  # fmt: skip
def test_drop_is_the_greatest_length_a_text_names(text, drop):
    assert drop_in(text) == (None if drop is None else pytest.approx(drop))


def test_a_refused_release_way_is_refused_for_pressing_home():
    bench, loads = bench_of(unit())
    assert isinstance(plan_home(bench, loads, "box spring", 0, {}), Refusal)


def test_a_way_without_stages_is_let_off_in_one():
    bench, loads = bench_of(unit())
    found = plan_home(bench, loads, "box spring", 0, presses())
    assert isinstance(found, HomePlan)
    assert [stage.kind for stage in found.stages] == ["free", "at installed length", "pressed", "seat", "let off"]
    assert found.stages[3].notes == ("See it seated all round.",)
