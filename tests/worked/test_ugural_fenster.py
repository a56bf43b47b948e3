"""A. C. Ugural, S. K. Fenster, Advanced Strength and Applied Elasticity, Example 8.3, and a press fit by
Lame.

Steel tubes of radii 0.15, 0.20 and 0.25 m, 0.1 mm interference on the radius, E = 200 GPa. A companion
notebook mistypes its pressure line (0.31 MPa) and goes on with 12.3. The second case takes the sizes of a
public homework page, whose own solution multiplies by 1 - v^2: in plane stress there is no such factor, so
the figure is our own.
"""

import pytest

from layshaft.mechanics import fit
from tests.worked.check import CLOSED, Check

PRESSURE = fit.interference_pressure(0.0002, 0.40, 0.50, 0.30, 200e9, 0.3, 200e9, 0.3)
# The book goes on with the pressure as it printed it.
PRINTED = 12.3e6

CHECKS = [
    Check("pressure, MPa", lambda: PRESSURE / 1e6, 12.3, 0.05),
    Check(
        "outer tube inside, MPa", lambda: fit.hoop_stress_outside(PRINTED, 0.4, 0.5, 0.4) / 1e6, 56.03, 0.01
    ),
    Check(
        "outer tube outside, MPa", lambda: fit.hoop_stress_outside(PRINTED, 0.4, 0.5, 0.5) / 1e6, 43.73, 0.01
    ),
    Check(
        "inner tube inside, MPa", lambda: fit.hoop_stress_inside(PRINTED, 0.4, 0.3, 0.3) / 1e6, -56.23, 0.01
    ),
    Check(
        "inner tube outside, MPa", lambda: fit.hoop_stress_inside(PRINTED, 0.4, 0.3, 0.4) / 1e6, -43.93, 0.01
    ),
    Check(
        "60 mm shaft in a 100 mm hub, MPa",
        lambda: fit.interference_pressure(30e-6, 0.060, 0.100, 0.0, 210e9, 0.3, 210e9, 0.3) / 1e6,
        33.6,
        0.01,
        CLOSED,
    ),
    Check(
        "end play gained, alloy case, mm",
        lambda: 1000 * fit.growth_difference(0.150, 23e-6, 11.7e-6, 80.0),
        0.1356,
        0.0001,
        CLOSED,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
