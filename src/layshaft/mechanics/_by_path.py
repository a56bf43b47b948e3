"""Rest in closed form: each spring as long as its own shortest path allows, and weights down the shortest way.

That is the least energy whenever all springs can have those lengths at once and none is overpowered by a weight;
otherwise springs act on each other, and `_settle` has to find the balance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from layshaft.mechanics._net import Arc, Circle, Net, spread


@dataclass(frozen=True, slots=True)
class Settled:
    """Positions of the nodes, how far apart each spring holds its seats, its force, and the force in each arc."""

    x: list[float]
    apart: list[float]
    forces: list[float]
    bearing: dict[int, float]


def settle_by_path(net: Net, forces: Sequence[float]) -> Settled | None:
    """The rest of a net whose forces all point one way; nothing when springs act on each other or on a weight."""
    seats = list(net.seats.values())
    apart = [min(seat.natural, distance) for seat, (distance, _) in zip(seats, net.ways, strict=True)]
    try:
        x = net.fitted(apart, net.heights)
    except Circle:
        return None
    bearing: dict[int, float] = {}
    if any(forces):
        x, bearing = let_down(net, apart, x, forces)
    spring_forces = []
    for number, (seat, (_, way)) in enumerate(zip(seats, net.ways, strict=True)):
        force = seat.rate * (seat.natural - apart[number])
        borne = bearing.pop(len(net.arcs) + number, 0.0)
        if borne > force:
            return None
        spring_forces.append(force)
        if force > borne:
            for place in way:
                bearing[place] = bearing.get(place, 0.0) + force - borne
    return Settled(x, apart, spring_forces, bearing)


def let_down(
    net: Net, apart: Sequence[float], x: Sequence[float], forces: Sequence[float]
) -> tuple[list[float], dict[int, float]]:
    """Positions after all bodies went as far as the forces' way leads, and the force in each arc that holds them.

    Springs hold their seats `apart`, as they do at `x`; their arcs come after those of the net.
    """
    is_up = max(forces) > 0
    sign = 1.0 if is_up else -1.0
    rows = net.held_apart(apart, is_reversed=not is_up)
    distance, before, order = spread(rows, [sign * height for height in x], 0)
    # A body that nothing holds has no weight here; it moves along so that it is in nobody's way.
    shift = max(distance[node] - sign * x[node] for node in order)
    is_reached = set(order)
    moved = [sign * distance[n] + 0.0 if n in is_reached else x[n] + sign * shift for n in range(len(x))]
    load = [abs(force) for force in forces]
    bearing: dict[int, float] = {}
    for node in reversed(order[1:]):
        there, place = before[node]
        if load[node]:
            bearing[place] = bearing.get(place, 0.0) + load[node]
            load[there] += load[node]
    return moved, bearing


def falling_one_way(arcs: Sequence[Arc[float]], forces: Sequence[float]) -> dict[int, float]:
    """Nodes that forces of one direction move on for ever, with all that these push ahead, and where to."""
    is_up = max(forces) > 0
    ways = [(head, tail) if is_up else (tail, head) for tail, head, _, _ in arcs]
    held = _reached([(head, tail) for tail, head in ways], [0])
    loose = [node for node, force in enumerate(forces) if force and node not in held]
    away = math.inf if is_up else -math.inf
    return dict.fromkeys(_reached(ways, loose), away) if loose else {}


def _reached(ways: Sequence[tuple[int, int]], start: Sequence[int]) -> set[int]:
    onward: dict[int, list[int]] = {}
    for tail, head in ways:
        onward.setdefault(tail, []).append(head)
    reached = set(start)
    to_visit = list(start)
    while to_visit:
        for there in onward.get(to_visit.pop(), ()):
            if there not in reached:
                reached.add(there)
                to_visit.append(there)
    return reached
