"""R. C. Juvinall, K. M. Marshek, Fundamentals of Machine Component Design: a clutch problem with printed
answers.

Dry pack, 6 hp at 200 rpm, slip safety 2, radii 2.5 and 3.5 in, 225 psi at most, friction 0.2. The book takes
63 025 lb in for a horsepower at one rpm.
"""

import pytest

from layshaft.mechanics import clutch
from tests.worked.check import CLOSED, INCH, LBF, PSI, Check

TORQUE = 2 * 6 * 63_025 / 200 * LBF * INCH
INNER, OUTER = 2.5 * INCH, 3.5 * INCH
MIDDLE = clutch.radius_uniform_wear(OUTER, INNER)
AT_LIMIT = 225 * PSI / clutch.peak_face_pressure(1.0, OUTER, INNER)
CLAMP = clutch.clamp_for_torque(TORQUE, 2, 0.2, MIDDLE)

CHECKS = [
    Check(
        "faces needed", lambda: TORQUE / clutch.disc_torque(1, 0.2, AT_LIMIT, MIDDLE), 1.783243, 0.001, CLOSED
    ),
    Check("clamp with three discs, lb", lambda: CLAMP / LBF, 3150, 5),
    Check("pressure inside, psi", lambda: clutch.peak_face_pressure(CLAMP, OUTER, INNER) / PSI, 200, 1),
    Check(
        "pressure outside, psi",
        lambda: clutch.peak_face_pressure(CLAMP, OUTER, INNER) * INNER / OUTER / PSI,
        143,
        0.5,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
