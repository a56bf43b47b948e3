"""Selective parts of the unit whose own size nobody has read: such a piece cannot stay, however good it is."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.definition import Part
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.sheet_check.subject import Subject


def unread_size_faults(subject: Subject) -> Iterator[Fault]:
    """A note on each selective part that is off or looked at, but not measured, and that nobody chose to change."""
    job = subject.job
    read = {(one.part, one.reading) for one in job.readings if not one.new}
    changed = {part for one in job.choices for part in (one.fit, one.renew) if part is not None}
    for part, definition in subject.unit.parts.items():
        size = _size_reading(definition)
        if size is None or part in changed or (part, size) in read:
            continue
        told: list[Path] = [("looks", at, "part") for at, one in enumerate(job.looks) if one.part == part]
        told += [("done", at, "off") for at, one in enumerate(job.done) if one.off == part]
        if told:
            yield fault("own size unread", path=told[0], found=part, reading=size)


def _size_reading(part: Part) -> str | None:
    """The reading that is a selective part's size."""
    selective = part.selective
    if selective is None:
        return None
    ends = (selective.from_, selective.to)
    return next((name for name, plan in part.readings.items() if (plan.from_, plan.to) == ends), None)
