"""Looks, and what was noticed at intake: parts, pieces, looks and grades that the book knows."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.definition import Look
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.sheet_check.subject import Subject, too_many


def look_faults(subject: Subject) -> Iterator[Fault]:
    """Everything in a job's looks and its intake that its unit and shop do not bear out."""
    for at, noticed in enumerate(subject.job.intake.noticed):
        path: Path = ("intake", "noticed", at)
        yield from subject.unknown_part(noticed.part, (*path, "part"))
        yield from subject.unknown_person(noticed.by, (*path, "by"))
        part = subject.unit.parts.get(noticed.part)
        if part is not None and noticed.pieces is not None and noticed.pieces > part.count:
            yield too_many(noticed.part, noticed.pieces, part.count, (*path, "pieces"))
    for at, look in enumerate(subject.job.looks):
        yield from _look_faults(subject, look, ("looks", at))
    for at, wanted in enumerate(subject.job.wants):
        yield from _want_faults(subject, wanted, ("wants", at))


def _want_faults(subject: Subject, wanted: str, path: Path) -> Iterator[Fault]:
    """A part that is wanted off has to be there, and to come off."""
    part = subject.unit.parts.get(wanted)
    if part is None:
        yield from subject.unknown_part(wanted, path)
    elif wanted == subject.unit.base:
        yield fault("wanted stays", path=path, found=wanted, why="it is the base, and the base stays on the bench")
    elif not part.ways:
        holder = part.served_in or part.lies_in
        why = "the book gives it no way out" if holder is None else f"it comes with {holder}"
        yield fault("wanted stays", path=path, found=wanted, why=why)


def _look_faults(subject: Subject, look: Look, path: Path) -> Iterator[Fault]:
    yield from subject.unknown_person(look.by, (*path, "by"))
    yield from subject.misplaced_moment(look.at, (*path, "at"))
    part = subject.unit.parts.get(look.part)
    if part is None:
        yield from subject.unknown_part(look.part, (*path, "part"))
        return
    for at, piece in enumerate(look.pieces):
        if piece > part.count:
            yield too_many(look.part, piece, part.count, (*path, "pieces", at))
        if piece in look.pieces[:at]:
            yield fault("listed twice", path=(*path, "pieces", at), found=str(piece))
    plan = part.looks.get(look.look)
    if plan is None:
        yield fault(
            "unknown look",
            path=(*path, "look"),
            found=look.look,
            needed=listed(part.looks) or "a part that the book has looks for",
            try_=nearest_try(look.look, part.looks),
            part=look.part,
        )
    elif look.grade not in plan.grades:
        yield fault(
            "unknown grade",
            path=(*path, "grade"),
            found=look.grade,
            needed=listed(plan.grades),
            try_=nearest_try(look.grade, plan.grades),
            look=look.look,
            part=look.part,
        )
