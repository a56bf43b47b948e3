"""The invented Overtop add-on overdrive (OT4, OT5, OT6): its plain mechanics, typed here afresh.

The project's own cases, no published figures; maker and unit are made up.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

import pytest

from layshaft.mechanics import clutch, coil, contact, gear, oneway, piston, planet, press, release, spring
from layshaft.mechanics.capacity import greatest_load
from layshaft.mechanics.speed import ratio, whole_turns
from layshaft.mechanics.torque import coupling_torques
from layshaft.mechanics.train import Coupling, Train, planetary
from tests.worked.check import OWN, Check
from tests.worked.demo import MM, Coil, of_spring

AMBER = Coil(11.0, 88.0, 3.25, 5.25, 132.3, 76.0)
WHITE = Coil(11.5, 88.0, 3.25, 5.25, 132.7, 76.0)
RETURN = Coil(1.2, 9.6, 7.0, 9.0, 25.8, 17.0)

SPRINGS = [
    *of_spring("amber", AMBER, 65.693, 3698.494, 737.272, 57.75, 976.264, 104.113, 1.083),
    *of_spring("white", WHITE, 78.476, 4449.592, 782.225, 60.375, 997.785, 126.146, 1.183),
    *of_spring("piston return", RETURN, 3.327, 29.28, 490.455, 10.8, mass=0.002),
    Check("amber load when solid", lambda: AMBER.load(AMBER.solid), 4897.384, 0.0005, OWN),
    Check("white load when solid", lambda: WHITE.load(WHITE.solid), 5675.78, 0.0005, OWN),
    Check("white index", lambda: coil.index(WHITE.mean, WHITE.wire), 7.652, 0.0005, OWN),
]

# A press pushes the spring 8 mm past its installed 76 mm; free length may be 1.5 mm over the drawn one.
PRESSED = 68.0


def travel(it: Coil) -> float:
    """Let-back to be certain, mm, with 5 mm in hand."""
    return press.release_travel((it.free + 1.5) * MM, PRESSED * MM, 5 * MM) / MM


def lets_go(name: str) -> float:
    """Energy as the sun path takes over, 2.7 mm further out."""
    after = spring.energy_released(AMBER.rate, AMBER.free * MM, 76 * MM, 78.7 * MM)
    return {"jump": after, "left": AMBER.energy(78.7)}[name]


PRESS = [
    Check("W1 amber force", lambda: AMBER.load(PRESSED), 4224.035, 0.0005, OWN),
    Check("W1 amber energy", lambda: AMBER.energy(PRESSED), 135.803, 0.0005, OWN),
    Check("W1 amber travel", lambda: travel(AMBER), 70.8, 1e-9, OWN),
    Check(
        "W1 amber left before solid",
        lambda: press.left_before_solid(PRESSED * MM, AMBER.solid * MM) / MM,
        10.25,
        1e-9,
        OWN,
    ),
    Check("W1 white force", lambda: WHITE.load(PRESSED), 5077.4, 0.0005, OWN),
    Check("W1 white energy", lambda: WHITE.energy(PRESSED), 164.254, 0.0005, OWN),
    Check("W1 white travel", lambda: travel(WHITE), 71.2, 1e-9, OWN),
    Check("W1 white left before solid", lambda: PRESSED - WHITE.solid, 7.625, 1e-9, OWN),
    Check("W2 load after", lambda: AMBER.load(78.7), 3521.124, 0.0005, OWN),
    Check("W2 energy of the jump", lambda: lets_go("jump"), 9.746, 0.0005, OWN),
    Check("W2 energy still held", lambda: lets_go("left"), 94.366, 0.0005, OWN),
    # Masses are given to a gram, half a millimetre a second, on top of half of the last printed digit.
    Check("OT4 speed bound", lambda: release.speed_bound(AMBER.energy(76.0), 3.866), 7.339, 0.001, OWN),
    Check("OT5 speed bound", lambda: release.speed_bound(AMBER.energy(76.0), 4.186), 7.053, 0.001, OWN),
    Check("OT6 speed bound", lambda: release.speed_bound(WHITE.energy(76.0), 4.159), 7.788, 0.001, OWN),
]

SUN, PINION, RING = 36, 24, 84
OVERDRIVE = Train(
    (planetary("set", "sun", "out", "in", SUN, -RING),),
    (Coupling("direct", "sun", "out"), Coupling("brake", "sun"), Coupling("one-way", "in", "out")),
)
AREA = piston.area(176 * MM, 122 * MM)
RACE, ROLLER, FLAT = 48.0, 6.0, 35.591
STRUT = oneway.strut_angle(RACE, ROLLER, FLAT)
STEEL = contact.contact_modulus(206e9, 0.3, 206e9, 0.3)


@dataclass(frozen=True)
class Overtop:
    """A variant: spring, engine N m, plates of clutch and brake, MPa, rollers, roller length and stroke in
    mm.
    """

    spring: Coil
    engine: int
    direct: int
    brake: int
    pressure: float
    rollers: int
    length: float
    stroke: float

    def share(self, closed: str, torque: float) -> float:
        """Torque a coupling bears when it alone holds the set and the carrier is driven."""
        passed = coupling_torques(OVERDRIVE, [closed], {"in": Fraction(torque)}, ["out"])
        return abs(float(passed[closed]))

    @property
    def reverse(self) -> float:
        """Carrier torque in reverse at stall: gear 2.20, converter 1.70."""
        return self.engine * 2.20 * 1.70

    @property
    def launch(self) -> float:
        """Torque through the one-way clutch in first at stall: gear 2.45, converter 1.90."""
        return self.engine * 2.45 * 1.90

    @property
    def capacity(self) -> float:
        """Direct clutch, worn in."""
        middle = clutch.radius_uniform_wear(72 * MM, 56 * MM)
        return clutch.disc_torque(2 * self.direct, 0.12, self.spring.load(76.0), middle)

    @property
    def opened(self) -> float:
        """Push of the spring once let off by the release stroke."""
        return self.spring.load(76.0 - self.stroke)

    @property
    def held_back(self) -> float:
        """All that the piston must hold then: that, and twelve return springs 0.7 mm and a stroke shorter."""
        return self.opened + 12 * RETURN.load(17.0 - 0.7 - self.stroke)

    @property
    def brake_clamp(self) -> float:
        """Clamp of the brake at its least pressure."""
        return piston.force(self.pressure * 1e6, AREA, self.held_back)

    @property
    def brake_capacity(self) -> float:
        """Brake, worn in."""
        middle = clutch.radius_uniform_wear(79 * MM, 57 * MM)
        return clutch.disc_torque(2 * self.brake, 0.12, self.brake_clamp, middle)

    @property
    def oneway_capacity(self) -> float:
        """One-way clutch at 4000 MPa between roller and flat."""
        load = contact.load_at_pressure(4000e6, self.length * MM, ROLLER * MM, STEEL)
        return oneway.torque_at_normal_force(load, self.rollers, RACE * MM, STRUT)

    @property
    def oneway_pressure(self) -> float:
        """Pressure between roller and flat at the launch, MPa."""
        load = oneway.normal_force(self.launch, self.rollers, RACE * MM, STRUT)
        return contact.peak_pressure(load, self.length * MM, ROLLER * MM, STEEL) / 1e6

    @property
    def locked(self) -> float:
        """Carrier torque that the set passes when the one-way clutch is dead."""
        limits = {"direct": (-self.capacity, self.capacity)}
        return greatest_load(OVERDRIVE, ["direct"], {"in": Fraction(1)}, ["out"], limits)[0]


OT4 = Overtop(AMBER, 340, 8, 4, 0.52, 14, 18.0, 2.4)
OT5 = Overtop(AMBER, 440, 10, 4, 0.55, 24, 15.0, 2.8)
OT6 = Overtop(WHITE, 560, 11, 5, 0.66, 24, 15.0, 3.1)
# Clutch needed, capacity, margin; force, pressure to let go; brake clamp, needed, capacity, margin; one-way
# needed, capacity, margin, pressure; torque of the set without its one-way; force to hold at the air check.
EXPECTED = {
    "OT4": (381.48, 454.471, 1.191, 3856.156, 0.343, 2240.793, 102.0, 146.279, 1.434, 1582.7, 2254.493, 1.424,
            3351.466, 1514.903, 4331.293),
    "OT5": (493.68, 568.089, 1.151, 3882.433, 0.346, 2577.704, 132.0, 168.273, 1.275, 2048.2, 3220.705, 1.572,
            3189.853, 1893.629, 4373.541),
    "OT6": (628.32, 751.803, 1.197, 4692.868, 0.411, 3145.54, 168.0, 256.676, 1.528, 2606.8, 3220.705, 1.236,
            3598.64, 2506.01, 5195.954),
}  # fmt: skip


def of_variant(name: str, it: Overtop):
    """Checks of one variant of the overdrive."""
    direct_needed, brake_needed = it.share("direct", it.reverse), it.share("brake", it.engine)
    found = {
        "direct needed": direct_needed,
        "direct capacity": it.capacity,
        "direct margin": it.capacity / direct_needed,
        "force to let go": it.opened,
        "pressure to let go": piston.pressure(it.held_back, AREA) / 1e6,
        "brake clamp": it.brake_clamp,
        "brake needed": brake_needed,
        "brake capacity": it.brake_capacity,
        "brake margin": it.brake_capacity / brake_needed,
        "one-way needed": it.launch,
        "one-way capacity": it.oneway_capacity,
        "one-way margin": it.oneway_capacity / it.launch,
        "one-way pressure": it.oneway_pressure,
        "locked set": it.locked,
        "held at air check": it.held_back,
    }
    for (what, ours), printed in zip(found.items(), EXPECTED[name], strict=True):
        yield Check(f"{name} {what}", lambda ours=ours: ours, printed, 0.0005, OWN)


def refit(it: Overtop, other: Coil) -> Overtop:
    """The variant with the other spring in it."""
    return Overtop(other, it.engine, it.direct, it.brake, it.pressure, it.rollers, it.length, it.stroke)


WRONG_4, WRONG_6 = refit(OT4, WHITE), refit(OT6, AMBER)

CLUTCHES = [
    *(check for name, it in (("OT4", OT4), ("OT5", OT5), ("OT6", OT6)) for check in of_variant(name, it)),
    Check("piston area, mm2", lambda: AREA * 1e6, 12638.6, 0.05, OWN),
    Check("return springs at rest", lambda: 12 * RETURN.load(17.0), 351.362, 0.0005, OWN),
    Check("strut angle", lambda: math.degrees(STRUT), 4.001, 0.0005, OWN),
    Check("W7 white in OT4, brake", lambda: WRONG_4.brake_capacity, 95.244, 0.0005, OWN),
    Check("W7 white in OT4, brake margin", lambda: WRONG_4.brake_capacity / 102.0, 0.934, 0.0005, OWN),
    Check(
        "W7 white in OT4, pressure",
        lambda: piston.pressure(WRONG_4.held_back, AREA) / 1e6,
        0.405,
        0.0005,
        OWN,
    ),
    Check("W7 amber in OT6, direct", lambda: WRONG_6.capacity, 624.898, 0.0005, OWN),
    Check("W7 amber in OT6, margin", lambda: WRONG_6.capacity / 628.32, 0.995, 0.0005, OWN),
    Check("W9 piston at 207 kPa", lambda: piston.force(0.207e6, AREA), 2616.196, 0.0005, OWN),
    Check("W10 loss for each plate, mm", lambda: 0.7 / 11, 0.064, 0.0005, OWN),
]

BETA = math.radians(15.0)
CENTRE = gear.centre_distance(SUN, PINION, 1.75 * MM, BETA)
TIP = gear.tip_diameter(gear.pitch_diameter(PINION, 1.75 * MM, BETA), 1.75 * MM)

GEARS = [
    Check("overdrive ratio", lambda: ratio(OVERDRIVE, ["brake"], "in", "out"), 0.7, 0, OWN),
    Check("direct ratio", lambda: ratio(OVERDRIVE, ["direct", "one-way"], "in", "out"), 1, 0, OWN),
    Check("sun share", lambda: OT4.share("brake", 1.0), 0.3, 1e-12, OWN),
    Check("centre distance, mm", lambda: CENTRE / MM, 54.352, 0.0005, OWN),
    *(
        Check(
            f"tip gap with {n}, mm",
            lambda n=n: planet.neighbour_tip_gap(CENTRE, n, TIP) / MM,
            gap,
            0.0005,
            OWN,
        )
        for n, gap in [(4, 29.884), (5, 16.913), (6, 7.37)]
    ),
    *(
        Check(f"places over {n}", lambda n=n: planet.planet_places(SUN, -RING) / n, places, 0, OWN)
        for n, places in [(4, 30), (5, 24), (6, 20)]
    ),
]

CHECKS = [*SPRINGS, *PRESS, *CLUTCHES, *GEARS]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_whole_turns():
    assert whole_turns(ratio(OVERDRIVE, ["brake"], "in", "out")) == (7, 10, False)


def test_roller_clutch_at_its_limits():
    """W6: each part inside its own limit, and the strut angle past the grip of 0.080."""
    new, race, all_three = (
        oneway.strut_angle(bore / 2, roller / 2, flat)
        for bore, roller, flat in [(96.0, 12.0, 35.591), (96.15, 12.0, 35.591), (96.15, 11.985, 35.55)]
    )
    assert [round(math.degrees(angle), 2) for angle in (new, race, all_three)] == [4.0, 4.35, 4.59]
    assert oneway.is_gripping(race, 0.08)
    assert not oneway.is_gripping(all_three, 0.08)


def test_lightest_hub_alone_is_faster_than_hub_and_pack():
    """Energy under the press over the hub and its pack gives 8.4 to 8.9 m/s, over the hub alone 12.7 or
    more.
    """
    hub = 1.48
    assert release.speed_bound(AMBER.energy(PRESSED), 3.866) == pytest.approx(8.38, abs=0.01)
    assert release.speed_bound(WHITE.energy(PRESSED), 4.159) == pytest.approx(8.89, abs=0.01)
    assert release.speed_bound(AMBER.energy(PRESSED), hub) > 12.7
