"""The invented Twinpath two-speed transfer case: its plain mechanics, typed here afresh.

The project's own cases, no published figures; maker and unit are made up.
"""

import math

import pytest

from layshaft.mechanics import chain, clutch, gear, planet, release
from layshaft.mechanics.speed import ratio, whole_turns
from layshaft.mechanics.train import Coupling, Train, planetary
from tests.worked.check import OWN, Check
from tests.worked.demo import MM, Coil, of_spring

DETENT = Coil(1.8, 11.0, 9.0, 11.0, 38.0, 27.0)
FORK = Coil(3.5, 26.0, 10.0, 12.0, 110.0, 75.0)

SPRINGS = [
    *of_spring("detent", DETENT, 8.709, 95.794, 573.921, 19.8, 949.578, 0.527, 0.008),
    *of_spring("fork return", FORK, 8.485, 296.96, 550.035, 42.0, 1068.64, 5.197, 0.074),
]

RANGES = Train(
    (planetary("set", "in", "ring", "out", 48, -84),),
    (Coupling("low", "ring"), Coupling("high", "in", "out")),
)


TWIN_TIP = gear.tip_diameter(gear.pitch_diameter(18, 1.75 * MM), 1.75 * MM)
TOOTH = gear.tangential_force(900.0, gear.pitch_diameter(48, 1.75 * MM), 4)

CLUTCH_AND_GEARS = [
    Check("Twinpath front capacity", lambda: clutch.disc_torque(16, 0.11, 14_000, 0.054), 1330.6, 0.05, OWN),
    Check(
        "Twinpath face pressure, MPa",
        lambda: clutch.mean_face_pressure(14_000, 0.062, 0.046) / 1e6,
        2.58,
        0.005,
        OWN,
    ),
    Check(
        "Twinpath ramp",
        lambda: clutch.ramp_clamp(35.0, 0.042, math.radians(3.0), 0.9),
        14_311.0,
        0.5,
        OWN,
    ),
    Check("Twinpath low", lambda: ratio(RANGES, ["low"], "in", "out"), 2.75, 0, OWN),
    Check("Twinpath places over 4", lambda: planet.planet_places(48, -84) / 4, 33, 0, OWN),
    Check(
        "Twinpath tip gap, mm",
        lambda: planet.neighbour_tip_gap(57.75 * MM, 4, TWIN_TIP) / MM,
        46.671,
        0.0005,
        OWN,
    ),
    Check("Twinpath tooth force", lambda: TOOTH, 5357.143, 0.0005, OWN),
    Check(
        "Twinpath unit load, MPa",
        lambda: gear.unit_load(TOOTH, 0.030, 1.75 * MM) / 1e6,
        102.041,
        0.0005,
        OWN,
    ),
]

LENGTH = 84 * 9.525 * MM
SPAN = chain.equal_sprocket_centre(84, 9.525 * MM, 35)

CHAIN = [
    Check(
        "B-W1 elongation, %", lambda: 100 * chain.elongation(16.5 * MM, SPAN, LENGTH), 0.3888, 0.00005, OWN
    ),
    Check("B-W1 limit, %", lambda: 100 * chain.elongation(18.0 * MM, SPAN, LENGTH), 0.4627, 0.00005, OWN),
    Check(
        "slack at half a percent, mm",
        lambda: chain.slack_at_elongation(0.005, SPAN, LENGTH) / MM,
        18.71,
        0.005,
        OWN,
    ),
    Check("centre distance, mm", lambda: SPAN / MM, 233.363, 0.0005001, OWN),
    Check("pitch diameter, mm", lambda: chain.pitch_diameter(9.525, 35), 106.259, 0.0005, OWN),
    Check("pull, N", lambda: chain.pull(1100, chain.pitch_diameter(9.525 * MM, 35)), 20_704, 0.5, OWN),
    Check(
        "margin on its breaking load",
        lambda: 90_000 / chain.pull(1100, chain.pitch_diameter(9.525 * MM, 35)),
        4.35,
        0.005,
        OWN,
    ),
]

CHECKS = [*SPRINGS, *CLUTCH_AND_GEARS, *CHAIN]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_whole_turns():
    assert whole_turns(ratio(RANGES, ["low"], "in", "out")) == (11, 4, False)
    assert whole_turns(ratio(RANGES, ["high"], "in", "out")) == (1, 1, False)


def test_ball_speed_of_the_demo_is_no_bound():
    """It takes a third of the spring along. Nothing in the energy forbids a quarter more; see `release`."""
    energy, ball = DETENT.energy(DETENT.test), 0.0041
    assert release.speed_estimate(energy, ball, DETENT.mass) == pytest.approx(12.6, abs=0.05)
    assert release.speed_bound(energy, ball) == pytest.approx(16.0, abs=0.05)
