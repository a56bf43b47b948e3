"""Numbers in a row, and how something is read under a load."""

from __future__ import annotations

import pytest

from layshaft.plan.phrase import in_runs, with_load
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
