"""Stops: each between two parts, and all of them together possible."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Stop, Unit
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.mechanics import rest
from layshaft.quantity import LENGTH, Show

SHOW = Show()


def check_stops(subject: Subject) -> Iterator[Fault]:
    """Stops of a part against itself, counts that cannot be, and stops that contradict each other as drawn."""
    unit = subject.unit
    for name, stop in unit.stops.items():
        yield from _check_stop(unit, name, stop)
    for axis in unit.axes:
        yield from _check_together(subject, axis)


def _check_stop(unit: Unit, name: str, stop: Stop) -> Iterator[Fault]:
    path = ("stops", name)
    a, b = part_of(stop.a), part_of(stop.b)
    if a == b:
        yield fault("stop on one part", path=(*path, "b"), found=b)
    elif unit.axis_of(a) != unit.axis_of(b):
        found = f"{a} on {unit.axis_of(a)}, {b} on {unit.axis_of(b)}"
        yield fault("stop over two axes", path=(*path, "b"), found=found)
    if stop.rated_count is not None:
        most = max((unit.parts[part].count for part in stop.by), default=0)
        if stop.rated_count > most:
            yield fault(
                "rated count",
                path=(*path, "rated count"),
                found=str(stop.rated_count),
                needed=f"at most {most}, as many as there are of any part in `by`",
            )


def _check_together(subject: Subject, axis: str) -> Iterator[Fault]:
    """Every circle of stops that cannot all be kept, as long as no two share a stop."""
    drawn = subject.layout(axis)
    layout = drawn.layout
    weights = {link: gap - b.offset + a.offset for a, b, gap, link in layout.differences()}
    order = list(subject.unit.stops)
    while circle := rest.contradiction(layout):
        names = [str(link) for link in circle]
        short = SHOW.show_exact(-Fraction(sum(weights[link] for link in circle)) / drawn.scale, LENGTH)
        first = min(names, key=order.index)
        yield fault(
            "stops contradict", path=("stops", first), found=", ".join(f"`{name}`" for name in names), short=short
        )
        layout = layout.without(stops=circle)
