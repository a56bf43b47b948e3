"""A written quantity: a figure with its unit and what it may be off by, exact in the SI.

    quantity  = figure | figure "±" tolerance | figure upper lower | figure ".." figure
    figure    = number [unit]                      the unit may stand once, at the end, for all before it
    tolerance = number unit | number "%"           a percentage is one of the value
    upper     = ("+" | "-") number [unit]          written against the figure: 40 +0.10 -0 mm
    number    = 12 | 0.875 | .005 | 1,25 | 7/8 | 1 1/2 | 11.5e-6
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from layshaft.quantity.dimension import LENGTH, PURE, Dimension
from layshaft.quantity.fault import QuantityFault, quote
from layshaft.quantity.number import read_number, spell_out_fractions
from layshaft.quantity.spelling import find_unit, usual_units
from layshaft.quantity.unit import ONE, System, Unit

LONGEST_TEXT = 120

_PUNCTUATION = str.maketrans(
    {"\u2212": "-", "\u2010": "-", "\u2011": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " ", "…": "..", "⁄": "/"}
)
_PLUS_MINUS = re.compile(r"\+ ?/? ?-")
_RANGE_MARK = re.compile(r" ?\.{2,3} ?")
_DEVIATION = re.compile(r"(?: +/? ?|/)(?=[+-][0-9.,])")
_UNIT_START = re.compile(r"[^\W\d_]|[°%\"'′″”“’˚º℃℉/]|1/[^\W\d_°]")
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
        """Whether this is one figure, without a range or a tolerance."""
        return self.low == self.high

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class _Term:
    """One number of a text and the unit that stands right behind it, if one does."""

    value: Fraction
    unit: str
    mark: str


def parse_quantity(text: str, dimension: Dimension | None = None) -> Quantity:
    """The quantity a text states; where a dimension is due, any other is a fault."""
    if dimension is None:
        return _read(_checked_text(text))
    return _read_as(_checked_text(text), dimension, dimension.label)


def parse_reading(text: str, dimension: Dimension, habit: System = "metric") -> Quantity:
    """One figure as typed at the bench, with its unit in the text; the habit only words the advice."""
    text = _checked_text(text)
    try:
        quantity = _read_as(text, dimension, dimension.label)
    except QuantityFault as fault:
        if fault.id == "missing unit":
            raise _missing_unit(text, dimension, habit) from None
        raise
    if not quantity.is_plain or ".." in text:
        raise QuantityFault(
            "not one figure",
            quote(text),
            "the one figure that the gauge showed",
            "one reading for each place and repeat",
        )
    if habit == "metric" and text.rstrip(" .").casefold().endswith(("mil", "mils")):
        raise QuantityFault(
            "ambiguous unit",
            f"{quote(text)}, and a mil is a thousandth of an inch to some and a millimetre to others",
            "a unit with one meaning",
            "mm or thou",
        )
    return quantity


def _checked_text(text: str) -> str:
    if not isinstance(text, str):
        raise QuantityFault("not text", quote(repr(text)), "a figure with its unit, as text", "'0.875 in'")
    if len(text) > LONGEST_TEXT:
        raise QuantityFault(
            "too long", f"{len(text)} characters", f"at most {LONGEST_TEXT} characters", "the figure and its unit alone"
        )
    return text


@lru_cache(maxsize=16384)
def _read_as(text: str, dimension: Dimension, label: str) -> Quantity:
    """The quantity in the dimension that is due; the label is part of the cache's key."""
    quantity = _parse(text, dimension)
    return quantity if quantity.dimension.label == label else replace(quantity, dimension=dimension)


@lru_cache(maxsize=16384)
def _read(text: str) -> Quantity:
    return _parse(text, None)


def _parse(text: str, due: Dimension | None) -> Quantity:
    plain = spell_out_fractions(" ".join(text.translate(_PUNCTUATION).split()))
    if not plain:
        raise QuantityFault("empty", "nothing", _need(due), _example(due))
    if "±" in plain or "+" in plain[1:]:
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
    low, high = _terms(pieces, text)
    unit = _unit(high.unit, text, due)
    unit_low = _unit(low.unit, text, due) if low.unit else unit
    ends = (_to_si(low.value, unit_low, due, text), _to_si(high.value, unit, due, text))
    _same_dimension(unit_low, unit, text)
    if ends[0] > ends[1]:
        raise QuantityFault(
            "range reversed", quote(text), "the lower end first", f"{pieces[1].strip()} and {pieces[0].strip()} swapped"
        )
    return Quantity(text, ends[0], (ends[0] + ends[1]) / 2, ends[1], due or unit.dimension, unit)


def _plus_minus(text: str, plain: str, due: Dimension | None) -> Quantity:
    pieces = plain.split("±")
    if len(pieces) != 2:
        raise QuantityFault("not a tolerance", quote(text), "one ± and one tolerance", "4.2 ± 0.05 mm")
    figure, tolerance = _terms([piece.strip() for piece in pieces], text)
    if tolerance.value < 0 or pieces[1].strip()[:1] in ("+", "-"):
        raise QuantityFault("not a tolerance", quote(text), "a tolerance without a sign", "4.2 ± 0.05 mm")
    if tolerance.unit in _PERCENT:
        return _percentage(text, figure, tolerance, due)
    tolerance_unit = _unit(tolerance.unit, text, due)
    unit = _unit(figure.unit, text, due) if figure.unit else tolerance_unit
    _same_dimension(unit, tolerance_unit, text)
    nominal = _to_si(figure.value, unit, due, text)
    half = tolerance.value * tolerance_unit.factor
    return _banded(text, nominal, nominal - half, nominal + half, due, unit)


def _percentage(text: str, figure: _Term, tolerance: _Term, due: Dimension | None) -> Quantity:
    unit = _unit(figure.unit, text, due) if figure.unit else ONE
    if unit.dimension.is_pure:
        raise QuantityFault(
            "ambiguous percent",
            f"{quote(text)}, where the tolerance may be one of the value or one in points",
            "two ends of a range",
            "0.10 .. 0.14, or 3 .. 7 %",
        )
    if unit.dimension.exponents[3]:
        raise QuantityFault(
            "not a tolerance", quote(text), "a tolerance in degrees, as a temperature has no natural zero", "80 ± 4 °C"
        )
    nominal = _to_si(figure.value, unit, due, text)
    half = abs(nominal) * tolerance.value / 100
    return _banded(text, nominal, nominal - half, nominal + half, due, unit)


def _deviations(text: str, pieces: list[str], due: Dimension | None) -> Quantity:
    if len(pieces) != 3:
        raise QuantityFault("not a tolerance", quote(text), "an upper and a lower deviation", "40 +0.10 -0 mm")
    figure, first, second = _terms(pieces, text)
    last = _unit(second.unit, text, due)
    middle = _unit(first.unit, text, due) if first.unit else last
    unit = _unit(figure.unit, text, due) if figure.unit else middle
    _same_dimension(unit, middle, text)
    _same_dimension(unit, last, text)
    nominal = _to_si(figure.value, unit, due, text)
    ends = sorted((nominal + first.value * middle.factor, nominal + second.value * last.factor))
    if ends[0] == ends[1]:
        raise QuantityFault("not a tolerance", quote(text), "two deviations that differ", "40 +0.10 -0 mm")
    if not ends[0] <= nominal <= ends[1]:
        nominal = (ends[0] + ends[1]) / 2
    return _banded(text, nominal, ends[0], ends[1], due, unit)


def _banded(
    text: str, nominal: Fraction, low: Fraction, high: Fraction, due: Dimension | None, unit: Unit
) -> Quantity:
    dimension = due or unit.dimension
    _above_absolute_zero(low, dimension, text)
    return Quantity(text, low, nominal, high, dimension, unit)


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
    number = read_number(piece)
    rest = piece[number.end :].lstrip()
    if rest and not _UNIT_START.match(rest):
        raise QuantityFault("not a number", quote(text), "one figure and its unit", _advice_for(text))
    return _Term(number.value, rest, number.mark)


def _advice_for(text: str) -> str:
    if re.search(r"[0-9] ?[-–—] ?[0-9]", text):
        return "two dots for a range, as in 0.10 .. 0.25 mm"
    return "0.875 in, 4.2 ± 0.05 mm or 0.10 .. 0.25 mm"


def _unit(spelling: str, text: str, due: Dimension | None) -> Unit:
    if not spelling:
        if due is None or due.is_pure:
            return ONE
        raise _missing_unit(text, due, None)
    unit = find_unit(spelling)
    if due is not None and not unit.fits(due):
        raise _wrong_dimension(text, unit, due)
    return unit


def _same_dimension(one: Unit, other: Unit, text: str) -> None:
    if one.dimension.exponents != other.dimension.exponents:
        raise QuantityFault(
            "wrong dimension",
            f"{quote(text)} with {one.dimension.name} and {other.dimension.name}",
            "units of one kind",
            "the same unit for both",
        )


def _to_si(value: Fraction, unit: Unit, due: Dimension | None, text: str) -> Fraction:
    si = unit.to_si(value, due)
    _above_absolute_zero(si, due or unit.dimension, text)
    return si


def _above_absolute_zero(value: Fraction, dimension: Dimension, text: str) -> None:
    if dimension.is_absolute and value < 0:
        raise QuantityFault(
            "below absolute zero", quote(text), "a temperature of -273.15 °C or more", "20 °C, or 68 °F"
        )


def _missing_unit(text: str, due: Dimension, habit: System | None) -> QuantityFault:
    return QuantityFault(
        "missing unit",
        f"{quote(text)} without a unit",
        f"{due.name} with its unit in the text",
        f"writing {usual_units(due, habit)} behind the figure",
    )


def _wrong_dimension(text: str, unit: Unit, due: Dimension) -> QuantityFault:
    shop_pound = {("lb", "a force"): "lbf", ("kg", "a force"): "N or kgf", ("lbf", "a mass"): "lb"}
    advice = shop_pound.get((unit.symbol, due.name)) or usual_units(due)
    return QuantityFault("wrong dimension", f"{quote(text)}, {unit.dimension.name}", _need(due), f"a figure in {advice}")


def _need(due: Dimension | None) -> str:
    return due.name if due else "a figure with its unit"


def _example(due: Dimension | None) -> str:
    if due is None or due == LENGTH:
        return "0.875 in or 22.2 mm"
    return "0.12 or 5 %" if due == PURE else f"a figure in {usual_units(due)}"
