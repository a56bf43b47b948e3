"""The point nearest to zero that keeps bounds, against Lawson and Hanson's way by SciPy, as bounds come and shift."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import nnls

from layshaft.mechanics import _settle
from layshaft.mechanics._nearest import Nearest, Unsettled
from layshaft.mechanics.rest import Layout, Point, Spring, at_rest


def nearest_by_nnls(rows, least):
    """Problem LDP of Lawson and Hanson, chapter 23 (from memory): by multipliers of the columns (rows, least)."""
    target = np.zeros(rows.shape[1] + 1)
    target[-1] = 1.0
    stacked = np.vstack((rows.T, least))
    left = stacked @ nnls(stacked, target)[0] - target
    return -left[:-1] / left[-1]


@settings(max_examples=100)
@given(seed=st.integers(0, 2**32))
def test_point_is_that_of_nnls_while_bounds_are_added_and_shifted(seed):
    drawn = random.Random(seed)
    size = drawn.randint(1, 6)
    inside = np.array([drawn.uniform(-1, 1) for _ in range(size)])
    nearest, rows, least = Nearest(), np.zeros((0, size)), np.zeros(0)
    for _ in range(8):
        row = np.array([drawn.choice([0.0, 0.0, drawn.uniform(-1, 1)]) for _ in range(size)])
        row[drawn.randrange(size)] = drawn.choice([-1.0, 1.0])
        rows = np.vstack((rows, row / np.linalg.norm(row)))
        # The rows kept so far shift too, up and down, but `inside` keeps them all.
        least = rows @ inside - np.array([drawn.choice([0.0, drawn.uniform(0, 1)]) for _ in rows])
        point, multiplier = nearest.solve(rows, least)
        assert point == pytest.approx(nearest_by_nnls(rows, least), abs=1e-8)
        assert multiplier.min() >= 0
        assert point == pytest.approx(rows.T @ multiplier, abs=1e-12)
        assert (rows @ point - least).min() >= -1e-12


def test_bounds_that_leave_no_room_are_refused():
    with pytest.raises(Unsettled, match="contradict each other"):
        Nearest().solve(np.array([[1.0, 0.0], [-1.0, 0.0]]), np.array([1.0, 0.5]))


def test_search_that_ends_without_a_rest_gives_no_figure(monkeypatch):
    monkeypatch.setattr(_settle, "MOST_TRIES", 1)
    points = {"a": Point("case", 0.0), "b": Point("slider", 0.0), "c": Point("slider", 0.0), "d": Point("case", 0.2)}
    springs = (Spring(1, "a", "b", 30_000.0, 0.15, 0.05), Spring(2, "c", "d", 10_000.0, 0.09, 0.03))
    with pytest.raises(Unsettled, match="did not come to rest in 1 tries"):
        at_rest(Layout(points, (), springs, frozenset({"case"})))
