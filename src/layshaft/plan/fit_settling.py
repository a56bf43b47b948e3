"""What would make a fit sure: which chosen part, measured before it goes in, takes its tolerance out of a result."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from layshaft.book.definition import Shop, Unit
from layshaft.book.size import Span
from layshaft.gauging.conformity import DEFAULT_CONFIDENCE
from layshaft.plan.drawer import SelectivePlace, Taken
from layshaft.plan.gauge_band import band_at, gauge_of
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.lacking import of_new
from layshaft.plan.read_size import Doubt
from layshaft.plan.result import ResultValue
from layshaft.plan.telling import Telling
from layshaft.plan.wanted import wanted_reading
from layshaft.quantity import LENGTH

Valued = Callable[[SelectivePlace, Taken], Mapping[str, ResultValue]]


@dataclass(frozen=True, slots=True)
class Settling:
    """One reading that would settle results, and a sentence that says so."""

    point: OpenPoint
    sentence: str


def settling(
    unit: Unit,
    shop: Shop,
    places: Iterable[SelectivePlace],
    sizes: Mapping[str, Fraction],
    own: Collection[str],
    values: Mapping[str, ResultValue],
    valued: Valued,
) -> tuple[Settling, ...]:
    """For each result that is not sure, readings of chosen parts after which it would be, if they have their size.

    `own` are the places at which a piece goes in that has its figure: the unit's own, or a used one.
    """
    unsure = [name for name, one in values.items() if one.verdict == "not sure"]
    found = []
    for place in places if unsure else ():
        size = sizes.get(place.name)
        reading = _reading_of(unit, place)
        is_known = place.name in own or place.read_new is not None
        if size is None or is_known or not place.tolerance or reading is None:
            continue
        name, gauge = gauge_of(unit.parts[place.part].readings[reading].gauge, None, shop, size, LENGTH)
        band = band_at(gauge, size, LENGTH)
        if name is None or band is None:
            continue
        after = valued(place, (Span.exactly(size), Doubt(0.0, float(band) / 2, name)))
        settled = [one for one in unsure if (after[one].probability or 0.0) >= DEFAULT_CONFIDENCE]
        if settled:
            found.append(_told(unit, place, reading, name, settled, values, after))
    return tuple(found)


def not_the_size(
    unit: Unit, places: Iterable[SelectivePlace], sizes: Mapping[str, Fraction], own: Collection[str], telling: Telling
) -> tuple[Settling, ...]:
    """What was read of a piece that goes in, where that is no piece of the size chosen: it counts for nothing."""
    found = []
    for place in places:
        size, read, reading = sizes.get(place.name), place.read_new, _reading_of(unit, place)
        if size is None or read is None or reading is None or place.name in own:
            continue
        if place.new is None or place.new[0] != size:
            part = unit.parts[place.part]
            told = (
                f"{place.name} {part.name}: what was read of the one that goes in, {telling.size(read.size)}, is not "
                f"the size chosen, {telling.size(size)}, and waits: look which piece it is, and measure it again, "
                "noted as new. Another listed size is named as a choice, a used piece by its figure in the drawer."
            )
            point = of_new(wanted_reading(part, place.part, reading, (place.piece,), is_again=True))
            found.append(Settling(replace(point, sentence=told), told))
    return tuple(found)


def _reading_of(unit: Unit, place: SelectivePlace) -> str | None:
    """The reading of a selective part that is its size."""
    ends = (place.leaf.from_, place.leaf.to)
    readings = unit.parts[place.part].readings.items()
    return next((name for name, plan in readings if (plan.from_, plan.to) == ends), None)


def _told(
    unit: Unit,
    place: SelectivePlace,
    reading: str,
    gauge: str,
    settled: list[str],
    values: Mapping[str, ResultValue],
    after: Mapping[str, ResultValue],
) -> Settling:
    part = unit.parts[place.part]
    point = of_new(wanted_reading(part, place.part, reading, (place.piece,)))
    odds = ", ".join(f"{name} {_percent(values[name])} likely inside, then {_percent(after[name])}" for name in settled)
    return Settling(
        replace(point, decides=tuple(settled)),
        f"{place.name} {part.name}: measure the one that goes in ({reading}, {gauge}) and note it as new; "
        f"of the size as listed it settles this: {odds}.",
    )


def _percent(value: ResultValue) -> str:
    return f"{100 * (value.probability or 0.0):.1f} %"
