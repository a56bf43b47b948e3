"""A spring's rate and what it can store, from the data a book has on it, with the bounds that data leaves."""

from __future__ import annotations

from fractions import Fraction
from math import inf
from typing import NamedTuple

from layshaft.book.definition import Load, SpringData, SpringTest, Unit
from layshaft.mechanics import spring as mechanics
from layshaft.mechanics.release import speed_bound
from layshaft.quantity import Quantity


class Rates(NamedTuple):
    """A spring's rate [N/m, or N m/rad of a torsion spring]: least, as drawn, greatest."""

    low: float
    nominal: float
    high: float

    @classmethod
    def of(cls, told: Quantity) -> Rates:
        """A rate as it was written."""
        return cls(told.si_low, told.si, told.si_high)


def rate_band(data: SpringData) -> Rates | None:
    """What one spring's rate can be by all that is said of it; nothing where the data is not there.

    As drawn it is the rate that is written, else the wire's, else that of the test load; its ends are the widest that
    any of these leaves, every tolerance at its worst.
    """
    if data.kind == "torsion":
        return Rates.of(data.angular_rate) if data.angular_rate is not None else None
    told = [Rates.of(data.rate)] if data.rate is not None else []
    by_wire, by_test = rate_by_wire(data), _bound_by_test(data)
    if by_wire is not None:
        told += [by_wire, _scattered(by_wire, data.test)]
    if by_test is not None:
        told.append(by_test)
    if not told:
        return None
    return Rates(min(one.low for one in told), told[0].nominal, max(one.high for one in told))


def greatest_rate(data: SpringData) -> float | None:
    """The stiffest that one spring can be [N/m, or N m/rad when wound]; nothing where the data is not there."""
    band = rate_band(data)
    return band.high if band is not None else None


def rate_by_wire(data: SpringData) -> Rates | None:
    """The rate that wire and coils give: it grows with modulus and wire, and falls with mean diameter and coils.

    References
    ----------
    The rate from the wire as `mechanics.spring.rate` has it.
    """
    wire, mean, coils, shear = data.wire, data.mean_diameter, data.active_coils, data.shear_modulus
    if wire is None or mean is None or coils is None or shear is None or mean.low <= wire.high:
        return None
    return Rates(
        float(mechanics.rate(shear.si_low, wire.si_low, mean.si_high, coils.si_high)),
        float(mechanics.rate(shear.si, wire.si, mean.si, coils.si)),
        float(mechanics.rate(shear.si_high, wire.si_high, mean.si_low, coils.si_low)),
    )


def rate_by_test(data: SpringData) -> Rates | None:
    """The rate that a load at a length gives with the free length, every tolerance at its worst."""
    test, free = data.test, data.free_length
    if test is None or free is None or free.low <= test.length.high:
        return None
    load, length = test.load, test.length
    return Rates(
        float(load.low / (free.high - length.low)),
        float(load.nominal / (free.nominal - length.nominal)),
        float(load.high / (free.low - length.high)),
    )


def _scattered(rates: Rates, test: SpringTest | None) -> Rates:
    """A rate that may be off by as much as a test load may, in proportion (common practice, no source)."""
    if test is None:
        return rates
    load = test.load
    return Rates(
        rates.nominal * float(load.low / load.nominal),
        rates.nominal,
        rates.nominal * float(load.high / load.nominal),
    )


def _bound_by_test(data: SpringData) -> Rates | None:
    """The rates that, counted from the longest free length, bound what a tested spring pushes at every length.

    With load F at length T a spring of free length L0 pushes F (L0 - L) / (L0 - T) at a length L. That is a straight
    line in L, so the line from the longest free length lies above those of the longest and of the shortest one where
    it does at the test length and at the shortest that the spring can be (own derivation).
    """
    rates = rate_by_test(data)
    if rates is None or data.test is None or data.free_length is None:
        return None
    load, test, free = data.test.load.high, data.test.length.high, data.free_length
    shortest = min(_shortest(data), free.low)
    at_solid = (free.low - shortest) / ((free.low - test) * (free.high - shortest))
    return rates._replace(high=float(load * max(1 / (free.high - test), at_solid)))


def _shortest(data: SpringData) -> Fraction:
    """The shortest that a spring can be pressed, as far as the data tells; ground ends may take a coil."""
    if data.solid_length is not None:
        return Fraction(data.solid_length.low)
    if data.wire is not None and data.total_coils is not None:
        return max(Fraction(0), Fraction(data.wire.low * (data.total_coils.low - 1)))
    return Fraction(0)


def solid_length(data: SpringData) -> Fraction | None:
    """The longest a spring can be when pressed solid, where the data tells it."""
    if data.solid_length is not None:
        return Fraction(data.solid_length.high)
    if data.wire is not None and data.total_coils is not None:
        return Fraction(data.wire.high * data.total_coils.high)
    return None


def longest_free(unit: Unit, load: Load) -> Fraction | None:
    """The longest free length of a load's springs, where every one tells it."""
    lengths: list[Fraction] = []
    for part in load.springs:
        data = unit.parts[part].spring
        if data is None or data.free_length is None:
            return None
        lengths.append(data.free_length.high)
    return max(lengths)


def greatest_force(unit: Unit, load: Load, length: Fraction) -> float | None:
    """The most that a load's springs can push with at a length [N]."""
    total = 0.0
    for part in load.springs:
        data = unit.parts[part].spring
        rate = greatest_rate(data) if data is not None else None
        if data is None or rate is None or data.free_length is None:
            return None
        total += unit.parts[part].count * rate * max(0.0, float(data.free_length.high - length))
    return total


def greatest_energy(unit: Unit, load: Load, length: Fraction | None) -> float | None:
    """The most that a load's springs can store at a length, or as wound [J]."""
    total = 0.0
    for part in load.springs:
        data = unit.parts[part].spring
        rate = greatest_rate(data) if data is not None else None
        if data is None or rate is None:
            return None
        shift = _shift(data, load, length)
        if shift is None:
            return None
        total += unit.parts[part].count * rate * max(0.0, shift) ** 2 / 2
    return total


def _shift(data: SpringData, load: Load, length: Fraction | None) -> float | None:
    """How far a spring is from free at most: by angle where it is wound, else by length."""
    if data.kind == "torsion":
        return load.wound.si_high if load.wound is not None else None
    if data.free_length is None or length is None:
        return None
    return float(data.free_length.high - length)


def greatest_speed(unit: Unit, load: Load, energy: float) -> float:
    """What no part that could leave can pass [m/s]: all the energy in the lightest of them."""
    seats = [seat.partition(" ")[0] for seat in load.seats or ()] + list(load.wound_between or ())
    leaving = load.could_leave or (*load.springs, *(part for part in seats if part != unit.base))
    lightest = min(unit.parts[part].mass.si_low for part in leaving)
    return float(speed_bound(energy, lightest)) if lightest > 0 else inf
