"""Entries about one thing whose lines and moments tell another order: the moments decide which of them counts."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator

from layshaft.book.definition import Look, Reading
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.moment import is_before, later_of
from layshaft.book.sheet_check.subject import Subject

Entries = Iterable[tuple[str | None, Iterable[Hashable]]]
"""When each entry was made, and what it is about."""


def order_faults(subject: Subject) -> Iterator[Fault]:
    """A note on each look, reading and proof that an entry before it overrules, being of a later moment."""
    job = subject.job
    yield from _overruled("looks", ((one.at, _of_look(subject, one)) for one in job.looks))
    yield from _overruled("readings", ((one.at, _of_reading(one)) for one in job.readings))
    yield from _overruled("proved", ((one.at, [one.proof]) for one in job.proved))


def _overruled(where: str, entries: Entries) -> Iterator[Fault]:
    latest: dict[Hashable, str | None] = {}
    for at, (moment, subjects) in enumerate(entries):
        over: str | None = None
        for one in subjects:
            known = latest.get(one)
            over = later_of(over, known) if is_before(moment, known) else over
            latest[one] = later_of(known, moment)
        if over is not None:
            path: Path = (where, at, "at")
            yield fault("out of order", path=path, found=str(moment), later=over)


def _of_look(subject: Subject, look: Look) -> Iterator[Hashable]:
    part = subject.unit.parts.get(look.part)
    pieces = look.pieces or range(1, part.count + 1 if part is not None else 1)
    yield from ((look.part, look.look, piece) for piece in pieces)


def _of_reading(reading: Reading) -> Iterator[Hashable]:
    last = reading.piece + (len(reading.figures) if reading.per == "piece" else 1)
    for piece in range(reading.piece, last):
        yield reading.part, reading.reading, reading.result, reading.new, piece
