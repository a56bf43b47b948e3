"""A good order of a large problem: a route through attitudes and press sessions, with tools fitted into it."""

from layshaft.plan.sequence.exact import Tower
from layshaft.plan.sequence.fan import Trail
from layshaft.plan.sequence.route import find_route
from layshaft.plan.sequence.table import OUTSIDE, Table, WayRow
from layshaft.plan.sequence.walk import Route, Spot, Walk


class ToolWalk(Walk):
    """Tools fitted into the phases of a route: the setting is the tool in hand."""

    def setting_of(self, row: WayRow) -> int:
        """The tool."""
        return row.tool

    def start_setting(self) -> int:
        """The tool in hand."""
        return self.table.start_tool

    def wanted(self, row: WayRow) -> int:
        """The tool, as a bit."""
        return 1 << row.tool

    def sessions_in(self, number: int, setting: int) -> list[int]:
        """The phase's own session; outside, those too that cost no set-up."""
        session = self.route.phases[number].session
        return [session] if session else [OUTSIDE, *self.level.free_sessions]

    def suits(self, row: WayRow, setting: int) -> bool:
        """Whether the hand or this tool does it."""
        return row.tool in (0, setting)


def wide_trail(tower: Tower, width: int) -> Trail | None:
    """The steps of a good order; None where none was found."""
    route = find_route(tower, width)
    if route is None:
        return None
    spot = ToolWalk(route, tower.goal, width).go()
    return None if spot is None else _trail(spot, route, tower.table)


def _trail(spot: Spot, route: Route, table: Table) -> Trail:
    """The steps that led to a spot, as a link tells them."""
    attitude = table.attitude_number[table.problem.start]
    session = table.start_session
    found: list[tuple[str, int, int]] = []
    for step in spot.chain():
        phase = route.phases[step.phase]
        if phase.attitude != attitude:
            if session != OUTSIDE:
                found.append(("leave", session, 0))
                session = OUTSIDE
            found.append(("turn", phase.attitude, 0))
            attitude = phase.attitude
        for number, inside in step.done:
            if inside != session:
                if session != OUTSIDE:
                    found.append(("leave", session, 0))
                if inside != OUTSIDE:
                    found.append(("enter", inside, 0))
                session = inside
            found.append(("make", table.rows[number].move, table.rows[number].way))
    return tuple(found)
