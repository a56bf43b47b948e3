"""Orders where many parts would fall, against an exhaustive search of all states."""

from dataclasses import replace

import pytest

from layshaft.plan.sequence import Fall, Make, Move, NoOrder, Problem, Turn, Way, order_moves, reach, replay
from tests.plan.sequence.exhaustive import Exhaustive
from tests.plan.sequence.falling_problem import falling_problem
from tests.plan.sequence.two_ended import two_ended_problem

REACH_PLACES = (0, 4, 5, 1, 2, 3)


@pytest.mark.parametrize("seed", range(300))
def test_order_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    problem = falling_problem(seed)
    expected = Exhaustive(problem).least()
    if expected is None:
        with pytest.raises(NoOrder):
            order_moves(problem)
        return
    order = order_moves(problem)
    assert order.cost == order.bound == expected
    walked = replay(problem, order.steps)
    assert walked.is_legal, walked.reason
    assert walked.cost == order.cost


@pytest.mark.parametrize("seed", range(300))
def test_reach_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    problem = falling_problem(seed)
    targets = frozenset({seed % len(problem.moves)})
    expected = Exhaustive(problem, targets, REACH_PLACES).least()
    if expected is None:
        with pytest.raises(NoOrder):
            reach(problem, targets)
        return
    order = reach(problem, targets)
    assert order.cost == order.bound == expected
    walked = replay(problem, order.steps, targets)
    assert walked.is_legal, walked.reason
    assert walked.cost == order.cost


def test_what_is_loose_from_the_start_comes_off_before_the_turn_that_a_target_wants():
    up, down = frozenset({"nose up"}), frozenset({"nose down"})
    moves = (Move("wanted", (Way(attitudes=down),), mass=1), Move("loose", (Way(),), mass=1), Move("off", (Way(),)))
    problem = Problem(moves, (), (Fall(1, ((2,),), down),), ("nose up", "nose down"), "nose up", made=frozenset({2}))
    assert reach(problem, frozenset({0})).steps == (Make(1, 0), Turn("nose down"), Make(0, 0))
    assert reach(replace(problem, falls=(Fall(1, ((2,),), up),)), frozenset({0})).steps[0] == Turn("nose down")


@pytest.mark.parametrize("seed", range(6))
def test_sixty_parts_out_of_two_ends_are_proved(seed):
    problem = two_ended_problem(seed, 60, 2 + 2 * seed, attitudes=2 + seed % 2)
    order = order_moves(problem)
    assert order.is_proved
    assert replay(problem, order.steps).is_legal
