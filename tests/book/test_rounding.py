"""A drawn figure against the one worked out: equal to the places it is written to, and no further."""

from fractions import Fraction

import pytest

from layshaft.book.rounding import agrees, half_last_place
from layshaft.quantity import parse_quantity


@pytest.mark.parametrize("drawn, metres, expected", [
    ("25.00 mm", "0.025", True),
    ("25.00 mm", "0.025005", True),
    ("25.00 mm", "0.0250051", False),
    ("25 mm", "0.0254", True),
    ("25 mm", "0.0256", False),
    ("0.98 in", "0.025", True),       # 25 mm is 0.98425 in
    ("0.984 in", "0.025", True),
    ("0.985 in", "0.025", False),
    ("63/64 in", "0.025003125", True),
    ("63/64 in", "0.025", False),     # a fraction is told exactly
    ("-1.5 mm", "-0.00154", True),
    (".5 mm", "0.00054", True),
])
def test_agrees(drawn, metres, expected):
    assert agrees(parse_quantity(drawn), Fraction(metres)) is expected


def test_half_of_the_last_place_written():
    assert half_last_place(parse_quantity("1.50 mm")) == Fraction(5, 1_000_000)
    assert half_last_place(parse_quantity("12 N·m")) == Fraction(1, 2)
