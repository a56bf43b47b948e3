"""What a release way takes up: its own load, and every other that the same push shortens and lets out.

Two springs under one cover, or one inside the other on seats of their own, come free together. Each is as much shorter
than fitted as the push goes, so that the forces and energies add up, and the last one to be free sets the travel.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from layshaft.plan.held import Held, held_at, most_let_go
from layshaft.plan.length import SAME_LENGTH, Lengths
from layshaft.plan.load import Loads
from layshaft.plan.loaded import Loaded
from layshaft.plan.reaction import ready_state
from layshaft.plan.spring_fact import Band, SpringFact
from layshaft.plan.state import Session, State


@dataclass(frozen=True, slots=True)
class Beside:
    """The other loads that a release way moves: as much as its own, or otherwise (then no figure adds up)."""

    alike: tuple[str, ...] = ()
    otherwise: tuple[str, ...] = ()


def beside(loads: Loads, load: str, release: int, ready: State) -> Beside:
    """Which other loads move with one that is taken up in a state, its retainers taken off, and let out."""
    if loads.bench.unit.loads[load].seats is None:
        return Beside()
    reach = loads.bench.mask(loads.bench.unit.loads[load].releases[release].reach)
    session = Session(load, release)
    start = replace(ready, session=None)
    off = replace(start, detached=start.detached | reach)
    states = (start, replace(start, session=session), replace(off, session=session), off)
    found = tuple(loads.could_be_loaded(state) for state in states)
    pressed = loads.installed_length(load) - loads.pressed_length(load, release)
    if not _is_as_reckoned(loads, load, pressed, found):
        return Beside((), _leant_on(loads, load, start))
    alike: list[str] = []
    otherwise: list[str] = []
    for name in found[0]:
        stages = tuple(one[name] for one in found)
        if name != load and any(one.is_loaded for one in stages[:3]) and _moves(stages):
            (alike if _is_as_reckoned(loads, name, pressed, found) else otherwise).append(name)
    return Beside(tuple(alike), tuple(otherwise))


def _is_as_reckoned(loads: Loads, load: str, pressed: float, found: Sequence[dict[str, Loaded]]) -> bool:
    """Whether a load is shorter than fitted by what is pressed, and held so while the retainers come off."""
    length = loads.installed_length(load) - pressed
    return all(one[load].is_loaded and abs(one[load].length - length) <= SAME_LENGTH for one in found[1:3])


def _leant_on(loads: Loads, load: str, state: State) -> tuple[str, ...]:
    """The loads whose springs push back on one."""
    paths = loads.holding_paths(state, load, loads.bench.gone(state))
    return tuple(sorted({name for path in paths for name in path.leans_on} - {load}))


def beside_now(loads: Loads, load: str, release: int, state: State) -> Beside:
    """The same from a state as it is, with all off that the release way asks to have off."""
    way = loads.bench.unit.loads[load].releases[release]
    return beside(loads, load, release, ready_state(loads.bench, load, way, state))


def _moves(stages: Sequence[Loaded]) -> bool:
    first = stages[0]
    return any(one.is_loaded != first.is_loaded or abs(one.length - first.length) > SAME_LENGTH for one in stages)


@dataclass(frozen=True, slots=True)
class Share:
    """One load of those that a release way takes up: its springs, and how long they are in the whole unit."""

    load: str
    facts: tuple[SpringFact, ...]
    installed: Band

    def shorter(self, by: Band) -> Band:
        """Its length when pressed so far beyond installed [m]."""
        return Band(self.installed.low - by.high, self.installed.nominal - by.nominal, self.installed.high - by.low)


@dataclass(frozen=True, slots=True)
class Taken:
    """All that a release way takes up, its own load first; force and energy are those of all, lengths of the first."""

    shares: tuple[Share, ...]

    @property
    def others(self) -> tuple[str, ...]:
        """The loads beside its own."""
        return tuple(share.load for share in self.shares[1:])

    @property
    def facts(self) -> tuple[SpringFact, ...]:
        """The springs of all."""
        return tuple(fact for share in self.shares for fact in share.facts)

    @property
    def is_pressed(self) -> bool:
        """Whether it has a length, and is not wound."""
        return not any(fact.is_wound for fact in self.shares[0].facts)

    def installed(self) -> Held:
        """As fitted in the whole unit."""
        return _sum(held_at(share.facts, share.installed) for share in self.shares)

    def pressed(self, by: Band) -> Held:
        """Pressed so far beyond installed."""
        return _sum(held_at(share.facts, share.shorter(by)) for share in self.shares)

    def in_state(self, lengths: Lengths, state: State) -> Held:
        """As a state of the unit holds them."""
        return _sum(held_at(share.facts, lengths.in_state(share.load, state)) for share in self.shares)

    def most_let_go(self, by: Band, lengths: Lengths | None, state: State) -> float:
        """The most that they give off from so far beyond installed to a state, or to free without `lengths` [J]."""
        return sum(
            most_let_go(
                share.facts,
                share.shorter(by),
                lengths.in_state(share.load, state) if lengths is not None else None,
            )
            for share in self.shares
        )

    def travel(self, by: Band, margin: float) -> Band:
        """From so far beyond installed until the last is free, and the margin [m]; bands as of the longest springs."""
        lengths = [(max(fact.free.high for fact in share.facts), share.shorter(by)) for share in self.shares]
        return Band(
            max(max(0.0, end - length.high) for end, length in lengths) + margin,
            max(max(0.0, end - length.nominal) for end, length in lengths) + margin,
            max(max(0.0, end - length.low) for end, length in lengths) + margin,
        )


def _sum(parts: Iterable[Held]) -> Held:
    first, *others = parts
    if not others:
        return first
    every = (first, *others)
    return Held(first.length, _added(one.force for one in every), _added(one.energy for one in every))


def _added(bands: Iterable[Band]) -> Band:
    listed = tuple(bands)
    return Band(*(sum(ends) for ends in zip(*((one.low, one.nominal, one.high) for one in listed), strict=True)))


def taken_up(lengths: Lengths, load: str, others: Iterable[str]) -> Taken:
    """A load and those beside it, at the sizes of a job."""
    springs = lengths.loads.springs
    return Taken(tuple(Share(name, springs[name], lengths.installed(name)) for name in (load, *others)))
