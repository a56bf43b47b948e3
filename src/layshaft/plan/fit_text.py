"""A fit in sentences: what was chosen and what it gives, or what is nearest and what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Protocol

from layshaft.book.definition import Person, Unit
from layshaft.book.size import Span
from layshaft.plan.drawer import SelectivePlace
from layshaft.plan.fit_source import Source
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


def source_words(
    place: SelectivePlace, source: Source, people: Mapping[str, Person], tried: Sequence[str] = ()
) -> str:
    """Where the piece for a place comes from; who chose its size, or which results only a trial of it can tell."""
    words = {"drawer": "from the drawer", "bought": "to be bought"}.get(source.kind, "its own")
    if source.own is not None and source.own.place != place.name:
        words = f"the unit's own out of {source.own.place}"
    choice = place.choice
    if choice is None:
        trial = f" by the chain as drawn: read {' and '.join(tried)} on the built unit"
        return f"{words}, to try{trial}" if tried else words
    person = people.get(choice.by)
    why = f": {choice.why.rstrip('.')}" if choice.why else ""
    return f"{words}; chosen by {choice.by if person is None else person.name}{why}"


def chosen_sentences(
    unit: Unit,
    sizes: Mapping[str, Fraction],
    sources: Mapping[str, str],
    pieces: Mapping[str, tuple[int, ...]],
    values: Mapping[str, ResultValue],
    fitted: Iterable[str],
    telling: Telling = METRIC,
) -> tuple[str, ...]:
    """What was chosen, where it comes from, and what every fitted result then is."""
    return (
        *size_sentences(unit, sizes, sources, pieces, telling),
        *(values[name].sentence for name in fitted),
    )


def size_sentences(
    unit: Unit,
    sizes: Mapping[str, Fraction],
    sources: Mapping[str, str],
    pieces: Mapping[str, tuple[int, ...]],
    telling: Telling = METRIC,
) -> tuple[str, ...]:
    """What was chosen and where it comes from."""
    told = []
    for name, size in sizes.items():
        part = name.split(" ")[0]
        told.append(f"{name} {unit.parts[part].name}: {telling.size(size)}, {sources[name]}.")
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
