"""Springs of the invented demo units as drawn, and the checks that each of them gets."""

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.mechanics import coil, spring, spring_stress
from tests.worked.check import OWN, Check

MM = 1e-3


@dataclass(frozen=True)
class Coil:
    """A spring of the demo as drawn, squared and ground, G = 79.5 GPa; sizes in mm."""

    wire: float
    mean: float
    active: float
    total: float
    free: float
    test: float

    @property
    def rate(self) -> float:
        """N/m."""
        return spring.rate(79.5e9, self.wire * MM, self.mean * MM, self.active)

    def load(self, length: float) -> float:
        """Push at a length in mm."""
        return spring.force(self.rate, self.free * MM, length * MM)

    def energy(self, length: float) -> float:
        """Energy at a length in mm."""
        return spring.stored_energy(self.rate, self.free * MM, length * MM)

    @property
    def solid(self) -> float:
        """mm."""
        return coil.solid_length(self.wire * MM, self.total, "squared ground") / MM

    def stress(self, length: float) -> float:
        """MPa with Wahl's factor."""
        wahl = spring_stress.wahl_factor(coil.index(self.mean, self.wire))
        return spring_stress.shear_stress(self.load(length), self.wire * MM, self.mean * MM, wahl) / 1e6

    @property
    def mass(self) -> float:
        """kg."""
        return coil.mass(7850.0, self.wire * MM, self.mean * MM, self.total)


def of_spring(
    name: str,
    it: Coil,
    rate: float,
    load: float,
    stress: float,
    solid: float,
    stress_solid: float | None = None,
    energy: float | None = None,
    mass: float | None = None,
) -> Iterator[Check]:
    """Checks of one spring: N/mm, N, MPa, mm, MPa, J, kg."""
    yield Check(f"{name} rate", lambda: it.rate / 1000, rate, 0.0005, OWN)
    yield Check(f"{name} load at its test length", lambda: it.load(it.test), load, 0.0005, OWN)
    yield Check(f"{name} stress there", lambda: it.stress(it.test), stress, 0.0005, OWN)
    yield Check(f"{name} solid length", lambda: it.solid, solid, 0.0005, OWN)
    if stress_solid is not None:
        yield Check(f"{name} stress when solid", lambda: it.stress(it.solid), stress_solid, 0.0005, OWN)
    if energy is not None:
        yield Check(f"{name} energy there", lambda: it.energy(it.test), energy, 0.0005, OWN)
    if mass is not None:
        yield Check(f"{name} mass", lambda: it.mass, mass, 0.0005, OWN)
