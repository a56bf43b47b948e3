"""Going along a route phase by phase, fitting into it what ranks below it: press set-ups, then tools.

Within a phase the states are gone through in layers, one change of setting a layer, the most promising kept.
A phase may be left before all its moves are made, where those left over cost the next phase nothing: nothing
heavier is turned for them, and the next phase still comes to all its moves.
"""

from dataclasses import dataclass
from typing import NamedTuple

from layshaft.plan.sequence.level import Level
from layshaft.plan.sequence.table import OUTSIDE, WayRow, indices

ANY = -1
"""A setting that stands for all settings at once."""

Done = tuple[tuple[int, int], ...]
"""Ways by number, each with the session it is made in."""


@dataclass(frozen=True)
class Phase:
    """A stretch in one attitude and one session: the moves made by its end, and the ways that it may use."""

    attitude: int
    session: int
    made: int
    able: tuple[bool, ...]
    rows: tuple[int, ...]


@dataclass(frozen=True)
class Route:
    """Phases in order, from the state now, and the level that knows which costs they are best in."""

    phases: tuple[Phase, ...]
    level: Level


class Spot(NamedTuple):
    """One of the states kept, and how it was come by."""

    made: int
    setting: int
    changes: int
    phase: int
    done: Done
    back: "Spot | None"

    def chain(self) -> "list[Spot]":
        """All spots on the way here, the first one aside."""
        found: list[Spot] = []
        at: Spot | None = self
        while at is not None:
            found.append(at)
            at = at.back
        return found[-2::-1]


class Ahead(NamedTuple):
    """A move of a phase: its setting, and the changes that the chain of moves it holds up needs at least."""

    bit: int
    setting: int
    changes: int


class Walk:
    """The search for few changes of setting along one route; which kind of setting, the subclasses say."""

    def __init__(self, route: Route, goal: int, width: int) -> None:
        """Look once at what each phase must get done before it is left."""
        self.route = route
        self.level = route.level
        self.table = route.level.table
        self.goal = goal
        self.width = width
        self.rank = self._rank()
        self.has_choice = any(len(ways) > 1 for ways in self.table.ways)
        self._allowed: dict[tuple[int, int], list[bool]] = {}
        self.settings = [self.setting_of(row) for row in self.table.rows]
        self.must: list[int] = []
        self.ahead: list[list[Ahead]] = []
        waiting = 0
        for number in range(len(route.phases)):
            candidates = waiting | route.phases[number].made & ~self._before(number)
            self.must.append(self._must(number, candidates))
            waiting = candidates & ~self.must[number]
            self.ahead.append(self._ahead(number))

    def setting_of(self, row: WayRow) -> int:
        """The setting that this way wants, 0 where it wants none."""
        raise NotImplementedError

    def start_setting(self) -> int:
        """The setting now."""
        raise NotImplementedError

    def wanted(self, row: WayRow) -> int:
        """The settings, as bits, that a change to would let this way be used; bit 0 is no setting."""
        raise NotImplementedError

    def sessions_in(self, number: int, setting: int) -> list[int]:
        """The sessions that may be gone through in this setting."""
        raise NotImplementedError

    def suits(self, row: WayRow, setting: int) -> bool:
        """Whether this way may be used in this setting."""
        raise NotImplementedError

    def change(self, spot: Spot, number: int, setting: int) -> Spot:
        """The spot after one change to this setting."""
        made, done = self.spread(spot.made, number, setting)
        return Spot(made, setting, spot.changes + 1, number, done, spot)

    def allowed(self, number: int, setting: int) -> list[bool]:
        """For each way whether this phase may use it in this setting."""
        found = self._allowed.get((number, setting))
        if found is None:
            able = self.route.phases[number].able
            found = [able[row.number] and (setting == ANY or self.suits(row, setting)) for row in self.table.rows]
            self._allowed[number, setting] = found
        return found

    def spread(self, made: int, number: int, setting: int) -> tuple[int, Done]:
        """All that a phase may make in this setting without a change: the moves then made, and how."""
        allowed = self.allowed(number, setting)
        todo = [way for way in self.table.front(made) if allowed[way]]
        if self.has_choice:
            todo.sort(key=self.rank.__getitem__)
        first = made
        fresh: list[int] = []
        done: list[tuple[int, int]] = []
        phase = self.route.phases[number]
        here = self.level.attitude_bit(phase.attitude)
        is_moving = bool(todo)
        while is_moving:
            is_moving = False
            for session in self.sessions_in(number, setting):
                if session not in (phase.session, OUTSIDE) and not self.level.can_enter(session, made, here):
                    continue
                freed, todo, more = self._make_all(made, number, todo, session)
                for way, _ in more:
                    made |= self.table.rows[way].bit
                    is_moving = True
                done += more
                fresh += freed
                todo += [way for way in freed if allowed[way]]
        if made != first:
            self.table.keep_front(made, self.table.front(first), fresh)
        return made, tuple(done)

    def _rank(self) -> list[tuple[int, int]]:
        """Of the ways of one move, the quick ones first; of moves, the lower number."""
        found = []
        for ways in self.table.ways:
            least = min((row.minutes for row in ways), default=0)
            found += [(row.minutes - least, row.number) for row in ways]
        return found

    def _before(self, number: int) -> int:
        return self.route.phases[number - 1].made if number else self.table.start_made

    def _must(self, number: int, candidates: int) -> int:
        """Those of the candidates that this phase cannot leave to the next one."""
        phases = self.route.phases
        if number + 1 == len(phases):
            return candidates & self.goal
        found = 0
        for index in indices(candidates):
            if not self._can_wait(index, phases[number], phases[number + 1]):
                found |= 1 << index
        return found

    def _can_wait(self, index: int, phase: Phase, after: Phase) -> bool:
        table = self.table
        above = table.above[index]
        if after.attitude != phase.attitude and not above & phase.made and table.problem.moves[index].mass:
            return False
        if any(clause >> index & 1 for clause in table.sessions[after.session].clauses):
            return False
        here = self.level.attitude_bit(after.attitude)
        return any(after.able[r.number] and (r.attitudes & here or above & phase.made) for r in table.ways[index])

    def _ahead(self, number: int) -> list[Ahead]:
        """For each move of a phase the fewest changes from there to the last that must be made."""
        table = self.table
        must = self.must[number]
        rows = self.route.phases[number].rows
        used = set(rows)
        to_come: dict[int, tuple[int, int]] = {}
        found = []
        for row in (table.rows[r] for r in reversed(rows)):
            setting = self.settings[row.number]
            changes = 0
            for later in table.waiting[row.move]:
                after = table.rows[later.number].move
                if later.number in used and after in to_come:
                    other, more = to_come[after]
                    changes = max(changes, more - (other == setting != 0))
            if setting and (changes or row.bit & must):
                changes += 1
            to_come[row.move] = (setting, changes)
            if changes:
                found.append(Ahead(row.bit, setting, changes))
        left = must & ~sum(table.rows[r].bit for r in rows)
        for index in indices(left):
            setting = self.settings[table.ways[index][0].number]
            if setting:
                found.append(Ahead(1 << index, setting, 1))
        return found

    def go(self) -> Spot | None:
        """The spot with the fewest changes at the end of the route; None where falls bar the way."""
        spots = [Spot(self.table.start_made, self.start_setting(), 0, 0, (), None)]
        for number in range(len(self.route.phases)):
            spots = self._cross(number, spots)
        return min(spots, key=lambda spot: (spot.changes, -spot.made.bit_count()), default=None)

    def _cross(self, number: int, spots: list[Spot]) -> list[Spot]:
        """Go through one phase, layer by layer; the spots from which the next phase can begin."""
        layers: dict[int, list[Spot]] = {}
        for spot in spots:
            made, done = self.spread(spot.made, number, spot.setting)
            layers.setdefault(spot.changes, []).append(
                Spot(made, spot.setting, spot.changes, number, done, spot)
            )
        ended: list[Spot] = []
        last = None
        while layers:
            changes = min(layers)
            if last is not None and changes > last:
                break
            for spot in self._keep(layers.pop(changes), number):
                if self._can_leave(spot.made, number):
                    ended.append(spot)
                    last = changes + 1 if last is None else last
                for after in self._change(spot, number):
                    layers.setdefault(changes + 1, []).append(after)
        return self._keep(ended, number)

    def _change(self, spot: Spot, number: int) -> list[Spot]:
        """The spots one change on."""
        phase = self.route.phases[number]
        if spot.made == phase.made:
            return []
        rows = self.table.rows
        wanted = 0
        for way in self.table.front(spot.made):
            if phase.able[way] and rows[way].bit & phase.made:
                wanted |= self.wanted(rows[way])
        spots = (self.change(spot, number, setting) for setting in indices(wanted & ~1) if setting != spot.setting)
        return [after for after in spots if after.made != spot.made]

    def _can_leave(self, made: int, number: int) -> bool:
        phases = self.route.phases
        phase = phases[number]
        if self.must[number] & ~made:
            return False
        if made == phase.made or number + 1 == len(phases):
            return True
        after = phases[number + 1]
        here = self.level.attitude_bit(after.attitude)
        if after.attitude != phase.attitude:
            if self.table.mass(made) != self.table.mass(phase.made):
                return False
            if self.table.falls and self.table.falling(made, here):
                return False
        if after.session and not self.level.can_enter(after.session, made, here):
            return False
        return self.spread(made, number + 1, ANY)[0] == after.made

    def _keep(self, spots: list[Spot], number: int) -> list[Spot]:
        """The most promising few, none of which another one beats in moves made in the same setting."""
        kept: list[Spot] = []
        for spot in sorted(spots, key=lambda spot: self._promise(spot, number)):
            if not any(
                other.setting == spot.setting and other.changes <= spot.changes and not spot.made & ~other.made
                for other in kept
            ):
                kept.append(spot)
                if len(kept) == self.width:
                    break
        return kept

    def _promise(self, spot: Spot, number: int) -> tuple[int, int, int, int, int]:
        """The changes that this phase will have cost at least; then short chains, many moves, low numbers."""
        chain = left = 0
        settings = set()
        for bit, setting, changes in self.ahead[number]:
            if not bit & spot.made:
                chain = max(chain, changes - (setting == spot.setting))
                left += changes
                settings.add(setting)
        changes = spot.changes + max(chain, len(settings - {0, spot.setting}))
        return changes, left, -spot.made.bit_count(), spot.setting, spot.made

    def _make_all(
        self, made: int, number: int, todo: list[int], session: int
    ) -> tuple[list[int], list[int], list[tuple[int, int]]]:
        """Make what can be made of these ways in one session: the ways freed, those still to do, those made."""
        phase = self.route.phases[number]
        table = self.table
        here = self.level.attitude_bit(phase.attitude)
        done: list[tuple[int, int]] = []
        fresh: list[int] = []
        is_moving = True
        while is_moving:
            is_moving = False
            rest = []
            for way in todo:
                row = table.rows[way]
                bit = row.bit
                if made & bit or not bit & phase.made:
                    continue
                if (
                    row.sessions >> session & 1
                    and (row.attitudes & here or row.above & made)
                    and not (bit & table.fall_movers and table.lets_fall(row.move, made, here))
                ):
                    made |= bit
                    done.append((way, session))
                    fresh += table.freed(row.move, made)
                    is_moving = True
                else:
                    rest.append(way)
            todo = rest
        return fresh, todo, done
