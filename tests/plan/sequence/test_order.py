"""Orders against an exhaustive search of all states, and against a checker that walks each step."""

import pytest

from layshaft.plan.sequence import NoOrder, order_moves, reach, replay
from tests.plan.sequence.exhaustive import Exhaustive
from tests.plan.sequence.random_problem import random_problem

REACH_PLACES = (0, 4, 5, 1, 2, 3)


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
    problem = small_problem(seed)
    expected = Exhaustive(problem).least()
    if expected is None:
        with pytest.raises(NoOrder):
            order_moves(problem)
        return
    order = order_moves(problem)
    assert order.cost == expected
    assert order.bound == expected
    assert order.is_proved
    walked = replay(problem, order.steps)
    assert walked.is_legal, walked.reason
    assert walked.cost == order.cost


@pytest.mark.parametrize("seed", range(150))
def test_reach_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    problem = small_problem(seed)
    count = len(problem.moves)
    targets = frozenset({seed % count, seed * 7 % count})
    expected = Exhaustive(problem, targets, REACH_PLACES).least()
    if expected is None:
        with pytest.raises(NoOrder):
            reach(problem, targets)
        return
    order = reach(problem, targets)
    assert order.cost == expected
    assert order.is_proved
    walked = replay(problem, order.steps, targets)
    assert walked.is_legal, walked.reason
    assert walked.cost == order.cost
