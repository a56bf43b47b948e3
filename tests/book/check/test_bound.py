"""Figures that cannot be so, wherever they stand."""

import pytest

from layshaft.book import check_book
from tests.stories.story import example

SPRING = "{kind: helical, rate: 40 ± 2 N/mm, free length: 40 ± 1 mm, solid length: 18 mm}"
TIMES = [
    "tool: ring pliers, time: 0.5 min", "time: 4 min", "hands: 2 min", "elapsed: 30 min", "hands: 10 min",
    "    time: 2 min",
]  # fmt: skip


def found(*changes):
    book = example()
    for old, new in changes:
        assert old in book
        book = book.replace(old, new)
    return [(one.id, one.found) for one in check_book(book, "book.yaml").faults]


@pytest.mark.parametrize("time", TIMES)
def test_no_time_is_below_nothing(time):
    key, _, figure = time.rpartition(": ")
    assert ("too small", f"-{figure}") in found((time, f"{key}: -{figure}"))


@pytest.mark.parametrize(
    "old, new",
    [
        ("over: 1.5 mm", "over: 0 mm"),
        ("most over: 3.0 mm", "most over: -3.0 mm"),
        ("keep from solid: 2.0 mm", "keep from solid: -2.0 mm"),
        ("margin: 5.0 mm", "margin: -5.0 mm"),
        ("rating: 3 kN", "rating: 0 kN"),
        ("rating: 5 kN", "rating: -5 kN"),
        ("height: {size small: 5.50 mm, size large: 9.00 mm}", "height: 0 mm"),
        ("size tolerance: 0.02 mm", "size tolerance: -0.02 mm"),
        ("rate: 40 ± 2 N/mm", "rate: 2 ± 2 N/mm"),
        ("free length: 40 ± 1 mm", "free length: -40 ± 1 mm"),
        ("solid length: 18 mm", "wire: 0 mm, total coils: 9"),
        ("solid length: 18 mm", "wire: 2 mm, total coils: -9"),
        ("solid length: 18 mm", "solid length: 18 mm, test: {length: 25 mm, load: 0 N}"),
        ("attitude: front up\n        time", "thread engaged: -1 mm\n        time"),
        ("attitude: front up\n        time", "limits: {energy: 0 J, speed: -1 m/s}\n        time"),
        ("attitude: front up\n        time", "home: {stages: [0 mm]}\n        time"),
    ],
)
def test_too_small(old, new):
    assert "too small" in [id for id, _ in found((old, new))]


@pytest.mark.parametrize("least", ["keep from solid: 0 mm", "margin: 0 mm", "size tolerance: 0 mm"])
def test_nothing_is_enough_where_it_makes_sense(least):
    key = least.partition(":")[0]
    old = {"keep from solid": "2.0 mm", "margin": "5.0 mm", "size tolerance": "0.02 mm"}[key]
    assert found((f"{key}: {old}", least)) == []


@pytest.mark.parametrize("figure", ["40e20 N/mm", "1e-20 N/mm", "9" * 60 + " N/mm"])
def test_beyond_measure(figure):
    assert found(("rate: 40 ± 2 N/mm", f"rate: {figure}")) == [("beyond measure", figure)]


@pytest.mark.parametrize("coils", ["1e20", "1e-20"])
def test_a_number_beyond_measure(coils):
    assert [id for id, _ in found(("solid length: 18 mm", f"wire: 2 mm, total coils: {coils}"))] == ["beyond measure"]


def test_a_limit_beyond_measure():
    assert found(("limit: at least 13 mm", "limit: at least 1e20 mm")) == [("beyond measure", "at least 1e20 mm")]


def test_other_faults_are_told_beside():
    told = found((SPRING, SPRING.replace("40 ± 2 N/mm", "0 N/mm")), ("SH-20: 1}", "SH-99: 1}"))
    assert [id for id, _ in told] == ["too small", "unknown name"]
