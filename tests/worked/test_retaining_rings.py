"""Public data sheets of a retaining ring maker (names and part numbers withheld).

They print with pi = 3.14, 0.05 % under the true figure, and with a factor of 2 on the groove and 4 on the
ring.
"""

import math

import pytest

from layshaft.mechanics import ring
from tests.worked.check import INCH, LBF, PSI, Check

MAKERS_PI = 3.14 / math.pi


def groove(diameter: float, depth: float, conversion: float = 1.0) -> float:
    """Groove thrust as the sheets print it, lb; groove of 45 ksi."""
    thrust = ring.groove_thrust(diameter * INCH, depth * INCH, 45e3 * PSI, 2.0, conversion)
    return MAKERS_PI * thrust / LBF


def shear(diameter: float, thickness: float, conversion: float = 1.0) -> float:
    """Ring shear as the sheets print it, lb; ring of 150 ksi."""
    thrust = ring.shear_thrust(diameter * INCH, thickness * INCH, 150e3 * PSI, 4.0, conversion)
    return MAKERS_PI * thrust / LBF


CHECKS = [
    Check("5.250 in shaft ring, groove, lb", lambda: groove(5.250, 0.110), 40_800, 50),
    Check("5.250 in shaft ring, shear, lb", lambda: shear(5.250, 0.125), 77_273, 1),
    Check("1.969 in spiral ring, groove, lb", lambda: groove(1.969, 0.034), 4729, 0.8),
    Check("0.688 in bowed bore ring, groove, lb", lambda: groove(0.688, 0.022, 1.2), 1283, 0.6),
    Check("0.688 in bowed bore ring, shear, lb", lambda: shear(0.688, 0.035, 1.2), 3402, 0.6),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
