"""Which entry counts: the later moment where moments are told, else the later line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book.moment import is_before, last_of


@dataclass(frozen=True)
class Entry:
    at: str | None
    line: int


def line_of(*moments: str | None) -> int | None:
    found = last_of(Entry(at, line) for line, at in enumerate(moments, 1))
    return None if found is None else found.line


@given(st.lists(st.datetimes(datetime(2026, 11, 1), datetime(2026, 11, 4)), min_size=1, max_size=6))
def test_of_moments_the_latest_counts(moments: list[datetime]) -> None:
    """Against the order of Python's own moments; of equal ones the later line counts."""
    cut = [one.replace(second=0, microsecond=0) for one in moments]
    latest = max(range(len(cut)), key=lambda at: (cut[at], at))
    assert line_of(*(f"{one:%Y-%m-%d %H:%M}" for one in cut)) == latest + 1


@pytest.mark.parametrize(
    ("moments", "line"),
    [
        ((), None),
        ((None, None), 2),
        (("2026-11-10", "2026-11-05"), 1),
        (("2026-11-05", "2026-11-10"), 2),
        (("2026-11-10", None), 2),
        ((None, "2026-11-05"), 2),
        (("2026-11-10", None, "2026-11-05"), 2),
        (("2026-11-10 14:00", "2026-11-10"), 2),
        (("2026-11-10", "2026-11-10 09:00"), 2),
        (("2026-11-10 14:00", "2026-11-10", "2026-11-10 13:00"), 2),
    ],
)
def test_without_moments_to_tell_the_later_line_counts(moments: tuple[str | None, ...], line: int | None) -> None:
    assert line_of(*moments) == line


def test_a_day_is_before_no_moment_of_itself() -> None:
    assert not is_before("2026-11-10", "2026-11-10 09:00")
    assert not is_before("2026-11-10 09:00", "2026-11-10")
    assert is_before("2026-11-09 23:59", "2026-11-10")
    assert not is_before(None, "2026-11-10")
