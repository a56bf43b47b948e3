"""Flat-cam roller clutch: geometry, and the rule tan(a) <= mu of N. Nagler, A. Lohrengel (2021), eq. 1.

The rule was seen in a published text, no worked figure was: race radius 40 mm, roller radius 5 mm, wedge
angle 7 degrees, which is a strut angle of 3.5 degrees.
"""

import math

import pytest

from layshaft.mechanics import oneway
from tests.worked.check import CLOSED, Check

ANGLE = oneway.strut_angle(0.040, 0.005, 0.0297391)


def wedge_change() -> float:
    """Change of the wedge angle for 0.05 mm more roller radius, degrees."""
    larger = oneway.strut_angle(0.040, 0.00505, 0.0297391)
    return math.degrees(2 * (larger - ANGLE))


CHECKS = [
    Check("wedge angle, degrees", lambda: math.degrees(2 * ANGLE), 7.000206, 0.002, CLOSED),
    Check(
        "height of the flat for it, mm",
        lambda: 1000 * oneway.cam_height(0.040, 0.005, math.radians(3.5)),
        29.73912,
        0.0001,
        CLOSED,
    ),
    Check("friction needed", lambda: oneway.friction_needed(math.radians(3.5)), 0.06116262, 1e-5, CLOSED),
    Check("change of the wedge angle, degrees", wedge_change, -1.500255, 0.002, CLOSED),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_grips_up_to_the_friction_it_needs():
    """Just under the friction needed it lets go, at it and above it holds."""
    needed = oneway.friction_needed(ANGLE)
    assert oneway.is_gripping(ANGLE, needed)
    assert not oneway.is_gripping(ANGLE, needed * (1 - 1e-12))
