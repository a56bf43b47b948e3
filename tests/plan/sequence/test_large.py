"""Problems beyond proof: a legal order by the checker that shares no code with the solver, and a bound below it."""

from __future__ import annotations

import pytest

from layshaft.plan.sequence import order_moves, replay
from tests.plan.sequence.random_problem import random_problem


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("falls", [0, 20])
def test_a_thousand_moves_are_put_in_a_legal_order(seed: int, falls: int) -> None:
    problem = random_problem(seed, 1000, tools=6, near=60, falls=falls)
    order = order_moves(problem)
    found = replay(problem, order.steps)
    assert found.is_legal
    assert found.cost == order.cost
    assert order.bound <= order.cost
