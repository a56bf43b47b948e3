"""Orders against an exhaustive search of all states, and against a checker that walks each step."""

import pytest

from tests.plan.sequence.least import assert_least
from tests.plan.sequence.random_problem import random_problem


def small_problem(seed):
    return random_problem(
        seed,
        4 + seed % 6,
        tools=1 + seed % 4,
        attitudes=1 + seed % 3,
        sessions=seed % 3,
        falls=(seed // 3) % 4,
        optional=0.2 * (seed // 5 % 2),
        density=0.2 + 0.1 * (seed % 6),
    )


@pytest.mark.parametrize("seed", range(150))
def test_order_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    assert_least(small_problem(seed))


@pytest.mark.parametrize("seed", range(150))
def test_reach_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    problem = small_problem(seed)
    count = len(problem.moves)
    assert_least(problem, frozenset({seed % count, seed * 7 % count}))
