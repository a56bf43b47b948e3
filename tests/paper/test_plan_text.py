"""A plan in a terminal: its width, its foot, and what less is less of."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layshaft.paper.plan_text import WIDTH, plan_text
from tests.paper.two_jobs import metric


def test_no_line_is_wider_than_the_page() -> None:
    text = plan_text(metric().assembly, "Assembly")
    assert max(map(len, text.split("\n"))) <= WIDTH


def test_the_foot_says_what_less_is_less_of() -> None:
    plan = metric().assembly
    foot = " ".join(plan_text(plan, "Assembly").split())
    assert f"{len(plan.steps)} steps, {int(plan.minutes + 0.5)} minutes of hands; " in foot
    assert "in this rank: risk, what is turned over, press set-ups, tool changes, minutes." in foot
    if plan.is_proved:
        assert "No order does with less." in foot


@pytest.mark.parametrize(("minutes", "told"), [(5.5, 6), (9.5, 10), (9.4, 9), (0.5, 1), (2.4999999999, 3)])
def test_half_a_minute_is_rounded_upward(minutes: float, told: int) -> None:
    plan = metric().assembly
    first, *rest = (replace(step, minutes=0.0) for step in plan.steps)
    foot = plan_text(replace(plan, steps=(replace(first, minutes=minutes), *rest)), "Assembly")
    assert f", {told} minutes of hands;" in " ".join(foot.split())


def test_every_caution_stands_under_its_step() -> None:
    plan = metric().assembly
    text = " ".join(plan_text(plan, "Assembly").split())
    for step in plan.steps:
        for caution in step.cautions[:1]:
            assert f"{' '.join(step.what.split())} ! {' '.join(caution.split())}" in text
