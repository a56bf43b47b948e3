"""Large problems: a legal order by the checker that shares no code with the walk, and a bound that it is not below."""

from __future__ import annotations

import pytest

from layshaft.plan.sequence import order_moves, replay
from layshaft.plan.sequence.greedy import greedy, plain_bound
from tests.plan.sequence.random_problem import random_problem


@pytest.mark.parametrize("seed", range(20))
def test_walk_is_legal_and_no_better_than_the_proved_least(seed: int) -> None:
    problem = random_problem(seed, 14)
    steps = greedy(problem, (1 << 14) - 1, 0)
    assert steps is not None
    found = replay(problem, steps)
    assert found.is_legal
    assert plain_bound(problem, (1 << 14) - 1) <= order_moves(problem).cost <= found.cost


def test_a_thousand_moves_are_put_in_a_legal_order() -> None:
    problem = random_problem(1, 1000, tools=6, near=60)
    order = order_moves(problem)
    found = replay(problem, order.steps)
    assert found.is_legal
    assert found.cost == order.cost
    assert order.bound <= order.cost
    assert not order.is_proved
