"""T. Bevan, Theory of Machines, ch. 6, Example 5: radii 5 and 4 in, mean pressure 20 psi, friction 0.07, 100
hp, 3600 rpm.
"""

import pytest

from layshaft.mechanics import clutch
from tests.worked.check import CLOSED, INCH, LBF, PSI, RPM, Check

HORSEPOWER = 33_000 * 12 * INCH * LBF / 60
CLAMP = 20 * PSI / clutch.mean_face_pressure(1.0, 5 * INCH, 4 * INCH)
ONE_FACE = clutch.disc_torque(1, 0.07, CLAMP, clutch.radius_uniform_wear(5 * INCH, 4 * INCH))


def faces() -> float:
    """Faces that pass 100 hp."""
    return 100 * HORSEPOWER / (3600 * RPM) / ONE_FACE


CHECKS = [Check("faces", faces, 10, 0.2), Check("faces exact", faces, 9.828334, 0.001, CLOSED)]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
