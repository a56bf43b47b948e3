"""Numbers in a row, and how something is read under a load."""

from __future__ import annotations

import pytest

from layshaft.plan.phrase import at_most_joules, in_runs, with_load
from layshaft.quantity import FORCE, parse_quantity

LOAD = parse_quantity("50 N", FORCE)


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([4, 5, 6, 7], "4 to 7"), ([1, 3, 4, 5, 9], "1, 3 to 5, 9"), ([2, 3], "2, 3"), ([3, 1], "1, 3"), ([], "")],
)
def test_numbers_in_a_row_are_told_by_their_ends(numbers: list[int], told: str) -> None:
    assert in_runs(numbers) == told


def test_a_load_is_told_once() -> None:
    assert with_load("Depth gauge under 50 N", LOAD) == "Depth gauge under 50 N"
    assert with_load("Depth gauge", LOAD) == "Depth gauge, under 50 N"
    assert with_load("Depth gauge", None) == "Depth gauge"


@pytest.mark.parametrize(
    ("energy", "told"),
    [(0.0, "0.1 J"), (0.01, "0.1 J"), (0.1, "0.1 J"), (0.11, "0.2 J"), (19.91, "20.0 J"), (20.2, "21 J")],
)
def test_a_bound_of_energy_is_rounded_up_and_reads_behind_at_most(energy: float, told: str) -> None:
    assert at_most_joules(energy) == told
