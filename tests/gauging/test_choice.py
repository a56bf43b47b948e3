"""Bounds and choices in whole figures."""

import math

from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging.choice import Bound, Choice, Ground

WHOLE = st.integers(-50, 50)
END = st.one_of(st.none(), WHOLE)


def bound_between(low, high, factor=1, weight=3):
    if low is None and high is None:
        low = 0
    if low is not None and high is not None and low > high:
        low, high = high, low
    return Bound(0, (factor,), low, high, weight, None, False)


@given(END, END, WHOLE, WHOLE)
def test_best_score_is_the_greatest_of_all_totals_between(low, high, least, most):
    bound = bound_between(low, high)
    least, most = min(least, most), max(least, most)
    # Half steps reach the middle of a limit between two whole figures; doubled, they are whole.
    double = bound_between(
        None if bound.low is None else 2 * bound.low, None if bound.high is None else 2 * bound.high
    )
    greatest = max(double.score(total) for total in range(2 * least, 2 * most + 1))
    assert 2 * bound.best_score(least, most) == greatest


@given(END, END, st.integers(-4, 4), WHOLE, st.integers(-300, 300))
def test_room_holds_exactly_the_figures_that_keep_the_score(low, high, factor, total, score):
    bound = bound_between(low, high, factor)
    least, most = bound.room(total, factor, score)
    for figure in range(-60, 61):
        assert (least <= figure <= most) == (bound.score(total + factor * figure) >= score)


def test_distance_from_the_aim_is_doubled_and_weighted():
    aimed = Bound(0, (1,), 0, 10, 3, 11, False)
    assert aimed.off(5) == 3
    assert Bound(0, (1,), 0, None, 3, None, False).off(5) == 0


def ring(drawer="rings", stocks=(1, 2, None)):
    return Choice((10, 12, 15), (1, 1, 1), (0, 0, 0), (0, 1, 2), drawer, stocks)


def test_a_drawer_shared_by_two_places_runs_out():
    ground = Ground([ring(), ring(), ring("others")], [])
    assert not ground.is_left(1, 0, {0: 0})
    assert ground.is_left(1, 1, {0: 1})
    assert ground.is_left(1, 2, {0: 2})
    assert ground.is_left(2, 0, {0: 0})


def test_pools_are_walked_last():
    pool = Choice((1, 2), (1, 3), (0, 0), (0, 1))
    assert Ground([pool, ring()], []).order == (1, 0)


def test_places_between_may_be_none():
    ground = Ground([ring()], [Bound(20, (-1,), 5, 9, 1, 14, False)])
    assert ground.places_between(0, [20], [0], 0) == (1, 3)
    start, stop = ground.places_between(0, [90], [0], 0)
    assert start == stop


def test_a_bound_that_nothing_moves_is_all_or_nothing():
    still = Bound(0, (0,), 5, None, 1, None, False)
    assert still.room(4, 0, 0) == (math.inf, -math.inf)
    assert still.room(5, 0, 0) == (-math.inf, math.inf)
