"""Shigley's Mechanical Engineering Design (R. G. Budynas, J. K. Nisbett), example 1-7: a gap.

9th and 10th edition.

1.750 ± 0.003 less 0.750 ± 0.001, 0.120 ± 0.005 and 0.875 ± 0.001 in. The statistical figures for the same
gap, with each tolerance as three standard deviations, are those of public test vectors.
"""

from fractions import Fraction

import pytest

from layshaft.gauging.stack import Term, stack
from layshaft.gauging.window import Window
from tests.worked.check import Check


def term(name: str, sign: int, nominal: str, tolerance: str) -> Term:
    return Term.drawn(name, sign, Fraction(nominal), Fraction(tolerance), Fraction(tolerance))


GAP = stack(
    [
        term("channel", 1, "1.750", "0.003"),
        term("block", -1, "0.750", "0.001"),
        term("shim", -1, "0.120", "0.005"),
        term("spacer", -1, "0.875", "0.001"),
    ]
)
LEAST = Window(Fraction("0.003"), None)

CHECKS = [
    Check("mean gap, in", lambda: GAP.middle, 0.005, 1e-12),
    Check("worst half-width, in", lambda: GAP.worst, 0.010, 1e-12),
    Check("smallest gap, in", lambda: GAP.low, -0.005, 1e-12),
    Check("largest gap, in", lambda: GAP.high, 0.015, 1e-12),
    Check("root sum square, in", lambda: GAP.rss, 0.006, 1e-12),
    Check("standard deviation, in", lambda: GAP.deviation, 0.002, 1e-12),
    Check("one-sided capability for 0.003", lambda: GAP.capability(LEAST), 1 / 3, 1e-9),
    Check("parts per million below 0.003", lambda: 1e6 * (1 - GAP.probability_inside(LEAST)), 158_655, 0.5),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
