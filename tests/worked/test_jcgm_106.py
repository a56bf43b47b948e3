"""JCGM 106:2012, The role of measurement uncertainty in conformity assessment.

The inputs of the resistor example (9.5) were seen in a public script of it, those of the ball bearing
example in the notebook of a national laboratory's public calculator; the other figures and all clause
numbers are from memory.
"""

import math
from fractions import Fraction

import pytest

from layshaft.gauging import conformity, risk
from layshaft.gauging.window import Window
from tests.worked.check import MEMORY, SEEN, Check

ONE_END = Window(None, Fraction("-5.40"))

RESISTOR = Window(Fraction("1499.8"), Fraction("1500.2"))
ACCEPTED = Window(Fraction("1499.82"), Fraction("1500.18"))
PROCESS = risk.Spread.normal(1500.0, 0.12)
RESISTOR_RISK = risk.weigh_risk(PROCESS, 0.04, RESISTOR, ACCEPTED)

# Radial error of ball bearings, gamma with shape 4 and scale 0.25 µm.
BEARING = Window(None, Fraction(2))
BEARING_RISK = risk.weigh_risk(
    risk.Spread(lambda error: 4**4 * error**3 * math.exp(-4 * error) / 6, 0.0, 20.0), 0.25, BEARING, BEARING
)


def share(value: str, limit: Window, uncertainty: float) -> float:
    return conformity.probability_inside(Fraction(value), limit, uncertainty)


CHECKS = [
    *(
        Check(
            f"table 1, {chance}", lambda chance=chance: conformity.guard_band(1.0, chance), z, 0.005, MEMORY
        )
        for chance, z in [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]
    ),
    Check("7.3.3 example 1", lambda: share("-5.47", ONE_END, 0.05), 0.92, 0.005, MEMORY),
    Check(
        "8.3.3.2 rejection", lambda: conformity.relative_rejection_limit(100, 0.02, 0.999), 107, 0.5, MEMORY
    ),
    Check("9.5 conforming resistors", lambda: share("1500", RESISTOR, 0.12), 0.904, 0.0005, SEEN),
    Check("9.5 bad resistors passed", lambda: RESISTOR_RISK.bad_passed, 0.0099, 0.0001, MEMORY),
    Check("9.5 good resistors refused", lambda: RESISTOR_RISK.good_refused, 0.0690, 0.0001, MEMORY),
    Check(
        "9.5.4 bearings outside",
        lambda: BEARING_RISK.bad_passed + BEARING_RISK.bad_refused,
        0.04238,
        5e-6,
        SEEN,
    ),
    Check("9.5.4 bad bearings passed", lambda: BEARING_RISK.bad_passed, 0.008019, 5e-7, SEEN),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_the_four_shares_are_the_whole_run():
    for found in (RESISTOR_RISK, BEARING_RISK):
        whole = found.bad_passed + found.good_refused + found.good_passed + found.bad_refused
        assert whole == pytest.approx(1.0, abs=1e-12)
