"""A fit in sentences: what was chosen and what it gives, or what is nearest and what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Protocol

from layshaft.book.definition import Unit
from layshaft.book.size import Span
from layshaft.plan.result import ResultValue
from layshaft.plan.telling import METRIC, Telling
from layshaft.quantity import LENGTH


class Failing(Protocol):
    """A limit that is not met."""

    @property
    def result(self) -> str:
        """The result."""

    @property
    def value(self) -> Fraction:
        """What it comes to."""

    @property
    def by(self) -> Fraction:
        """How far outside it lies."""


def chosen_sentences(
    unit: Unit,
    sizes: Mapping[str, Fraction],
    own: Sequence[str],
    pieces: Mapping[str, tuple[int, ...]],
    to_buy: Mapping[str, Fraction],
    values: Mapping[str, ResultValue],
    fitted: Iterable[str],
    telling: Telling = METRIC,
) -> tuple[str, ...]:
    """What was chosen, where it comes from, and what every fitted result then is."""
    return (
        *size_sentences(unit, sizes, own, pieces, to_buy, telling),
        *(values[name].sentence for name in fitted),
    )


def size_sentences(
    unit: Unit,
    sizes: Mapping[str, Fraction],
    own: Sequence[str],
    pieces: Mapping[str, tuple[int, ...]],
    to_buy: Mapping[str, Fraction],
    telling: Telling = METRIC,
) -> tuple[str, ...]:
    """What was chosen and where it comes from."""
    told = []
    for name, size in sizes.items():
        part = name.split(" ")[0]
        where = "its own" if name in own else "to be bought" if name in to_buy else "from the drawer"
        told.append(f"{name} {unit.parts[part].name}: {telling.size(size)}, {where}.")
    for part, places in pieces.items():
        numbers = ", ".join(str(at) for at in places)
        plates = "plate" if len(places) == 1 else "plates"
        told.append(f"{part} {unit.parts[part].name}: used {plates} {numbers} from the drawer.")
    return tuple(told)


def miss_sentences(
    unit: Unit, failures: Iterable[Failing], to_buy: Mapping[str, Fraction], telling: Telling = METRIC
) -> tuple[str, ...]:
    """By how much the drawer misses, and which sizes would do."""
    told = []
    for one in failures:
        limit = unit.results[one.result].limit
        nearest = telling.band(Span.exactly(one.value), LENGTH, limit)
        place = "" if limit is None else f", {telling.against(one.value, limit)}"
        told.append(f"Nothing in the drawer does: {one.result} comes to {nearest} at the nearest{place}.")
    if to_buy:
        wanted = ", ".join(f"{name} {telling.size(size)}" for name, size in to_buy.items())
        told.append(f"Would do, with {'a size' if len(to_buy) == 1 else 'sizes'} to be bought: {wanted}.")
    elif told:
        told.append("No listed size would do either; a link of the chain has to be looked at again.")
    return tuple(told)
