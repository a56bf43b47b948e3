"""A route of a large problem in which many parts would fall: in each attitude all is made that can be, then turned.

Before a turn those moves are left for later that would let a part fall by it: of what holds the part, the holder
without which least is left undone. The best few rows of stays are kept, judged as in ``route``.
"""

from collections.abc import Callable, Iterator
from functools import reduce
from operator import or_

from layshaft.plan.sequence.fan import Link
from layshaft.plan.sequence.level import Level, State
from layshaft.plan.sequence.table import OUTSIDE, FallRow, WayRow, indices

Judge = Callable[[State], int]
Row = tuple[int, State, tuple[Link, ...]]
"""Turns so far, packed; where the unit stands now, just turned; and the stays on the way here."""

LEFT = 30
"""So often it is looked at anew what is left for later before a turn is given up."""


def find_stays(level: Level, start: State, judge: Judge, width: int) -> list[Link] | None:
    """Links from a closed state to the goal, one a stay; none where none was found. `judge` tells turns to come."""
    rows: list[Row] = [(0, start, ())]
    seen = {(start.made, start.attitude)}
    while rows:
        reached: dict[State, tuple[int, Row]] = {}
        ended = []
        for row in rows:
            for total, state, links in _stays(level, row):
                if level.is_goal(state.made):
                    ended.append((total, links))
                elif (state.made, state.attitude) not in seen:
                    known = reached.get(state)
                    if known is None or total < known[1][0]:
                        reached[state] = (total + judge(state), (total, state, links))
        if ended:
            return list(min(ended, key=lambda end: end[0])[1])
        ranked = sorted(reached.items(), key=lambda item: (item[1][0], item[0]))
        rows = [row for _, (_, row) in ranked[:width]]
        seen |= {(state.made, state.attitude) for _, state, _ in rows}
    return None


def _stays(level: Level, row: Row) -> Iterator[Row]:
    """All that one stay can end in: the goal, or a turn to each other attitude."""
    total, state, links = row
    made, rows = level.all_in(state)
    if level.is_goal(made):
        yield total, state._replace(made=made), (*links, _link(links, state, made, rows, 0))
        return
    for attitude in range(level.attitude_count):
        if attitude == state.attitude:
            continue
        for made, rows in _before_a_turn(level, state, 1 << attitude):
            cost = level.table.mass(made) * level.gram
            link = _link(links, state, made, rows, cost)
            yield total + cost, State(made, attitude, OUTSIDE, 0), (*links, link)


def _link(links: tuple[Link, ...], state: State, made: int, rows: list[WayRow], cost: int) -> Link:
    """One stay as a link: the turn into it, but for the first, and the moves made in it."""
    turn = (("turn", state.attitude, 0),) if links else ()
    return Link(cost, state._replace(made=made), (*turn, *(("make", row.move, row.way) for row in rows)))


def _before_a_turn(level: Level, state: State, there: int) -> Iterator[tuple[int, list[WayRow]]]:
    """As much as can be made before a turn; and only so much as brings no fall rule nearer."""
    most = _ready_to_turn(level, state, there)
    if most is not None:
        yield most
    made, _, rows = level.close(state)
    if (most is None or made != most[0]) and not level.table.falling(made, there):
        yield made, rows


def _ready_to_turn(level: Level, state: State, there: int) -> tuple[int, list[WayRow]] | None:
    """As much as can be made before a turn so that nothing falls by it; of what holds a part, the least is left on."""
    table = level.table
    left = 0
    losses: dict[int, int] | None = None
    for _ in range(LEFT):
        made, rows = level.all_in(state, left)
        falling = [table.falls[number] for number in indices(table.falling(made, there))]
        if not falling:
            return made, rows
        losses = _losses(level, state, there, rows) if losses is None else losses
        for fall in falling:
            least = _least(fall, state.made, made, losses)
            if least is None:
                return None
            left |= least
    return None


def _least(fall: FallRow, before: int, made: int, losses: dict[int, int]) -> int | None:
    """Of the holders of a part that came off in this stay, the kind that it costs least to leave on."""
    fresh = [clause & made for clause in fall.clauses if not clause & before]
    return min(fresh, key=lambda clause: _loss(clause, losses).bit_count(), default=None)


def _loss(moves: int, losses: dict[int, int]) -> int:
    found = 0
    for move in indices(moves):
        found |= losses[move]
    return found


def _losses(level: Level, state: State, there: int, rows: list[WayRow]) -> dict[int, int]:
    """For each move of a stay those that are not made either where it is left: what waits for it, and what holds it."""
    table = level.table
    made = reduce(or_, (row.bit for row in rows), state.made)
    lost: dict[int, int] = {}
    for row in reversed(rows):
        lost[row.move] = row.bit
        for waiting in table.waiting[row.move]:
            if waiting.bit & made and any(clause & made == row.bit for clause in waiting.own):
                lost[row.move] |= lost.get(table.rows[waiting.number].move, 0)
    for row in rows:
        for fall in table.falls_of[row.move]:
            if fall.attitudes & there and table.is_met(fall.clauses, made):
                least = _least(fall, state.made, made, lost)
                lost[row.move] |= _loss(least or 0, lost)
    return lost
