"""V. M. Faires, Design of Machine Elements, Problem 334 (worked solutions): round strut, 10 kip, factor 3,
pivots.

E = 30e3 ksi: (a) 48 ksi yield, 25 in; (b) 48 ksi, 50 in; (c) 150 ksi, 25 in. A web text in circulation prints
Johnson with s_y/(2 pi^2 E) and Euler as pi^2 EI/(KL/r)^2; both miss these answers.
"""

import math

import pytest

from layshaft.mechanics import strut
from tests.worked.check import INCH, LBF, PSI, Check


def kips(diameter: float, length: float, yield_stress: float) -> float:
    """Load of a round strut over the factor of 3; inches, ksi, kips."""
    d = diameter * INCH
    load = strut.critical_load(
        math.pi * d**4 / 64, math.pi * d**2 / 4, length * INCH, 30e6 * PSI, yield_stress * 1e3 * PSI, 1.0
    )
    return load / (1e3 * LBF) / 3


def diameter(length: float, yield_stress: float) -> float:
    """Diameter that bears 10 kip with the factor, by halving; inches."""
    low, high = 0.5, 3.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if kips(middle, length, yield_stress) > 10 else (middle, high)
    return high


CHECKS = [
    Check("a diameter, Johnson, in", lambda: diameter(25, 48), 1.096, 0.0005),
    Check("b diameter, Euler, in", lambda: diameter(50, 48), 1.507, 0.0005),
    Check("c transition", lambda: strut.transition_slenderness(30e6, 150e3, 1.0), 62.83, 0.005),
    Check("c diameter, Euler, in", lambda: diameter(25, 150), 1.0657, 5e-5),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
