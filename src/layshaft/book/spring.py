"""A spring's rate and what it can store, from the data a book has on it, with the bounds that data leaves."""

from __future__ import annotations

from fractions import Fraction
from math import inf

from layshaft.book.definition import Load, SpringData, Unit
from layshaft.mechanics import spring as mechanics
from layshaft.mechanics.release import speed_bound


def greatest_rate(data: SpringData) -> float | None:
    """The stiffest that one spring can be [N/m, or N m/rad of a torsion spring]; nothing where the data is not there.

    References
    ----------
    The rate from the wire as `mechanics.spring.rate` has it. A spring tested to a band at one length may be as much
    stiffer as the band is wide: common practice, no source.
    """
    told = data.angular_rate if data.kind == "torsion" else data.rate
    if told is not None or data.kind == "torsion":
        return float(told.si_high) if told is not None else None
    test = data.test
    scatter = float(test.load.half_width / test.load.nominal) if test is not None and test.load.nominal else 0.0
    if data.wire and data.mean_diameter and data.active_coils and data.shear_modulus:
        rate = mechanics.rate(data.shear_modulus.si, data.wire.si, data.mean_diameter.si, float(data.active_coils))
        return float(rate) * (1 + scatter)
    if test is not None and data.free_length is not None and data.free_length.nominal > test.length.nominal:
        return float(test.load.si * (1 + scatter) / (data.free_length.si - test.length.si))
    return None


def solid_length(data: SpringData) -> Fraction | None:
    """The longest a spring can be when pressed solid, where the data tells it."""
    if data.solid_length is not None:
        return Fraction(data.solid_length.high)
    if data.wire is not None and data.total_coils is not None:
        return Fraction(data.wire.high * data.total_coils)
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
