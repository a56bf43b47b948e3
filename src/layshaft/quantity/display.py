"""Figures for people: the shop's choice of metric or inch, digits that mean something, a side to round to.

By habit a minus is a hyphen and a range two dots, so that what is shown can be read back. Paper asks for
typographic signs.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, isfinite
from typing import Literal

from layshaft.quantity import dimension as kind
from layshaft.quantity.dimension import Dimension
from layshaft.quantity.fault import QuantityFault
from layshaft.quantity.limit import Limit
from layshaft.quantity.unit import ONE, UNIT_BY_SYMBOL, System, Unit

Direction = Literal["nearest", "up", "down"]

MOST_DECIMALS = 9
INCH_EXTRA_DECIMALS = 2
# A float carries noise in its last digits; beyond twelve it must not push a figure up or down a step.
_FLOAT_DIGITS = 12
_MINUS, _NO_BREAK_SPACE = "\u2212", "\u00a0"

# For each dimension's label, metric and inch units by falling size: the first in which the value is at least
# one, or what `_LEAST` says, is taken, else the last.
_LADDERS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    kind.LENGTH.label: (("mm",), ("in",)),
    kind.AREA.label: (("mm²",), ("in²",)),
    kind.VOLUME.label: (("L", "ml"), ("US qt", "US fl oz")),
    kind.TIME.label: (("h", "min", "s"), ("h", "min", "s")),
    kind.FREQUENCY.label: (("Hz",), ("Hz",)),
    kind.ROTATIONAL_SPEED.label: (("rpm",), ("rpm",)),
    kind.SPEED.label: (("m/s",), ("ft/s",)),
    kind.ACCELERATION.label: (("m/s²",), ("m/s²",)),
    kind.MASS.label: (("kg", "g"), ("lb",)),
    kind.DENSITY.label: (("kg/m³",), ("lb/in³",)),
    kind.FORCE.label: (("kN", "N"), ("lbf",)),
    kind.RATE.label: (("N/mm",), ("lbf/in",)),
    kind.TORQUE.label: (("N·m",), ("lbf·ft", "lbf·in")),
    kind.ENERGY.label: (("kJ", "J"), ("ft·lbf",)),
    "a torque or an energy": (("N·m",), ("lbf·ft",)),
    kind.TORSION_RATE.label: (("N·m/rad",), ("lbf·in/deg",)),
    kind.PRESSURE.label: (("GPa", "MPa", "kPa"), ("psi",)),
    kind.POWER.label: (("kW", "W"), ("kW", "W")),
    kind.TEMPERATURE.label: (("°C",), ("°F",)),
    kind.TEMPERATURE_DIFFERENCE.label: (("K",), ("°F",)),
    kind.EXPANSION.label: (("ppm/K",), ("ppm/K",)),
    kind.ANGLE.label: (("deg",), ("deg",)),
    kind.FRACTION.label: (("%",), ("%",)),
    kind.PURE.label: (("",), ("",)),
}
_LEAST = {"lbf·ft": 5}
"""Units left at more than one: below five foot-pounds a torque is set in inch-pounds (common practice, no source)."""
_BY_DIMENSION = {
    d: d.label
    for d in (
        kind.PURE, kind.ANGLE, kind.LENGTH, kind.AREA, kind.VOLUME, kind.TIME, kind.FREQUENCY,
        kind.ROTATIONAL_SPEED, kind.SPEED, kind.ACCELERATION, kind.MASS, kind.DENSITY, kind.FORCE, kind.RATE,
        kind.TORQUE, kind.TORSION_RATE, kind.PRESSURE, kind.POWER, kind.TEMPERATURE,
        kind.TEMPERATURE_DIFFERENCE, kind.EXPANSION,
    )
}  # fmt: skip
_UNITS: dict[str, Unit] = {
    **UNIT_BY_SYMBOL,
    "": ONE,
    "ft·lbf": Unit("ft·lbf", kind.ENERGY, UNIT_BY_SYMBOL["lbf·ft"].factor, "inch"),
}


@dataclass(frozen=True, slots=True)
class Show:
    """A way to show figures: lengths to fixed decimals (of a millimetre), the rest to significant digits."""

    system: System = "metric"
    digits: int = 3
    decimals: int = 2
    is_typographic: bool = False

    def show(self, value: Fraction | float, dimension: Dimension, direction: Direction = "nearest") -> str:
        """The value with its unit, rounded to the nearest step, or up, or down, as the safe side asks."""
        unit, scaled = self._scaled(value, dimension)
        return self._joined(self._digits_of(scaled, unit, direction), unit)

    def show_both(
        self, value: Fraction | float, dimension: Dimension, direction: Direction = "nearest"
    ) -> str:
        """The value in the shop's system, with the other one in brackets where that has a unit of its own."""
        first = self.show(value, dimension, direction)
        second = self._other().show(value, dimension, direction)
        return first if first == second else f"{first} ({second})"

    def show_exact(self, value: Fraction, dimension: Dimension) -> str:
        """The value with all its decimals where they end within nine, else as `show` does."""
        unit, scaled = self._scaled(value, dimension)
        least = self._decimals(scaled, unit)
        for decimals in range(least, MOST_DECIMALS + 1):
            if _ends_within(scaled, decimals):
                return self._joined(_written(scaled, decimals, "nearest"), unit)
        return self.show(value, dimension)

    def show_beside(self, value: Fraction | float, bound: Fraction, dimension: Dimension) -> str:
        """The value with as many decimals as it takes not to look like the bound it differs from."""
        unit, scaled_bound = self._scaled(bound, dimension)
        scaled = unit.from_si(_exact(value), dimension)
        first = max(self._decimals(scaled, unit), self._decimals(scaled_bound, unit))
        for decimals in range(first, MOST_DECIMALS + 1):
            written = _written(scaled, decimals, "nearest")
            if scaled == scaled_bound or written != _written(scaled_bound, decimals, "nearest"):
                return self._joined(written, unit)
        return self._joined(_written(scaled, MOST_DECIMALS, "nearest"), unit)

    def show_limit(self, limit: Limit) -> str:
        """The limit, its ends exact where their decimals end, else rounded inward and never outward."""
        low, high = limit.low, limit.high
        if limit.is_preload:
            low, high = (None if high is None else -high), (None if low is None else -low)
        word = "preload " if limit.is_preload else ""
        ends = [end for end in (low, high) if end is not None]
        unit, _ = self._scaled(max(ends, key=abs), limit.dimension)
        scaled = [unit.from_si(end, limit.dimension) for end in ends]
        decimals = self._limit_decimals(scaled, unit)
        if low is None or high is None:
            bound = "at most" if low is None else "at least"
            written = _written(scaled[0], decimals, "down" if low is None else "up")
            return f"{word}{bound} {self._joined(written, unit)}"
        between = " to " if self.is_typographic else " .. "
        # Ends closer than the last decimal would swap places: then there is no inward to round to.
        is_open = _left_between(scaled, decimals) >= 0
        bottom = self._sign(_written(scaled[0], decimals, "up" if is_open else "nearest"))
        top = _written(scaled[1], decimals, "down" if is_open else "nearest")
        return f"{word}{bottom}{between}{self._joined(top, unit)}"

    def _limit_decimals(self, ends: list[Fraction], unit: Unit) -> int:
        """Decimals that write the ends exactly, or take at most a twentieth off the room between them."""
        first = max(self._decimals(end, unit) for end in ends)
        for decimals in range(first, first + 4):
            if all(_ends_within(end, decimals) for end in ends):
                return decimals
        if len(ends) == 1:
            return first
        enough = (ends[1] - ends[0]) * Fraction(19, 20)
        for decimals in range(first, MOST_DECIMALS):
            if _left_between(ends, decimals) >= enough:
                return decimals
        return MOST_DECIMALS

    def _scaled(self, value: Fraction | float, dimension: Dimension) -> tuple[Unit, Fraction]:
        exact = _exact(value)
        label = dimension.label if dimension.label in _LADDERS else _BY_DIMENSION.get(dimension, "")
        if not label:
            return Unit(dimension.base_symbol, dimension, Fraction(1), "metric"), exact
        for symbol in _LADDERS[label][self.system == "inch"]:
            unit = _UNITS[symbol]
            scaled = unit.from_si(exact, dimension)
            if abs(scaled) >= _LEAST.get(symbol, 1):
                break
        return unit, scaled

    def _digits_of(self, scaled: Fraction, unit: Unit, direction: Direction) -> str:
        return _written(scaled, self._decimals(scaled, unit), direction)

    def _decimals(self, scaled: Fraction, unit: Unit) -> int:
        """Decimals to show, negative for tens and hundreds; a figure that is not zero never shows as zero."""
        magnitude = _magnitude(scaled)
        if unit.dimension == kind.LENGTH:
            wanted = self.decimals + (INCH_EXTRA_DECIMALS if unit.system == "inch" else 0)
            return min(max(wanted, -magnitude), MOST_DECIMALS) if scaled else wanted
        if unit.dimension.is_absolute:
            return 0 if scaled.denominator == 1 else 1
        if scaled.denominator == 1 and (unit.dimension.is_pure or abs(scaled) < 10**self.digits):
            return 0
        return min(self.digits - 1 - magnitude, MOST_DECIMALS)

    def _joined(self, digits: str, unit: Unit) -> str:
        space = _NO_BREAK_SPACE if self.is_typographic else " "
        return f"{self._sign(digits)}{space if unit.symbol else ''}{unit.symbol}"

    def _sign(self, digits: str) -> str:
        return digits.replace("-", _MINUS) if self.is_typographic else digits

    def _other(self) -> Show:
        system: System = "metric" if self.system == "inch" else "inch"
        return Show(system, self.digits, self.decimals, self.is_typographic)


def _exact(value: Fraction | float) -> Fraction:
    if isinstance(value, float):
        if not isfinite(value):
            advice = "looking at what it was worked out from"
            raise QuantityFault("not a number", repr(value), "a finite figure", advice)
        return Fraction(f"{value:.{_FLOAT_DIGITS}g}")
    return Fraction(value)


def _magnitude(value: Fraction) -> int:
    """The power of ten of the first digit, 0 for zero."""
    size = abs(value)
    if not size:
        return 0
    power = len(str(size.numerator)) - len(str(size.denominator))
    return power if size >= Fraction(10) ** power else power - 1


def _left_between(ends: list[Fraction], decimals: int) -> Fraction:
    """What is left between two ends that are rounded inward, negative where they would swap."""
    steps = Fraction(10) ** decimals
    return (floor(ends[1] * steps) - ceil(ends[0] * steps)) / steps


def _ends_within(value: Fraction, decimals: int) -> bool:
    return (value * Fraction(10) ** decimals).denominator == 1


def _written(value: Fraction, decimals: int, direction: Direction) -> str:
    """The value in digits, to so many decimals; halves go away from zero."""
    steps = value * Fraction(10) ** decimals
    if direction == "up":
        whole = ceil(steps)
    elif direction == "down":
        whole = floor(steps)
    else:
        whole = floor(abs(steps) + Fraction(1, 2)) * (-1 if steps < 0 else 1)
    if decimals <= 0:
        return str(whole * 10**-decimals)
    digits = str(abs(whole)).rjust(decimals + 1, "0")
    return f"{'-' if whole < 0 else ''}{digits[:-decimals]}.{digits[-decimals:]}"
