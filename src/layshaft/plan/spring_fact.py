"""A book's spring data turned into a rate and a free length, each with its band, for one load."""

from __future__ import annotations

from dataclasses import dataclass

from layshaft.book.definition import SpringData, Unit
from layshaft.book.spring import rate_band


@dataclass(frozen=True, slots=True)
class Band:
    """A figure with the least and the greatest it can be."""

    low: float
    nominal: float
    high: float

    def times(self, factor: float) -> Band:
        """The band scaled by a positive factor."""
        return Band(self.low * factor, self.nominal * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class SpringFact:
    """All pieces of one spring part of a load, taken as one spring.

    For a spring wound by angle, `rate` is in newton metres a radian and `free` in radians.
    """

    part: str
    count: int
    rate: Band
    free: Band
    solid: float
    mass: float
    is_wound: bool = False


class MissingSpringData(Exception):
    """The book does not say enough about a spring to give its force."""

    def __init__(self, part: str, lacks: str) -> None:
        super().__init__(f"{part}: {lacks} is not in the book, so its load cannot be worked out")
        self.part = part
        self.lacks = lacks


def spring_fact(unit: Unit, part: str) -> SpringFact:
    """The spring data of a part, all its pieces pushing in parallel."""
    definition = unit.parts[part]
    data = definition.spring
    if data is None:
        raise MissingSpringData(part, "`spring`")
    mass = definition.mass.si * definition.count
    if data.kind == "torsion":
        return _wound(part, definition.count, mass, data)
    if data.free_length is None:
        raise MissingSpringData(part, "the free length")
    free = Band(data.free_length.si_low, data.free_length.si, data.free_length.si_high)
    rate = _rate(part, data).times(definition.count)
    return SpringFact(part, definition.count, rate, free, _solid(data), mass)


def _wound(part: str, count: int, mass: float, data: SpringData) -> SpringFact:
    if data.angular_rate is None:
        raise MissingSpringData(part, "the angular rate")
    rate = Band(data.angular_rate.si_low, data.angular_rate.si, data.angular_rate.si_high).times(count)
    free = data.free_angle
    band = Band(free.si_low, free.si, free.si_high) if free else Band(0.0, 0.0, 0.0)
    return SpringFact(part, count, rate, band, 0.0, mass, is_wound=True)


def _rate(part: str, data: SpringData) -> Band:
    rates = rate_band(data)
    if rates is None:
        raise MissingSpringData(part, "a rate, the wire and coils, or a load at a length")
    return Band(*rates)


def _solid(data: SpringData) -> float:
    if data.solid_length is not None:
        return float(data.solid_length.si)
    if data.wire is not None and data.total_coils is not None:
        return float(data.wire.si * data.total_coils.si)
    return 0.0


