"""The tower of levels that proves the least cost of an order.

From the ground up: what is highest in rank first, everything else free; then one kind of cost more at each
floor. Tools come as a tree: one floor for each tool alone, then for two together, and so on up to all of
them; a change goes to one tool, so bounds of tools kept apart may be added. The top floor counts everything.
"""

from layshaft.plan.sequence.bound import Visits
from layshaft.plan.sequence.level import Level, Link, State
from layshaft.plan.sequence.search import Bound, Budget, Search
from layshaft.plan.sequence.table import Table


class Tower:
    """All levels of one problem, from the ground floor to the top."""

    def __init__(self, table: Table, goal: int, budget: Budget) -> None:
        """Build the floors in the rank that the table packs costs by; `goal` is what must be made."""
        self.table = table
        self.goal = goal
        self.budget = budget
        self.visits = Visits(table, goal)
        self.shared: dict[str, bool] = {"has_turns": False, "has_presses": False, "has_minutes": False}
        self.least = {name: self._least(name) for name in ("risk", "minutes")}
        self.turn_floor: Level | None = None
        self._sums: dict[tuple[str, int], int] = {}
        search: Search | None = None
        self.floors: list[Search] = []
        for name in table.rank[1:]:
            search = self._floor(name, search)
            self.floors.append(search)
        assert search is not None
        below = search
        whole = Level(table, goal, is_whole=True)
        whole.turn_floor = self.turn_floor
        self.top = Search(
            whole, [lambda state: below.value(*state)], budget
        )

    def _least(self, name: str) -> list[tuple[int, int]]:
        found = []
        for index, ways in enumerate(self.table.ways):
            amount = min((getattr(row, name) for row in ways), default=0)
            if amount and self.goal >> index & 1:
                found.append((1 << index, self.table.pack(name, amount)))
        return found

    def own_left(self, name: str, made: int) -> int:
        """Risk or minutes that all wanted moves not yet made must cost, packed."""
        rows = self.least[name]
        if not rows:
            return 0
        key = (name, made)
        found = self._sums.get(key)
        if found is None:
            found = self._sums[key] = sum(amount for bit, amount in rows if not bit & made)
        return found

    def _floor(self, name: str, below: Search | None) -> Search:
        if name == "tools":
            return self._tools(tuple(range(1, len(self.table.tools) + 1)), below)
        if name == "turns":
            self.shared["has_turns"] = True
            bound = self._turns_bound(below)
        elif name == "presses":
            self.shared["has_presses"] = True
            bound = self._presses_bound(below)
        else:
            self.shared["has_minutes"] = True
            bound = self._minutes_bound(below)
        every_tool = frozenset(range(1, len(self.table.tools) + 1))
        tools = every_tool if self._is_above("tools", name) else frozenset()
        level = Level(self.table, self.goal, tools=tools, **self.shared)
        if name == "turns":
            self.turn_floor = level
        level.turn_floor = self.turn_floor
        return Search(level, [*self._step(below), bound], self.budget)

    def _is_above(self, first: str, second: str) -> bool:
        return self.table.rank.index(first) < self.table.rank.index(second)

    def _ground(self, below: Search | None, state: State) -> int:
        return self.own_left("risk", state.made) if below is None else below.value(*state)

    def _visit_bound(self, kind: str, below: Search | None, settings: list[int], cost: int) -> Bound:
        def bound(state: State) -> int:
            found = self._ground(below, state)
            if found >= self.table.never:
                return found
            here = {"attitude": state.attitude, "session": state.session, "tool": state.tool}[kind]
            for index in settings:
                visits = self.visits.count(kind, index, state.made, here == index)
                if visits is None:
                    return self.table.never
                found += visits * cost
            return found

        return bound

    def _turns_bound(self, below: Search | None) -> Bound:
        settings = list(range(len(self.table.problem.attitudes)))
        return self._visit_bound("attitude", below, settings, self.table.pack("turns"))

    def _presses_bound(self, below: Search | None) -> Bound:
        settings = [s for s, row in enumerate(self.table.sessions) if row.is_press]
        return self._visit_bound("session", below, settings, self.table.pack("presses"))

    def _minutes_bound(self, below: Search | None) -> Bound:
        return lambda state: self._ground(below, state) + self.own_left("minutes", state.made)

    def _tools(self, tools: tuple[int, ...], below: Search | None) -> Search:
        level = Level(self.table, self.goal, tools=frozenset(tools), **self.shared)
        level.turn_floor = self.turn_floor
        if len(tools) < 2:
            bound = self._visit_bound("tool", below, list(tools), self.table.pack("tools"))
            return Search(level, [*self._step(below), bound], self.budget)
        half = len(tools) // 2
        left, right = self._tools(tools[:half], below), self._tools(tools[half:], below)
        return Search(level, [*self._step(below), *self._sum_bounds(left, right)], self.budget)

    def _step(self, below: Search | None) -> list[Bound]:
        return [] if below is None else [lambda state: below.value(*state)]

    def _sum_bounds(self, left: Search, right: Search) -> list[Bound]:
        mask = ((1 << self.table.width["tools"]) - 1) << self.table.shift["tools"]
        never = self.table.never

        def bound(state: State) -> int:
            found = left.value(*state)
            if found >= never:
                return found
            return found + (right.value(*state) & mask)

        return [lambda state: left.value(*state), bound]

    def start(self) -> State:
        """The state now, as the top floor sees it."""
        table = self.table
        attitude = table.attitude_number[table.problem.start]
        return self.top.level.state(table.start_made, attitude, table.start_session, table.start_tool)

    def solve(self) -> list[Link] | None:
        """The links of a cheapest order, the first one closing the state now; None where there is none."""
        start = self.start()
        made, own, done = self.top.level.close(start)
        closed = start._replace(made=made)
        first = Link(own, closed, tuple(("make", row.move, row.way) for row in done))
        links = self.top.run(closed)
        if self.top.exact[closed] >= self.table.never:
            return None
        return [first, *links]

    def best_bound(self) -> int:
        """The highest floor whose cost from the state now is known already, packed; 0 where none is."""
        start = self.start()
        found = 0
        for floor in self.floors:
            state = floor.level.state(*start)
            if state in floor._starts:
                found = max(found, floor._starts[state])
        return found
