"""A job worked through: what goes in is told in the shop's units, and what is not in hand is left alone."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layshaft.plan.rebuild import labour, rebuild
from layshaft.plan.sequence import Cost
from layshaft.plan.step import Plan, PlannedStep
from layshaft.quantity import parse_money
from tests.paper.two_jobs import inch
from tests.plan.axle_box import job, shop, unit


def test_the_size_that_goes_in_is_told_in_the_shop_s_units() -> None:
    told = [step.what for step in inch().assembly.steps]
    assert any("LL-034 Countershaft preload shim (selective) (new, 0.0559 in (1.42 mm))" in what for what in told)


DRAWER = "  AB-03: {sizes: {1.45 mm: 2}}\n  AB-05: {sizes: {0.90 mm: 1, 0.95 mm: 1, 1.00 mm: 1, 1.05 mm: 1}}\n"


def test_a_job_that_wants_one_part_chooses_no_size_elsewhere() -> None:
    one = unit()
    whole = rebuild(one, job(""), shop(DRAWER))
    some = rebuild(one, job("", "wants: [AB-05]\n"), shop(DRAWER))
    assert some.opened < whole.opened
    assert {name.split(" ")[0] for name in (*some.fit.sizes, *some.fit.unchosen)} <= some.opened
    assert set(whole.fit.unchosen) - set(some.fit.unchosen)


def test_a_size_that_was_chosen_is_reached() -> None:
    chosen = "wants: [AB-05]\nchoices: [{fit: AB-03, size: 1.45 mm, by: ferrow}]\n"
    assert "AB-03" in rebuild(unit(), job("", chosen), shop(DRAWER)).opened


def plan_of(*minutes: float) -> Plan:
    cost = Cost(0, 0, 0, 0, 0)
    steps = tuple(PlannedStep(at, "take off", "x", minutes=one) for at, one in enumerate(minutes, 1))
    return Plan(steps, cost, cost, True)


@pytest.mark.parametrize(
    ("minutes", "exact"),
    [
        ((1.0, 1.0, 0.25), "2.25"),
        ((0.04,), "0.04"),
        ((0.1,) * 7, "0.7"),
        ((20 / 60, 0.1 + 0.2), "19/30"),
    ],
)
def test_minutes_are_added_up_as_they_are_written(minutes: tuple[float, ...], exact: str) -> None:
    lines = dict(labour(unit(), plan_of(*minutes), plan_of()))
    assert lines["Taking down"] == Fraction(exact)


def test_labour_is_rounded_once() -> None:
    """1 + 1 + 0.25 min at 90 an hour are 3.375, which is 3.38."""
    (_, minutes), *_ = labour(unit(), plan_of(1.0, 1.0, 0.25), plan_of())
    assert str(parse_money("90 CUR").rounded_product(minutes / 60)) == "3.38 CUR"
