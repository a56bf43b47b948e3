"""The route of a large problem: a good order where tools are free, as a row of phases (see ``walk``).

Where the budget allows, it is the best one, turns first and then press set-ups. Else turns are proved alone and
press sessions fitted into them; and where even that is too much, turns are chosen by the longest chain of
attitudes still to come.
"""

from layshaft.plan.sequence.exact import Tower
from layshaft.plan.sequence.fan import Fan, Link
from layshaft.plan.sequence.level import Level, State
from layshaft.plan.sequence.search import Budget, OutOfBudget, Search
from layshaft.plan.sequence.stay import find_stays
from layshaft.plan.sequence.table import OUTSIDE, Table, WayRow
from layshaft.plan.sequence.walk import ANY, Phase, Route, Spot, Walk

WIDTHS = (4, 32)
STAYS = 8
TURNS = 2_500_000
PRESSES = 2_500_000
"""The work that may go into the proof of a route (see ``order`` for what it comes to in seconds)."""

FOLLOWED = 20_000_000
"""The work that may go into a route without proof, move by move."""


def find_route(tower: Tower, width: int) -> Route | None:
    """The best route that the budget allows; None where no way to the end was found."""
    tower.budget.renew(TURNS)
    turns = _turn_route(tower)
    if turns is None:
        return None
    level = tower.level(tower.up_to("presses"), is_told=True)
    tower.budget.renew(PRESSES)
    try:
        return _proved_route(tower, level, tower.floor("presses"))
    except OutOfBudget:
        spot = PressWalk(turns, tower.goal, width).go()
        return None if spot is None else _with_presses(spot, turns, level)


def _proved_route(tower: Tower, level: Level, floor: Search) -> Route | None:
    first = tower.close_first(level)
    links = Search(level, [floor.value], tower.budget).run(first.state, tower.table.never - 1)
    return _route(level, [first, *links])


def _turn_route(tower: Tower) -> Route | None:
    level = tower.level(tower.up_to("turns"), is_told=True)
    try:
        return _proved_route(tower, level, tower.floor("turns"))
    except OutOfBudget:
        first = tower.close_first(level)
        if level.table.falls:
            stays = find_stays(level, first.state, _Chains(level).to_come, STAYS)
            if stays is not None:
                return _route(level, [first, *stays])
        tower.budget.renew(FOLLOWED)
        for width in WIDTHS:
            route = _route(level, [first, *_follow(level, first.state, width, tower.budget)])
            if route is not None:
                return route
        return None


def _route(level: Level, links: list[Link]) -> Route | None:
    table = level.table
    if not level.is_goal(links[-1].state.made):
        return None
    phases = []
    for link in links:
        rows = tuple(table.ways[move][way].number for kind, move, way in link.trail if kind == "make")
        phases.append(_phase(level, link.state, rows))
    return Route(tuple(phases), level)


def _phase(level: Level, state: State, rows: tuple[int, ...]) -> Phase:
    """A phase may use the ways of its own order, and those that cost no more in what the level counts."""
    told = set(rows)
    here = 1 << state.session if state.session else 1 | sum(door.bit for door in level.free_doors)
    able = tuple(
        bool(option.sessions & here) and (option.is_quick or number in told)
        for number, option in enumerate(level.options)
    )
    return Phase(state.attitude, state.session, state.made, able, rows)


def _follow(level: Level, start: State, width: int, budget: Budget) -> list[Link]:
    """Turn by turn from the best few states, judged by the turns so far and the longest chain still to come."""
    chains = _Chains(level)
    front: list[tuple[int, State, tuple[Link, ...]]] = [(0, start, ())]
    while front:
        ended = [(cost, links) for cost, state, links in front if level.is_goal(state.made)]
        if ended:
            return list(min(ended, key=lambda end: end[0])[1])
        reached: dict[State, tuple[int, int, tuple[Link, ...]]] = {}
        for cost, state, links in front:
            found = Fan(level, state).links
            budget.spend(len(found))
            for link in found:
                total = cost + link.cost
                if link.state not in reached or total < reached[link.state][1]:
                    reached[link.state] = (total + chains.to_come(link.state), total, (*links, link))
        ranked = sorted(reached.items(), key=lambda item: (item[1][0], item[0]))
        front = [(best[1], state, best[2]) for state, best in ranked[:width]]
    return []


class _Chains:
    """For each move and attitude, the turns that the longest chain it holds up would still take."""

    def __init__(self, level: Level) -> None:
        self.level = level
        self.table = level.table
        self.turns: list[tuple[int, ...]] = [()] * self.table.count
        reached = self.table.every_move_order()
        for index in reversed(reached):
            self.turns[index] = self._of(index)

    def _of(self, index: int) -> tuple[int, ...]:
        table = self.table
        every = range(len(table.problem.attitudes))
        later = [0 for _ in every]
        for waiting in table.waiting[index]:
            after = self.turns[table.rows[waiting.number].move]
            if after:
                later = [max(pair) for pair in zip(later, after, strict=True)]
        stands = 0
        for row in table.ways[index]:
            stands |= table.every_attitude if row.above else row.attitudes
        least = min((later[a] for a in every if stands >> a & 1), default=0)
        return tuple(min(later[a], least + 1) if stands >> a & 1 else least + 1 for a in every)

    def to_come(self, state: State) -> int:
        """That many turns, and one for each fall rule that bars a way to stand, with the unit as heavy as now."""
        left = (turns[state.attitude] for i, turns in enumerate(self.turns) if turns and not state.made >> i & 1)
        barred = self.table.falling(state.made, self.table.every_attitude).bit_count()
        return (max(left, default=0) + barred) * self.table.pack("turns", self.table.mass(state.made))


class PressWalk(Walk):
    """Press sessions fitted into a route of turns: a change is one set-up, after which the work goes on outside."""

    def setting_of(self, row: WayRow) -> int:
        """The first press session that it can be made in, 0 where it can be made without."""
        free = 1 | sum(1 << s for s, session in enumerate(self.table.sessions) if not session.is_press)
        return 0 if row.sessions & free or not row.sessions else (row.sessions & -row.sessions).bit_length() - 1

    def start_setting(self) -> int:
        """The session that is open now."""
        return self.table.start_session

    def wanted(self, row: WayRow) -> int:
        """The sessions in which it can be made."""
        return row.sessions

    def sessions_in(self, number: int, setting: int) -> list[int]:
        """The one session; or outside, with those that cost no set-up; or all."""
        every = range(1, len(self.table.sessions))
        if setting == ANY:
            return [OUTSIDE, *every]
        return [setting] if setting else [OUTSIDE, *(s for s in every if not self.table.sessions[s].is_press)]

    def suits(self, row: WayRow, setting: int) -> bool:
        """Whether it can be made in one of the sessions gone through."""
        return any(row.sessions >> session & 1 for session in self.sessions_in(0, setting))

    def change(self, spot: Spot, number: int, setting: int) -> Spot:
        """Make a set-up, all that it lets be made, and then all outside."""
        here = self.level.attitude_bit(self.route.phases[number].attitude)
        if not self.table.sessions[setting].is_press or not self.level.can_enter(setting, spot.made, here):
            return spot
        made, inside = self.spread(spot.made, number, setting)
        made, outside = self.spread(made, number, OUTSIDE)
        return Spot(made, OUTSIDE, spot.changes + 1, number, (*inside, *outside), spot)


def _with_presses(spot: Spot, turns: Route, level: Level) -> Route:
    """The route that a walk through press sessions has made."""
    table: Table = level.table
    found = []
    made = table.start_made
    for step in spot.chain():
        attitude = turns.phases[step.phase].attitude
        parts: list[tuple[int, list[int]]] = []
        for way, session in step.done:
            inside = session if table.sessions[session].is_press else OUTSIDE
            if not parts or parts[-1][0] != inside:
                parts.append((inside, []))
            parts[-1][1].append(way)
        for session, ways in parts:
            for way in ways:
                made |= table.rows[way].bit
            found.append(_phase(level, State(made, attitude, session, 0), tuple(ways)))
    return Route(tuple(found), level)
