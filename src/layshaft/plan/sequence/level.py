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

from layshaft.plan.sequence.table import OUTSIDE, Table, WayRow, bits


class State(NamedTuple):
    """Where the work stands at one level; what the level takes as free is 0."""

    made: int
    attitude: int
    session: int
    tool: int


class Option(NamedTuple):
    """A way as a level sees it: `tool` is 0 where changing to it is free."""

    bit: int
    attitudes: int
    above: int
    sessions: int
    tool: int
    own: int
    is_quick: bool
    row: WayRow


class Door(NamedTuple):
    """A session as a level sees it: what must be made, and how the unit must stand, to enter it."""

    bit: int
    clauses: tuple[int, ...]
    attitudes: int
    above: int


class Level:
    """A view of a table that counts own costs, turns, presses, tools and minutes as told."""

    def __init__(
        self,
        table: Table,
        goal: int,
        counted: tuple[str, ...],
        tools: frozenset[int],
        *,
        barred: frozenset[int] = frozenset(),
        is_whole: bool = False,
        is_told: bool = False,
    ) -> None:
        """Say what this level counts; `tools` are those whose changes count; the ways `barred` are not used.

        A whole level enters even a session that costs nothing. Where it is told, every link says its steps.
        """
        self.table = table
        self.goal = goal
        self.tools = tools
        self.is_told = is_told
        self.has_turns = "turns" in counted
        self.weights = {name: table.pack(name) if name in counted else 0 for name in table.rank}
        self.tool_cost = table.pack("tools")
        self.gram = table.pack("turns")
        self.entry = [
            row.is_press * self.weights["presses"] + row.minutes * self.weights["minutes"]
            for row in table.sessions
        ]
        numbers = range(1, len(table.sessions))
        self.dear_sessions = [s for s in numbers if self.entry[s] or is_whole]
        self.dear_bits = sum(1 << s for s in self.dear_sessions)
        self.doors = [Door(1 << s, r.clauses, r.attitudes, r.above) for s, r in enumerate(table.sessions)]
        self.free_doors = [door for door in self.doors[1:] if not door.bit & self.dear_bits]
        self.free_sessions = [s for s in numbers if not self.dear_bits >> s & 1]
        self.attitude_count = len(table.problem.attitudes) if self.has_turns else 1
        self.fall_movers = table.fall_movers if self.has_turns else 0
        self.turn_floor: Level | None = None
        self._closed: dict[State, int] = {}
        self._uses = [self._moves_of(tool) for tool in range(len(table.tools) + 1)]
        self._ables: dict[tuple[int, int], list[bool]] = {}
        self.options = [option for ways in table.ways for option in self._options(ways, barred)]

    def _moves_of(self, tool: int) -> int:
        """The moves that this tool can make, where changing to it counts."""
        return bits(tuple({row.move for row in self.table.rows if row.tool == tool and tool in self.tools}))

    def _options(self, ways: tuple[WayRow, ...], barred: frozenset[int]) -> list[Option]:
        """Each way of a move with its own cost here, and whether it may be made at once."""
        weights = self.weights
        one = weights.get("moves", 0)
        owns = [w.risk * weights["risk"] + w.minutes * weights["minutes"] + one for w in ways]
        least = min(owns, default=0)
        found = []
        for way, own in zip(ways, owns, strict=True):
            sessions = 0 if way.number in barred else way.sessions
            is_quick = own == least and (own == 0 or bool(way.bit & self.goal))
            tool = way.tool if way.tool in self.tools else 0
            found.append(Option(way.bit, way.attitudes, way.above, sessions, tool, own, is_quick, way))
        return found

    def attitude_bit(self, attitude: int) -> int:
        """The attitude as a bit, or all of them where turning is free."""
        return 1 << attitude if self.has_turns else self.table.every_attitude

    def state(self, made: int, attitude: int, session: int, tool: int) -> State:
        """These settings as this level sees them."""
        return State(
            made,
            attitude if self.has_turns else 0,
            session if self.dear_bits >> session & 1 else OUTSIDE,
            tool if self._uses[tool] & ~made else 0,
        )

    def reached(self, made: int, state: State) -> State:
        """The settings of a state with these moves made; a tool of no more use is as good as none."""
        tool = state.tool if self._uses[state.tool] & ~made else 0
        return State(made, state.attitude, state.session, tool)

    def open_sessions(self, made: int, here: int, session: int) -> int:
        """The sessions, as bits, in which a move can be made here at no cost; bit 0 is outside."""
        if session:
            return 1 << session
        found = 1
        for bit, clauses, attitudes, above in self.free_doors:
            if attitudes & here or above & made:
                for clause in clauses:
                    if not clause & made:
                        break
                else:
                    found |= bit
        return found

    def can_enter(self, session: int, made: int, here: int) -> bool:
        """Whether this session can be begun in this attitude (a bit)."""
        door = self.doors[session]
        return bool(door.attitudes & here or door.above & made) and self.table.is_met(door.clauses, made)

    def close(self, state: State) -> tuple[int, int, list[WayRow]]:
        """All that can be made at once: the moves then made, their own cost, and the ways in order."""
        soon = self._soon(state)
        made, own, done, loud = self._spread(state, soon)
        while loud:
            group = self._together(state._replace(made=made), soon)
            if group is None:
                break
            after, cost, more = group
            own += cost
            done += more
            made, cost, more, loud = self._spread(state._replace(made=after), soon)
            own += cost
            done += more
        return made, own, done

    def all_in(self, state: State, left: int = 0) -> tuple[int, list[WayRow]]:
        """All but the moves `left` that can be made at no cost that counts and lets nothing fall here; and how."""
        made, _, done, _ = self._spread(state, 0, left)
        return made, done

    def _together(self, state: State, soon: int) -> tuple[int, int, list[WayRow]] | None:
        """Moves that bring fall rules nearer, all that can be made at once with those that end these rules."""
        table = self.table
        here = self.attitude_bit(state.attitude)
        barred = 0
        while True:
            made, own, done, _ = self._spread(state, soon, barred)
            if made == state.made:
                return None
            early = 0
            for row in done:
                for gone in table.brought_nearer(row.move, state.made, here, soon):
                    if not gone & made:
                        early |= row.bit
                        break
            if not early:
                return made, own, done
            barred |= early

    def _spread(
        self, state: State, soon: int, barred: int | None = None
    ) -> tuple[int, int, list[WayRow], list[Option]]:
        """Make all that can be made at once and brings no fall rule nearer; and the options that would.

        Where moves are barred, all others are made that let nothing fall.
        """
        made, attitude, session, tool = state
        own = 0
        done: list[WayRow] = []
        here = self.attitude_bit(attitude)
        movers = self.fall_movers
        options = self.options
        table = self.table
        front = table.front(made)
        able = self._able(session, tool)
        out = barred or 0
        todo = [number for number in front if able[number] and not options[number].bit & out]
        freed: list[int] = []
        is_open = self.open_sessions(made, here, session)
        is_moving = bool(todo)
        loud: list[Option] = []
        while is_moving:
            is_moving = False
            rest = []
            loud = []
            for number in todo:
                option = options[number]
                bit, attitudes, above, sessions, _, cost, _, row = option
                if made & bit:
                    continue
                if sessions & is_open and (attitudes & here or above & made):
                    if not bit & movers or not (
                        table.brought_nearer(row.move, made, here, soon)
                        if barred is None
                        else table.lets_fall(row.move, made, here)
                    ):
                        made |= bit
                        own += cost
                        done.append(row)
                        fresh = table.freed(row.move, made)
                        freed += fresh
                        rest += [other for other in fresh if able[other] and not options[other].bit & out]
                        is_moving = True
                        continue
                    loud.append(option)
                rest.append(number)
            todo = rest
            if is_moving and self.free_doors:
                is_open = self.open_sessions(made, here, session)
        if made != state.made:
            table.keep_front(made, front, freed)
        return made, own, done, loud

    def _able(self, session: int, tool: int) -> list[bool]:
        """For each way whether it may be made at once in this session with this tool, where it is possible."""
        found = self._ables.get((session, tool))
        if found is None:
            here = 1 << session if session else 1 | sum(door.bit for door in self.free_doors)
            found = self._ables[session, tool] = [
                option.is_quick and bool(option.sessions & here) and option.tool in (0, tool)
                for option in self.options
            ]
        return found

    def available(self, made: int) -> list[Option]:
        """Every way whose clauses hold, of moves not yet made."""
        return [self.options[number] for number in self.table.front(made)]

    def is_too_heavy(self, state: State) -> bool:
        """Whether more mass could come off before a turn, at no cost that ranks as high as a turn.

        Turning first is then dearer by that mass, for the rest of the way is no cheaper with less made.
        """
        floor = self.turn_floor
        return floor is not None and self.table.mass(floor.before_a_turn(state)) < self.table.mass(state.made)

    def before_a_turn(self, state: State) -> int:
        """The moves made when all is made that can be in this attitude at no cost that this level counts."""
        key = self.state(state.made, state.attitude, OUTSIDE, 0)
        found = self._closed.get(key)
        if found is None:
            found = self._closed[key] = self.close(key)[0]
        return found

    def _soon(self, state: State) -> int:
        """Moves with a mass of which every best order makes all before the next turn: else that turn were lighter."""
        floor = self.turn_floor
        if floor is None or floor is self or not self.fall_movers:
            return 0
        return floor.before_a_turn(state) & ~state.made & self.table.heavy_moves

    def is_goal(self, made: int) -> bool:
        """Whether all that is wanted has been made."""
        return not self.goal & ~made
