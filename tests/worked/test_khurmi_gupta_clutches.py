"""R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10: Examples 10.23, 10.27 and 10.30.

10.23: radii 150 and 100 mm, 0.1 N/mm^2 at the inner edge, friction 0.3, two faces, 2500 rpm, uniform wear.
10.27: a motor of 800 kg, radius of gyration 200 mm, at 1250 rpm takes up a rotor of 1300 kg and 180 mm at
rest; 110 and 80 mm, 570 N, friction 0.35, two faces. 10.30: four faces, 0.3, 120 and 60 mm, 25 kW at 1575 rpm
by uniform pressure; 1.25 mm wear on each of eight faces lets out six springs of 13 kN/m, then by uniform
wear.
"""

import pytest

from layshaft.mechanics import clutch, engagement
from tests.worked.check import CLOSED, RPM, Check

CLAMP_23 = 0.1e6 / clutch.peak_face_pressure(1.0, 0.150, 0.100)
TORQUE_23 = clutch.disc_torque(2, 0.3, CLAMP_23, clutch.radius_uniform_wear(0.150, 0.100))

MOTOR, ROTOR, SPEED = 800 * 0.2**2, 1300 * 0.18**2, 1250 * RPM
TORQUE_27 = clutch.disc_torque(2, 0.35, 570, clutch.radius_uniform_wear(0.110, 0.080))

NEW = clutch.clamp_for_torque(25_000 / (1575 * RPM), 4, 0.3, clutch.radius_uniform_pressure(0.120, 0.060))
WORN = NEW - 6 * 13_000 * 8 * 0.00125
TORQUE_30 = clutch.disc_torque(4, 0.3, WORN, clutch.radius_uniform_wear(0.120, 0.060))


def slip_time(on_motor: float = 0.0, on_rotor: float = 0.0) -> float:
    """Time of 10.27 with an outside torque on either side."""
    return engagement.slip_time(MOTOR, SPEED, ROTOR, 0.0, TORQUE_27, on_motor, on_rotor)


CHECKS = [
    Check("10.23 clamp, N", lambda: CLAMP_23, 3141.593, 0.01, CLOSED),
    Check("10.23 torque, N m", lambda: TORQUE_23, 235.6194, 0.001, CLOSED),
    Check("10.23 power, kW", lambda: TORQUE_23 * 2500 * RPM / 1000, 61.685, 0.0005),
    Check(
        "10.27 common speed, rad/s", lambda: engagement.common_speed(MOTOR, SPEED, ROTOR, 0.0), 56.51, 0.005
    ),
    Check("10.27 slip time, s", slip_time, 62.8, 0.05),
    # Printed to three figures; exact 155 794 J.
    Check("10.27 heat, J", lambda: engagement.slip_heat(MOTOR, ROTOR, SPEED), 156_000, 500),
    Check("10.27 slip time with 60 N m against the motor, s", lambda: slip_time(-60.0), 33.1, 0.05),
    # Printed 624, cut off; exact 624.9.
    Check("10.27 slip time with 60 N m driving the motor, s", lambda: slip_time(60.0), 624, 1.5),
    # Printed 1353, cut off; exact 1353.36.
    Check("10.30 clamp when new, N", lambda: NEW, 1353, 0.5),
    Check("10.30 power when worn, kW", lambda: TORQUE_30 * 1575 * RPM / 1000, 10.21, 0.005),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
