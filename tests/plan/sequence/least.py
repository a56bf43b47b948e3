"""An order held against the cheapest of all state paths, and against a checker that walks each step."""

import pytest

from layshaft.plan.sequence import NoOrder, order_moves, reach, replay
from tests.plan.sequence.exhaustive import RANK, Exhaustive

REACH_PLACES = (0, 4, 5, 1, 2, 3)


def assert_least(problem, targets=None):
    """The order of a problem, or the work that reaches targets, is proved, legal, and as cheap as there is one."""
    expected = Exhaustive(problem, targets, RANK if targets is None else REACH_PLACES).least()
    if expected is None:
        with pytest.raises(NoOrder):
            _solve(problem, targets)
        return
    order = _solve(problem, targets)
    assert order.cost == expected
    assert order.bound == expected
    assert order.is_proved
    walked = replay(problem, order.steps, targets)
    assert walked.is_legal, walked.reason
    assert walked.cost == order.cost


def _solve(problem, targets):
    return order_moves(problem) if targets is None else reach(problem, targets)
