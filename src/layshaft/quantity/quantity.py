"""A written quantity: a figure with its unit and what it may be off by, exact in the SI.

quantity  = figure | figure "±" tolerance | figure upper lower | figure ".." figure
figure    = number [unit]                      the unit may stand once, at the end, for all before it
tolerance = number unit | number "%"           a percentage is one of the value
upper     = ("+" | "-") number [unit]          written against the figure: 40 +0.10 -0 mm
number    = 12 | 0.875 | .005 | 1,25 | 7/8 | 1 1/2 | 11.5e-6
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from layshaft.quantity.dimension import FORCE, LENGTH, MASS, Dimension
from layshaft.quantity.fault import QuantityFault, quote
from layshaft.quantity.number import as_decimal, read_number, spell_out_fractions
from layshaft.quantity.spelling import find_unit, usual_units
from layshaft.quantity.unit import ONE, UNIT_BY_SYMBOL, System, Unit

LONGEST_TEXT = 120

_PUNCTUATION = str.maketrans({"\u2212": "-", "\u2010": "-", "\u2011": "-", "…": "..", "⁄": "/"})
_PLUS_MINUS = re.compile(r"\+/?-|\+ / -")
_RANGE_MARK = re.compile(r" ?\.{2,3} ?")
_DEVIATION = re.compile(r"(?: +/? ?|/)(?=[+-][0-9.,])")
_UNIT_START = re.compile(r"[^\W\d_]|[°%\"'′″”“’˚º℃℉]|1?/(?:[^\W\d_]|[°º˚])")
_RANGE_WITH_DASH = re.compile(r"[0-9] ?(?:[-–—]|to) ?[0-9]")
# Said every day of one where the other is meant.
_MIXED_UP = {
    ("lb", FORCE): "a figure in lbf",
    ("kg", FORCE): "a figure in N or kgf",
    ("lbf", MASS): "a figure in lb",
    ("kgf", MASS): "a figure in kg",
}
_PERCENT = ("%", "percent")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure as written, with its exact bounds in the SI."""

    text: str
    low: Fraction
    nominal: Fraction
    high: Fraction
    dimension: Dimension
    unit: Unit

    @property
    def si(self) -> float:
        """The nominal value in the SI, for mechanics."""
        return float(self.nominal)

    @property
    def si_low(self) -> float:
        """The lower bound in the SI, for mechanics."""
        return float(self.low)

    @property
    def si_high(self) -> float:
        """The upper bound in the SI, for mechanics."""
        return float(self.high)

    @property
    def half_width(self) -> Fraction:
        """Half the distance between the bounds."""
        return (self.high - self.low) / 2

    @property
    def is_plain(self) -> bool:
        """Whether this is one figure, with no room between its bounds."""
        return self.low == self.high

    def __str__(self) -> str:
        return self.text


class _Term(NamedTuple):
    """One number of a text and the unit that stands right behind it, if one does."""

    value: Fraction
    unit: str
    mark: str


def parse_quantity(text: str, dimension: Dimension | None = None) -> Quantity:
    """The quantity a text states; where a dimension is due, any other is a fault."""
    checked_text(text)
    if dimension is None:
        return _parse(text, None, "")
    return _parse(text, dimension, dimension.label)


def parse_reading(text: str, dimension: Dimension, habit: System = "metric") -> Quantity:
    """One figure as typed at the bench, with its unit in the text; the habit never fills one in."""
    try:
        quantity = parse_quantity(text, dimension)
    except QuantityFault as fault:
        if fault.id == "missing unit":
            raise QuantityFault(fault.id, fault.found, fault.needed, _unit_advice(dimension, habit)) from None
        raise
    if not quantity.is_plain:
        raise QuantityFault(
            "not one figure",
            quote(text),
            "the one figure that the gauge showed",
            "one reading for each place and repeat",
        )
    if habit == "metric" and quantity.unit.symbol == "thou" and "thou" not in text.casefold():
        raise QuantityFault(
            "ambiguous unit",
            f"{quote(text)}, and a mil is a thousandth of an inch to some and a millimetre to others",
            "a unit with one meaning",
            "mm or thou",
        )
    return quantity


def checked_text(text: str) -> str:
    """The text itself, or a fault where it is none or longer than any figure."""
    if not isinstance(text, str):
        raise QuantityFault("not text", quote(repr(text)), "a figure with its unit, as text", "'0.875 in'")
    if len(text) > LONGEST_TEXT:
        raise QuantityFault(
            "too long",
            f"{quote(text)} of {len(text)} characters",
            f"at most {LONGEST_TEXT} characters",
            "the figure and its unit alone",
        )
    return text


@lru_cache(maxsize=16384)
def _parse(text: str, due: Dimension | None, label: str) -> Quantity:
    """The quantity; the label is part of the cache's key, as equal dimensions can bear two names."""
    plain = spell_out_fractions(" ".join(text.translate(_PUNCTUATION).split()))
    if not plain:
        raise QuantityFault("empty", "nothing", _need(due), _example(due))
    if "+" in plain:
        plain = _PLUS_MINUS.sub("±", plain)
    if ".." in plain:
        return _range(text, plain, due)
    if "±" in plain:
        return _plus_minus(text, plain, due)
    pieces = _DEVIATION.split(plain)
    if len(pieces) > 1:
        return _deviations(text, pieces, due)
    term = _term(plain, text)
    unit = _unit(term.unit, text, due)
    value = _to_si(term.value, unit, due, text)
    return Quantity(text, value, value, value, due or unit.dimension, unit)


def _range(text: str, plain: str, due: Dimension | None) -> Quantity:
    pieces = _RANGE_MARK.split(plain)
    if len(pieces) != 2 or "±" in plain:
        raise QuantityFault("not a tolerance", quote(text), "two ends of a range", "0.10 .. 0.25 mm")
    (low, unit_low), (high, unit_high) = _figures(pieces, text, due)
    if due is None and unit_low.dimension != unit_high.dimension:
        raise _unlike(text, unit_low, unit_high)
    bottom, top = _to_si(low, unit_low, due, text), _to_si(high, unit_high, due, text)
    if bottom > top:
        raise QuantityFault("range reversed", quote(text), "the lower end first", "the ends swapped")
    return Quantity(text, bottom, (bottom + top) / 2, top, due or unit_high.dimension, unit_high)


def _plus_minus(text: str, plain: str, due: Dimension | None) -> Quantity:
    pieces = [piece.strip() for piece in plain.split("±")]
    if len(pieces) != 2:
        raise QuantityFault("not a tolerance", quote(text), "one ± and one tolerance", "4.2 ± 0.05 mm")
    if pieces[1][:1] in ("+", "-"):
        raise QuantityFault("not a tolerance", quote(text), "a tolerance without a sign", "4.2 ± 0.05 mm")
    figure, tolerance = _terms(pieces, text)
    if tolerance.unit in _PERCENT:
        return _percentage(text, figure, tolerance, due)
    if tolerance.unit.startswith("%") and not figure.unit:
        behind, share = tolerance.unit[1:].strip(), pieces[1].partition("%")[0].strip()
        needed = "the unit behind the figure, and the share behind the ±"
        raise QuantityFault("not a tolerance", quote(text), needed, f"{pieces[0]} {behind} ± {share} %")
    (value, unit), (half, half_unit) = _figures(pieces, text, due)
    nominal = _to_si(value, unit, due, text)
    half *= half_unit.factor
    return _banded(text, nominal, nominal - half, nominal + half, due, unit)


def _percentage(text: str, figure: _Term, tolerance: _Term, due: Dimension | None) -> Quantity:
    unit = _unit(figure.unit, text, due if figure.unit else None)
    if unit.dimension.is_pure:
        raise _ambiguous_percent(text, figure, tolerance)
    if unit.dimension.temperature:
        needed = "a tolerance in degrees, as a temperature has no natural zero"
        raise QuantityFault("not a tolerance", quote(text), needed, "80 ± 4 °C")
    nominal = _to_si(figure.value, unit, due, text)
    half = abs(nominal) * tolerance.value / 100
    return _banded(text, nominal, nominal - half, nominal + half, due, unit)


def _ambiguous_percent(text: str, figure: _Term, tolerance: _Term) -> QuantityFault:
    value, half = figure.value, tolerance.value
    share = abs(value) * half / 100
    points = [as_decimal(value - half), as_decimal(value + half)]
    of_value = [as_decimal(value - share), as_decimal(value + share)]
    if None in (*points, *of_value):
        advice = "3 .. 7 %"
    else:
        sign = " %" if figure.unit else ""
        advice = f"{points[0]} .. {points[1]} % or {of_value[0]} .. {of_value[1]}{sign}, whichever is meant"
    found = f"{quote(text)}, where the tolerance may be one of the value or one in points"
    return QuantityFault("ambiguous percent", found, "two ends of a range", advice)


def _deviations(text: str, pieces: list[str], due: Dimension | None) -> Quantity:
    if len(pieces) != 3:
        needed = "an upper and a lower deviation"
        raise QuantityFault("not a tolerance", quote(text), needed, "40 +0.10 -0 mm")
    (value, unit), (first, first_unit), (second, second_unit) = _figures(pieces, text, due)
    nominal = _to_si(value, unit, due, text)
    ends = sorted((nominal + first * first_unit.factor, nominal + second * second_unit.factor))
    if ends[0] == ends[1]:
        raise QuantityFault("not a tolerance", quote(text), "two deviations that differ", "40 +0.10 -0 mm")
    if not ends[0] <= nominal <= ends[1]:
        nominal = (ends[0] + ends[1]) / 2
    return _banded(text, nominal, ends[0], ends[1], due, unit)


def _banded(
    text: str, nominal: Fraction, low: Fraction, high: Fraction, due: Dimension | None, unit: Unit
) -> Quantity:
    dimension = due or unit.dimension
    _refuse_below_zero(low, dimension, text)
    return Quantity(text, low, nominal, high, dimension, unit)


def _figures(pieces: list[str], text: str, due: Dimension | None) -> list[tuple[Fraction, Unit]]:
    """Each value with its unit; one without takes that of the next."""
    terms = _terms(pieces, text)
    if not terms[-1].unit and any(term.unit for term in terms):
        raise _missing_unit(text, due or LENGTH, "the last figure of ")
    unit = _unit(terms[-1].unit, text, due)
    figures = [(terms[-1].value, unit)]
    for term in reversed(terms[:-1]):
        own = _unit(term.unit, text, due) if term.unit else unit
        if own.dimension.exponents != unit.dimension.exponents:
            raise _unlike(text, own, unit)
        unit = own
        figures.insert(0, (term.value, unit))
    return figures


def _terms(pieces: list[str], text: str) -> list[_Term]:
    terms = [_term(piece, text) for piece in pieces]
    if len({term.mark for term in terms if term.mark}) > 1:
        raise QuantityFault(
            "mixed marks",
            f"{quote(text)} with both a decimal comma and a decimal point",
            "one decimal mark throughout",
            text.replace(",", "."),
        )
    return terms


def _term(piece: str, text: str) -> _Term:
    if not piece:
        raise QuantityFault("not a number", quote(text), "a figure on both sides", "4.2 ± 0.05 mm")
    number = read_number(piece)
    rest = piece[number.end :].lstrip()
    if rest and not _UNIT_START.match(rest):
        is_range = _RANGE_WITH_DASH.search(text)
        advice = "two dots for a range, as in 0.10 .. 0.25 mm" if is_range else "0.875 in or 4.2 ± 0.05 mm"
        raise QuantityFault("not a number", quote(text), "one figure and its unit", advice)
    return _Term(number.value, rest, number.mark)


def _unit(spelling: str, text: str, due: Dimension | None) -> Unit:
    if not spelling:
        if due is None or due.is_pure:
            return ONE
        raise _missing_unit(text, due)
    try:
        unit = find_unit(spelling)
    except QuantityFault as fault:
        found = f"{quote(text)} with {fault.found}"
        mended = text.replace(spelling, fault.try_) if fault.try_ in UNIT_BY_SYMBOL else fault.try_
        raise QuantityFault(fault.id, found, fault.needed, mended) from None
    if due is not None and not unit.fits(due):
        raise _wrong_dimension(text, unit, due)
    return unit


def _to_si(value: Fraction, unit: Unit, due: Dimension | None, text: str) -> Fraction:
    if not unit.offset:
        si = value * unit.factor
        return si if unit.dimension.temperature == 0 else _refuse_below_zero(si, due or unit.dimension, text)
    return _refuse_below_zero(unit.to_si(value, due), due or unit.dimension, text)


def _refuse_below_zero(value: Fraction, dimension: Dimension, text: str) -> Fraction:
    if dimension.is_absolute and value < 0:
        raise QuantityFault(
            "below absolute zero", quote(text), "a temperature of -273.15 °C or more", "20 °C or 68 °F"
        )
    return value


def _missing_unit(text: str, due: Dimension, which: str = "") -> QuantityFault:
    found = f"{which}{quote(text)} without a unit"
    return QuantityFault(
        "missing unit", found, f"{due.name} with its unit in the text", _unit_advice(due, None)
    )


def _unit_advice(due: Dimension, habit: System | None) -> str:
    return f"writing {usual_units(due, habit)} behind the figure"


def _unlike(text: str, one: Unit, other: Unit) -> QuantityFault:
    found = f"{quote(text)} with {one.dimension.name} and {other.dimension.name}"
    return QuantityFault("wrong dimension", found, "units of one kind", "the same unit for both")


def _wrong_dimension(text: str, unit: Unit, due: Dimension) -> QuantityFault:
    advice = _MIXED_UP.get((unit.symbol, due)) or f"a figure in {usual_units(due)}"
    if due.is_pure:
        advice = "a bare figure or one in %"
    found = f"{quote(text)}, which is {unit.dimension.name}"
    return QuantityFault("wrong dimension", found, _need(due), advice)


def _need(due: Dimension | None) -> str:
    return due.name if due else "a figure with its unit"


def _example(due: Dimension | None) -> str:
    if due is None or due == LENGTH:
        return "0.875 in or 22.2 mm"
    return "0.12 or 5 %" if due.is_pure else f"a figure in {usual_units(due)}"
