"""Rams of 20 tons, each kind of ton by its own definition: own evaluations of p = F/A, no published figures.

A short ton is 2000 lbf, a tonne-force 9806.65 N, a long ton 2240 lbf: mixing them is wrong by 10 %.
"""

import pytest

from layshaft.mechanics import piston, press
from tests.worked.check import CLOSED, INCH, LBF, PSI, Check

THREE_INCH, SEVENTY = piston.area(3.0 * INCH), piston.area(0.070)

CHECKS = [
    Check(
        "20 short tons on 3 in, psi",
        lambda: press.gauge_reading(40_000 * LBF, THREE_INCH) / PSI,
        5658.842,
        1,
        CLOSED,
    ),
    Check(
        "20 tonnes on 70 mm, bar",
        lambda: press.gauge_reading(20 * 9806.65, SEVENTY) / 1e5,
        509.6414,
        0.2,
        CLOSED,
    ),
    Check(
        "1000 psi on 3 in, lb", lambda: press.ram_force(1000 * PSI, THREE_INCH) / LBF, 7068.583, 0.5, CLOSED
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
