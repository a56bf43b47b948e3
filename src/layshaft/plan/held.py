"""A load held at one length: how long, how hard, how much is stored, and how fast a part of it could leave, in bands.

The greatest figures of a state are those of the longest free length, the stiffest rate and the shortest length that
the book and this job's readings allow, taken together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from layshaft.book.definition import Load, Unit
from layshaft.book.spring import solid_length
from layshaft.mechanics.release import speed_bound
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.spring_fact import Band, SpringFact


@dataclass(frozen=True, slots=True)
class Held:
    """A load's springs at one length [m, or rad when wound]: force [N] and stored energy [J], all as bands."""

    length: Band
    force: Band
    energy: Band


@dataclass(frozen=True, slots=True)
class Leaving:
    """The lightest single body that a load could throw, with its mass [kg]."""

    part: str
    mass: float

    def speed(self, energy: float) -> float:
        """What it cannot pass with an energy [m/s], were all of it to go into this one body."""
        return float(speed_bound(energy, self.mass)) if self.mass > 0 else inf


def held_at(facts: Sequence[SpringFact], length: Band) -> Held:
    """What the springs of a load push with and store at a length; what they store when wound by an angle."""
    if any(fact.is_wound for fact in facts):
        energy = [
            sum(rate * angle**2 / 2 for rate in rates)
            for rates, angle in zip(_rates(facts), (length.low, length.nominal, length.high), strict=True)
        ]
        return Held(length, Band(0.0, 0.0, 0.0), Band(*energy))
    ends = (
        [(fact.rate.low, fact.free.low - length.high) for fact in facts],
        [(fact.rate.nominal, fact.free.nominal - length.nominal) for fact in facts],
        [(fact.rate.high, fact.free.high - length.low) for fact in facts],
    )
    force = [sum(rate * max(0.0, short) for rate, short in end) for end in ends]
    energy = [sum(rate * max(0.0, short) ** 2 / 2 for rate, short in end) for end in ends]
    return Held(length, Band(*force), Band(*energy))


def _rates(facts: Sequence[SpringFact]) -> tuple[list[float], list[float], list[float]]:
    return (
        [fact.rate.low for fact in facts],
        [fact.rate.nominal for fact in facts],
        [fact.rate.high for fact in facts],
    )


def free_band(facts: Sequence[SpringFact]) -> Band:
    """The length from which none of a load's springs pushes any more [m]."""
    return Band(*(max(ends) for ends in zip(*((f.free.low, f.free.nominal, f.free.high) for f in facts), strict=True)))


def solid_band(unit: Unit, load: Load, facts: Sequence[SpringFact]) -> Band | None:
    """The length at which a load's coils touch: as drawn, and at the greatest; nothing where the book does not say."""
    greatest = [solid_length(data) if (data := unit.parts[part].spring) is not None else None for part in load.springs]
    if any(length is None for length in greatest):
        return None
    nominal = max(fact.solid for fact in facts)
    return Band(nominal, nominal, max(nominal, *(float(length) for length in greatest if length is not None)))


def lightest_leaving(unit: Unit, load: Load) -> Leaving:
    """The lightest single part that could leave: as the book names them, else a spring or a seat part by itself."""
    seats = [face_part(seat) for seat in load.seats or ()] + list(load.wound_between or ())
    named = load.could_leave or (*load.springs, *(part for part in seats if part != unit.base))
    part = min(named, key=lambda name: (unit.parts[name].mass.low, name))
    return Leaving(part, unit.parts[part].mass.si_low)


def most_let_go(facts: Sequence[SpringFact], before: Band, after: Band | None) -> float:
    """The most energy that a load can give off between two lengths, or on its way to free [J].

    The energy k/2 ((L0 - L1)^2 - (L0 - L2)^2) grows with the rate k, with the free length L0 and with the way from
    the length before, L1, to the length after, L2; so each is taken at the end that gives most.
    """
    if after is None:
        return held_at(facts, before).energy.high
    total = 0.0
    for fact in facts:
        first = max(0.0, fact.free.high - before.low)
        last = max(0.0, fact.free.high - after.high)
        total += fact.rate.high * max(0.0, first**2 - last**2) / 2
    return total


def drafted_note(bench: Bench, load: str) -> tuple[str, ...]:
    """A sentence where nobody, or one person alone, has confirmed a load's data."""
    if bench.unit.loads[load].is_confirmed:
        return ()
    return (f"{load}: load data drafted, not yet confirmed by two people on a real unit.",)
