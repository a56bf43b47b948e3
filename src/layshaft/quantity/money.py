"""Money, exact: an amount in decimals and its currency, never mixed, rounded only when asked."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal, Inexact
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from layshaft.quantity.fault import QuantityFault, quote
from layshaft.quantity.number import last_mark_only
from layshaft.quantity.quantity import checked_text

if TYPE_CHECKING:
    from collections.abc import Iterable

_MOST_DECIMALS = 6
_MOST_DIGITS = 12
_EXAMPLE = "12.50 CUR"
_MONEY = re.compile(r"([+-]?)([0-9]+)(?:([.,])([0-9]+))? ?([A-Za-z]{3})")
_SEVERAL_MARKS = re.compile(r"[+-]?[0-9]+(?:,[0-9.,]*\.|\.[0-9.,]*,)[0-9]+(?![0-9.,])")
# Wide enough for any sum or product of such amounts; should one not fit, it fails instead of rounding.
_EXACT = Context(prec=200, traps=[Inexact])
_ROUNDING = Context(prec=200, rounding=ROUND_HALF_UP)
_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Money:
    """An exact amount of one currency."""

    amount: Decimal
    currency: str

    def __add__(self, other: Money) -> Money:
        self._refuse_mixing(other)
        return Money(_EXACT.add(self.amount, other.amount), self.currency)

    def __sub__(self, other: Money) -> Money:
        self._refuse_mixing(other)
        return Money(_EXACT.subtract(self.amount, other.amount), self.currency)

    def __neg__(self) -> Money:
        return Money(_EXACT.minus(self.amount), self.currency)

    def __mul__(self, factor: int | Decimal | Fraction) -> Money:
        """The exact product; a fault where it has no end in decimals, as a third of one has."""
        product = Fraction(self.amount) * Fraction(factor)
        decimals = _decimals_needed(product.denominator)
        if decimals is None:
            raise QuantityFault(
                "no exact amount",
                f"{self} times {factor}, which never ends in decimals",
                "a product that ends",
                "rounding it where the line is made, by rounded_product",
            )
        scaled = product.numerator * (10**decimals // product.denominator)
        return Money(_EXACT.scaleb(_EXACT.create_decimal(scaled), -decimals), self.currency)

    __rmul__ = __mul__

    def __lt__(self, other: Money) -> bool:
        self._refuse_mixing(other)
        return self.amount < other.amount

    def __le__(self, other: Money) -> bool:
        self._refuse_mixing(other)
        return self.amount <= other.amount

    def rounded(self) -> Money:
        """The amount to two decimals, half away from zero."""
        return Money(self.amount.quantize(_CENT, context=_ROUNDING), self.currency)

    def rounded_product(self, factor: int | Decimal | Fraction) -> Money:
        """The exact product rounded once to two decimals, half away from zero."""
        hundredths = Fraction(self.amount) * Fraction(factor) * 100
        whole = int(abs(hundredths) + Fraction(1, 2))
        signed = -whole if hundredths < 0 else whole
        return Money(_EXACT.scaleb(_EXACT.create_decimal(signed), -2), self.currency)

    @classmethod
    def total(cls, amounts: Iterable[Money], currency: str) -> Money:
        """The sum of amounts, zero of that currency where there are none."""
        result = cls(Decimal("0.00"), currency)
        for amount in amounts:
            result = result + amount
        return result

    def _refuse_mixing(self, other: Money) -> None:
        if self.currency != other.currency:
            found = f"{self} and {other}"
            raise QuantityFault(
                "mixed currencies", found, "amounts of one currency", f"both in {self.currency}"
            )

    def __str__(self) -> str:
        decimals = max(2, -int(self.amount.as_tuple().exponent))
        return f"{self.amount:.{decimals}f} {self.currency}"


def parse_money(text: str) -> Money:
    """The amount a text states, as in `12.50 CUR`."""
    return _read(checked_text(text))


@lru_cache(maxsize=4096)
def _read(text: str) -> Money:
    plain = " ".join(text.split())
    if not plain:
        raise QuantityFault("empty", "nothing", "an amount and its currency", _EXAMPLE)
    match = _MONEY.fullmatch(plain)
    if match is None:
        needed = "an amount and the three letters of its currency"
        if _SEVERAL_MARKS.match(plain):
            found = f"{quote(text)} with both a comma and a point"
            raise QuantityFault("mixed marks", found, "one decimal mark and no other", last_mark_only(plain))
        raise QuantityFault("not an amount", quote(text), needed, _EXAMPLE)
    sign, whole, mark, part, currency = match.groups()
    if mark == "," and len(part) == 3 and whole.strip("0") and len(whole) <= 3:
        raise QuantityFault(
            "ambiguous comma",
            f"{quote(text)}, where the comma may mark a decimal or a thousand",
            "an amount with one meaning",
            f"{whole}.{part} or {whole}{part}",
        )
    if len(whole) > _MOST_DIGITS or len(part or "") > _MOST_DECIMALS:
        raise QuantityFault(
            "number out of bounds",
            quote(text),
            f"at most {_MOST_DIGITS} digits before the mark and {_MOST_DECIMALS} behind it",
            _EXAMPLE,
        )
    if currency != currency.upper():
        raise QuantityFault("not an amount", quote(text), "the currency in capitals", plain.upper())
    return Money(Decimal(f"{sign}{whole}.{part or '00'}"), currency)


def _decimals_needed(denominator: int) -> int | None:
    """How many decimals a fraction over this denominator takes, None where they never end."""
    twos = fives = 0
    while denominator % 2 == 0:
        denominator //= 2
        twos += 1
    while denominator % 5 == 0:
        denominator //= 5
        fives += 1
    return max(twos, fives, 2) if denominator == 1 else None
