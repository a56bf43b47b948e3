"""R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 13: Examples 13.6, 13.7, 13.17, 13.19, 13.20, 13.21 and
13.23.

13.19 prints 37.15 rpm and 2692 N m, 13.21 prints 4 rpm and 4401.8 N m, because each rounds a speed on the
way; the exact values by the same equations are used here and not counted.
"""

from fractions import Fraction

import pytest

from layshaft.mechanics.speed import ratio, solve_speeds
from layshaft.mechanics.torque import coupling_torques, solve_torques
from layshaft.mechanics.train import Coupling, Mesh, Train, planetary
from tests.worked.check import CLOSED, RPM, Check


def carried(sun: int, planet: int, ring: int) -> tuple[Mesh, Mesh]:
    """A plain set gear by gear, the planet as a shaft of its own."""
    return (
        Mesh("sun mesh", "sun", "planet", sun, planet, "carrier"),
        Mesh("ring mesh", "planet", "ring", planet, -ring, "carrier"),
    )


RING_HELD = (Coupling("brake", "ring"),)
SET_6 = Train(carried(32, 20, 72), RING_HELD)
TURNS_6 = solve_speeds(SET_6, ["brake"], {"carrier": Fraction(18)})

SET_7 = Train((planetary("set", "sun", "ring", "carrier", 40, -90),))


def carrier_7(ring: Fraction) -> Fraction | None:
    """Turns of the carrier of 13.7 while the sun goes back one turn."""
    return solve_speeds(SET_7, [], {"sun": Fraction(-1), "ring": ring})["carrier"]


# 13.17 in the carrier's frame: C over B is -20/80, F over B is -(20/80)(30/32).
TRAIN_17 = Train(
    (
        planetary("B and C", "B", "C", "carrier", 20, -80),
        planetary("B and F", "B", "F", "carrier", 30 * 20, -80 * 32),
    ),
    (Coupling("C held", "C"),),
)


def stepped(sun: int, planet: int, ring: int, second_planet: int, out: int) -> Train:
    """A sun and fixed ring on one planet gear, an output ring on a second gear of the same planet."""
    return Train(
        (
            Mesh("sun mesh", "sun", "planet", sun, planet, "carrier"),
            Mesh("ring mesh", "planet", "ring", planet, -ring, "carrier"),
            Mesh("out mesh", "planet", "out", second_planet, -out, "carrier"),
        ),
        RING_HELD,
    )


TRAIN_19 = stepped(15, 20, 55, 15, 50)
TRAIN_21 = stepped(14, 43, 100, 41, 98)
DRIVE_21 = Fraction(1850 / (1200 * RPM))

TRAIN_20 = Train((planetary("set", "sun", "ring", "carrier", 16, -64),), RING_HELD)
TORQUES_20 = solve_torques(TRAIN_20, ["brake"], {"sun": Fraction(100)}, ["carrier"])

# 13.23: the second ring is fixed to the first carrier; both suns are on the input.
TRAIN_23 = Train(
    (
        planetary("first", "in", "R", "C1", 30, -120),
        planetary("second", "in", "C1", "out", 24, -120),
    ),
    (Coupling("brake", "R"),),
)
OUT_23 = solve_speeds(TRAIN_23, ["brake"], {"in": Fraction(-1500)})["out"]
DRIVE_23 = Fraction(-7500 / (1500 * RPM))


def held_21() -> float:
    """Torque that holds the ring of 13.21."""
    return abs(coupling_torques(TRAIN_21, ["brake"], {"sun": DRIVE_21}, ["out"])["brake"])


def held_23() -> float:
    """Torque that holds R of 13.23, nothing lost; the book takes an efficiency of 0.8 and prints 66.85."""
    return abs(coupling_torques(TRAIN_23, ["brake"], {"in": DRIVE_23}, ["out"])["brake"])


CHECKS = [
    Check("13.6 sun, rpm", lambda: TURNS_6["sun"], 58.5, 0.05),
    Check("13.6 planet, rpm", lambda: TURNS_6["planet"], -46.8, 0.05),
    Check("13.7a carrier, turns", lambda: carrier_7(Fraction(1, 2)), 0.04, 0.005),
    Check("13.7a carrier exact", lambda: carrier_7(Fraction(1, 2)), 1 / 26, 1e-15, CLOSED),
    Check("13.7b carrier, turns", lambda: carrier_7(Fraction(0)), -0.308, 0.0005),
    Check(
        "13.17a output, rpm",
        lambda: solve_speeds(TRAIN_17, ["C held"], {"B": Fraction(1000)})["F"],
        12.5,
        0.05,
    ),
    Check(
        "13.17b output with C at 10 rpm",
        lambda: solve_speeds(TRAIN_17, [], {"B": Fraction(1000), "C": Fraction(10)})["F"],
        22.4,
        0.05,
    ),
    Check("13.19 output, rpm", lambda: 1000 / ratio(TRAIN_19, ["brake"], "sun", "out"), 37.5, 0.001, CLOSED),
    Check(
        "13.19 output torque, N m",
        lambda: -solve_torques(TRAIN_19, ["brake"], {"sun": Fraction(100)}, ["out"])[0]["out"],
        2666.667,
        0.1,
        CLOSED,
    ),
    Check("13.20 teeth of the ring", lambda: ratio(TRAIN_20, ["brake"], "sun", "carrier"), 5, 0),
    Check("13.20 carrier torque, N m", lambda: -TORQUES_20[0]["carrier"], 500, 0.001, CLOSED),
    Check("13.20 torque holding the ring, N m", lambda: TORQUES_20[1]["brake"]["ring"], 400, 0.5),
    Check(
        "13.21 output, rpm", lambda: 1200 / ratio(TRAIN_21, ["brake"], "sun", "out"), 3.986711, 0.0005, CLOSED
    ),
    Check("13.21 torque holding the ring, N m", held_21, 4416.55, 0.5, CLOSED),
    Check("13.23 output, rpm", lambda: OUT_23, -500, 0.05),
    Check(
        "13.23 torque holding R without losses, N m",
        held_23,
        7500 / (500 * RPM) - 7500 / (1500 * RPM),
        1e-9,
        CLOSED,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_lever_of_13_6():
    """Speeds of sun, carrier and ring lie on one straight line with arms 72 and 32."""
    sun, carrier, ring = (TURNS_6[shaft] for shaft in ("sun", "carrier", "ring"))
    assert (sun - carrier) / 72 == (carrier - ring) / 32 == Fraction(9, 16)
