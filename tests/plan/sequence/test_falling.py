"""Orders where many parts would fall, against an exhaustive search of all states."""

from dataclasses import replace

import pytest

from layshaft.plan.sequence import Fall, Make, Move, Problem, Turn, Way, order_moves, reach, replay
from tests.plan.sequence.falling_problem import falling_problem
from tests.plan.sequence.least import assert_least
from tests.plan.sequence.two_ended import two_ended_problem


@pytest.mark.parametrize("seed", range(300))
def test_order_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    assert_least(falling_problem(seed))


@pytest.mark.parametrize("seed", range(300))
def test_reach_costs_as_much_as_the_cheapest_of_all_state_paths(seed):
    problem = falling_problem(seed)
    assert_least(problem, frozenset({seed % len(problem.moves)}))


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
