"""The sizes of each selective place as a page shows them: every listed one, what is on hand, and what it would give."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Unit
from layshaft.drawing.limit_strip import StripMark, draw_limit_strip
from layshaft.plan.fit import Fit, FitSpare
from layshaft.plan.phrase import listed
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.telling import METRIC, Telling
from layshaft.quantity import LENGTH


@dataclass(frozen=True, slots=True)
class SizeRow:
    """One size of a place."""

    typed: str
    """As an entry names it."""
    told: str
    on_hand: str
    is_chosen: bool
    fails: str
    """The limits that it does not meet, all else as chosen."""
    gives: str
    strip: str
    """The figure that tells its sizes apart most, against its limit."""


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """One place of a selective part, or several places of one part that are chosen together."""

    place: str
    part: str
    name: str
    chosen: str
    why: str
    """Where the piece comes from and who chose it, or why none is chosen."""
    moves: tuple[str, ...]
    """The limited results that its size moves."""
    told: tuple[str, ...]
    """These as they come out now."""
    sizes: tuple[SizeRow, ...]
    named: int | None
    """The entry that names its size, where somebody has."""


def place_rows(rebuilt: Rebuild, telling: Telling, named: Mapping[str, int]) -> Iterator[PlaceRow]:
    """Every selective place; `named` are the entries that name a size, by part."""
    unit, fit = rebuilt.unit, rebuilt.fit
    for place in (*fit.sizes, *fit.unchosen):
        part = _part_of(unit, place)
        spares = [one for one in fit.spares if one.part == place]
        moved = _moved(spares)
        chosen = fit.sizes.get(place)
        yield PlaceRow(
            place,
            part,
            unit.parts[part].name,
            "" if chosen is None else telling.size(chosen),
            fit.unchosen[place].partition("; ")[2] if chosen is None else fit.sources[place],
            tuple(name for name in moved if name in fit.values),
            tuple(fit.values[name].sentence for name in moved if name in fit.values),
            tuple(_sizes(rebuilt, telling, place, spares, moved)),
            named.get(part),
        )


def _part_of(unit: Unit, place: str) -> str:
    return place if place in unit.parts else place.rpartition(" ")[0]


def _moved(spares: list[FitSpare]) -> list[str]:
    """The results that come out differently from size to size."""
    names = dict.fromkeys(name for one in spares for name in one.values)
    return [name for name in names if len({one.values.get(name) for one in spares}) > 1]


def _sizes(
    rebuilt: Rebuild, telling: Telling, place: str, spares: list[FitSpare], moved: list[str]
) -> Iterator[SizeRow]:
    """Listed sizes and the unit's own, by size; those that nothing is worked out for as well."""
    unit, fit = rebuilt.unit, rebuilt.fit
    selective = unit.parts[_part_of(unit, place)].selective
    known = {one.size: one for one in spares}
    telltale = _telltale(unit, spares, moved)
    sizes = {*known, *(size.nominal for size in (selective.sizes if selective else ()))}
    for size in sorted(sizes):
        spare = known.get(size)
        yield SizeRow(
            METRIC.size(size),
            telling.size(size),
            "" if spare is None else _on_hand(fit, place, spare),
            fit.sizes.get(place) == size,
            "" if spare is None else _fails(unit, telling, spare, moved),
            "" if spare is None else _gives(unit, telling, spare, moved),
            "" if spare is None or telltale is None else _strip(unit, spare, telltale),
        )


def _telltale(unit: Unit, spares: list[FitSpare], moved: list[str]) -> str | None:
    """Of the results with a limit at both ends the one that rules out most sizes."""
    limits = {name: unit.results[name].limit for name in moved}
    both = [name for name, one in limits.items() if one is not None and None not in (one.low, one.high)]
    return max(both, key=lambda name: sum(name in one.failing for one in spares), default=None)


def _strip(unit: Unit, spare: FitSpare, name: str) -> str:
    limit = unit.results[name].limit
    if limit is None or name not in spare.values:
        return ""
    mark: StripMark = "outside" if name in spare.failing else "taken" if spare.is_chosen else "inside"
    return draw_limit_strip(spare.values[name], limit, mark)


def _on_hand(fit: Fit, place: str, spare: FitSpare) -> str:
    if spare.is_chosen and place in fit.own:
        return "the unit's own"
    if spare.stock is None:
        return ""
    return f"{spare.stock} on hand" if spare.stock else "none on hand"


def _gives(unit: Unit, telling: Telling, spare: FitSpare, moved: list[str]) -> str:
    names = [name for name in moved if name in spare.values and name not in spare.failing]
    return listed([f"{name} {_value(unit, telling, name, spare.values[name])}" for name in names])


def _fails(unit: Unit, telling: Telling, spare: FitSpare, moved: list[str]) -> str:
    """The limits that it does not meet, of those that hang on it: what fails in any case is told above."""
    return listed([_given(unit, telling, spare, name) for name in spare.failing if name in moved])


def _given(unit: Unit, telling: Telling, spare: FitSpare, name: str) -> str:
    limit = unit.results[name].limit
    value = spare.values[name]
    against = f", {telling.against(value, limit)}" if limit is not None else ""
    return f"{name} {_value(unit, telling, name, value)}{against}"


def _value(unit: Unit, telling: Telling, name: str, value: Fraction) -> str:
    limit = unit.results[name].limit
    return telling.value(value, LENGTH if limit is None else limit.dimension, limit)
