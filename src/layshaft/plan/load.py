"""Loads in any state of a unit: what is loaded, how hard, what holds it, and what would free it.

Two readings of a part that nobody has looked at: for "what still holds" it counts as gone, for "is it free" as whole.
Weight is left out: over the travel of a held spring it is a small part of the spring's own energy, and a plan never
leans on it (what falls is asked separately, in `may`).
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import cached_property
from itertools import product
from math import inf

from layshaft.book.definition import Load, Release, Stop
from layshaft.book.size import Sizes
from layshaft.mechanics import cut, rest
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.doubt import readings
from layshaft.plan.greatest import greatest
from layshaft.plan.loaded import LET_GO_TRAVEL, Holding, LetGo, Loaded, rank_of, step_between, worse_of
from layshaft.plan.spring_fact import SpringFact, spring_fact
from layshaft.plan.state import Session, State


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
    def _spring_bits(self) -> dict[tuple[str, str], int]:
        pairs = [(name, part) for name, load in self.bench.unit.loads.items() for part in load.springs]
        return {pair: 1 << index for index, pair in enumerate(pairs)}

    @cached_property
    def _spring_breakers(self) -> dict[tuple[str, str], int]:
        loads = self.bench.unit.loads
        return {pair: self.bench.joining((pair[1], *_ends(loads[pair[0]]))) for pair in self._spring_bits}

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
        thinned = self.bench.thinned(state) & ~self.bench.gone(state) & ~self.bench.unknown(state)
        for name, breakers in self.bench.stop_breakers.items():
            lost = self.bench.stop_members[name] & gone
            if breakers & state.detached or (lost and (lost & ~thinned or not self._holds_partly(name, state))):
                continue
            bits |= self._stop_bits[name]
        return bits

    def in_doubt(self, state: State) -> int:
        """Parts that may hold a load and may not, as bits: those not known, and those of which few pieces are left."""
        return self.bench.unknown(state) | self._few(state)

    def _few(self, state: State) -> int:
        unknown = self.bench.unknown(state)
        thinned = self.bench.parts(self.bench.thinned(state))
        few = (part for part in thinned if self.bench.bit(part) & unknown or not self.hold_without(state, part))
        return self.bench.mask(few)

    def hold_without(self, state: State, part: str) -> bool:
        """Whether every stop of a part holds with the pieces of it that are left."""
        bit = self.bench.bit(part)
        return all(
            self._holds_partly(name, state) for name, members in self.bench.stop_members.items() if members & bit
        )

    def _holds_partly(self, name: str, state: State) -> bool:
        rated = self.bench.unit.stops[name].rated_count
        if rated is None:
            return False
        parts = self.bench.unit.parts
        counted = [part for part in self.bench.stop_parts[name] if state.lost_count(part)]
        return all(parts[part].count - state.lost_count(part) >= rated for part in counted)

    def present(self, state: State, gone: int) -> int:
        """The springs that are there between their seats, as bits, with so many parts counted as gone.

        While a release way holds a load, it stands for the seat that it pushes.
        """
        held = self._held_seat(state.session) if state.session else 0
        bits = 0
        for pair, bit in self._spring_bits.items():
            parted = self._spring_breakers[pair] & state.detached
            if state.session is not None and pair[0] == state.session.load:
                parted &= ~held
            if not parted and not self.bench.bit(pair[1]) & gone:
                bits |= bit
        return bits

    def _held_seat(self, session: Session) -> int:
        """The parts within reach on whose side a release way pushes, as bits: it holds what they held."""
        seats = self.bench.unit.loads[session.load].seats
        if seats is None:
            return 0
        pushed = face_part(seats[self._pushed_seat(session)])
        return self.bench.bit(pushed) & self.bench.mask(self._release(session).reach)

    def _release(self, session: Session) -> Release:
        return self.bench.unit.loads[session.load].releases[session.release]

    def _pushed_seat(self, session: Session) -> int:
        """Which of a load's seats a release way pushes: that of the part it pushes, or else the one within reach."""
        release = self._release(session)
        parts = [face_part(seat) for seat in self.bench.unit.loads[session.load].seats or ()]
        if release.pushes is not None and face_part(release.pushes) in parts:
            return parts.index(face_part(release.pushes))
        return next((index for index, part in enumerate(parts) if part in release.reach), 0)

    def is_present(self, load: str, present: int) -> bool:
        """Whether any spring of a load is among those that are there."""
        return any(self._spring_bits[load, part] & present for part in self.bench.unit.loads[load].springs)

    def spring_ids(self, load: str, present: int) -> tuple[str, ...]:
        """What the springs of a load that are there are called in a layout."""
        parts = (fact.part for fact in self.springs[load])
        return tuple(_spring_id(load, part) for part in parts if self._spring_bits[load, part] & present)

    def evaluate(self, state: State, gone: int | None = None) -> dict[str, Loaded]:
        """Every load in a state, unknown parts counted as `gone` says (as whole when not said)."""
        missing = self.bench.gone(state) if gone is None else gone
        key = (self.whole_stops(state, missing), self.present(state, missing), state.session)
        if key not in self._known:
            self._known[key] = self._evaluate(*key[:2], state)
        return self._known[key]

    def has_room(self, state: State) -> bool:
        """Whether the stops that hold let a release way press its load as far as it has to."""
        gone = self.bench.gone(state)
        layout = self.layout(self.whole_stops(state, gone), self.present(state, gone), state)
        return rest.contradiction(layout) is None

    def _evaluate(self, whole: int, present: int, state: State) -> dict[str, Loaded]:
        if state.session is not None and rest.contradiction(self.layout(whole, present, state)) is not None:
            return self._evaluate(whole, present, State())
        drawn = rest.at_rest(self.layout(whole, present, state))
        longest = rest.at_rest(self.layout(whole, present, state, at_longest=True))
        found: dict[str, Loaded] = {}
        for name, load in self.bench.unit.loads.items():
            if not self.is_present(name, present):
                found[name] = self._free(name)
            elif load.seats is None:
                found[name] = self._wound(name, load)
            else:
                found[name] = self._settled(name, present, drawn, longest)
        return found

    def _settled(self, name: str, present: int, drawn: rest.Rest, longest: rest.Rest) -> Loaded:
        """A load from its springs at rest, as drawn and at their longest; by the latter it is loaded or free."""
        facts = {_spring_id(name, fact.part): fact for fact in self.springs[name]}
        ids = self.spring_ids(name, present)
        pressed = [one for one in ids if longest.springs[one].length < facts[one].free.high - LET_GO_TRAVEL]
        if not pressed:
            return self._free(name)
        length = min(longest.springs[one].length for one in ids)
        if any(drawn.springs[one].force > 0 for one in ids):
            length = min(drawn.springs[one].length for one in ids)
        most = greatest(longest, {one: facts[one] for one in ids})
        return Loaded(
            name,
            True,
            length,
            sum(drawn.springs[one].force for one in ids),
            sum(drawn.springs[one].energy for one in ids),
            most[0],
            most[1],
            self._held_by(longest.layout, pressed[0]),
        )

    def _held_by(self, layout: rest.Layout, spring: str) -> tuple[str, ...]:
        """What holds a pressed spring: the shortest path of stops, or the path that leans on other springs."""
        path = rest.longest_length(layout, spring)[1]
        if not path:
            found = cut.paths(layout, spring).found
            path = (*found[0].stops, *found[0].springs) if found else ()
        return tuple(str(link) for link in path if not isinstance(link, rest.Solid))

    def layout(self, whole: int, present: int, state: State, *, at_longest: bool = False) -> rest.Layout:
        """The stops that hold and the springs that push, these as drawn or at their longest."""
        unit = self.bench.unit
        stops = [stop for name, stop in self.stops.items() if whole & self._stop_bits[name]]
        springs = []
        for name, load in unit.loads.items():
            if load.seats is None:
                continue
            first, second = load.seats
            for fact in self.springs[name]:
                if present & self._spring_bits[name, fact.part]:
                    free = fact.free.high if at_longest else fact.free.nominal
                    id_ = _spring_id(name, fact.part)
                    springs.append(rest.Spring(id_, first, second, fact.rate.nominal, free, fact.solid))
            if state.session is not None and state.session.load == name:
                stops.append(self._press(state.session, first, second))
        return rest.Layout(self.points, tuple(stops), tuple(springs), frozenset({unit.base}))

    def _press(self, session: Session, first: str, second: str) -> rest.Stop:
        """A release way as a stop that a hand moves: what it pushes against what it stands on, or seat against seat.

        Against what it stands on where the unit's own contacts say how the two lie to each other; it then holds what
        leans on the pushed part too.
        """
        release = self._release(session)
        over = release.over.si if release.over else 0.0
        ground = next((str(face) for face in self.points if _is_on(str(face), release.stands_on)), None)
        pushed = self._pushed_face(release, (first, second)[self._pushed_seat(session)], (first, second))
        if ground is None or _is_on(ground, face_part(pushed)):
            return rest.Stop(PRESS, first, second, self.pressed_length(session.load, session.release))
        apart = self._place(ground) - self._place(pushed)
        if pushed == first or (pushed != second and apart > 0):
            return rest.Stop(PRESS, pushed, ground, apart - over)
        return rest.Stop(PRESS, ground, pushed, -apart - over)

    def _pushed_face(self, release: Release, seat: str, seats: tuple[str, str]) -> str:
        """A face of the part that is pushed: the seat, or one beyond other springs that press on the load."""
        part = release.pushes
        is_spring = part is not None and self.bench.unit.parts[face_part(part)].spring is not None
        if part is None or is_spring or any(_is_on(one, part) for one in seats):
            return seat
        return next((str(face) for face in self.points if _is_on(str(face), part)), seat)

    def _place(self, face: str) -> float:
        point = self.points[face]
        return self._at_rest_whole.positions[point.body] + float(point.offset)

    def longest_free(self, load: str) -> float:
        """The longest that any spring of a load can be when free [m], or the angle that one wound is free at [rad]."""
        return max(fact.free.high for fact in self.springs[load])

    def breakers(self, load: str) -> int:
        """The parts of which any one detached parts a spring of a load from a seat, as bits."""
        bits = 0
        for part in self.bench.unit.loads[load].springs:
            bits |= self._spring_breakers[load, part]
        return bits

    @cached_property
    def spring_breakers(self) -> dict[str, int]:
        """For each spring, by its id in a layout, the parts of which any one detached parts it from a seat, as bits."""
        return {_spring_id(*pair): breakers for pair, breakers in self._spring_breakers.items()}

    def freeing_clauses(self, load: str, paths: tuple[Holding, ...]) -> tuple[int, ...]:
        """What frees a load: for each spring and each path that holds it, the spring parted or the path broken."""
        each = tuple(self._spring_breakers[load, part] for part in self.bench.unit.loads[load].springs)
        if self.bench.unit.loads[load].seats is None:
            return each
        return tuple(dict.fromkeys(own | path.breakers for own in each for path in paths))

    def holding_paths(self, state: State, load: str, gone: int) -> tuple[Holding, ...]:
        """Every path that would hold a load short of its longest free length, with so many parts counted as gone.

        Shortest first. A path may lean on other springs: parting one of those breaks it too. Where the paths are too
        many to list, one that no part breaks stands for them.
        """
        definition = self.bench.unit.loads[load]
        present = self.present(state, gone)
        if definition.seats is None or not self.is_present(load, present):
            return ()
        layout = self.layout(self.whole_stops(state, gone), present, State(), at_longest=True)
        longest = max(self.spring_ids(load, present), key=lambda one: float(layout.spring(one).free_length))
        found = cut.paths(layout, longest)
        if not found.is_complete:
            return (Holding(0, frozenset()),)
        return tuple(Holding(self._breakers_of(path), self._leant_on(path)) for path in found.found)

    def _leant_on(self, path: cut.Path) -> frozenset[str]:
        ids = {_spring_id(*pair): pair[0] for pair in self._spring_bits}
        return frozenset(ids[str(spring)] for spring in path.springs)

    def _breakers_of(self, path: cut.Path) -> int:
        bits = 0
        for stop in path.stops:
            bits |= self.bench.stop_breakers[str(stop)]
        for spring in path.springs:
            bits |= self.spring_breakers[str(spring)]
        return bits

    def pressed_length(self, load: str, release: int) -> float:
        """How long a load's spring is while its release way holds it [m]."""
        over = self.bench.unit.loads[load].releases[release].over
        return self.installed_length(load) - (over.si if over else 0.0)

    @cached_property
    def installed(self) -> dict[str, float]:
        """Each load's spring length with everything whole and in place [m]."""
        settled = self._evaluate(self._every_stop, self._every_spring, State())
        return {name: loaded.length for name, loaded in settled.items()}

    @cached_property
    def _every_stop(self) -> int:
        return sum(self._stop_bits.values())

    @cached_property
    def _every_spring(self) -> int:
        return sum(self._spring_bits.values())

    @cached_property
    def _at_rest_whole(self) -> rest.Rest:
        return rest.at_rest(self.layout(self._every_stop, self._every_spring, State()))

    def installed_length(self, load: str) -> float:
        """A load's spring length with everything whole and in place [m]."""
        return self.installed.get(load, inf)

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
        doubts = self._readings(before)
        few = self._few(after) & ~self._few(before)
        for gone, fewer in product(doubts or self._ends(before), dict.fromkeys((0, few))):
            then, now = self.evaluate(before, gone), self.evaluate(after, gone | fewer)
            for name in then:
                end = now[name] if doubts else self._free(name)
                step = step_between(then[name], end)
                worst[name] = worse_of(worst[name], step) if name in worst else step
        return tuple(step for step in worst.values() if step.is_felt)

    def jumped(self, before: State, after: State) -> tuple[LetGo, ...]:
        """What every load has let go where parts are found otherwise than they were held to be."""
        then, now = self.evaluate(before), self.evaluate(after)
        return tuple(step for name in then if (step := step_between(then[name], now[name])).is_felt)

    def _readings(self, state: State) -> tuple[int, ...] | None:
        springs = {name: load.springs for name, load in self.bench.unit.loads.items()}
        return readings(self.bench, springs, self.bench.gone(state), self.in_doubt(state))

    def _ends(self, state: State) -> tuple[int, ...]:
        known = self.bench.gone(state)
        return (known, known | self.in_doubt(state))

    def could_be_loaded(self, state: State) -> dict[str, Loaded]:
        """Every load at its worst over what is not known: the view for "is it free"."""
        worst: dict[str, Loaded] = {}
        for gone in self._readings(state) or self._ends(state):
            for name, loaded in self.evaluate(state, gone).items():
                if name not in worst or rank_of(loaded) > rank_of(worst[name]):
                    worst[name] = loaded
        return worst

    def surely_held(self, state: State) -> dict[str, Loaded]:
        """Every load with all that nobody looked at counted as gone: the view for "what still holds"."""
        return self.evaluate(state, self.bench.gone(state) | self.in_doubt(state))


PRESS = "held by its release way"


def _is_on(face: str, part: str | None) -> bool:
    return part is not None and face_part(face) == face_part(part)


def _ends(load: Load) -> tuple[str, ...]:
    return tuple(face_part(seat) for seat in load.seats or ()) + (load.wound_between or ())


def _spring_id(load: str, part: str) -> str:
    return f"{load} / {part}"
