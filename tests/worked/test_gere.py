"""J. M. Gere, Mechanics of Materials, 7th ed., Problem 11.4-2: tube 40/36 mm, 1.2 m, E = 210 GPa, four kinds
of ends.
"""

import math

import pytest

from layshaft.mechanics import strut
from tests.worked.check import Check

I_TUBE = math.pi / 64 * (0.040**4 - 0.036**4)


def kilonewtons(end_fixity: float) -> float:
    """Euler load of the tube."""
    return strut.euler_load(I_TUBE, 1.2, 210e9, end_fixity) / 1000


CHECKS = [
    Check(
        "second moment from its radius of gyration, mm4 x 1000",
        lambda: strut.radius_of_gyration(I_TUBE, 1.0) ** 2 * 1e9,
        43.22,
        0.005,
    ),
    Check("two pivots, kN", lambda: kilonewtons(1.0), 62.2, 0.05),
    Check("one end free, kN", lambda: kilonewtons(0.25), 15.6, 0.06),
    Check("one fixed, one pivot, kN", lambda: kilonewtons(2.046), 127, 0.5),
    Check("two fixed, kN", lambda: kilonewtons(4.0), 249, 0.5),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
