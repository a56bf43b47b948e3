"""What can come next: from one closed state, every chain of settings that makes at least one move more.

The settings of a chain come in one order: leave the session, turn, enter a session, take another tool. Each is
closed when it is come to (see ``level``). Where that makes a move, the chain stops there: the state that results
has chains of its own. So each chain is looked at once, and none goes round in a circle.
"""

from typing import NamedTuple

from layshaft.plan.sequence.level import Level, Option, State
from layshaft.plan.sequence.table import OUTSIDE

Trail = tuple[tuple[str, int, int], ...]


class Link(NamedTuple):
    """A way from one closed state to another: its cost, and (where the level is told) all steps on it."""

    cost: int
    state: State
    trail: Trail


class Fan:
    """The links on from one closed state."""

    def __init__(self, level: Level, state: State) -> None:
        """Find them all; they are in `links`."""
        self.level = level
        self.table = level.table
        self.made = state.made
        self.free = level.available(state.made)
        self.links: list[Link] = []
        self._stay(state, 0, ())
        if not state.session:
            self._go_out(state, ())
            return
        outside = State(state.made, state.attitude, OUTSIDE, state.tool)
        trail: Trail = (("leave", state.session, 0),)
        if not self._land(outside, 0, trail):
            self._stay(outside, 0, trail)
            self._go_out(outside, trail)

    def _go_out(self, state: State, trail: Trail) -> None:
        self._enter(state, 0, trail)
        if not self.level.is_too_heavy(state):
            self._turn(state, trail)

    def _turn(self, state: State, trail: Trail) -> None:
        made = self.made
        for attitude in range(self.level.attitude_count):
            here = 1 << attitude
            if attitude == state.attitude or (self.table.falls and self.table.falling(made, here)):
                continue
            if not any(option.attitudes & here or option.above & made for option in self.free):
                continue
            cost = self.table.mass(made) * self.level.gram
            turned = State(made, attitude, OUTSIDE, state.tool)
            path = (*trail, ("turn", attitude, 0))
            if not self._land(turned, cost, path):
                self._stay(turned, cost, path)
                self._enter(turned, cost, path)

    def _enter(self, state: State, cost: int, trail: Trail) -> None:
        if not self.level.dear_sessions:
            return
        wanted = 0
        for option in self.free:
            wanted |= option.sessions
        here = self.level.attitude_bit(state.attitude)
        for session in self.level.dear_sessions:
            if not wanted >> session & 1 or not self.level.can_enter(session, self.made, here):
                continue
            inside = State(self.made, state.attitude, session, state.tool)
            total = cost + self.level.entry[session]
            path = (*trail, ("enter", session, 0))
            if not self._land(inside, total, path):
                self._stay(inside, total, path)

    def _land(self, state: State, cost: int, trail: Trail) -> bool:
        """Close this setting; a link, if that makes a move."""
        level = self.level
        made, own, done = level.close(state)
        if made == self.made:
            return False
        if level.is_told:
            trail = (*trail, *(("make", row.move, row.way) for row in done))
        self.links.append(Link(cost + own, level.reached(made, state), trail))
        return True

    def _stay(self, state: State, cost: int, trail: Trail) -> None:
        """Links in this setting: moves that are not made at once of themselves, and other tools."""
        level = self.level
        made = self.made
        here = level.attitude_bit(state.attitude)
        is_open = level.open_sessions(made, here, state.session)
        by_tool: dict[int, list[Option]] = {}
        for option in self.free:
            if option.sessions & is_open and (option.attitudes & here or option.above & made):
                if option.tool and option.tool != state.tool:
                    by_tool.setdefault(option.tool, []).append(option)
                else:
                    self._make(state, cost, trail, option)
        for tool in sorted(by_tool):
            taken = State(made, state.attitude, state.session, tool)
            total = cost + level.tool_cost
            if not self._land(taken, total, trail):
                for option in by_tool[tool]:
                    self._make(taken, total, trail, option)

    def _make(self, state: State, cost: int, trail: Trail, option: Option) -> None:
        """A link that makes this move, unless it lets a part fall, and then all that can be made at once."""
        level = self.level
        after = self.table.step(self.made, option.row.move)
        if option.bit & level.fall_movers:
            here = level.attitude_bit(state.attitude)
            if self.table.lets_fall(option.row.move, self.made, here):
                return
        made, own, done = level.close(State(after, state.attitude, state.session, state.tool))
        if level.is_told:
            rows = (option.row, *done)
            trail = (*trail, *(("make", row.move, row.way) for row in rows))
        self.links.append(Link(cost + option.own + own, level.reached(made, state), trail))
