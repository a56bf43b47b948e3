"""Readings: what was read, of the right dimension, on pieces and places that there are, with a gauge of the shop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Gauge, Reading
from layshaft.book.expected import Asked, asked_of_reading, asked_of_result, doubt_about
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.sheet_check.subject import Subject, in_book, in_shop, too_many
from layshaft.book.size import Sizes
from layshaft.book.unlike import unlike
from layshaft.quantity import TEMPERATURE, TEMPERATURE_DIFFERENCE, Dimension, Quantity, Show, parse_quantity

SHOW = Show()
REFERENCE = parse_quantity("20 °C", TEMPERATURE)
"""Where sizes hold if neither book nor shop says otherwise (ISO 1:2022, from memory)."""
BAND = parse_quantity("5 K", TEMPERATURE_DIFFERENCE)
"""How far from it a part may be measured if the shop does not say (own choice)."""


@dataclass(frozen=True)
class Expected:
    """What the book lets expect of a reading."""

    owner: str
    name: str
    gauge: str
    dimension: Dimension | None
    places: int
    pieces: int
    asked: Asked


def reading_faults(subject: Subject) -> Iterator[Fault]:
    """Everything in a job's readings that its unit and shop do not bear out."""
    sizes = Sizes(subject.unit)
    # The bench's own temperature is told once; a reading's where it has one of its own.
    yield from _temperature_faults(subject, subject.job.temperature, ())
    for at, reading in enumerate(subject.job.readings):
        path: Path = ("readings", at)
        yield from subject.unknown_person(reading.by, (*path, "by"))
        yield from subject.misplaced_moment(reading.at, (*path, "at"))
        yield from _temperature_faults(subject, reading.temperature, path)
        for number, figure in enumerate(reading.figures):
            if not figure.is_plain:
                yield fault("not one figure", path=(*path, "figures", number), found=figure.text)
        found = _expected(subject, sizes, reading, path)
        if isinstance(found, Expected):
            yield from _figure_faults(reading, found, path)
            yield from _gauge_faults(subject, reading, found, path)
        else:
            yield from found


def _expected(subject: Subject, sizes: Sizes, reading: Reading, path: Path) -> Expected | list[Fault]:
    if reading.result is not None and reading.part is None and reading.reading is None:
        return _expected_of_result(subject, sizes, reading.result, path)
    if reading.part is None or reading.reading is None or reading.result is not None:
        told = [key for key in ("part", "reading", "result") if getattr(reading, key) is not None]
        return [fault("reading of what", path=path, found=listed(told) or "none of them")]
    part = subject.unit.parts.get(reading.part)
    if part is None:
        return list(subject.unknown_part(reading.part, (*path, "part")))
    plan = part.readings.get(reading.reading)
    if plan is None:
        return [
            fault(
                "unknown reading",
                path=(*path, "reading"),
                found=reading.reading,
                needed=listed(part.readings) or "a part that the book has readings for",
                try_=nearest_try(reading.reading, part.readings),
                part=reading.part,
            )
        ]
    asked = asked_of_reading(subject.unit, reading.part, reading.reading)
    assert asked is not None
    return Expected(
        reading.part, f"{reading.part} {reading.reading}", plan.gauge, asked.dimension, plan.places, part.count, asked
    )


def _expected_of_result(subject: Subject, sizes: Sizes, name: str, path: Path) -> Expected | list[Fault]:
    result = subject.unit.results.get(name)
    if result is None:
        return list(in_book("result", name, subject.unit.results, (*path, "result")))
    if result.read is None:
        return [fault("not read directly", path=(*path, "result"), found=name)]
    asked = asked_of_result(subject.unit, sizes, name)
    assert asked is not None
    return Expected(name, name, result.read.gauge, asked.dimension, result.read.places, 1, asked)


def _figure_faults(reading: Reading, expected: Expected, path: Path) -> Iterator[Fault]:
    for number, figure in enumerate(reading.figures):
        here: Path = (*path, "figures", number)
        due = expected.dimension or figure.dimension
        wrong = unlike(here, str(figure), figure.dimension, due, f"as `{expected.name}` is")
        if wrong is not None:
            yield wrong
            continue
        doubt = doubt_about(expected.asked, figure)
        if doubt is not None and doubt.kind == "cannot be":
            yield fault("cannot be", path=here, found=figure.text)
        elif doubt is not None and not reading.confirmed:
            about = SHOW.show_exact(expected.asked.expected or Fraction(0), figure.dimension)
            yield fault("far from drawn", path=here, found=figure.text, needed=f"about {about}")
    if reading.load is not None and expected.asked.load is None:
        yield fault("load not asked", path=(*path, "load"), found=str(reading.load), name=expected.name)
    number = len(reading.figures)
    if reading.per == "piece":
        last = reading.piece + number - 1
        if last > expected.pieces:
            place = max(0, expected.pieces - reading.piece + 1)
            yield too_many(expected.owner, last, expected.pieces, (*path, "figures", place), "piece ")
        return
    if reading.piece > expected.pieces:
        yield too_many(expected.owner, reading.piece, expected.pieces, (*path, "piece"), "piece ")
    # Several figures of a single place are repeats.
    if number > expected.places > 1:
        yield fault(
            "more places",
            path=(*path, "figures", expected.places),
            found=f"{number} figures",
            needed=f"at most {expected.places}",
            try_="write a repeat as a reading of its own",
            reading=expected.name,
            count=str(expected.places),
        )


def _gauge_faults(subject: Subject, reading: Reading, expected: Expected, path: Path) -> Iterator[Fault]:
    if reading.gauge is None:
        yield fault("no gauge", path=path, found="no `gauge`")
        return
    here: Path = (*path, "gauge")
    gauge = subject.shop.gauges.get(reading.gauge)
    if gauge is None:
        yield from in_shop("gauge", reading.gauge, subject.shop.gauges, here)
        return
    if gauge.class_ != expected.gauge:
        yield fault("gauge class", path=here, found=f"{reading.gauge}, a {gauge.class_}", needed=expected.gauge)
    # A figure of the wrong dimension is told by itself, whatever gauge it is said to come from.
    if all(expected.dimension in (None, figure.dimension) for figure in reading.figures):
        yield from _shown_faults(reading, gauge, path)
    read_on = (reading.at or subject.job.today)[:10]
    if gauge.due is not None and gauge.due < read_on:
        yield fault("gauge overdue", path=here, found=read_on, gauge=reading.gauge, due=gauge.due)


def _shown_faults(reading: Reading, gauge: Gauge, path: Path) -> Iterator[Fault]:
    shown = gauge.u95 or gauge.step
    for number, figure in enumerate(reading.figures):
        if shown is not None and figure.dimension.exponents != shown.dimension.exponents:
            yield fault(
                "gauge shows otherwise",
                path=(*path, "gauge"),
                found=str(reading.gauge),
                needed=f"a gauge of {figure.dimension.name}",
                gauge=str(reading.gauge),
                due=figure.dimension.name,
            )
            return
        # A figure of the other system was worked out from what the gauge showed: its step says nothing about it.
        if gauge.step and _is_same_system(figure, gauge.step) and _is_finer(figure, gauge.step):
            yield fault(
                "finer than gauge",
                path=(*path, "figures", number),
                found=figure.text,
                needed=f"steps of {gauge.step}",
                gauge=str(reading.gauge),
            )
            return


def _is_same_system(figure: Quantity, step: Quantity) -> bool:
    return (figure.unit.system == "inch") == (step.unit.system == "inch")


def _is_finer(figure: Quantity, step: Quantity) -> bool:
    if step.nominal == 0 or step.dimension.exponents != figure.dimension.exponents:
        return False
    # A gauge steps from its own nought, a thermometer from nought degrees.
    shown = figure.unit.from_si(figure.nominal, figure.dimension) * figure.unit.factor
    return (shown / step.nominal).denominator != 1


def _temperature_faults(subject: Subject, read_at: Quantity | None, path: Path) -> Iterator[Fault]:
    reference = subject.unit.reference_temperature or subject.shop.reference_temperature or REFERENCE
    band = subject.shop.temperature_band or BAND
    if read_at is None:
        return
    apart = abs(read_at.nominal - reference.nominal)
    if apart > band.nominal:
        yield fault(
            "far from reference",
            path=(*path, "temperature"),
            found=read_at.text,
            apart=Show(subject.shop.units).show(apart, TEMPERATURE_DIFFERENCE),
            reference=reference.text,
            band=band.text,
        )
