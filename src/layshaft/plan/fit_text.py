"""A fit in sentences: what was chosen and what it gives, or what is nearest and what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Protocol

from layshaft.book.definition import Person, Unit
from layshaft.plan.drawer import SelectivePlace
from layshaft.plan.figure import listed
from layshaft.plan.fit_source import Source
from layshaft.plan.result import ResultValue
from layshaft.plan.telling import METRIC, Telling
from layshaft.quantity import LENGTH

WORDS = {
    "own": "its own",
    "used": "a used one from the drawer, as measured",
    "drawer": "from the drawer",
    "bought": "to be bought",
}


class Chosen(Protocol):
    """One set of sizes."""

    @property
    def sizes(self) -> Mapping[str, Fraction]:
        """The size at each place."""


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


class Missed(Protocol):
    """A question that nothing answers."""

    @property
    def nearest(self) -> Chosen | None:
        """What comes nearest."""

    @property
    def failures(self) -> Sequence[Failing]:
        """The limits that it does not meet."""

    @property
    def needed(self) -> Mapping[str, tuple[Fraction | None, Fraction | None]]:
        """The ends of sizes that would do, for each place where one other size alone would."""

    @property
    def to_buy(self) -> Mapping[str, Fraction]:
        """Listed sizes that would do."""


def source_words(
    place: SelectivePlace, source: Source, people: Mapping[str, Person], tried: Sequence[str] = ()
) -> str:
    """Where the piece for a place comes from; who chose its size, or which results only a trial of it can tell."""
    words = WORDS[source.kind]
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


def miss_sentences(unit: Unit, miss: Missed, telling: Telling = METRIC) -> tuple[str, ...]:
    """How near the sizes come where none do, by how much they miss, and which would do."""
    told = []
    if miss.failures:
        where = "in the drawer" if miss.to_buy else "in the drawer or on the list"
        tried = {} if miss.nearest is None else miss.nearest.sizes
        sizes = f", with {_sized(tried, telling)}" if tried else ""
        failing = "; ".join(_failing(unit, one, telling) for one in miss.failures)
        told.append(f"Nothing {where} does. Nearest{sizes}: {failing}.")
    if miss.to_buy:
        wanted = "a size" if len(miss.to_buy) == 1 else "sizes"
        told.append(f"Would do, with {wanted} to be bought: {_sized(miss.to_buy, telling)}.")
    elif told:
        needed = " or ".join(_needed(name, *ends, telling) for name, ends in miss.needed.items())
        all_else = f"All else so, {needed} would do, which is not listed; else a" if needed else "A"
        told.append(f"{all_else} link of the chain has to be looked at again.")
    return tuple(told)


def _sized(sizes: Mapping[str, Fraction], telling: Telling) -> str:
    return listed([f"{name} {telling.size(size)}" for name, size in sizes.items()])


def _failing(unit: Unit, one: Failing, telling: Telling) -> str:
    limit = unit.results[one.result].limit
    value = telling.value(one.value, LENGTH if limit is None else limit.dimension, limit)
    return f"{one.result} {value}{'' if limit is None else f', {telling.against(one.value, limit)}'}"


def _needed(name: str, low: Fraction | None, high: Fraction | None, telling: Telling) -> str:
    """A range of sizes, its ends inward."""
    least = telling.show(low, LENGTH, "up") if low else ""
    most = telling.show(high, LENGTH, "down") if high is not None else ""
    if least and most:
        return f"{name} from {least} to {most}"
    return f"{name} of {f'at least {least}' if least else f'at most {most}'}"
