"""A release way with the limits of all the loads that it takes up: of several that do the same the strictest counts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from layshaft.book.definition import HandLimit, Load, Release
from layshaft.plan.bench import face_part
from layshaft.quantity import Quantity


def strictest(own: Release, loads: Iterable[Load]) -> Release:
    """A release way with the least room, the most margin and the lowest limits that it or its like in `loads` say."""
    every = (own, *(way for load in loads for way in _alike(own, load)))
    most = [given for way in every if (given := way.most_over or way.over) is not None]
    told = {
        "most_over": min(most, key=_high, default=None),
        "keep_from_solid": max(_given(way.keep_from_solid for way in every), key=_high, default=None),
        "margin": max(_given(way.margin for way in every), key=_high, default=None),
        "thread_engaged": min(_given(way.thread_engaged for way in every), key=_low, default=None),
        "limits": _limits([way.limits for way in every if way.limits is not None]),
    }
    return own.model_copy(update=told)


def _alike(own: Release, load: Load) -> Iterator[Release]:
    return (way for way in load.releases if _what(way) == _what(own))


def _what(way: Release) -> tuple[str | None, ...]:
    """What is done to what: the same for release ways that differ in their figures only."""
    faces = (way.pushes, way.stands_on)
    return (way.kind, *(face_part(face) if face is not None else None for face in faces))


def _given(figures: Iterable[Quantity | None]) -> list[Quantity]:
    return [figure for figure in figures if figure is not None]


def _high(figure: Quantity) -> float:
    return figure.si_high


def _low(figure: Quantity) -> float:
    return figure.si_low


def _limits(limits: list[HandLimit]) -> HandLimit | None:
    if not limits:
        return None
    energy = min((limit.energy for limit in limits), key=_low)
    speed = min((limit.speed for limit in limits), key=_low)
    return limits[0].model_copy(update={"energy": energy, "speed": speed})
