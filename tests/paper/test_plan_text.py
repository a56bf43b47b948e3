"""A plan in a terminal: its width, its foot, and what less is less of."""

from __future__ import annotations

from layshaft.paper.plan_text import WIDTH, plan_text
from tests.paper.two_jobs import metric


def test_no_line_is_wider_than_the_page() -> None:
    text = plan_text(metric().assembly, "Assembly")
    assert max(map(len, text.split("\n"))) <= WIDTH


def test_the_foot_says_what_less_is_less_of() -> None:
    plan = metric().assembly
    foot = " ".join(plan_text(plan, "Assembly").split())
    assert f"{len(plan.steps)} steps, {plan.minutes:.0f} minutes of hands; " in foot
    assert "in this rank: risk, what is turned over, press set-ups, tool changes, minutes." in foot
    if plan.is_proved:
        assert "No order does with less." in foot


def test_every_caution_stands_under_its_step() -> None:
    plan = metric().assembly
    text = " ".join(plan_text(plan, "Assembly").split())
    for step in plan.steps:
        for caution in step.cautions[:1]:
            assert f"{' '.join(step.what.split())} ! {' '.join(caution.split())}" in text
