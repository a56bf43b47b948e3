"""U. C. Jindal, Machine Design: Examples 8-7, 8-8, 9-1, 9-3, 22-1 and 22-5.

22-5: 4 + 3 discs, radii 80 and 50 mm, 15 kW at 1400 rpm, friction 0.25, uniform pressure. 22-1 counts one
face for its force and torque although it says two; only its energy is used. 9-3: M18 x 2.5, friction 0.15 and
0.13.
"""

import math

import pytest

from layshaft.mechanics import clutch, engagement, fastener, spring_stress
from tests.worked.check import RPM, Check

TORQUE = 15_000 / (1400 * RPM)
CLAMP = clutch.clamp_for_torque(TORQUE, 6, 0.25, clutch.radius_uniform_pressure(0.080, 0.050))
FREE = spring_stress.stable_free_length(1.0, 0.5, 30e6, 11.5e6)

CHECKS = [
    Check("8-7 free length over mean diameter, seats", lambda: FREE, 5.26, 0.012),
    Check(
        "8-8 free length for 18 mm, pivots, mm",
        lambda: spring_stress.stable_free_length(18.0, 1.0, 30e6, 11.5e6),
        47.34,
        0.1,
    ),
    Check(
        "9-1 stress area M16 x 1.5, mm2",
        lambda: 1e6 * fastener.tensile_stress_area(0.016, 0.0015),
        167.2,
        0.1,
    ),
    Check(
        "9-3 nut factor",
        lambda: fastener.nut_factor(0.018, 0.018 - 0.6134 * 0.0025, 0.0025, 0.15, 0.13),
        0.18343,
        5e-6,
    ),
    Check("22-5 clamp, N", lambda: CLAMP, 1031.1, 0.05),
    Check(
        "22-5 torque, N m",
        lambda: clutch.disc_torque(6, 0.25, CLAMP, clutch.radius_uniform_pressure(0.080, 0.050)),
        102.314,
        0.0005,
    ),
    Check(
        "22-5 mean pressure, N/mm2",
        lambda: clutch.mean_face_pressure(CLAMP, 0.080, 0.050) / 1e6,
        0.084,
        0.0005,
    ),
    Check("22-1 energy lost, N m", lambda: engagement.slip_heat_driven(7.2, 300 * RPM), 3553.06, 0.01),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_nut_factor_is_not_made_with_the_pitch_diameter():
    """With the pitch diameter in place of the mean of nominal and root the printed figure is missed."""
    with_pitch_diameter = fastener.nut_factor(0.018, 0.018 - 0.6495 * 0.0025, 0.0025, 0.15, 0.13)
    assert not math.isclose(with_pitch_diameter, 0.18343, abs_tol=5e-6)
