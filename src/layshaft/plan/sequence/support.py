"""Leaving out of a trail what nothing in it needs."""

from layshaft.plan.sequence.fan import Trail
from layshaft.plan.sequence.table import Table


def supported(table: Table, trail: Trail, targets: int) -> Trail:
    """The trail without moves that neither are wanted nor hold up a move that is kept.

    A move is kept that meets a clause first, lifts out the assembly of a kept one, or ends a fall rule. The
    settings are kept as they are, but for sessions and turns with nothing left in them.
    """
    if not any(kind == "make" and not targets >> number & 1 for kind, number, _ in trail):
        return trail
    wanted = targets
    for gone, _, _ in table.falls:
        wanted |= gone
    kept = []
    for place in range(len(trail) - 1, -1, -1):
        kind, number, way = trail[place]
        if kind == "make":
            if not wanted >> number & 1:
                continue
            row = table.ways[number][way]
            wanted |= row.above | _first_met(table, trail, place, row.clauses)
        elif kind == "enter":
            session = table.sessions[number]
            wanted |= session.above | _first_met(table, trail, place, session.clauses)
        kept.append(trail[place])
    return _without_idle(tuple(reversed(kept)), table)


def _first_met(table: Table, trail: Trail, place: int, clauses: tuple[int, ...]) -> int:
    """For each clause the move that met it first, of those before this place."""
    found = 0
    left = [clause for clause in clauses if not clause & table.start_made]
    for kind, number, _ in trail[:place]:
        if kind == "make" and left:
            met = [clause for clause in left if clause >> number & 1]
            if met:
                found |= 1 << number
                left = [clause for clause in left if clause not in met]
    return found


def _without_idle(trail: Trail, table: Table) -> Trail:
    """Without sessions in which nothing is made, turns that another turn undoes, and a turn at the very end."""
    found: list[tuple[str, int, int]] = []
    stood = [table.attitude_number[table.problem.start]]
    for step in trail:
        kind = step[0]
        if kind == "leave" and found and found[-1][0] == "enter":
            found.pop()
            continue
        if kind == "turn":
            if found and found[-1][0] == "turn":
                found.pop()
                stood.pop()
            if step[1] == stood[-1]:
                continue
            stood.append(step[1])
        found.append(step)
    while found and found[-1][0] in ("turn", "enter"):
        found.pop()
    return tuple(found)
