"""The tower of levels that proves the least cost of an order.

From the ground up: what is highest in rank first, everything else free; then one kind of cost more at each
floor. A floor's exact costs to go are lower bounds for the floor above, and sharp in all fields but its last.
Tools come as several floors: a few tools dear and the others free, and at last all of them (see ``toolset``).
The top floor counts everything and writes every step down.
"""

from layshaft.plan.sequence.bound import Visits
from layshaft.plan.sequence.fan import Link
from layshaft.plan.sequence.landmark import Landmarks
from layshaft.plan.sequence.level import Level, State
from layshaft.plan.sequence.search import Bound, Budget, Search
from layshaft.plan.sequence.table import Table, indices
from layshaft.plan.sequence.toolset import Toolset


class Tower:
    """All levels of one problem, from the ground floor to the top."""

    def __init__(
        self, table: Table, targets: int, budget: Budget, barred: frozenset[int] = frozenset()
    ) -> None:
        """Build the floors in the rank that the table packs costs by; the ways barred are not used."""
        self.table = table
        self.targets = targets
        self.barred = barred
        self.landmarks = Landmarks(table)
        goal = self.goal = self.landmarks.needed(targets, table.start_made)
        self.budget = budget
        self.visits = Visits(table, goal, barred)
        names: tuple[str, ...] = ("risk", "minutes", "moves")
        self.least = {name: self._least(name) for name in names if name in table.rank}
        self._sums: dict[tuple[str, int], int] = {}
        self.turn_floor: Level | None = None
        self.floors: list[Search] = []
        self.start = self._start()
        for name in table.rank:
            if name not in ("risk", "minutes", "tools"):
                self._raise_floor(name)
        self.whole = self.level(table.rank, is_whole=True, is_told=True)

    def floor(self, name: str) -> Search:
        """The floor that counts up to this kind of cost, where tools are not among them."""
        names = [other for other in self.table.rank if other not in ("risk", "minutes", "tools")]
        return self.floors[names.index(name)]

    def _start(self) -> State:
        table = self.table
        attitude = table.attitude_number[table.problem.start]
        return State(table.start_made, attitude, table.start_session, table.start_tool)

    def _least(self, name: str) -> list[tuple[int, int]]:
        found = []
        for index, ways in enumerate(self.table.ways):
            amount = 1 if name == "moves" else min((getattr(row, name) for row in ways), default=0)
            if amount and self.goal >> index & 1:
                found.append((1 << index, self.table.pack(name, amount)))
        return found

    def own_left(self, name: str, made: int) -> int:
        """Risk, minutes or number of all the moves that must still be made, at least, packed."""
        rows = self.least[name]
        if not rows:
            return 0
        key = (name, made)
        found = self._sums.get(key)
        if found is None:
            found = self._sums[key] = sum(amount for bit, amount in rows if not bit & made)
        return found

    def level(self, counted: tuple[str, ...], tools: tuple[int, ...] | None = None, **kind: bool) -> Level:
        """A level that counts these kinds of cost; of the tools only these, where they are named."""
        every_tool = tuple(range(1, len(self.table.tools) + 1)) if "tools" in counted else ()
        level = Level(
            self.table,
            self.goal,
            counted,
            frozenset(every_tool if tools is None else tools),
            barred=self.barred,
            **kind,
        )
        if counted[-1] == "turns" and self.turn_floor is None:
            self.turn_floor = level
        level.turn_floor = self.turn_floor
        return level

    def up_to(self, name: str) -> tuple[str, ...]:
        """The kinds of cost that rank as high as this one, or higher."""
        return self.table.rank[: self.table.rank.index(name) + 1]

    def _below(self) -> list[Bound]:
        return [self.floors[-1].value] if self.floors else []

    def _raise_floor(self, name: str) -> None:
        bounds = self._below()
        if name == "turns":
            bounds.append(self._visit_bound("attitude", list(range(len(self.table.problem.attitudes))), name))
        elif name == "presses":
            presses = [s for s, row in enumerate(self.table.sessions) if row.is_press]
            bounds.append(self._visit_bound("session", presses, name))
        else:
            bounds += self._work_bounds()
        self.floors.append(Search(self.level(self.up_to(name)), bounds, self.budget))

    def _work_bounds(self) -> list[Bound]:
        """What is still to be made costs at least so much; first by what was needed from the start, then from here."""
        amounts: dict[int, int] = {}
        for index, ways in enumerate(self.table.ways):
            for name in ("risk", "minutes", "moves"):
                amount = 1 if name == "moves" else min((getattr(row, name) for row in ways), default=0)
                amounts[1 << index] = amounts.get(1 << index, 0) + self.table.pack(name, amount)

        def quick(state: State, _: int) -> int:
            return sum(self.own_left(name, state.made) for name in ("risk", "minutes", "moves"))

        def sharp(state: State, _: int) -> int:
            needed = self.landmarks.needed(self.targets, state.made)
            return sum(amount for bit, amount in amounts.items() if bit & needed)

        return [quick, sharp]

    def _visit_bound(self, kind: str, settings: list[int], name: str) -> Bound:
        """The floor below, with visits that each setting still needs whatever the others do."""
        below = self.floors[-1].value if self.floors else lambda state, _: self.own_left("risk", state.made)

        def bound(state: State, enough: int) -> int:
            found = below(state, enough)
            if found > enough:
                return found
            here = state.attitude if kind == "attitude" else state.session
            for index in settings:
                visits = self.visits.count(kind, index, state.made, here == index)
                if visits is None:
                    return self.table.never
                found += self.table.pack(name, visits)
            return found

        return bound

    def _raise_tools(self) -> None:
        counted = self.up_to("tools")
        toolset = Toolset(
            self.table, self.goal, lambda tools: self.level(counted, tools), self.floors[-1], self.budget
        )
        self.floors.append(toolset.search(self.start))

    def _top_bounds(self) -> list[Bound]:
        tools = self.floors[-1]
        if self.table.rank[-1] != "minutes":
            return [tools.value]
        presses = self.floors[-2]
        counted = (*self.up_to("presses"), "minutes")
        quick = Search(self.level(counted), [self._with_minutes(presses)], self.budget)
        mask = (1 << self.table.width["minutes"]) - 1

        def bound(state: State, enough: int) -> int:
            found = quick.value(state, enough)
            if found > enough:
                return found
            minutes = found & mask
            return tools.value(state, enough - minutes) + minutes

        return [self._with_minutes(presses), quick.value, bound]

    def _with_minutes(self, floor: Search) -> Bound:
        def bound(state: State, enough: int) -> int:
            minutes = self.own_left("minutes", state.made)
            return floor.value(state, enough - minutes) + minutes

        return bound

    def solve(self) -> list[Link] | None:
        """The links of a cheapest order, the first one closing the state now; None where there is none."""
        self.budget.spend(0)
        self._raise_tools()
        top = Search(self.whole, self._top_bounds(), self.budget)
        first = self.first()
        links = top.run(first.state, self.table.never - 1)
        if top.exact[first.state] >= self.table.never:
            return None
        return [first, *links]

    def first(self) -> Link:
        """What can be made at once from the state now."""
        return self.close_first(self.whole)

    def close_first(self, level: Level) -> Link:
        """What can be made at once from the state now, as this level sees it."""
        start = level.state(*self.start)
        made, own, done = level.close(start)
        return Link(own, level.reached(made, start), tuple(("make", row.move, row.way) for row in done))

    def best_bound(self) -> int:
        """The best that any floor has proved about the state now, packed, with what every order must add to it."""
        made = self.start.made
        found = 0
        for floor in self.floors:
            more = sum(self.own_left(name, made) for name in self.least if not floor.level.weights[name])
            if not floor.level.tools:
                more += self.table.pack("tools", len(self._tools_needed()))
            found = max(found, floor.known(self.start) + more)
        return found

    def _tools_needed(self) -> set[int]:
        """The tools, not in hand now, that some wanted move cannot do without."""
        table = self.table
        needed = set()
        for index in indices(self.goal):
            used = {row.tool for row in table.ways[index]}
            if len(used) == 1:
                needed |= used
        return needed - {0, table.start_tool}
