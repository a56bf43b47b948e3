"""T. H. Wentzell, Machine Design: Examples 6.1 to 6.3, 8.2, 8.3, 10.1, 10.2 and 16.5.

8.2: wire 0.105 in, mean diameter 0.620 in, 35 lb at 0.5 in, G = 11.85e6 psi, squared and ground. The pitch of
8.3 is the free length less two wires over the *total* coils, not over the active ones, so it is not compared
here.
"""

import math

import pytest

from layshaft.mechanics import coil, engagement, fastener, fit, piston, press, spring
from tests.worked.check import CLOSED, INCH, LBF, POUND, PSI, Check

WIRE, MEAN = 0.105 * INCH, 0.620 * INCH
ACTIVE = spring.active_coils(11.85e6 * PSI, WIRE, MEAN, 35 * LBF / (0.5 * INCH))
PRELOAD = 0.85 * 85e3 * 0.334 * LBF
SMALL, LARGE = piston.area(1 * INCH), piston.area(3 * INCH)
OIL = piston.pressure(piston.force(100 * PSI, piston.area(4 * INCH)), SMALL)
FOOT_POUND = 12 * INCH * LBF
STOP = 3500 * 73**2 / (2 * 32.2)

CHECKS = [
    Check(
        "8.2 rate of a spring with the printed coils, lb/in",
        lambda: spring.rate(11.85e6 * PSI, WIRE, MEAN, 12.79 - 2) / (LBF / INCH),
        70,
        0.04,
    ),
    Check("8.2 total coils", lambda: ACTIVE + coil.inactive_coils("squared ground"), 12.79, 0.005),
    Check("8.3 free length over mean diameter", lambda: 2 * INCH / MEAN, 3.23, 0.005),
    Check(
        "6.1 torque, lb in",
        lambda: fastener.tightening_torque(PRELOAD, 0.2, 0.75 * INCH) / (LBF * INCH),
        3619.73,
        0.01,
    ),
    Check(
        "6.1 preload from the torque, lb",
        lambda: fastener.preload(3619.725 * LBF * INCH, 0.2, 0.75 * INCH) / LBF,
        24131.5,
        0.5,
    ),
    Check(
        "6.1 share of proof",
        lambda: fastener.proof_share(PRELOAD, 0.334 * INCH**2, 85e3 * PSI),
        0.85,
        1e-9,
        CLOSED,
    ),
    Check(
        "6.2 turn of the nut, degrees",
        lambda: math.degrees(fastener.turn_angle(PRELOAD, 5 * INCH, 0.334 * INCH**2, 30e6 * PSI, 0.1 * INCH)),
        43.35,
        0.005,
    ),
    Check(
        "6.3 rise for a stretch, F",
        lambda: 1.8 * fit.temperature_for_growth(0.01204, 5.0, 1.8 * 6.5e-6),
        370.46,
        0.01,
    ),
    # The bore is printed to half a hundredth of an inch, which is 1.9 lb of force.
    Check(
        "10.1 force of the bore found, lb",
        lambda: piston.force(100 * PSI, piston.area(2.39 * INCH)) / LBF,
        450,
        2.0,
    ),
    Check(
        "10.1 force on the rod side, lb",
        lambda: piston.force(100 * PSI, piston.area(2.5 * INCH, 1 * INCH)) / LBF,
        412.334,
        0.05,
    ),
    Check("10.2 oil pressure, psi", lambda: OIL / PSI, 1600, 0.5),
    Check("10.2 ram force, lb", lambda: press.ram_force(OIL, LARGE) / LBF, 11309.73, 0.01),
    Check("10.2 ram travel, in", lambda: 4 * SMALL / LARGE, 0.44, 0.005),
    Check(
        "16.5 rise of 40 lb of metal, F",
        lambda: (
            1.8 * engagement.lumped_rise(289_619.57 * FOOT_POUND, 40 * POUND, 93 * 1.8 * FOOT_POUND / POUND)
        ),
        77.85,
        0.005,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_heat_of_a_stop_is_that_of_a_rotor_held_at_speed():
    """16.5: 3500 lb at 73 ft/s is 289 619.57 ft lb, here as a rotor of the same mass on a radius of one
    foot.
    """
    inertia = 3500 / 32.2
    assert engagement.slip_heat_driven(inertia, 73.0) == pytest.approx(STOP, abs=1e-6)
    assert pytest.approx(289_619.57, abs=0.01) == STOP
