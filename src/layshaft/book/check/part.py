"""One part by itself: readings, selective sizes, outline, odds, ways."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layshaft.book.check.subject import Subject
from layshaft.book.definition import Part, Selective
from layshaft.book.definition.part import Step
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.quantity import LENGTH, Quantity, Show

SHOW = Show()


def check_parts(subject: Subject) -> Iterator[Fault]:
    """Every fault of a part that needs no other part to be seen."""
    for name, part in subject.unit.parts.items():
        path = ("parts", name)
        if part.selective is not None:
            yield from _check_selective(subject, path, name, part.selective)
        for at, step in enumerate(part.shape):
            yield from _check_step((*path, "shape", at), part, step)
        if part.odds is not None and part.odds.reused > part.odds.seen:
            yield fault("odds", path=(*path, "odds", "reused"), found=f"{part.odds.reused} of {part.odds.seen}")
        if part.renew == "always" and part.served_in is not None:
            yield fault("renew alone", path=(*path, "renew"), found=part.served_in, part=name)
        for at, way in enumerate(part.ways):
            if way.fit is not None and way.fit.by_hand and way.fit.tool is not None:
                yield fault("by hand with a tool", path=(*path, "ways", at, "fit", "tool"), found=way.fit.tool)
        for keys, wanted in _readings_named(part):
            if wanted not in part.readings:
                yield fault(
                    "unknown reading",
                    path=(*path, *keys),
                    found=wanted,
                    needed=listed(part.readings) or "a reading, but this part has none",
                    try_=nearest_try(wanted, part.readings),
                    part=name,
                )
        if part.mass.low <= 0:
            yield fault("no mass", path=(*path, "mass"), found=part.mass.text)


def _readings_named(part: Part) -> Iterator[tuple[Path, str]]:
    """Readings that reworks of a part name, each with where it stands in the part."""
    for reading, measured in part.readings.items():
        for at, again in enumerate((measured.rework.then_read_again or ()) if measured.rework is not None else ()):
            yield ("readings", reading, "rework", "then read again", at), again
    for look, plan in part.looks.items():
        if plan.rework is None:
            continue
        if plan.rework.measure is not None:
            yield ("looks", look, "rework", "measure"), plan.rework.measure
        for at, again in enumerate(plan.rework.then_read_again or ()):
            yield ("looks", look, "rework", "then read again", at), again


def _check_selective(subject: Subject, path: Path, name: str, selective: Selective) -> Iterator[Fault]:
    sizes = [size.nominal for size in selective.sizes]
    for at in range(1, len(sizes)):
        here, before = selective.sizes[at], selective.sizes[at - 1]
        if sizes[at] in sizes[:at]:
            yield fault("size twice", path=(*path, "selective", "sizes", at), found=here.text)
        elif sizes[at] < sizes[at - 1]:
            yield fault("sizes not in order", path=(*path, "selective", "sizes", at), found=f"{here} after {before}")
    drawn = subject.sizes.nominal(subject.sizes.distance(name, selective.from_, selective.to))
    if not min(sizes) <= drawn <= max(sizes):
        yield fault(
            "drawn size not sold",
            path=(*path, "selective", "sizes"),
            found=SHOW.show_exact(drawn, LENGTH),
            needed=f"between {selective.sizes[0]} and {selective.sizes[-1]}",
        )


def _check_step(path: Path, part: Part, step: Step) -> Iterator[Fault]:
    if step.inner.nominal >= step.outer.nominal:
        yield fault("outline inside out", path=(*path, "outer"), found=f"inner {step.inner}, outer {step.outer}")
    start, end = (_place(part, face) for face in (step.from_, step.to))
    if start >= end:
        yield fault("outline backwards", path=(*path, "to"), found=f"from {step.from_} to {step.to}")


def _place(part: Part, face: str | Quantity) -> Fraction:
    return face.nominal if isinstance(face, Quantity) else part.faces[face].nominal
