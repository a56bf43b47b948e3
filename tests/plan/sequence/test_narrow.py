"""Leaving idle attitudes out: what goes, what stays, and that the least cost over all states is the same."""

from dataclasses import replace

import pytest

from layshaft.plan.sequence import Fall
from layshaft.plan.sequence.narrow import without_idle_attitudes
from tests.plan.sequence.exhaustive import Exhaustive
from tests.plan.sequence.least import assert_least
from tests.plan.sequence.random_problem import random_problem

IDLE = "level"


def without_want(attitudes):
    """The attitudes a way or session names, less the idle one."""
    return attitudes and (attitudes - {IDLE} or None)


def idle_problem(seed):
    """A random problem in which nothing wants one attitude, and parts fall in that one alone."""
    problem = random_problem(seed, 4 + seed % 5, falls=3, loose=0.5)
    moves = tuple(
        replace(move, ways=tuple(replace(way, attitudes=without_want(way.attitudes)) for way in move.ways))
        for move in problem.moves
    )
    sessions = tuple(replace(one, attitudes=without_want(one.attitudes)) for one in problem.sessions)
    falls = tuple(replace(fall, attitudes=frozenset({IDLE})) for fall in problem.falls)
    return replace(problem, moves=moves, sessions=sessions, falls=falls)


@pytest.mark.parametrize("seed", range(60))
def test_least_cost_over_all_states_is_the_same(seed):
    problem = idle_problem(seed)
    narrowed = without_idle_attitudes(problem)
    assert IDLE not in narrowed.attitudes
    assert not narrowed.falls
    assert Exhaustive(narrowed).least() == Exhaustive(problem).least()
    assert_least(problem)


def test_an_attitude_in_use_keeps_its_falls():
    problem = idle_problem(3)
    falling = Fall(0, ((1,),), frozenset({problem.start}))
    kept = replace(problem, falls=(*problem.falls, falling))
    assert without_idle_attitudes(kept) is kept


def test_a_fall_in_any_attitude_keeps_them_all():
    problem = replace(idle_problem(3), falls=(Fall(0, ((1,),), None),))
    assert without_idle_attitudes(problem) is problem
