"""Sums that k pieces reach, against trying every pick."""

from collections import Counter
from fractions import Fraction as F
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging import subset
from layshaft.gauging.subset import PieceSums, common_grid

PIECES = st.lists(st.integers(0, 60), max_size=9)


@given(PIECES, st.integers(0, 9), st.sampled_from([1, 10, 127]), st.sampled_from([0, 10**9]))
def test_table_and_trying_all_agree(pieces, count, step, few):
    pieces = [1700 + step * piece for piece in pieces]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(subset, "_FEW_PICKS", few)
        found = PieceSums(pieces, count)
    expected = Counter(sum(pick) for pick in combinations(pieces, count))
    assert dict(zip(found.sums, found.ways, strict=True)) == expected
    assert list(found.sums) == sorted(expected)
    for total in found.sums:
        first = next(p for p in combinations(range(len(pieces)), count) if sum(pieces[i] for i in p) == total)
        assert found.pick(total) == first


def test_more_picks_than_pieces_reach_nothing():
    assert PieceSums([1, 2], 3).sums == ()


def test_no_picks_reach_nothing_but_zero():
    none = PieceSums([5, 6], 0)
    assert (none.sums, none.ways, none.pick(0)) == ((0,), (1,), ())


def test_two_hundred_plates():
    # Closed form: 200 alike plates give one sum, in as many ways as there are picks of five.
    assert PieceSums([1800] * 200, 5).ways == (2_535_650_040,)


def test_figures_too_fine_and_too_many_are_refused():
    with pytest.raises(ValueError, match="too many picks"):
        PieceSums([10**9 + 7919 * n * n + n for n in range(40)], 20)


def test_a_negative_count_is_refused():
    with pytest.raises(ValueError, match="zero or more"):
        PieceSums([1], -1)


def test_inch_and_millimetre_figures_share_a_grid():
    figures = [F("1.782"), F("0.0702") * F("25.4"), F(1, 3)]
    grid = common_grid(figures)
    assert all((figure * grid).denominator == 1 for figure in figures)
    assert common_grid([]) == 1
