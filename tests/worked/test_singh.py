"""Sadhu Singh, Machine Design I: Examples 8.3 and 8.12.

8.3: wire 3 mm, index 6, 15 coils, G = 84 GPa. 8.12: wire 6 mm, outside 75 mm, 350 N/mm^2, worked with the
shear factor and with Wahl's, which it sets 7.8 % apart.
"""

import pytest

from layshaft.mechanics import coil, spring, spring_stress
from tests.worked.check import Check

G = 84e9
WAHL = spring_stress.wahl_factor(6.0)
MEAN = coil.mean_diameter(0.075, 0.006)
INDEX = coil.index(MEAN, 0.006)
SHEAR_ONLY = spring_stress.force_at_stress(350e6, 0.006, MEAN, spring_stress.shear_factor(INDEX))
WITH_WAHL = spring_stress.force_at_stress(350e6, 0.006, MEAN, spring_stress.wahl_factor(INDEX))
ONE_COIL = spring.rate(G, 0.006, MEAN, 1)

CHECKS = [
    Check("8.3 Wahl factor", lambda: WAHL, 1.2525, 5e-5),
    Check(
        "8.3 stress at 40 N, MPa",
        lambda: spring_stress.shear_stress(40, 0.003, 0.018, WAHL) / 1e6,
        85.05,
        0.005,
    ),
    Check("8.3 rate, N/mm", lambda: spring.rate(G, 0.003, 0.018, 15) / 1000, 9.72, 0.005),
    Check(
        "8.3 force at yield, N", lambda: spring_stress.force_at_stress(650e6, 0.003, 0.018, WAHL), 305.7, 0.05
    ),
    Check("8.12 force, shear factor, N", lambda: SHEAR_ONLY, 412.3, 0.05),
    Check("8.12 give of a coil, shear factor, mm", lambda: 1000 * SHEAR_ONLY / ONE_COIL, 9.954, 0.0005),
    Check("8.12 force, Wahl factor, N", lambda: WITH_WAHL, 382.5, 0.05),
    Check("8.12 give of a coil, Wahl factor, mm", lambda: 1000 * WITH_WAHL / ONE_COIL, 9.234, 0.0005),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
