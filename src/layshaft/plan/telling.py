"""Figures as one shop tells them: in its units, a figure and its limit in one unit, a preload as a preload.

The least of a band goes down and the greatest up; ends of limits go inward. What is typed in the shop's own units
stands as typed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Shop
from layshaft.book.size import Span
from layshaft.quantity import LENGTH, PURE, Dimension, Direction, Limit, QuantityFault, Show, Unit, find_unit
from layshaft.quantity.display import MOST_DECIMALS

_UNIT_BEHIND = re.compile(r"[0-9.]\s*([^\s0-9.,;:()][^,;:()]*)$")


def telling_of(shop: Shop) -> Telling:
    """How a shop tells figures: thousandths of a millimetre, or ten-thousandths of an inch."""
    return Telling("inch", decimals=2) if shop.units == "inch" else METRIC


@dataclass(frozen=True, slots=True)
class Telling(Show):
    """Tells figures against limits."""

    digits: int = 4
    decimals: int = 3

    def typed(self, text: str, value: Fraction, dimension: Dimension) -> str:
        """A figure as typed; in the shop's unit first where it was typed in another."""
        unit = unit_behind(text)
        if unit is None or self._is_own(unit):
            return text
        return f"{self.show(value, dimension)} ({text})"

    def size(self, value: Fraction) -> str:
        """A size out of a list: all its decimals, with the millimetres that it is listed in behind an inch figure.

        The mean of several readings can have more than any list: it is told to a thousandth of a millimetre.
        """
        is_mean = (value * 10**7).denominator != 1
        metric = Show(decimals=3).show(value, LENGTH) if is_mean else Show(decimals=2).show_exact(value, LENGTH)
        return metric if self.system == "metric" else f"{self.show(value, LENGTH)} ({metric})"

    def limit(self, limit: Limit) -> str:
        """A limit in the shop's units, with the book's own words behind where those are in others."""
        shown = self._shown(limit)
        return shown if shown == limit.text else f"{shown} ({limit.text})"

    def _shown(self, limit: Limit) -> str:
        unit = unit_behind(limit.text)
        return limit.text if unit is None or self._is_own(unit) else self.show_limit(limit)

    def band(
        self, band: Span, dimension: Dimension, limit: Limit | None = None, gauges: Fraction = Fraction(0)
    ) -> str:
        """A figure, and how far it can go where that is more than rounding; so much further for what gauges leave."""
        unit = self._unit(band, dimension, limit)
        sign, word = (-1, "preload ") if _is_preloaded(limit, band.nominal) else (1, "")
        low, nominal, high = sorted(sign * unit.from_si(end, dimension) for end in (band.low, band.nominal, band.high))
        bounds = () if limit is None else (limit.low, limit.high)
        ends = [sign * unit.from_si(end, dimension) for end in bounds if end is not None]
        decimals = self._apart(nominal, ends, unit)
        shown = nominal if limit is None else _beside(nominal, ends, decimals, limit.contains(band.nominal))
        told = f"{word}{self._joined(_written(shown, decimals, 'nearest'), unit)}"
        if high - low < Fraction(1, 10) ** decimals / 2:
            return told
        further = abs(unit.from_si(gauges, dimension) - unit.from_si(Fraction(0), dimension))
        least, most = _written(low - further, decimals, "down"), _written(high + further, decimals, "up")
        is_further = (least, most) != (_written(low, decimals, "down"), _written(high, decimals, "up"))
        counted = ", gauges counted" if is_further else ""
        return f"{told} ({self._sign(least)} to {self._joined(most, unit)} at worst{counted})"

    def value(self, value: Fraction, dimension: Dimension, limit: Limit | None = None) -> str:
        """A figure alone, in the unit of its limit."""
        return self.band(Span.exactly(value), dimension, limit)

    def against(self, value: Fraction, limit: Limit) -> str:
        """Where a figure lies to its limit, and by how much: `inside 0.50 .. 0.90 mm by 0.170 mm`."""
        unit = self._unit(Span.exactly(value), limit.dimension, limit)
        scaled = unit.from_si(value, limit.dimension)
        ends = [unit.from_si(end, limit.dimension) for end in (limit.low, limit.high) if end is not None]
        gap = min(abs(scaled - end) for end in ends)
        is_inside = limit.contains(value)
        decimals = self._apart(scaled, ends, unit)
        by = self._joined(_written(gap, decimals, "down" if is_inside else "up"), unit)
        if limit.low is not None and limit.high is not None:
            return f"{self.beside(value, limit)}{f' by {by}' if gap else ''}"
        end = self._end(limit)
        if not gap:
            return self.beside(value, limit)
        return f"{by} {'over' if _is_floor(limit) == is_inside else 'under'} {end}"

    def beside(self, value: Fraction, limit: Limit) -> str:
        """As `against`, without how much."""
        is_inside = limit.contains(value)
        is_on_end = value in (limit.low, limit.high)
        if limit.low is not None and limit.high is not None:
            named = self.limit(limit)
            if _is_preloaded(limit, value):
                # Beside a figure that is called a preload its limit need not be.
                named = named.replace("preload ", "")
            if named.startswith("at most"):
                named = f"its limit of {named}"
            return f"{'inside' if is_inside else 'outside'} {named}{' exactly' if is_on_end else ''}"
        end = self._end(limit)
        if is_on_end:
            return f"exactly {end}"
        if _is_floor(limit):
            return f"{'not under' if is_inside else 'under'} {end}"
        return f"{'within' if is_inside else 'over'} {end}"

    def _end(self, limit: Limit) -> str:
        """The end of a limit with one: `the 0.70 mm allowed`."""
        words = self.limit(limit)
        for bound in ("preload ", "at least ", "at most "):
            words = words.replace(bound, "")
        return f"the {words} {'asked' if _is_floor(limit) else 'allowed'}"

    def _unit(self, band: Span, dimension: Dimension, limit: Limit | None) -> Unit:
        """The one unit for a figure and its limit."""
        if limit is None:
            return self._scaled(band.nominal, dimension)[0]
        typed = unit_behind(limit.text)
        if typed is not None and self._is_own(typed) and typed.fits(dimension):
            return typed
        ends = [end for end in (limit.low, limit.high) if end is not None]
        return self._scaled(max(ends, key=abs), dimension)[0]

    def _is_own(self, unit: Unit) -> bool:
        """Whether a unit is of the shop's system; time, angles and shares are of both."""
        if unit.system == self.system:
            return True
        shown = self._scaled(unit.to_si(Fraction(1)), unit.dimension)[0]
        return shown.system != self.system

    def _apart(self, value: Fraction, ends: list[Fraction], unit: Unit) -> int:
        """Decimals with which a figure does not look like an end that it differs from."""
        decimals = max(0, self._decimals(value, unit))
        for end in ends:
            while (
                value != end
                and decimals < MOST_DECIMALS
                and _written(value, decimals, "nearest") == _written(end, decimals, "nearest")
            ):
                decimals += 1
        return decimals


METRIC = Telling()


def lowered(name: str) -> str:
    """A part's name inside a sentence: its first letter small, sizes and other capitals as they are."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def between(show: Show, low: float, high: float, dimension: Dimension) -> str:
    """The least and the greatest of a figure in one unit, that of the greatest; the least down, the greatest up."""
    most = show.show(high, dimension, "up")
    unit = unit_behind(most)
    if unit is None:
        return f"{show.show(low, dimension, 'down')} .. {most}"
    decimals = len(most.rpartition(" ")[0].partition(".")[2])
    return f"{_written(unit.from_si(Fraction(low), dimension), decimals, 'down')} .. {most}"


def unit_behind(text: str) -> Unit | None:
    """The unit that a figure or a limit was typed with."""
    found = _UNIT_BEHIND.search(text.strip())
    if found is None:
        return None
    try:
        unit = find_unit(found[1])
    except QuantityFault:
        return None
    return None if unit.dimension == PURE else unit


def _is_floor(limit: Limit) -> bool:
    """Whether a limit with one end asks for at least so much, of a preload as well."""
    return (limit.high is None) != limit.is_preload


def _is_preloaded(limit: Limit | None, value: Fraction) -> bool:
    return limit is not None and limit.is_preload and value <= 0


def _beside(value: Fraction, ends: list[Fraction], decimals: int, is_inside: bool) -> Fraction:
    """A figure as it stands beside its distance from the nearer end, so that the two add up: room is rounded down."""
    step = Fraction(1, 10**decimals)
    end = min(ends, key=lambda one: abs(value - one))
    gap = (abs(value - end) // step if is_inside else -(-abs(value - end) // step)) * step
    if end % step or not gap:
        return value
    return end + gap if value > end else end - gap


def _written(value: Fraction, decimals: int, direction: Direction) -> str:
    step = Fraction(1, 10**decimals)
    whole, rest = divmod(value, step)
    if direction == "up":
        whole += rest > 0
    elif direction == "nearest":
        # Halves go away from zero.
        whole += 2 * rest > step or (2 * rest == step and value > 0)
    digits = str(abs(whole)).rjust(decimals + 1, "0")
    sign = "-" if whole < 0 else ""
    return f"{sign}{digits[:-decimals]}.{digits[-decimals:]}" if decimals else f"{sign}{digits}"
