"""A unit in a state, written as a sequencing problem: moves, release sessions, falls.

The planner is stricter than "may I?": it never leans on a backup that catches a spring after a jump (see `guard`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from layshaft.book.definition import Way
from layshaft.plan import sequence
from layshaft.plan.bench import Bench, Clause
from layshaft.plan.guard import Guard, guard
from layshaft.plan.held_wrongly import rests_wrongly_held
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State
from layshaft.plan.taken import Beside, beside_now

TENTH_OF_A_MINUTE = 6.0
GRAM = 1e-3


@dataclass(frozen=True, slots=True)
class WayUsed:
    """Which way of the book a way of the problem stands for, and whether it is under a held load."""

    part: str
    way: int
    is_held: bool


class Compiled:
    """The problem of taking a unit apart from a state, and the way back from its numbers to the book."""

    def __init__(
        self,
        bench: Bench,
        loads: Loads,
        state: State,
        wanted: frozenset[str] = frozenset(),
        *,
        is_assembly: bool = False,
        only: frozenset[str] | None = None,
        opens_more: bool = False,
        lets_down: bool = False,
        frees_first: bool = False,
    ) -> None:
        self.bench = bench
        self.loads = loads
        self.state = state
        self.wanted = wanted
        self.is_assembly = is_assembly
        self.only = only
        self.opens_more = opens_more
        self.lets_down = lets_down
        self.frees_first = frees_first
        self.judge = Judge(bench, loads)

    @cached_property
    def move_parts(self) -> tuple[str, ...]:
        """The parts that the moves stand for, in the book's order."""
        return self.bench.movable_in_book_order

    @cached_property
    def move_index(self) -> dict[str, int]:
        """The number of each part's move."""
        return {name: index for index, name in enumerate(self.move_parts)}

    @cached_property
    def session_ways(self) -> tuple[tuple[str, int], ...]:
        """The load and release way that each session stands for."""
        loads = self.bench.unit.loads.items()
        return tuple((name, index) for name, load in loads for index in range(len(load.releases)))

    @cached_property
    def _gone(self) -> int:
        return self.bench.gone(self.state)

    @cached_property
    def live_loads(self) -> tuple[str, ...]:
        """The loads that are, or could be, loaded now."""
        now = self.loads.could_be_loaded(self.state)
        return tuple(name for name, loaded in now.items() if loaded.is_loaded)

    @cached_property
    def guards(self) -> dict[str, Guard]:
        """How each live load is guarded."""
        return {
            name: guard(
                self.bench,
                self.loads,
                self.state,
                name,
                lets_down=self.lets_down,
                frees_first=self.frees_first,
                taken_with=(way for way, names in self.taken_beside.items() if name in names),
            )
            for name in self.live_loads
        }

    @cached_property
    def beside(self) -> dict[tuple[str, int], Beside]:
        """For each release way of a live load the other loads that it moves."""
        return {
            (load, index): beside_now(self.loads, load, index, self.state)
            for load, index in self.session_ways
            if load in self.live_loads
        }

    @cached_property
    def taken_beside(self) -> dict[tuple[str, int], frozenset[str]]:
        """For each release way of a live load the other live loads that it takes up too."""
        live = frozenset(self.live_loads)
        return {way: live.intersection(others.alike) for way, others in self.beside.items()}

    @property
    def is_pushed_back(self) -> bool:
        """Whether any load has to be taken up against another, unless that one is let go first."""
        return any(others.otherwise for others in self.beside.values())

    def touched(self, part: str) -> tuple[str, ...]:
        """The live loads that a part has to mind."""
        bit = self.bench.bit(part)
        return tuple(name for name, guarded in self.guards.items() if bit & guarded.kept)

    def _clause(self, events: int, but: str) -> tuple[int, ...]:
        events &= ~self.bench.bit(but)
        return tuple(self.move_index[name] for name in self.bench.parts(events & self.bench.movable))

    def _clauses(
        self, part: str, clauses: Iterable[Clause], doubted: int = 0
    ) -> list[tuple[int, ...]] | None:
        """The clauses as moves, `doubted` parts holding nothing; None when one of them can never be met."""
        made = []
        for clause in clauses:
            if clause.is_met(self.state.detached, self._gone | doubted):
                continue
            moves = self._clause(clause.events, part)
            if not moves:
                return None
            made.append(moves)
        return made

    @cached_property
    def ways_used(self) -> tuple[tuple[WayUsed, ...], ...]:
        """For each move the book's way behind each of its ways."""
        return tuple(tuple(used for _, used in self._ways[name]) for name in self.move_parts)

    @cached_property
    def _ways(self) -> dict[str, tuple[tuple[sequence.Way, WayUsed], ...]]:
        return {name: tuple(self._ways_of(name)) for name in self.move_parts}

    def _ways_of(self, name: str) -> Iterator[tuple[sequence.Way, WayUsed]]:
        if self.only is not None and name not in self.only and not self.opens_more:
            return
        touched = self.touched(name)
        for index, way in enumerate(self.bench.unit.parts[name].ways):
            needs = self._clauses(name, self.bench.needs[(name, index)])
            if needs is None:
                continue
            plain = self._plain_way(way, needs)
            free = self._freed(name, touched)
            if free is not None:
                yield replace(plain, needs=(*needs, *free)), WayUsed(name, index, False)
            for others, sessions in self.sessions_for(name, touched).items():
                free = self._freed(name, others)
                if free is None:
                    continue
                for held in self._as_it_stands(replace(plain, needs=(*needs, *free)), sessions):
                    yield held, WayUsed(name, index, True)

    def _as_it_stands(self, way: sequence.Way, sessions: frozenset[int]) -> Iterator[sequence.Way]:
        """A way under a held load; none while that is held otherwise than its release way has it, and can be let off.

        It rests then on what surely holds it, until it is taken up again as the unit has to stand.
        """
        stands, now = self._stands_for_release, self._session_now
        if stands is None or now not in sessions:
            yield replace(way, session=sessions)
            return
        if sessions - {now}:
            yield replace(way, session=sessions - {now})
        yield replace(way, session=frozenset({now}), attitudes=stands & (way.attitudes or stands))

    @property
    def _session_now(self) -> int | None:
        session = self.state.session
        return self.session_ways.index((session.load, session.release)) if session else None

    @cached_property
    def _stands_for_release(self) -> frozenset[str] | None:
        """How the unit has to stand where a load is held otherwise now, and hangs on what surely holds it without."""
        session = self.state.session
        if session is None or not rests_wrongly_held(self.judge, self.state):
            return None
        return frozenset(self.bench.unit.loads[session.load].releases[session.release].attitude or ())

    def _plain_way(self, way: Way, needs: Iterable[tuple[int, ...]]) -> sequence.Way:
        fit = way.fit if self.is_assembly else None
        attitude = fit.attitude if fit and fit.attitude is not None else way.attitude
        tool = None if fit and fit.by_hand else fit.tool if fit and fit.tool is not None else way.tool
        time = fit.time if fit and fit.time is not None else way.time
        minutes = round(time.si / TENTH_OF_A_MINUTE)
        return sequence.Way(tuple(needs), frozenset(attitude) if attitude else None, None, tool, minutes)

    def sessions_for(self, name: str, touched: tuple[str, ...]) -> dict[tuple[str, ...], frozenset[int]]:
        """The sessions a part may leave in, its load held there, by the other loads that have to be free by then."""
        bit = self.bench.bit(name)
        found: dict[tuple[str, ...], set[int]] = {}
        for number, (load, release) in enumerate(self.session_ways):
            if load in touched and name in self.bench.unit.loads[load].releases[release].reach:
                others = (other for other in touched if other != load)
                apart = tuple(other for other in others if not self._goes_with(other, load, release, bit))
                found.setdefault(apart, set()).add(number)
        return {others: frozenset(numbers) for others, numbers in found.items()}

    def _goes_with(self, other: str, load: str, release: int, part: int) -> bool:
        """Whether a load is let down with another that is held: taken up beside it, or leaning on it.

        What leans is held only by a release way that stands on the unit itself, not just on the load's other seat.
        """
        if other in self.taken_beside[load, release]:
            return True
        stands = self.bench.unit.loads[load].releases[release].stands_on is not None
        return stands and self.guards[other].eases_with(part, load)

    def _freed(self, part: str, loads: Iterable[str]) -> list[tuple[int, ...]] | None:
        clauses = []
        for load in loads:
            for events in self.guards[load].quiet(self.bench.bit(part)):
                moves = self._clause(events, part)
                if not moves:
                    return None
                clauses.append(moves)
        return clauses

    def _move(self, name: str) -> sequence.Move:
        part = self.bench.unit.parts[name]
        ways = tuple(way for way, _ in self._ways[name])
        is_optional = part.stays_together is not None and name not in self.wanted
        is_optional = is_optional or (self.only is not None and name not in self.only)
        return sequence.Move(name, ways, self._parent(name), self._mass(name), is_optional)

    def _parent(self, name: str) -> int:
        for at in self.bench.tree.chain(self.bench.index[name])[1:]:
            above = self.bench.names[at]
            if above in self.move_index:
                return self.move_index[above]
        return -1

    @cached_property
    def _masses(self) -> dict[str, int]:
        """The grams that leave with each move itself: the part, and what lies in it and has no way of its own."""
        masses = dict.fromkeys((*self.move_parts, self.bench.unit.base), 0)
        for name, part in self.bench.unit.parts.items():
            owner = name if name in self.move_index else self._owner(name)
            masses[owner] += round(part.mass.si * part.count / GRAM)
        return masses

    def _owner(self, name: str) -> str:
        index = self._parent(name)
        return self.move_parts[index] if index >= 0 else self.bench.unit.base

    def _mass(self, name: str) -> int:
        return self._masses[name]

    def _session(self, load: str, index: int) -> sequence.Session:
        release = self.bench.unit.loads[load].releases[index]
        spring = self.bench.unit.loads[load].springs[0]
        needs = self._clauses(spring, self.judge.release_clauses(load, index))
        if needs is None or load not in self.live_loads or self.judge.lost_for(self.state, release):
            return sequence.Session(f"{load}: {release.kind}", ((),))
        needs += [self._clause(events, spring) for events in self.guards[load].before[load, index]]
        taken = (load, *sorted(self.taken_beside[load, index]))
        for other in taken[1:]:
            guarded = self.guards[other]
            needs += [self._clause(events | guarded.seats, spring) for events in guarded.before[load, index]]
        if self.frees_first:
            for guarded in (self.guards[one] for one in self.beside[load, index].otherwise if one in self.guards):
                needs += [self._clause(events, spring) for events in guarded.freeing]
        return sequence.Session(
            f"{load}: {release.kind}",
            tuple(needs),
            frozenset(release.attitude) if release.attitude else None,
            release.kind == "press",
            round(release.time.si / TENTH_OF_A_MINUTE),
            sum(self.loads.could_be_loaded(self.state)[one].greatest_energy for one in taken),
            self._parent(spring),
        )

    def _falls(self) -> Iterator[sequence.Fall]:
        for name in self.move_parts:
            for index in range(len(self.bench.unit.parts[name].ways)):
                attitudes = self.bench.falls_in[(name, index)]
                needs = self._clauses(name, self.bench.needs[(name, index)], self.bench.unknown(self.state))
                if attitudes and needs is not None:
                    yield sequence.Fall(self.move_index[name], tuple(needs), attitudes)

    @cached_property
    def problem(self) -> sequence.Problem:
        """The sequencing problem."""
        off = frozenset(
            index
            for name, index in self.move_index.items()
            if self.state.detached & self.bench.bit(name) or self.state.condition(name) is Condition.MISSING
        )
        return sequence.Problem(
            tuple(self._move(name) for name in self.move_parts),
            tuple(self._session(load, index) for load, index in self.session_ways),
            tuple(self._falls()),
            self.bench.unit.attitudes,
            self.state.attitude or self.bench.unit.starts,
            self._masses[self.bench.unit.base],
            off,
            None,
            self._session_now,
        )

