"""University hand-out H08 worked with R. L. Norton, Machine Design, eqs 14.7 and 14.9b and Table 14-4.

Wire 0.063 in, outside 0.493 in, 18.75 active coils, G = 11.7e6 psi, Sys = 0.45 x 184 649 d^-0.1625 psi. The
body of an extension spring; rate and stress are those of a compression spring.
"""

import pytest

from layshaft.mechanics import coil, spring, spring_stress
from tests.worked.check import INCH, LBF, PSI, Check

WIRE = 0.063 * INCH
MEAN = coil.mean_diameter(0.493 * INCH, WIRE)
INDEX = coil.index(MEAN, WIRE)
FACTOR = spring_stress.wahl_factor(INDEX)
YIELD = 0.45 * 184_649 * 0.063**-0.1625 * PSI

CHECKS = [
    Check("mean diameter, in", lambda: MEAN / INCH, 0.43, 1e-6),
    Check("index", lambda: INDEX, 6.8254, 5e-5),
    Check("rate, lbf/in", lambda: spring.rate(11.7e6 * PSI, WIRE, MEAN, 18.75) / (LBF / INCH), 15.45, 0.005),
    Check("Wahl factor", lambda: FACTOR, 1.2189, 5e-5),
    Check(
        "force at yield, lbf",
        lambda: spring_stress.force_at_stress(YIELD, WIRE, MEAN, FACTOR) / LBF,
        24.39,
        0.01,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
