"""Loads: every spring has its seats, its data and stops that hold it, and a way to let it go that can work."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import inf

from layshaft.book.check.spring import check_spring
from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Load, Part, Unit
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.spring import longest_free, solid_length
from layshaft.quantity import LENGTH, Show

SHOW = Show()


def check_springs(subject: Subject) -> Iterator[Fault]:
    """Springs that no load speaks of, and spring data that no force comes from."""
    unit = subject.unit
    loaded = {part for load in unit.loads.values() for part in load.springs}
    for name, part in unit.parts.items():
        if (part.spring is not None or is_spring_class(part)) and name not in loaded:
            key = "spring" if part.spring is not None else "class"
            yield fault("spring without load", path=("parts", name, key), found=name)
        if part.spring is not None:
            yield from check_spring(name, part.spring)
            if part.spring.kind == "disc" and part.count > 1:
                yield fault("disc springs counted", path=("parts", name, "count"), found=str(part.count), part=name)
    for name, load in unit.loads.items():
        for at, part_name in enumerate(load.springs):
            if unit.parts[part_name].spring is None:
                yield fault("spring without data", path=("loads", name, "springs", at), found=part_name, load=name)


def is_spring_class(part: Part) -> bool:
    """Whether a part's class says that it is a spring."""
    return part.class_.casefold().split()[-1] in ("spring", "springs")


def check_loads(subject: Subject) -> Iterator[Fault]:
    """Loads without seats, that nothing holds, or whose lengths cannot be; stops are taken to agree."""
    unit = subject.unit
    for name, load in unit.loads.items():
        path = ("loads", name)
        if not load.releases:
            yield fault("load without release", path=path, found=name)
        yield from _check_kinds(unit, path, load)
        if load.seats is None:
            if load.wound is None or load.wound_between is None:
                yield fault("load without seats", path=path, found=name)
            continue
        if not any(data.kind == "torsion" for part in load.springs if (data := unit.parts[part].spring)):
            yield from _check_seats(subject, path, name, load)


def _check_kinds(unit: Unit, path: Path, load: Load) -> Iterator[Fault]:
    """Springs that are pressed between seats or wound between parts, and what the load says of the other."""
    springs = [(at, part, data) for at, part in enumerate(load.springs) if (data := unit.parts[part].spring)]
    is_seated = load.seats is not None
    for at, part, data in springs:
        is_wound = data.kind == "torsion"
        if is_wound and is_seated:
            yield fault("wound between seats", path=(*path, "springs", at), found=part)
        elif not is_wound and not is_seated and load.wound_between is not None:
            yield fault("pressed without seats", path=(*path, "springs", at), found=part)
    if is_seated and not any(data.kind == "torsion" for _, _, data in springs):
        for key, told in (("wound", load.wound), ("wound between", load.wound_between)):
            if told is not None:
                yield fault("key without meaning", path=(*path, key), found=key, where="for springs between seats")


def _check_seats(subject: Subject, path: Path, name: str, load: Load) -> Iterator[Fault]:
    unit, seats = subject.unit, load.seats
    if seats is None:
        return
    axes = [unit.axis_of(part_of(seat)) for seat in seats]
    if axes[0] != axes[1]:
        yield fault("seats on two axes", path=(*path, "seats"), found=" and ".join(axes))
        return
    longest, stops = installed_length(subject, load)
    free = longest_free(unit, load)
    is_loose = longest == inf or (free is not None and longest >= free)
    if is_loose and subject.leaning[name]:
        return
    if longest == inf:
        back, stops = subject.apart(seats[1], seats[0])
        if 0 < back < (inf if free is None else free):
            yield fault(
                "seats turned round",
                path=(*path, "seats"),
                found=" to ".join(seats),
                held=", ".join(f"`{stop}`" for stop in stops),
                apart=SHOW.show_exact(Fraction(back), LENGTH),
                try_=f"[{seats[1]}, {seats[0]}]",
            )
            return
        yield fault("never held", path=(*path, "seats"), found=" to ".join(seats))
        return
    shown = SHOW.show_exact(Fraction(longest), LENGTH)
    held = ", ".join(f"`{stop}`" for stop in stops)
    if longest <= 0:
        yield fault("seats reversed", path=(*path, "seats"), found=shown, held=held)
    elif free is not None and longest >= free:
        yield fault(
            "never loaded",
            path=(*path, "seats"),
            found=shown,
            held=held,
            needed=f"less than the longest free length, {SHOW.show_exact(free, LENGTH)}",
        )
    for part in load.springs:
        data = unit.parts[part].spring
        solid = solid_length(data) if data is not None else None
        if solid is not None and 0 < longest <= solid:
            yield fault(
                "installed solid",
                path=(*path, "seats"),
                found=shown,
                held=held,
                part=part,
                needed=f"more than its solid length, {SHOW.show_exact(solid, LENGTH)}",
            )


def installed_length(subject: Subject, load: Load) -> tuple[Fraction | float, tuple[str, ...]]:
    """How long the stops as drawn let a load's springs be [m], all of them whole, and which stops those are."""
    if load.seats is None:
        return inf, ()
    return subject.apart(*load.seats)


def paths_between(subject: Subject, load: Load) -> frozenset[str]:
    """The stops that lie on any way from the first seat of a load to the second."""
    if load.seats is None:
        return frozenset()
    layout = subject.layout(subject.unit.axis_of(part_of(load.seats[0]))).layout
    start, end = (part_of(seat) for seat in load.seats)
    links = [(str(stop.id), part_of(str(stop.a)), part_of(str(stop.b))) for stop in layout.stops]
    ahead = reached(start, [(a, b) for _, a, b in links])
    behind = reached(end, [(b, a) for _, a, b in links])
    return frozenset(name for name, a, b in links if a in ahead and b in behind)


def reached(start: str, links: list[tuple[str, str]]) -> set[str]:
    """All that links lead to from a part, itself too."""
    reached, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        for a, b in links:
            if a == here and b not in reached:
                reached.add(b)
                waiting.append(b)
    return reached


def stop_parts(unit: Unit, stop: str) -> tuple[str, ...]:
    """Every part that has to be there for a stop to be whole."""
    definition = unit.stops[stop]
    packed = (part for pack in definition.packs for part in pack_parts(unit, pack))
    return tuple(dict.fromkeys((part_of(definition.a), part_of(definition.b), *definition.by, *packed)))


def pack_parts(unit: Unit, pack: str) -> tuple[str, ...]:
    """The parts of a pack, each once."""
    every = (part for item in unit.packs[pack].order for part in ((item.part,) if item.part else item.alternate or ()))
    return tuple(dict.fromkeys(every))
