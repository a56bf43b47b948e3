"""Loads in any state of a unit: what is loaded, how hard, what holds it, and what would free it.

Two readings of a part that nobody has looked at: for "what still holds" it counts as gone, for "is it free" as whole.
Weight is left out: over the travel of a held spring it is a small part of the spring's own energy, and a plan never
leans on it (what falls is asked separately, in `gravity`).
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import inf

from layshaft.book.definition import Load, Stop
from layshaft.book.size import Sizes
from layshaft.mechanics import cut, rest
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.spring_fact import SpringFact, spring_fact
from layshaft.plan.state import State

LET_GO_ENERGY = 0.05
"""Below this many joules nothing is said to be let go [J]: a small screw dropped from a bench has more (own choice)."""
LET_GO_TRAVEL = 5e-5
"""A spring that opens by less than this has not moved [m]: under what a hand or an eye can tell (own choice)."""
MOST_UNKNOWN = 6


@dataclass(frozen=True, slots=True)
class Loaded:
    """One load in one state."""

    load: str
    is_loaded: bool
    length: float
    force: float
    energy: float
    greatest_force: float
    greatest_energy: float
    held_by: tuple[str, ...]
    """The stops that hold it now."""


@dataclass(frozen=True, slots=True)
class LetGo:
    """What one load does when the state changes."""

    load: str
    energy: float
    greatest_energy: float
    travel: float
    still: Loaded

    @property
    def is_felt(self) -> bool:
        """Whether anything is let go at all."""
        return self.greatest_energy > LET_GO_ENERGY or self.travel > LET_GO_TRAVEL


class Loads:
    """The loads of a unit with the sizes of one job."""

    def __init__(self, bench: Bench, sizes: Sizes) -> None:
        self.bench = bench
        self.sizes = sizes
        self._known: dict[tuple[int, int, object], dict[str, Loaded]] = {}

    @cached_property
    def springs(self) -> dict[str, tuple[SpringFact, ...]]:
        """The springs of each load."""
        unit = self.bench.unit
        return {name: tuple(spring_fact(unit, part) for part in load.springs) for name, load in unit.loads.items()}

    @cached_property
    def _stop_bits(self) -> dict[str, int]:
        return {name: 1 << index for index, name in enumerate(self.bench.unit.stops)}

    @cached_property
    def _load_bits(self) -> dict[str, int]:
        return {name: 1 << index for index, name in enumerate(self.bench.unit.loads)}

    @cached_property
    def _load_breakers(self) -> dict[str, int]:
        return {name: self.bench.joining(self._load_parts(load)) for name, load in self.bench.unit.loads.items()}

    def _load_parts(self, load: Load) -> tuple[str, ...]:
        ends = tuple(face_part(seat) for seat in load.seats or ()) + (load.wound_between or ())
        return (*load.springs, *ends)

    @cached_property
    def stops(self) -> dict[str, rest.Stop]:
        """The stops as directed inequalities at this job's sizes."""
        return {name: self._stop(name, stop) for name, stop in self.bench.unit.stops.items()}

    def _stop(self, name: str, stop: Stop) -> rest.Stop:
        axis = self.bench.unit.axes[self.bench.unit.axis_of(face_part(stop.a))]
        gap = float(self.sizes.stop_gap(name).nominal)
        if stop.toward == axis.start:
            return rest.Stop(name, stop.b, stop.a, gap)
        return rest.Stop(name, stop.a, stop.b, gap)

    @cached_property
    def points(self) -> dict[Hashable, rest.Point]:
        """The faces that stops and seats use, on their parts."""
        unit = self.bench.unit
        faces = {face for stop in unit.stops.values() for face in (stop.a, stop.b)}
        faces |= {seat for load in unit.loads.values() for seat in load.seats or ()}
        return {
            face: rest.Point(face_part(face), float(self.sizes.coordinate(face).nominal)) for face in sorted(faces)
        }

    def whole_stops(self, state: State, gone: int) -> int:
        """The stops that hold, as bits, with so many parts counted as gone."""
        bits = 0
        partial = self.bench.mask(name for name, off in state.partial if off)
        for name, breakers in self.bench.stop_breakers.items():
            members = self.bench.stop_members[name]
            if breakers & state.detached or members & gone:
                continue
            if members & partial and not self._holds_partly(name, state):
                continue
            bits |= self._stop_bits[name]
        return bits

    def _holds_partly(self, name: str, state: State) -> bool:
        rated = self.bench.unit.stops[name].rated_count
        if rated is None:
            return False
        parts = self.bench.unit.parts
        counted = [part for part in self.bench.stop_parts[name] if state.off_count(part)]
        return all(parts[part].count - state.off_count(part) >= rated for part in counted)

    def _present(self, state: State, gone: int) -> int:
        bits = 0
        for name, load in self.bench.unit.loads.items():
            lost = self.bench.mask(load.springs) & gone
            if not self._load_breakers[name] & state.detached and not lost:
                bits |= self._load_bits[name]
        return bits

    def evaluate(self, state: State, gone: int | None = None) -> dict[str, Loaded]:
        """Every load in a state, unknown parts counted as `gone` says (as whole when not said)."""
        missing = self.bench.gone(state) if gone is None else gone
        key = (self.whole_stops(state, missing), self._present(state, missing), state.session)
        if key not in self._known:
            self._known[key] = self._evaluate(*key[:2], state)
        return self._known[key]

    def _evaluate(self, whole: int, present: int, state: State) -> dict[str, Loaded]:
        found: dict[str, Loaded] = {}
        lengths = self._lengths(whole, present, state)
        for name, load in self.bench.unit.loads.items():
            if not present & self._load_bits[name]:
                found[name] = self._free(name)
            elif load.seats is None:
                found[name] = self._wound(name, load)
            else:
                length, held_by = lengths[name]
                found[name] = self._loaded(name, length, held_by)
        return found

    def _lengths(self, whole: int, present: int, state: State) -> dict[str, tuple[float, tuple[str, ...]]]:
        layout = self.layout(whole, present, state)
        settled = rest.at_rest(layout)
        lengths = {}
        for name, load in self.bench.unit.loads.items():
            if present & self._load_bits[name] and load.seats is not None:
                first = _spring_id(name, self.springs[name][0])
                longest, path = rest.longest_length(layout, first)
                held_by = tuple(str(stop) for stop in path if stop in self._stop_bits or stop == PRESS)
                at_rest = settled.springs[first]
                length = at_rest.length if at_rest.force > 0 else min(float(longest), self.longest_free(name))
                lengths[name] = (length, held_by)
        return lengths

    def layout(self, whole: int, present: int, state: State, *, at_longest: bool = False) -> rest.Layout:
        """The stops that hold and the springs that push, these as drawn or at their longest."""
        unit = self.bench.unit
        stops = [stop for name, stop in self.stops.items() if whole & self._stop_bits[name]]
        springs = []
        for name, load in unit.loads.items():
            if not present & self._load_bits[name] or load.seats is None:
                continue
            first, second = load.seats
            for fact in self.springs[name]:
                free = fact.free.high if at_longest else fact.free.nominal
                springs.append(rest.Spring(_spring_id(name, fact), first, second, fact.rate.nominal, free, fact.solid))
            if state.session is not None and state.session.load == name:
                stops.append(rest.Stop(PRESS, first, second, self.pressed_length(name, state.session.release)))
        return rest.Layout(self.points, tuple(stops), tuple(springs), frozenset({unit.base}))

    def longest_free(self, load: str) -> float:
        """The longest that any spring of a load can be when free [m], or the angle that one wound is free at [rad]."""
        return max(fact.free.high for fact in self.springs[load])

    def breakers(self, load: str) -> int:
        """The parts of which any one detached parts a load's spring from a seat, as bits."""
        return self._load_breakers[load]

    def holding_paths(self, state: State, load: str, gone: int) -> tuple[int, ...]:
        """For each path that would hold a load short of its longest free length, the parts that break it, as bits.

        Shortest first, with so many parts counted as gone. A path may lean on other springs: parting one of those
        breaks it too. Where the paths are too many to list, one that no part breaks stands for them.
        """
        definition = self.bench.unit.loads[load]
        if definition.seats is None:
            return ()
        layout = self.layout(self.whole_stops(state, gone), self._present(state, gone), State(), at_longest=True)
        found = cut.paths(layout, _spring_id(load, self.springs[load][0]))
        if not found.is_complete:
            return (0,)
        return tuple(self._breakers_of(path) for path in found.found)

    def _breakers_of(self, path: cut.Path) -> int:
        bits = 0
        for stop in path.stops:
            bits |= self.bench.stop_breakers[str(stop)]
        for spring in path.springs:
            bits |= self.breakers(str(spring).split(" / ", 1)[0])
        return bits

    def pressed_length(self, load: str, release: int) -> float:
        """How long a load's spring is while its release way holds it [m]."""
        over = self.bench.unit.loads[load].releases[release].over
        return self.installed_length(load) - (over.si if over else 0.0)

    @cached_property
    def installed(self) -> dict[str, float]:
        """Each load's spring length with everything whole and in place [m]; infinite when nothing would hold it."""
        everything = sum(self._stop_bits.values())
        present = sum(self._load_bits.values())
        lengths = self._lengths(everything, present, State())
        return {name: length for name, (length, _) in lengths.items()}

    def installed_length(self, load: str) -> float:
        """A load's spring length with everything whole and in place [m]."""
        return self.installed.get(load, inf)

    def _loaded(self, name: str, length: float, held_by: tuple[str, ...]) -> Loaded:
        facts = self.springs[name]
        force = sum(_force(fact.rate.nominal, fact.free.nominal, length) for fact in facts)
        energy = sum(_energy(fact.rate.nominal, fact.free.nominal, length) for fact in facts)
        most_force = sum(_force(fact.rate.high, fact.free.high, length) for fact in facts)
        most_energy = sum(_energy(fact.rate.high, fact.free.high, length) for fact in facts)
        if not held_by or length > self.longest_free(name) - LET_GO_TRAVEL:
            return self._free(name)
        return Loaded(name, True, length, force, energy, most_force, most_energy, held_by)

    def _free(self, name: str) -> Loaded:
        return Loaded(name, False, self.longest_free(name), 0.0, 0.0, 0.0, 0.0, ())

    def _wound(self, name: str, load: Load) -> Loaded:
        facts = self.springs[name]
        angle = load.wound.si if load.wound else inf
        energy = sum(0.5 * fact.rate.nominal * angle**2 for fact in facts)
        most = sum(0.5 * fact.rate.high * (load.wound.si_high if load.wound else inf) ** 2 for fact in facts)
        return Loaded(name, True, angle, 0.0, energy, 0.0, most, load.wound_between or ())

    def let_go(self, before: State, after: State) -> tuple[LetGo, ...]:
        """What every load would let go between two states, at the worst over what is not known."""
        worst: dict[str, LetGo] = {}
        for gone in self._readings(before):
            then, now = self.evaluate(before, gone), self.evaluate(after, gone)
            for name in then:
                step = _step(then[name], now[name])
                if name not in worst or step.greatest_energy > worst[name].greatest_energy:
                    worst[name] = step
        return tuple(step for step in worst.values() if step.is_felt)

    def _readings(self, state: State) -> tuple[int, ...]:
        """Every way the parts not looked at could be, or the two ends of it when they are many."""
        known = self.bench.gone(state)
        unknown = tuple(self.bench.parts(self.bench.unknown(state)))
        if not unknown:
            return (known,)
        if len(unknown) > MOST_UNKNOWN:
            return (known, known | self.bench.mask(unknown))
        bits = [self.bench.bit(part) for part in unknown]
        return tuple(known | sum(chosen) for chosen in product(*((0, bit) for bit in bits)))

    def could_be_loaded(self, state: State) -> dict[str, Loaded]:
        """Every load at its worst over what is not known: the view for "is it free"."""
        worst: dict[str, Loaded] = {}
        for gone in self._readings(state):
            for name, loaded in self.evaluate(state, gone).items():
                if name not in worst or (loaded.is_loaded, loaded.greatest_energy) > (
                    worst[name].is_loaded,
                    worst[name].greatest_energy,
                ):
                    worst[name] = loaded
        return worst

    def surely_held(self, state: State) -> dict[str, Loaded]:
        """Every load with all that nobody looked at counted as gone: the view for "what still holds"."""
        return self.evaluate(state, self.bench.gone(state) | self.bench.unknown(state))


PRESS = "held by its release way"


def _spring_id(load: str, fact: SpringFact) -> str:
    return f"{load} / {fact.part}"


def _force(rate: float, free: float, length: float) -> float:
    return max(0.0, rate * (free - length)) if length < inf else 0.0


def _energy(rate: float, free: float, length: float) -> float:
    return 0.5 * rate * max(0.0, free - length) ** 2 if length < inf else 0.0


def _step(before: Loaded, after: Loaded) -> LetGo:
    travel = 0.0 if not before.is_loaded else max(0.0, after.length - before.length)
    return LetGo(
        before.load,
        max(0.0, before.energy - after.energy),
        max(0.0, before.greatest_energy - after.greatest_energy),
        travel,
        after,
    )

