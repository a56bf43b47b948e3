"""One level of the search: states, the moves that can be made at once, and what can come next.

A state is (moves made, attitude, session, tool in hand). A level counts some kinds of cost and takes the
others as free; the less it counts, the fewer states it has, and its exact costs to go are then lower bounds
for the levels that count more (each counts all that the level below it does).

Why moves may be made at once. Take any legal order, and let move i be possible now, at no cost but its own,
by a way whose own cost is the least of all its ways; let i be required, or its own cost nothing; let making
it newly meet no clause of a fall rule that still matters. Move i to the front of that order. Clauses, "is on
the bench" and "is lighter" only ever grow with the moves made, so every other step stays legal and
no turn gets dearer; leaving i out at its old place can only save a set-up or a tool change. So nothing is
lost by making all such moves first: a state is *closed* when none is left. Moves that fail the test (a way
that is not the cheapest, an optional move, one that brings a fall rule nearer) are branched over.
"""

from typing import NamedTuple

from layshaft.plan.sequence.table import OUTSIDE, Table, WayRow


class State(NamedTuple):
    """Where the work stands at one level; what the level takes as free is 0."""

    made: int
    attitude: int
    session: int
    tool: int


class Link(NamedTuple):
    """A way from one closed state to another: its cost, and the settings and moves on it, in order."""

    cost: int
    state: State
    trail: tuple[tuple[str, int, int], ...]


class Level:
    """A view of a table that counts own costs, turns, presses, tools and minutes as told."""

    def __init__(
        self,
        table: Table,
        goal: int,
        *,
        has_turns: bool = True,
        has_presses: bool = True,
        tools: frozenset[int] | None = None,
        has_minutes: bool = True,
        is_whole: bool = False,
    ) -> None:
        """Say what this level counts; `tools` are the tools whose changes count (None: all).

        A whole level also writes down each session it enters, even one that costs nothing.
        """
        self.table = table
        self.goal = goal
        self.has_turns = has_turns
        self.tools = frozenset(range(1, len(table.tools) + 1)) if tools is None else tools
        self.press_cost = table.pack("presses") if has_presses else 0
        self.minute = table.pack("minutes") if has_minutes else 0
        self.risk = table.pack("risk")
        self.tool_cost = table.pack("tools")
        self.gram = table.pack("turns")
        self.entry = [row.is_press * self.press_cost + row.minutes * self.minute for row in table.sessions]
        numbers = range(1, len(table.sessions))
        self.free_sessions = [s for s in numbers if not self.entry[s] and not is_whole]
        self.dear_sessions = [s for s in numbers if self.entry[s] or is_whole]
        self.fall_movers = table.fall_movers if has_turns else 0
        self.dear_bits = sum(1 << s for s in self.dear_sessions)
        self.attitude_count = len(table.problem.attitudes) if has_turns else 1
        self.turn_floor: Level | None = None
        self._is_heavy: dict[State, bool] = {}
        self.rows = [self._own_rows(ways) for ways in table.ways]
        self._lists: dict[tuple[int, int], list[tuple[WayRow, int]]] = {}

    def _own_rows(self, ways: tuple[WayRow, ...]) -> list[tuple[WayRow, int, bool]]:
        """Each way with its own cost here, and whether it may be made at once."""
        owns = [w.risk * self.risk + w.minutes * self.minute for w in ways]
        least = min(owns, default=0)
        return [
            (w, own, own == least and (own == 0 or bool(w.bit & self.goal)))
            for w, own in zip(ways, owns, strict=True)
        ]

    def attitude_bit(self, attitude: int) -> int:
        """The attitude as a bit, or all of them where turning is free."""
        return 1 << attitude if self.has_turns else self.table.every_attitude

    def state(self, made: int, attitude: int, session: int, tool: int) -> State:
        """These settings as this level sees them."""
        return State(
            made,
            attitude if self.has_turns else 0,
            session if self.dear_bits >> session & 1 else OUTSIDE,
            tool if tool in self.tools else 0,
        )

    def open_sessions(self, made: int, attitude: int, session: int) -> int:
        """The sessions, as bits, in which a move can be made here at no cost; bit 0 is outside."""
        if session:
            return 1 << session
        found = 1
        for number in self.free_sessions:
            if self._can_enter(number, made, attitude):
                found |= 1 << number
        return found

    def _can_enter(self, session: int, made: int, attitude: int) -> bool:
        row = self.table.sessions[session]
        if not (row.attitudes & self.attitude_bit(attitude) or row.above & made):
            return False
        return self.table.is_met(row.clauses, made)

    def _listed(self, session: int, tool: int) -> list[tuple[WayRow, int]]:
        """The ways that may be made at once in this session with this tool, cheapest own cost."""
        found = self._lists.get((session, tool))
        if found is None:
            here = 1 << session if session else 1 | sum(1 << s for s in self.free_sessions)
            found = [
                (row, own)
                for ways in self.rows
                for row, own, is_quick in ways
                if is_quick and row.sessions & here and (row.tool not in self.tools or row.tool == tool)
            ]
            self._lists[session, tool] = found
        return found

    def close(self, state: State) -> tuple[int, int, list[WayRow]]:
        """All that can be made at once: the moves then made, their own cost, and the ways in order."""
        made, attitude, session, tool = state
        cost = 0
        done: list[WayRow] = []
        here = self.attitude_bit(attitude)
        movers = self.fall_movers
        todo = self._listed(session, tool)
        is_open = self.open_sessions(made, attitude, session)
        is_moving = True
        while is_moving:
            is_moving = False
            rest = []
            for item in todo:
                row, own = item
                bit = row.bit
                if made & bit:
                    continue
                if (row.attitudes & here or row.above & made) and row.sessions & is_open:
                    for clause in row.clauses:
                        if not clause & made:
                            break
                    else:
                        if not bit & movers or self._is_quiet(bit, made):
                            made |= bit
                            cost += own
                            done.append(row)
                            is_moving = True
                            continue
                rest.append(item)
            todo = rest
            if is_moving and self.free_sessions:
                is_open = self.open_sessions(made, attitude, session)
        return made, cost, done

    def _is_quiet(self, bit: int, made: int) -> bool:
        """Whether making this move newly meets no clause of a fall rule that still matters."""
        after = made | bit
        for gone, clauses, _ in self.table.falls:
            if gone & after:
                continue
            for clause in clauses:
                if clause & bit and not clause & made:
                    return False
        return True

    def available(self, made: int) -> list[tuple[WayRow, int]]:
        """Every way whose clauses hold, of moves not yet made, with its own cost."""
        found = []
        for ways in self.rows:
            for row, own, _ in ways:
                if made & row.bit:
                    break
                for clause in row.clauses:
                    if not clause & made:
                        break
                else:
                    found.append((row, own))
        return found

    def is_too_heavy(self, state: State) -> bool:
        """Whether more mass could come off before a turn, at no cost that ranks as high as a turn.

        Turning first is then dearer by that mass, for the rest of the way is no cheaper with less made.
        """
        floor = self.turn_floor
        if floor is None:
            return False
        key = floor.state(state.made, state.attitude, OUTSIDE, 0)
        found = self._is_heavy.get(key)
        if found is None:
            lighter = self.table.mass(floor.close(key)[0])
            found = self._is_heavy[key] = lighter < self.table.mass(state.made)
        return found

    def links(self, state: State) -> list[Link]:
        """Every way on from a closed state that makes at least one move more."""
        return _Fan(self, state).links

    def is_goal(self, made: int) -> bool:
        """Whether all that is wanted has been made."""
        return not self.goal & ~made


class _Fan:
    """The ways on from one state: leave, turn, enter, take another tool, in that order, until a move is made.

    Each setting is closed when it is come to. Where that makes a move, the fan stops there: the state that
    results has a fan of its own. So each chain of settings is looked at once.
    """

    def __init__(self, level: Level, state: State) -> None:
        self.level = level
        self.table = level.table
        self.made = state.made
        self.free = level.available(state.made)
        self.links: list[Link] = []
        self._stay(state, 0, ())
        outside = state
        trail: tuple[tuple[str, int, int], ...] = ()
        if state.session:
            outside = state._replace(session=OUTSIDE)
            trail = (("leave", state.session, 0),)
            if self._land(outside, 0, trail):
                return
            self._stay(outside, 0, trail)
        self._enter(outside, 0, trail)
        self._turn(outside, trail)

    def _turn(self, state: State, trail: tuple[tuple[str, int, int], ...]) -> None:
        if self.level.is_too_heavy(state):
            return
        for attitude in range(self.level.attitude_count):
            here = 1 << attitude
            if attitude == state.attitude or self.table.falling(self.made, here):
                continue
            if not any(row.attitudes & here or row.above & self.made for row, _ in self.free):
                continue
            cost = self.table.mass(self.made) * self.level.gram
            turned = state._replace(attitude=attitude)
            path = (*trail, ("turn", attitude, 0))
            if not self._land(turned, cost, path):
                self._stay(turned, cost, path)
                self._enter(turned, cost, path)

    def _enter(self, state: State, cost: int, trail: tuple[tuple[str, int, int], ...]) -> None:
        wanted = 0
        for row, _ in self.free:
            wanted |= row.sessions
        for session in self.level.dear_sessions:
            if not wanted >> session & 1 or not self.level._can_enter(session, self.made, state.attitude):
                continue
            inside = state._replace(session=session)
            total = cost + self.level.entry[session]
            path = (*trail, ("enter", session, 0))
            if not self._land(inside, total, path):
                self._stay(inside, total, path)

    def _land(self, state: State, cost: int, trail: tuple[tuple[str, int, int], ...]) -> bool:
        made, own, done = self.level.close(state)
        if made == self.made:
            return False
        steps = tuple(("make", row.move, row.way) for row in done)
        self.links.append(Link(cost + own, state._replace(made=made), (*trail, *steps)))
        return True

    def _stay(self, state: State, cost: int, trail: tuple[tuple[str, int, int], ...]) -> None:
        level = self.level
        here = level.attitude_bit(state.attitude)
        is_open = level.open_sessions(self.made, state.attitude, state.session)
        tools = set()
        for row, own in self.free:
            if not row.sessions & is_open or not (row.attitudes & here or row.above & self.made):
                continue
            if row.tool in level.tools and row.tool != state.tool:
                tools.add(row.tool)
            else:
                self._make(state, cost, trail, row, own)
        for tool in sorted(tools):
            taken = state._replace(tool=tool)
            total = cost + level.tool_cost
            if self._land(taken, total, trail):
                continue
            for row, own in self.free:
                if row.tool != tool or not row.sessions & is_open:
                    continue
                if row.attitudes & here or row.above & self.made:
                    self._make(taken, total, trail, row, own)

    def _make(
        self, state: State, cost: int, trail: tuple[tuple[str, int, int], ...], row: WayRow, own: int
    ) -> None:
        after = self.made | row.bit
        if self.level.has_turns:
            here = 1 << state.attitude
            if self.table.falling(after, here) & ~self.table.falling(self.made, here):
                return
        made, more, done = self.level.close(state._replace(made=after))
        steps = (("make", row.move, row.way), *(("make", r.move, r.way) for r in done))
        self.links.append(Link(cost + own + more, state._replace(made=made), (*trail, *steps)))
