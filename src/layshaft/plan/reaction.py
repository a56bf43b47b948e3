"""Where a ram's force goes: from the face it pushes, through the spring, by contacts, to what the unit stands on.

A stop that keeps face `b` from going further toward one end passes a push toward that end from `b` on to `a`, and a
push toward the other end from `a` on to `b`. Of several ways the shortest one is tight first and takes the force.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf

from layshaft.book.definition import Release, Unit
from layshaft.mechanics import rest
from layshaft.plan.bench import Bench, Clause, face_part
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.state import State

JUDGED = frozenset({"ring", "bearing", "one-way"})
"""Words in a part's class that ask for a rating before a ram's force may go through it."""
UNSAID = "the book does not say where the force goes"


@dataclass(frozen=True, slots=True)
class Bearer:
    """A part in the way of the force, with what it may carry [N] where the book says, and whether it has to be said."""

    part: str
    rating: float | None
    is_judged: bool


@dataclass(frozen=True, slots=True)
class Reaction:
    """The way of a ram's force: parts and stops in order, toward which end, and the parts that it goes through.

    `shortest` is the length [m] below which the pushed part meets something hard, so that the force has no bound;
    `height` [m] reaches from the pushed part to the far side of what the unit stands on, nothing without their faces.
    """

    toward: str
    parts: tuple[str, ...]
    stops: tuple[str, ...]
    bearers: tuple[Bearer, ...]
    shortest: float
    height: float | None


@dataclass(frozen=True, slots=True)
class _Way:
    """A way through contacts: its parts, its stops, and how far its first part may go beyond its last one [m]."""

    parts: tuple[str, ...]
    stops: tuple[str, ...]
    room: float


def ready_state(bench: Bench, load: str, release: Release, state: State) -> State:
    """The state with all off that has to be out of the way before a release way can be set up."""
    spring = bench.unit.loads[load].springs[0]
    off = state.detached
    for need in release.behind:
        for clause in bench.clauses(spring, need):
            off |= _event(bench, clause, off)
    return _unheld(state, off)


def released_state(bench: Bench, load: str, release: Release, state: State) -> State:
    """The state with all off that a release way asks for and reaches, where the force still has to go somewhere."""
    ready = ready_state(bench, load, release, state)
    reach = bench.mask(release.reach)
    return _unheld(ready, ready.detached | reach)


def _unheld(state: State, detached: int) -> State:
    return State(detached, state.attitude, None, state.partial, state.conditions, broken=state.broken)


def _event(bench: Bench, clause: Clause, detached: int) -> int:
    """The least that meets a clause: a part that is asked for by name, else what carries most."""
    if clause.events & detached or not clause.events:
        return 0
    asked = [part for part in clause.asked if bench.bit(part) & clause.events]
    if asked:
        return bench.bit(asked[0])
    return bench.bit(min(bench.parts(clause.events), key=lambda part: bench.chain_masks[part].bit_count()))


def trace(loads: Loads, load: str, release: Release, state: State, length: float) -> Reaction | Lack:
    """The way of the force of a load that is pressed to a length, or what the book lacks to tell it."""
    unit = loads.bench.unit
    seats = unit.loads[load].seats
    if seats is None or release.pushes is None or release.stands_on is None:
        return _unsaid(load, "the pushed face, the seats or what it stands on is not given", "say all three")
    pushed, floor = face_part(release.pushes), face_part(release.stands_on)
    contacts = _Contacts(loads, released_state(loads.bench, load, release, state))
    first, second = face_part(seats[0]), face_part(seats[1])
    leads = {1: contacts.way(1, pushed, first), -1: contacts.way(-1, pushed, second)}
    signs = [sign for sign, near in ((1, first), (-1, second)) if pushed == near] or [s for s in leads if leads[s]]
    if len(signs) != 1:
        which = "neither seat" if not signs else "both seats"
        return _unsaid(load, f"a push on {pushed} leads to {which} of the spring", f"the stops between {pushed} and it")
    lead = leads[signs[0]]
    far = second if signs[0] == 1 else first
    on = contacts.way(signs[0], far, floor)
    if lead is None or on is None:
        tried = f"stops that lead the push from {far} to {floor}"
        return _unsaid(load, f"no stop leads the push on from {_last(contacts, signs[0], far)} to {floor}", tried)
    return _reaction(loads, load, signs[0], lead, on, contacts.way(signs[0], pushed, floor), length)


def together(ways: Sequence[Reaction | Lack]) -> Reaction | Lack:
    """One way out of those of loads that are taken up together: every part that any of them goes through.

    Where the pushed part meets something hard is the same for all: it is told by the first.
    """
    lack = next((way for way in ways if isinstance(way, Lack)), None)
    if lack is not None:
        return lack
    first, *others = (way for way in ways if isinstance(way, Reaction))
    for way in others:
        first = replace(
            first,
            parts=tuple(dict.fromkeys((*first.parts, *way.parts))),
            stops=tuple(dict.fromkeys((*first.stops, *way.stops))),
            bearers=tuple(_merged((*first.bearers, *way.bearers))),
        )
    return first


def _merged(bearers: Iterable[Bearer]) -> Iterator[Bearer]:
    """Each part once, with the least of what is said of it."""
    found: dict[str, Bearer] = {}
    for bearer in bearers:
        known = found.get(bearer.part, bearer)
        ratings = [one.rating for one in (known, bearer) if one.rating is not None]
        found[bearer.part] = replace(
            bearer, rating=min(ratings, default=None), is_judged=known.is_judged or bearer.is_judged
        )
    yield from found.values()


def _unsaid(load: str, found: str, try_: str) -> Lack:
    return Lack("no reaction path", load, "the book", f"{UNSAID}: {found}", "a whole way for it", try_)


def _last(contacts: _Contacts, sign: int, start: str) -> str:
    reached = contacts.reached(sign, start)
    return ", ".join(reached[:4]) or start


def _reaction(loads: Loads, load: str, sign: int, lead: _Way, on: _Way, hard: _Way | None, length: float) -> Reaction:
    unit = loads.bench.unit
    seats = unit.loads[load].seats
    assert seats is not None
    axis = unit.axes[unit.axis_of(face_part(seats[0]))]
    apart = loads.points[seats[1]].offset - loads.points[seats[0]].offset
    shortest = float(apart) + on.room - hard.room + lead.room if hard is not None else -inf
    # The pushed part beyond what it stands on, along the push, when the spring is pressed to the length.
    ahead = float(apart) - length + on.room + lead.room
    springs = unit.loads[load].springs
    parts = tuple(dict.fromkeys((*lead.parts, *springs, *on.parts)))
    stops = (*lead.stops, *on.stops)
    return Reaction(
        axis.end if sign == 1 else axis.start,
        parts,
        stops,
        _bearers(unit, parts, stops, springs),
        shortest,
        _height(unit, lead.parts[0], on.parts[-1], sign, ahead),
    )


def _height(unit: Unit, pushed: str, floor: str, sign: int, ahead: float) -> float | None:
    top = [sign * face.si for face in unit.parts[pushed].faces.values()]
    bottom = [sign * face.si for face in unit.parts[floor].faces.values()]
    if not top or not bottom:
        return None
    return float(max(bottom) - ahead - min(top))


def _bearers(unit: Unit, parts: Iterable[str], stops: Iterable[str], springs: Iterable[str]) -> tuple[Bearer, ...]:
    of_stop: dict[str, float] = {}
    through = dict.fromkeys(parts)
    for name in stops:
        stop = unit.stops[name]
        through.update(dict.fromkeys(stop.by))
        if stop.rating is not None:
            for part in (face_part(stop.a), face_part(stop.b), *stop.by):
                of_stop[part] = min(stop.rating.si_low, of_stop.get(part, inf))
    found = []
    for part in through:
        definition = unit.parts[part]
        own = definition.rating.si_low if definition.rating is not None else None
        known = [rating for rating in (own, of_stop.get(part)) if rating is not None]
        is_judged = bool(JUDGED & set(definition.class_.split())) and part not in springs
        if known or is_judged:
            found.append(Bearer(part, min(known, default=None), is_judged))
    return tuple(found)


class _Contacts:
    """Which part passes a push on to which, by the stops that are whole in a state."""

    def __init__(self, loads: Loads, state: State) -> None:
        whole = loads.whole_stops(state, loads.bench.gone(state) | loads.in_doubt(state))
        layout = loads.layout(whole, 0, State())
        self.layout: rest.Layout = layout
        self.arcs: dict[int, list[tuple[str, str, float, str]]] = {1: [], -1: []}
        for tail, head, weight, link in layout.differences():
            a, b, room, name = str(tail.body), str(head.body), float(weight), str(link)
            self.arcs[1].append((b, a, room, name))
            self.arcs[-1].append((a, b, room, name))

    def reached(self, sign: int, start: str) -> tuple[str, ...]:
        """The parts a push gets to and from which nothing leads on."""
        seen, waiting, ends = {start}, [start], []
        while waiting:
            part = waiting.pop()
            onward = [b for a, b, _, _ in self.arcs[sign] if a == part]
            if not onward:
                ends.append(part)
            new = [other for other in onward if other not in seen]
            seen.update(new)
            waiting += new
        return tuple(ends)

    def way(self, sign: int, start: str, goal: str) -> _Way | None:
        """The way that is tight first; the stops have been found to fit, so that no round of them gains anything."""
        best: dict[str, _Way] = {start: _Way((start,), (), 0.0)}
        for _ in range(len(self.layout.points)):
            is_settled = True
            for a, b, room, name in self.arcs[sign]:
                if a not in best or b in best[a].parts:
                    continue
                total = best[a].room + room
                if b not in best or (total, len(best[a].stops) + 1) < (best[b].room - 1e-12, len(best[b].stops)):
                    best[b] = _Way((*best[a].parts, b), (*best[a].stops, name), total)
                    is_settled = False
            if is_settled:
                break
        return best.get(goal)
