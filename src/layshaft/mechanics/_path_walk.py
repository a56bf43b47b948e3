"""A walk in depth over stops, and over springs that lean on each other, from one seat of a spring to the other."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from layshaft.mechanics._layout import CONTACT, Id, Layout, Number, Solid, Spring
from layshaft.mechanics._net import Around, around, lower
from layshaft.mechanics._reach import exact_arcs, find_misfit

# From a node: the other end, the length gained, the stop, and the bit of the spring if it is one.
Step = tuple[int, Number, Id, int]


class Walk:
    """All simple ways from seat to seat that are shorter than the free spring; `is_complete` once all were met."""

    def __init__(self, layout: Layout, spring: Spring, limit: int, effort: int) -> None:
        if wrong := find_misfit(layout):
            raise wrong
        self.limit = limit
        self.effort = effort
        self.is_complete = True
        node = {name: layout.net.node[point.body] for name, point in layout.points.items()}
        self.start, self.end = node[spring.a], node[spring.b]
        self.room = _natural(layout, spring) - (0 if layout.is_exact else CONTACT)
        stops = [arc for arc in exact_arcs(layout) if not isinstance(arc.link, Solid)]
        others = [other for other in layout.springs if other.id != spring.id]
        self.leans = [(node[s.b], node[s.a], -_natural(layout, s), s.id) for s in others]
        self.steps: list[list[Step]] = [[] for _ in range(layout.net.size)]
        for tail, head, weight, link in stops:
            self.steps[tail].append((head, weight, link, 0))
        for number, (tail, head, weight, link) in enumerate(self.leans):
            self.steps[tail].append((head, weight, link, 1 << number))
        into = around(layout.net.size, stops, is_reversed=True)
        tolerance = 0 if layout.is_exact else CONTACT
        self.to_end = _distances(into, self.end, tolerance)
        self.to_lean = [_distances(into, tail, tolerance) for tail, _, _, _ in self.leans]
        self.floors: dict[tuple[int, int], Number] = {}

    def found(self) -> Iterator[tuple[tuple[Id, ...], tuple[Id, ...], Number]]:
        """Stops, springs and length of each way."""
        for number, way in enumerate(self._from(self.start, 0, 0, frozenset({self.start}))):
            if number == self.limit:
                self.is_complete = False
                return
            length = sum(step[1] for step in way)
            yield (
                tuple(link for _, _, link, bit in way if not bit),
                tuple(link for _, _, link, bit in way if bit),
                length,
            )

    def _from(self, here: int, length: Number, used: int, seen: frozenset[int]) -> Iterator[tuple[Step, ...]]:
        if here == self.end:
            yield ()
            return
        promising = []
        for step in self.steps[here]:
            there, weight, _, bit = step
            if there not in seen:
                least = length + weight + self._floor(there, used | bit)
                if least < self.room:
                    promising.append((least, step))
        for _, step in sorted(promising, key=lambda pair: pair[0]):
            self.effort -= 1
            if self.effort < 0:
                self.is_complete = False
                return
            there, weight, _, bit = step
            for way in self._from(there, length + weight, used | bit, seen | {there}):
                yield (step, *way)

    def _floor(self, here: int, used: int) -> Number:
        """No way on from here is shorter: each spring not used is leaned on at most once, and a way ends at the end."""
        if here == self.end:
            return 0
        known = self.floors.get((here, used))
        if known is not None:
            return known
        least = self.to_end[here]
        for number, (_, head, weight, _) in enumerate(self.leans):
            if not used >> number & 1 and self.to_lean[number][here] < math.inf:
                onward = self.to_lean[number][here] + weight + self._floor(head, used | 1 << number)
                least = min(least, onward)
        self.floors[here, used] = least
        return least


def _natural(layout: Layout, spring: Spring) -> Number:
    """How far apart a free spring has the bodies of its seats."""
    free = Fraction(spring.free_length) if layout.is_exact else spring.free_length
    return free - layout.points[spring.b].offset + layout.points[spring.a].offset


def _distances(into: Around[Number], end: int, tolerance: Number) -> list[Number]:
    """From each node the shortest distance to `end` by stops."""
    distances: list[Number] = [math.inf] * len(into)
    distances[end] = 0
    lower(into, distances, tolerance, [end])
    return distances
