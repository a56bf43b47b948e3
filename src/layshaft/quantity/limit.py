"""A written limit: what a figure has to lie between, both ends included."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from layshaft.quantity.dimension import LENGTH, Dimension
from layshaft.quantity.fault import QuantityFault, quote
from layshaft.quantity.quantity import Quantity, checked_text, parse_quantity

_NEEDED = "two ends, or at least, or at most"
_EXAMPLES = "0.10 .. 0.25 mm, at least 3420 N, at most 0.15 mm or preload 0.02 .. 0.08 mm"
_OTHER_BOUND = re.compile(
    r"(?:min|max|minimum|maximum|not|no|over|under|above|below|up)\b|[<>≤≥=]", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Limit:
    """Ends in the SI, None where one is open; a preload stands here as the gap it is, negative."""

    text: str
    low: Fraction | None
    high: Fraction | None
    dimension: Dimension
    is_preload: bool = False

    def __post_init__(self) -> None:
        if self.low is None and self.high is None:
            raise QuantityFault("not a limit", f"{quote(self.text)} with no end", _NEEDED, _EXAMPLES)

    def contains(self, value: Fraction) -> bool:
        """Whether the value is inside; one exactly on an end is."""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    @property
    def middle(self) -> Fraction | None:
        """Half way between the ends, None where one is open."""
        return None if self.low is None or self.high is None else (self.low + self.high) / 2

    @property
    def width(self) -> Fraction | None:
        """From end to end, None where one is open."""
        return None if self.low is None or self.high is None else self.high - self.low

    def distance(self, value: Fraction) -> Fraction:
        """How far the value is from the nearest end: positive inside, zero on it, negative outside."""
        ends = []
        if self.low is not None:
            ends.append(value - self.low)
        if self.high is not None:
            ends.append(self.high - value)
        return min(ends)

    def __str__(self) -> str:
        return self.text


def parse_limit(text: str, dimension: Dimension | None = None) -> Limit:
    """The limit a text states."""
    return _read(checked_text(text), dimension, dimension.label if dimension else "")


@lru_cache(maxsize=4096)
def _read(text: str, dimension: Dimension | None, label: str) -> Limit:
    """The limit; the label is part of the cache's key, as equal dimensions can bear two names."""
    words = text.split(maxsplit=1)
    if words and words[0].casefold() == "preload":
        return _preload(text, words[1] if len(words) > 1 else "", dimension)
    low, high, found = _ends(text, text, dimension)
    return Limit(text, low, high, found)


def _preload(text: str, rest: str, dimension: Dimension | None) -> Limit:
    if dimension is not None and dimension != LENGTH:
        raise QuantityFault(
            "wrong dimension",
            f"{quote(text)} where {dimension.name} is due",
            "the word preload for lengths only, as a gap that is negative",
            "the limit without the word",
        )
    low, high, found = _ends(rest, text, LENGTH)
    if (low is not None and low < 0) or (high is not None and high < 0):
        needed = "a preload as a positive length"
        raise QuantityFault("not a limit", quote(text), needed, "preload 0.02 .. 0.08 mm")
    # A preload is never under nothing: `at most` leaves it between none and that much.
    return Limit(text, None if high is None else -high, -(low or Fraction(0)), found, is_preload=True)


def _ends(
    body: str, text: str, dimension: Dimension | None
) -> tuple[Fraction | None, Fraction | None, Dimension]:
    words = body.split(maxsplit=2)
    bound = " ".join(words[:2]).casefold()
    if bound in ("at least", "at most"):
        end = _plain(words[2] if len(words) > 2 else "", text, dimension)
        low, high = (end.nominal, None) if bound == "at least" else (None, end.nominal)
        return low, high, end.dimension
    if _OTHER_BOUND.match(body.lstrip()):
        raise QuantityFault("not a limit", quote(text), _NEEDED, _EXAMPLES)
    band = parse_quantity(body, dimension)
    if band.is_plain and ".." not in body and "…" not in body:
        raise QuantityFault("not a limit", f"{quote(text)}, one figure", _NEEDED, _EXAMPLES)
    return band.low, band.high, band.dimension


def _plain(body: str, text: str, dimension: Dimension | None) -> Quantity:
    end = parse_quantity(body, dimension)
    if not end.is_plain:
        raise QuantityFault("not a limit", quote(text), "one figure behind at least or at most", _EXAMPLES)
    return end
