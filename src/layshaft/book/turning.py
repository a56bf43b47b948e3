"""A book's gear train as a network of shafts whose speeds can be solved."""

from __future__ import annotations

from fractions import Fraction

from layshaft.book.definition import Coupling, Planetary, Train
from layshaft.mechanics import train as mechanics


def network(train: Train) -> mechanics.Train | None:
    """The train as elements and couplings; nothing where a set in it lacks its sun or its ring.

    The second wheel of an internal mesh is the internal one; an odd number of idlers turns it the other way.
    """
    elements: list[mechanics.Mesh | mechanics.PlanetarySet | mechanics.Chain] = []
    for name, gearset in train.planetaries.items():
        if gearset.sun is None or gearset.ring is None:
            return None
        elements.append(
            mechanics.PlanetarySet(
                name, gearset.sun.shaft, gearset.ring.shaft, gearset.carrier, standing_ratio(gearset)
            )
        )
    for name, mesh in train.meshes.items():
        sign = -1 if mesh.internal != bool(mesh.idlers % 2) else 1
        elements.append(mechanics.Mesh(name, mesh.a.shaft, mesh.b.shaft, mesh.a.teeth, sign * mesh.b.teeth))
    for name, chain in train.chains.items():
        elements.append(mechanics.Chain(name, chain.a.shaft, chain.b.shaft, chain.a.teeth, chain.b.teeth))
    couplings = tuple(_coupling(name, one, train.case) for name, one in train.couplings.items())
    return mechanics.Train(tuple(elements), couplings)


def standing_ratio(gearset: Planetary) -> Fraction:
    """Turns of the sun for one of the ring while the carrier stands still, negative as they turn against each other."""
    if gearset.sun is None or gearset.ring is None:
        raise ValueError("a set without a sun or a ring has no standing ratio")
    first, second = gearset.planet.teeth, gearset.planet.second_teeth or gearset.planet.teeth
    at_sun = first if gearset.sun_on == "first" else second
    at_ring = first if gearset.ring_on == "first" else second
    return Fraction(-gearset.ring.teeth * at_sun, gearset.sun.teeth * at_ring)


def _coupling(name: str, coupling: Coupling, case: str) -> mechanics.Coupling:
    turning = [shaft for shaft in coupling.between if shaft != case] or [case]
    return mechanics.Coupling(name, turning[0], turning[1] if len(turning) > 1 else None)
