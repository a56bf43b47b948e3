"""D. Deaver on false accept and false reject risk, figures of pages 7 and 10.

Seen in the risk tests of a national laboratory's public uncertainty calculator, which names the pages.
"""

from fractions import Fraction

import pytest

from layshaft.gauging.risk import Spread, weigh_risk
from layshaft.gauging.window import Window
from tests.worked.check import Check

EIGHT = Window(Fraction(-8), Fraction(8))
PAGE_7 = weigh_risk(Spread.normal(0.0, 4.0), 1.0, EIGHT, EIGHT)
PAGE_10 = weigh_risk(
    Spread.normal(0.0, 1.0),
    0.5,
    Window(Fraction(-2), Fraction(2)),
    Window(-2 * Fraction("0.91"), 2 * Fraction("0.91")),
)

CHECKS = [
    Check("p. 7 false accept", lambda: PAGE_7.bad_passed, 0.008, 0.0005),
    Check("p. 7 false reject", lambda: PAGE_7.good_refused, 0.015, 0.0005),
    Check("p. 10 false accept with a guard band of 0.91", lambda: PAGE_10.bad_passed, 0.008, 0.0005),
    Check("p. 10 false reject with a guard band of 0.91", lambda: PAGE_10.good_refused, 0.066, 0.001),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
