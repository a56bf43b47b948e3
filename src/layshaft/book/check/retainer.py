"""Whether what holds a spring in the closed unit is rated for what the spring can push there."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import inf

from layshaft.book.check.load import installed_length
from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Load
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.book.size import Form, Sizes
from layshaft.book.spring import greatest_force
from layshaft.quantity import FORCE, Quantity, Show, is_more

SHOW = Show()


def check_retainers(subject: Subject) -> Iterator[Fault]:
    """Every part and every stop on the way that holds a spring whose rating is below the greatest installed force.

    Where springs push each other no stop alone says how long one is, and nothing is said here.
    """
    for name, load in subject.unit.loads.items():
        length, stops = installed_length(subject, load)
        if length == inf or subject.leaning.get(name):
            continue
        force = greatest_force(subject.unit, load, shortest_installed(subject.sizes_unknown, load, stops))
        if force is not None:
            yield from _overloaded(subject, name, load, stops, force)


def _overloaded(subject: Subject, name: str, load: Load, stops: tuple[str, ...], force: float) -> Iterator[Fault]:
    unit = subject.unit
    told: set[str] = set(load.springs)
    for stop in stops:
        definition = unit.stops[stop]
        if definition.rating is not None and is_more(force, definition.rating.low):
            found, needed = _figures(definition.rating, force)
            yield fault("stop overloaded", path=("stops", stop, "rating"), found=found, needed=needed, load=name)
        for part in (part_of(definition.a), part_of(definition.b), *definition.by):
            rating, count = unit.parts[part].rating, unit.parts[part].count
            if part not in told and rating is not None and is_more(force, rating.low * count):
                told.add(part)
                found, needed = _figures(rating, force / count, count)
                yield fault(
                    "holder overloaded",
                    path=("parts", part, "rating"),
                    found=found,
                    needed=needed,
                    part=part,
                    load=name,
                    stop=stop,
                )


def _figures(rating: Quantity, each: float, count: int = 1) -> tuple[str, str]:
    most = SHOW.show(each, FORCE, "up")
    share = f"{most} on each of {count}" if count > 1 else most
    return f"{rating}, and the spring pushes with up to {share}", f"at least {most}"


def shortest_installed(sizes: Sizes, load: Load, stops: tuple[str, ...]) -> Fraction:
    """How short the stops that hold a load can keep it [m], each size of theirs at its worst; what cancels is out."""
    unit = sizes.unit
    assert load.seats is not None
    form = _place(sizes, load.seats[1]).add(_place(sizes, load.seats[0]), -1)
    for name in stops:
        stop = unit.stops[name]
        sign = 1 if stop.toward == unit.axes[unit.axis_of(part_of(stop.a))].end else -1
        form.add(_gap(sizes, name)).add(_place(sizes, stop.a), sign).add(_place(sizes, stop.b), -sign)
    return sizes.worst(form).low


def _gap(sizes: Sizes, stop: str) -> Form:
    at_most = sizes.unit.stops[stop].at_most
    if isinstance(at_most, Quantity):
        return Form(at_most.low)
    return sizes.chain(at_most) or Form()


def _place(sizes: Sizes, face: str) -> Form:
    part, _, name = face.partition(" ")
    return sizes.place(part, name)
