"""A load held at one length: how long, how hard, how much is stored, and how fast a part of it could leave, in bands.

The greatest figures of a state are those of the longest free length, the stiffest rate and the shortest length that
the book and this job's readings allow, taken together.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from math import inf

from layshaft.book.definition import Load, Stop, Unit
from layshaft.book.size import ZERO, Form, Sizes, Span
from layshaft.book.spring import solid_length
from layshaft.mechanics import cut, rest
from layshaft.mechanics.release import speed_bound
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.load import Loads
from layshaft.plan.spring_fact import Band, SpringFact
from layshaft.plan.state import State

SAME_LENGTH = 1e-6
"""Lengths this close are one [m]: far below what any gauge of a shop shows (own choice)."""


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


def installed_band(loads: Loads, load: str) -> Band:
    """How long a load is with everything whole and in place [m, or rad when wound]."""
    if loads.bench.unit.loads[load].seats is None:
        return _wound_band(loads, load)
    return _length_band(loads, load, State(), loads.installed_length(load))


def length_band(loads: Loads, load: str, state: State) -> Band:
    """How long a load is in a state, at the worst of what is not known [m, or rad when wound]."""
    if loads.bench.unit.loads[load].seats is None:
        return _wound_band(loads, load)
    return _length_band(loads, load, state, loads.could_be_loaded(state)[load].length)


def _wound_band(loads: Loads, load: str) -> Band:
    wound = loads.bench.unit.loads[load].wound
    return Band(wound.si_low, wound.si, wound.si_high) if wound is not None else Band(inf, inf, inf)


def _length_band(loads: Loads, load: str, state: State, nominal: float) -> Band:
    """The band of a length that stops hold, at the worst of every size along them; shared sizes count once.

    Of several paths the shortest holds, so the least of their low ends and the least of their high ends bound it. A
    spring that acts on others is no matter of paths: there every size of the unit may count.
    """
    if nominal == inf or not is_present(loads, state, load):
        return Band(nominal, nominal, nominal)
    found = cut.paths(whole_layout(loads, state), spring_id(loads, load))
    spans = [path_span(loads, load, path.stops) for path in found.found if not path.springs]
    shortest = min((float(span.nominal) for span in spans), default=inf)
    if found.is_complete and abs(shortest - nominal) <= SAME_LENGTH:
        low, high = min(span.low for span in spans), min(span.high for span in spans)
        return Band(float(low), nominal, float(high))
    spread = _spread_of_all(loads)
    return Band(max(0.0, nominal - spread), nominal, nominal + spread)


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


def path_span(loads: Loads, load: str, stops: Iterable[Hashable]) -> Span:
    """The length [m] that a path of stops lets a load get, every size at its worst and shared sizes once."""
    unit, sizes = loads.bench.unit, loads.sizes
    seats = unit.loads[load].seats
    assert seats is not None
    total = _place(sizes, seats[1]).add(_place(sizes, seats[0]), -1)
    plain = Span.exactly(ZERO)
    for name in stops:
        stop = unit.stops[str(name)]
        sign = -1 if stop.toward == unit.axes[unit.axis_of(face_part(stop.a))].start else 1
        total.add(_place(sizes, stop.a), sign).add(_place(sizes, stop.b), -sign)
        form = _gap_form(sizes, stop)
        if form is None:
            plain = plain.plus(sizes.stop_gap(str(name)))
        else:
            total.add(form)
    return sizes.worst(total).plus(plain)


def _place(sizes: Sizes, face: str) -> Form:
    part, _, name = face.partition(" ")
    return sizes.place(part, name)


def _gap_form(sizes: Sizes, stop: Stop) -> Form | None:
    return sizes.chain(stop.at_most) if isinstance(stop.at_most, tuple) else None


def _spread_of_all(loads: Loads) -> float:
    """How far the length of a spring that shares its path with others can be from the drawn one at most [m].

    References
    ----------
    Own derivation: in a net of stops and springs that only push, one size that changes moves no distance by more
    than its own change (as no voltage in a net of resistors and diodes can exceed that of its one source); a rate
    that is off by a share acts like a free length that is off by that share of the shortening.
    """
    total = sum(_off(span) for span in map(loads.sizes.stop_gap, loads.stops))
    faces = {face for stop in loads.bench.unit.stops.values() for face in (stop.a, stop.b)}
    faces |= {seat for load in loads.bench.unit.loads.values() for seat in load.seats or ()}
    total += sum(_off(span) for span in map(loads.sizes.coordinate, faces))
    for facts in loads.springs.values():
        for fact in (fact for fact in facts if not fact.is_wound):
            shortening = fact.free.high - fact.solid
            total += _off(fact.free)
            total += shortening * _off(fact.rate) / fact.rate.nominal
    return total


def _off(span: Span | Band) -> float:
    return float(max(span.high - span.nominal, span.nominal - span.low))


def whole_layout(loads: Loads, state: State) -> rest.Layout:
    """The stops and springs of a state as they are for "is it free": what nobody looked at holds, springs are long."""
    gone = loads.bench.gone(state)
    present = sum(1 << at for at, name in enumerate(loads.bench.unit.loads) if is_present(loads, state, name))
    return loads.layout(loads.whole_stops(state, gone), present, State(), at_longest=True)


def is_present(loads: Loads, state: State, load: str) -> bool:
    """Whether a load's springs are there, between their seats."""
    lost = loads.bench.mask(loads.bench.unit.loads[load].springs) & loads.bench.gone(state)
    return not (loads.breakers(load) & state.detached or lost)


def spring_id(loads: Loads, load: str) -> str:
    """What the first spring of a load is called in a layout."""
    return f"{load} / {loads.springs[load][0].part}"


def drafted_note(bench: Bench, load: str) -> tuple[str, ...]:
    """A sentence where nobody, or one person alone, has confirmed a load's data."""
    if bench.unit.loads[load].is_confirmed:
        return ()
    return (f"{load}: load data drafted, not yet confirmed by two people on a real unit.",)
