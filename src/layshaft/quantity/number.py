"""From written digits to an exact fraction: decimals, inch fractions, and the comma with two meanings."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from layshaft.quantity.fault import QuantityFault, quote

LARGEST_EXPONENT = 30

_NUMBER = re.compile(
    r"(?P<sign>[+-]?)(?:"
    r"(?:(?P<whole>[0-9]+)[ -])?(?P<over>[0-9]+)/(?P<under>[0-9]+)"
    r"|(?P<int>[0-9]*)(?:(?P<mark>\.(?!\.)|,(?=[0-9]))(?P<frac>[0-9]*))?(?:[eE](?P<exp>[+-]?[0-9]+))?"
    r")(?![0-9,_]|\.(?!\.))"
)
_DIGITS = re.compile(r"[+-]?[0-9][0-9.,_]*")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_VULGAR_AFTER = re.compile(r" ?([½¼¾⅛⅜⅝⅞])")


class Number(NamedTuple):
    """A number as read: its exact value, where it ends in the text, which decimal mark it used."""

    value: Fraction
    end: int
    mark: str


def spell_out_fractions(text: str) -> str:
    """The text with one-sign fractions such as ½ written as digits."""
    return _VULGAR_AFTER.sub(lambda m: " " + _VULGAR[m[1]], text)


def read_number(text: str, start: int = 0) -> Number:
    """The number that begins at `start`, or a fault that says why there is none."""
    match = _NUMBER.match(text, start)
    if match is None or match.end() == start:
        raise _refusal(text[start:])
    sign, whole, over, under, int_, mark, frac, exp = match.groups()
    if over is not None:
        return Number(_fraction(match[0], sign, whole, over, under), match.end(), "")
    if not int_ and not frac:
        raise _refusal(text[start:])
    if mark == "," and frac is not None and len(frac) == 3 and 1 <= len(int_) <= 3 and int_.strip("0"):
        raise QuantityFault(
            "ambiguous comma",
            f"{quote(match[0])}, where the comma may mark a decimal or a thousand",
            "a number with one meaning",
            f"{int_}.{frac} or {int_}{frac}",
        )
    digits = int_ + (frac or "")
    numerator = int(digits)
    power = -len(frac or "")
    if exp is not None:
        if len(exp) > 4 or abs(int(exp)) > LARGEST_EXPONENT:
            raise QuantityFault(
                "number out of bounds",
                quote(match[0]),
                f"an exponent between -{LARGEST_EXPONENT} and {LARGEST_EXPONENT}",
                "a larger or smaller unit",
            )
        power += int(exp)
    if sign == "-":
        numerator = -numerator
    value = Fraction(numerator * 10**power) if power >= 0 else Fraction(numerator, 10**-power)
    return Number(value, match.end(), mark or "")


def last_mark_only(written: str) -> str:
    """The number as most would mean it: its last mark as the decimal point, the others left out."""
    return re.sub("[.,](?=.*[.,])", "", written).replace(",", ".")


def as_decimal(value: Fraction) -> str | None:
    """The value written as a decimal that ends, None where it never does."""
    decimals = 0
    while 10**decimals % value.denominator:
        decimals += 1
        if decimals > LARGEST_EXPONENT:
            return None
    digits = str(abs(value.numerator) * 10**decimals // value.denominator).rjust(decimals + 1, "0")
    sign = "-" if value < 0 else ""
    return f"{sign}{digits[:-decimals]}.{digits[-decimals:]}" if decimals else f"{sign}{digits}"


def _fraction(written: str, sign: str, whole: str | None, over: str, under: str) -> Fraction:
    if not int(under):
        raise QuantityFault("not a number", quote(written), "a fraction over something else than zero", "7/8")
    part = Fraction(int(over), int(under))
    if whole is not None:
        if part >= 1:
            needed = "a mixed number whose fraction is under one"
            raise QuantityFault("not a number", quote(written), needed, "1 1/2")
        part += int(whole)
    return -part if sign == "-" else part


def _refusal(text: str) -> QuantityFault:
    digits = _DIGITS.match(text)
    written = digits[0].rstrip(".,") if digits else ""
    if "." in written and "," in written:
        found = f"{quote(written)} with both a comma and a point"
        return QuantityFault("mixed marks", found, "one decimal mark and no other", last_mark_only(written))
    if written.count(",") > 1:
        return QuantityFault(
            "ambiguous comma",
            f"{quote(written)} with several commas",
            "a number without thousands marks",
            written.replace(",", ""),
        )
    return QuantityFault("not a number", quote(text), "a number in digits", "0.875, 7/8 or 1 1/2")
