"""Where a figure lies between two ends."""

from fractions import Fraction as F

import pytest

from layshaft.gauging.window import Window, is_inside, margin
from layshaft.quantity import LENGTH, parse_limit


def test_a_figure_exactly_on_an_end_is_inside():
    window = Window(F("0.10"), F("0.25"))
    assert is_inside(F("0.10"), window)
    assert is_inside(F("0.25"), window)
    assert not is_inside(F("0.25") + F(1, 10**12), window)


def test_three_tenths_is_not_the_float():
    # 0.1 + 0.2 as floats is above 0.3; as typed it is 0.3.
    assert is_inside(F("0.1") + F("0.2"), Window(None, F("0.3")))


def test_margin_names_the_end():
    window = Window(F(1), F(3))
    assert (margin(F("1.5"), window).end, margin(F("2.9"), window).end) == ("low", "high")
    assert margin(F(4), window).distance == -1
    assert margin(F(2), window).end == "low"


def test_width():
    assert Window(F(1), F(3)).width == 2
    assert Window(None, F(3)).width is None


@pytest.mark.parametrize("ends", [(None, None), (F(2), F(1))])
def test_impossible_ends_are_refused(ends):
    with pytest.raises(ValueError, match="end"):
        Window(*ends)


def test_a_written_limit_is_a_limit():
    limit = parse_limit("0.010 .. 0.020 in", LENGTH)
    assert is_inside(F("0.508") / 1000, limit)
    assert not is_inside(F("0.5081") / 1000, limit)
