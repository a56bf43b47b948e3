"""Draft RP-19, table of false accept risk for a test uncertainty ratio of 4.

Seen in the risk tests of a national laboratory's public uncertainty calculator.
"""

from fractions import Fraction
from statistics import NormalDist

import pytest

from layshaft.gauging.risk import Spread, weigh_risk
from layshaft.gauging.window import Window
from tests.worked.check import Check

ENDS = Window(Fraction(-1), Fraction(1))
# In-tolerance probability; false accepts as a share of all, and of those accepted.
TABLE = [(0.60, 0.048386, 0.082601), (0.80, 0.028558, 0.036323), (0.95, 0.008710, 0.009239)]


def risk_at(in_tolerance: float):
    spread = 1 / NormalDist().inv_cdf((1 + in_tolerance) / 2)
    return weigh_risk(Spread.normal(0.0, spread), spread / 4, ENDS, ENDS)


CHECKS = [
    check
    for chance, passed, among in TABLE
    for check in (
        Check(f"of all, {chance}", lambda chance=chance: risk_at(chance).bad_passed, passed, 1e-6),
        Check(
            f"of the passed, {chance}", lambda chance=chance: risk_at(chance).bad_among_passed, among, 1e-6
        ),
    )
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
