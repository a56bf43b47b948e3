"""Whether what holds a spring in the closed unit is rated for what the spring can push there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from layshaft.book.check.load import installed_length
from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Load, Stop, Unit
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.book.size import Form, Sizes
from layshaft.book.spring import greatest_force
from layshaft.quantity import FORCE, Quantity, Show, is_more

SHOW = Show()


@dataclass(frozen=True, slots=True)
class _Hung:
    """A load with the stops that hold it in the closed unit, and the most that it pushes with [N]."""

    name: str
    load: Load
    stops: tuple[str, ...]
    force: float


def check_retainers(subject: Subject) -> Iterator[Fault]:
    """Every part and every stop whose rating is below what all the loads that hang on it push with at most.

    Where springs push each other no stop alone says how long one is, and nothing is said here.
    """
    hung = list(_hung(subject))
    for stop, definition in subject.unit.stops.items():
        on_it = [one for one in hung if stop in one.stops]
        force = sum(one.force for one in on_it)
        if definition.rating is not None and is_more(force, definition.rating.low):
            found, needed = _figures(definition.rating, force, on_it)
            load = _names(on_it)
            yield fault("stop overloaded", path=("stops", stop, "rating"), found=found, needed=needed, load=load)
    for part in subject.unit.parts:
        yield from _overloaded(subject.unit, part, [one for one in hung if part not in one.load.springs])


def _hung(subject: Subject) -> Iterator[_Hung]:
    for name, load in subject.unit.loads.items():
        length, stops = installed_length(subject, load)
        if length == inf or subject.leaning.get(name):
            continue
        force = greatest_force(subject.unit, load, shortest_installed(subject.sizes_unknown, load, stops))
        if force:
            yield _Hung(name, load, stops, force)


def _overloaded(unit: Unit, part: str, hung: list[_Hung]) -> Iterator[Fault]:
    """What hangs on a part toward one end of its axis adds up; what pushes it the other way takes from that."""
    rating = unit.parts[part].rating
    if rating is None:
        return
    held = [stop for one in hung for stop in one.stops if part in _holders(unit.stops[stop])]
    worst: tuple[float, int, str, list[_Hung]] | None = None
    for name in dict.fromkeys(held):
        toward, rated = unit.stops[name].toward, unit.stops[name].rated_count
        alike = {stop for stop in held if unit.stops[stop].toward == toward}
        on_it = [one for one in hung if not alike.isdisjoint(one.stops)]
        pieces = min(unit.parts[part].count, rated or unit.parts[part].count)
        each = sum(one.force for one in on_it) / pieces
        if worst is None or is_more(each, worst[0]):
            worst = each, pieces, name, on_it
    if worst is not None and is_more(worst[0], rating.low):
        each, pieces, name, on_it = worst
        found, needed = _figures(rating, each, on_it, pieces, unit.parts[part].count)
        path, load = ("parts", part, "rating"), _names(on_it)
        yield fault("holder overloaded", path=path, found=found, needed=needed, part=part, load=load, stop=name)


def _holders(stop: Stop) -> tuple[str, ...]:
    return part_of(stop.a), part_of(stop.b), *stop.by


def _names(hung: list[_Hung]) -> str:
    first, *others = (one.name for one in hung)
    return f"{first}` together with `{'` and `'.join(others)}" if others else first


def _figures(rating: Quantity, each: float, hung: list[_Hung], pieces: int = 1, count: int = 1) -> tuple[str, str]:
    most = SHOW.show(each, FORCE, "up")
    share = f"{most} on each of {pieces}" if count > 1 else most
    share += f", the rated count of {count}" if pieces < count else ""
    pushes = "the spring pushes" if len(hung) == 1 else f"the {len(hung)} loads together push"
    return f"{rating}, and {pushes} with up to {share}", f"at least {most}"


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
