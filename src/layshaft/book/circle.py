"""Circles among things that point at each other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

T = TypeVar("T")


def circles(edges: Mapping[T, Iterable[T]]) -> list[tuple[T, ...]]:
    """One shortest circle out of each knot of things that point at each other, in the order of the mapping."""
    found: list[tuple[T, ...]] = []
    told: set[T] = set()
    for start in edges:
        if start not in told:
            circle = shortest_circle(edges, start)
            if circle and not told.intersection(circle):
                found.append(circle)
                told.update(circle)
    return found


def shortest_circle(edges: Mapping[T, Iterable[T]], start: T) -> tuple[T, ...]:
    """The shortest way from a thing back to itself, the thing first; empty where there is none."""
    came_from: dict[T, T] = {}
    waiting = [start]
    for here in waiting:
        for there in edges.get(here, ()):
            if there == start:
                circle = [here]
                while circle[-1] != start:
                    circle.append(came_from[circle[-1]])
                return tuple(reversed(circle))
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)
    return ()
