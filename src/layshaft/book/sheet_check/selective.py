"""Sizes of selective parts: one's own that nobody has read, so that it cannot stay, and one chosen that is nowhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layshaft.book.definition import Part, Reading, Unit
from layshaft.book.definition.part import sold_id
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.sheet_check.subject import Subject
from layshaft.quantity import LENGTH, Quantity, parse_quantity

AS_SHOWN = Fraction(127, 10**8)
"""Half of the last place in which a sheet shows sizes, a ten-thousandth of an inch [m]: so near is the size meant."""


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


def is_had(subject: Subject, name: str, size: Quantity) -> bool:
    """Whether a size is listed, lies in the drawer or is that of a piece as it was read, the unit's own or used."""
    parts = subject.unit.parts
    sold = sold_id(parts, name)
    alike = {other: part.selective for other, part in parts.items() if part.selective and sold_id(parts, other) == sold}
    found = {one.nominal for selective in alike.values() for one in selective.sizes}
    stock = subject.shop.drawer.get(sold)
    found |= {parse_quantity(text, LENGTH).nominal for text in (stock.sizes if stock else {})}
    own = (_shown(one.figures) for one in subject.job.readings if one.part in alike and _is_size(subject.unit, one))
    read = [*(one for one in own if one is not None), *(one.nominal for one in (stock.measured if stock else ()))]
    return size.nominal in found or any(abs(size.nominal - one) <= AS_SHOWN for one in read)


def _is_size(unit: Unit, reading: Reading) -> bool:
    return not reading.new and reading.reading == _size_reading(unit.parts[str(reading.part)])


def _shown(figures: Sequence[Quantity]) -> Fraction | None:
    known = [one.nominal for one in figures if one.dimension == LENGTH]
    return sum(known, Fraction(0)) / len(known) if known else None


def _size_reading(part: Part) -> str | None:
    """The reading that is a selective part's size."""
    selective = part.selective
    if selective is None:
        return None
    ends = (selective.from_, selective.to)
    return next((name for name, plan in part.readings.items() if (plan.from_, plan.to) == ends), None)
