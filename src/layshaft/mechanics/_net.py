"""Differences of position as arcs of a graph: where they fit together, and the shortest way along them.

An arc says x(head) - x(tail) <= weight. Heights that keep every arc exist unless the weights round some circle
of arcs sum to less than nothing.

References
----------
T. H. Cormen, C. E. Leiserson, R. L. Rivest, C. Stein, Introduction to Algorithms, 3rd ed., sections 24.1
(shortest paths from arcs that may be negative), 24.3 (from arcs that are not) and 24.4 (difference constraints);
25.3 (heights that make negative arcs positive). Section numbers from memory.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from heapq import heappop, heappush
from typing import Generic, NamedTuple, TypeVar

Number = TypeVar("Number", float, "float | Fraction")


class Arc(NamedTuple, Generic[Number]):
    """x(head) - x(tail) <= weight, because of `link`."""

    tail: int
    head: int
    weight: Number
    link: Hashable


class Seat(NamedTuple):
    """A spring between two bodies: `natural` apart it is free, `travel` less it is solid; it is `offset` longer."""

    a: int
    b: int
    rate: float
    natural: float
    travel: float
    offset: float


class Circle(Exception):
    """Arcs, by their place in the list, that lead back to their beginning and sum to less than nothing."""

    def __init__(self, arcs: tuple[int, ...]) -> None:
        self.arcs = arcs
        super().__init__("arcs contradict each other")


# Around each node: the other end of an arc, its weight, its place in the list.
Around = list[list[tuple[int, Number, int]]]
# For each node the one before it on a way, and the arc between them; -1 where none is.
Before = list[tuple[int, int]]


def around(size: int, arcs: Iterable[Arc[Number]], is_reversed: bool = False) -> Around[Number]:
    """For each node the arcs that leave it, or that enter it."""
    rows: Around[Number] = [[] for _ in range(size)]
    for place, (tail, head, weight, _) in enumerate(arcs):
        if is_reversed:
            rows[head].append((tail, weight, place))
        else:
            rows[tail].append((head, weight, place))
    return rows


def lower(rows: Around[Number], heights: list[Number], tolerance: Number, start: Iterable[int]) -> Before:
    """Lower `heights` in place until every arc is kept to within `tolerance`; by which arc each was lowered.

    Only arcs that leave the nodes of `start` may be broken at first. `Circle` when arcs contradict each other.
    """
    size = len(heights)
    # Exact figures stay exact only if no float comes near them.
    step = tolerance / size if tolerance else 0
    before: Before = [(-1, -1)] * size
    to_visit = deque(start)
    is_waiting = [False] * size
    until_look = size
    while to_visit:
        here = to_visit.popleft()
        is_waiting[here] = False
        for there, weight, place in rows[here]:
            reach = heights[here] + weight
            if reach < heights[there] - step:
                heights[there], before[there] = reach, (here, place)
                if not is_waiting[there]:
                    is_waiting[there] = True
                    to_visit.append(there)
                until_look -= 1
                if not until_look:
                    _look_for_circle(before, there)
                    until_look = size
    return before


def _look_for_circle(before: Before, start: int) -> None:
    """Raise `Circle` when the arcs by which `start` was lowered lead back into themselves."""
    seen: dict[int, int] = {}
    walked: list[int] = []
    here = start
    while before[here][1] >= 0:
        if here in seen:
            raise Circle(tuple(reversed(walked[seen[here] :])))
        seen[here] = len(walked)
        here, place = before[here]
        walked.append(place)


def way_to(before: Before, target: int) -> tuple[int, ...]:
    """The arcs, in order, of the way to a node."""
    way = []
    while before[target][1] >= 0:
        target, place = before[target]
        way.append(place)
    return tuple(reversed(way))


def spread(
    rows: Around[float], heights: Sequence[float], source: int, target: int = -1
) -> tuple[list[float], Before, list[int]]:
    """Shortest distances from `source`, as far as `target`; the way to each node; nodes in the order found.

    `heights` keep every arc, so that no arc is negative when measured from them.
    """
    distance = [math.inf] * len(heights)
    before: Before = [(-1, -1)] * len(heights)
    order: list[int] = []
    is_done = [False] * len(heights)
    distance[source] = 0.0
    queue = [(0.0, source)]
    while queue:
        _, here = heappop(queue)
        if is_done[here]:
            continue
        is_done[here] = True
        order.append(here)
        if here == target:
            break
        for there, weight, place in rows[here]:
            reach = distance[here] + weight
            if reach < distance[there] and not is_done[there]:
                distance[there], before[there] = reach, (here, place)
                heappush(queue, (reach - heights[there], there))
    return distance, before, order


@dataclass(frozen=True)
class Net:
    """The bodies of a layout as nodes, 0 for what is fixed, with the arcs and springs between them."""

    size: int
    node: dict[Hashable, int]
    arcs: tuple[Arc[float], ...]
    seats: dict[Hashable, Seat]
    tolerance: float

    @cached_property
    def heights(self) -> list[float]:
        """Positions that keep every arc, node 0 at zero; `Circle` when there are none."""
        heights = [0.0] * self.size
        lower(self.out, heights, self.tolerance, range(self.size))
        return [height - heights[0] for height in heights]

    @cached_property
    def out(self) -> Around[float]:
        """The arcs that leave each node."""
        return around(self.size, self.arcs)

    @cached_property
    def into(self) -> Around[float]:
        """The arcs that enter each node."""
        return around(self.size, self.arcs, is_reversed=True)

    def held_apart(self, apart: Sequence[float], is_reversed: bool = False) -> Around[float]:
        """The arcs around each node, with one more for each spring: its seats are at least so far apart."""
        rows = list(self.into if is_reversed else self.out)
        for place, (seat, length) in enumerate(zip(self.seats.values(), apart, strict=True), len(self.arcs)):
            start, end = (seat.a, seat.b) if is_reversed else (seat.b, seat.a)
            rows[start] = [*rows[start], (end, -length, place)]
        return rows

    def fitted(self, apart: Sequence[float], x: Sequence[float]) -> list[float]:
        """Positions that keep every arc and the springs' seats so far apart, from positions that keep every arc.

        Raises `Circle`. The arcs alone passed at a finer step, so that a circle has at least one spring on it.
        """
        heights = list(x)
        start = {seat.b for seat in self.seats.values()}
        lower(self.held_apart(apart), heights, self.tolerance * self.size, start)
        return [height - heights[0] for height in heights]

    @cached_property
    def ways(self) -> list[tuple[float, tuple[int, ...]]]:
        """For each spring how far apart arcs let its seats get, and the places of these arcs; infinite and none."""
        ways = []
        for seat in self.seats.values():
            distance, before, _ = spread(self.out, self.heights, seat.a, seat.b)
            ways.append((distance[seat.b], way_to(before, seat.b)))
        return ways

    def without(self, links: set[Hashable], springs: set[Hashable], bodies: frozenset[Hashable]) -> Net:
        """The net after links, springs and bodies went; nodes keep their numbers, so that what is known stays true."""
        smaller = Net(
            self.size,
            {body: node for body, node in self.node.items() if body not in bodies} if bodies else self.node,
            tuple(arc for arc in self.arcs if arc[3] not in links),
            {name: seat for name, seat in self.seats.items() if name not in springs} if springs else self.seats,
            self.tolerance,
        )
        if "heights" in vars(self):
            # Positions that kept all arcs keep fewer.
            vars(smaller)["heights"] = self.heights
        return smaller
