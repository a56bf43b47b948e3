"""Problems beyond proof: a legal order by the checker that shares no code with the solver, and a bound below it."""

from __future__ import annotations

import pytest

from layshaft.plan.sequence import order_moves, replay
from tests.plan.sequence.random_problem import random_problem
from tests.plan.sequence.two_ended import two_ended_problem


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("falls", [0, 20])
def test_a_thousand_moves_are_put_in_a_legal_order(seed: int, falls: int) -> None:
    problem = random_problem(seed, 1000, tools=6, near=60, falls=falls)
    order = order_moves(problem)
    found = replay(problem, order.steps)
    assert found.is_legal
    assert found.cost == order.cost
    assert order.bound <= order.cost


@pytest.mark.parametrize(("seed", "blocks"), [(1, 2), (2, 5), (1, 5)])
def test_hundreds_of_parts_out_of_two_ends_that_would_fall_are_put_in_a_legal_order(seed: int, blocks: int) -> None:
    problem = two_ended_problem(seed, 400, blocks)
    order = order_moves(problem)
    found = replay(problem, order.steps)
    assert found.is_legal
    assert found.cost == order.cost
    assert order.bound <= order.cost
