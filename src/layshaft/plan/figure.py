"""Figures of a job: what was typed at the bench, brought to the one figure that decides, with what it is worth.

A figure that cannot be what was meant (ten times off, a wrong unit, a warm part) waits: it is shown, and nothing is
decided by it until someone has read again or confirmed it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, Protocol

from layshaft.book.definition import Job, Reading, Shop, Unit
from layshaft.book.definition.base import shown
from layshaft.book.expected import Asked, asked_of_reading, asked_of_result, doubt_about
from layshaft.book.moment import is_before, later_of
from layshaft.book.size import Sizes
from layshaft.gauging.places import Place, Places, decide_places
from layshaft.gauging.uncertainty import ReadingUncertainty
from layshaft.gauging.window import is_inside
from layshaft.plan.gauge_band import band_of_readings, gauge_of, most_apart, told_band, worth
from layshaft.plan.telling import telling_of, unit_behind
from layshaft.quantity import LENGTH, TEMPERATURE_DIFFERENCE, Limit, Quantity, Show
from layshaft.quantity.display import MOST_DECIMALS

SHOW = Show(decimals=2)
_DECIMALS = re.compile(r"^[^.]*(?:\.([0-9]*))?.*$", re.DOTALL)
"""Behind which group the decimals of a figure as typed stand."""
FINE = Show(decimals=3)
WARM_BAND = Fraction(5)
"""How far from the reference temperature a part may be measured where the shop says nothing [K] (own choice)."""
REFERENCE_TEMPERATURE = Fraction("293.15")
"""Standard reference temperature for sizes [K] (ISO 1:2022; from memory)."""
LEAST_LOAD = Fraction(9, 10)
"""Share of the asked load that a reading under load has to have had (own choice)."""

FindingKind = Literal[
    "ten times off",
    "wrong unit",
    "far from drawn",
    "places to come",
    "cannot be",
    "repeats apart",
    "out of order",
    "temperature",
    "load",
    "gauge overdue",
    "gauge not known",
    "other gauge",
    "read again when built",
    "new part outside",
]


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about a reading that someone has to know; a waiting one keeps its figure out of every decision."""

    kind: FindingKind
    part: str
    reading: str
    piece: int
    is_waiting: bool
    sentence: str
    why: str
    """The same without what it is about."""
    is_new: bool = False
    """Whether it is about the part that goes in."""


@dataclass(frozen=True, slots=True)
class Figure:
    """The deciding figure of one reading of one piece, or of a result read directly (then `part` is empty)."""

    part: str
    reading: str
    piece: int
    is_new: bool
    value: Fraction
    """What is held against a limit [SI]."""
    size: Fraction
    """What enters a chain: the mean of the places, unless the book asks for the least or the greatest [SI]."""
    places: tuple[Fraction, ...]
    """Every place that was read [SI]."""
    text: str
    typed: str
    """Every figure as it was typed, each with its unit and its place."""
    place: str
    """Which place decides, where one does."""
    dimension: str
    missing: int
    """Places still to be measured."""
    uncertainty: ReadingUncertainty | None
    """What the deciding figure is worth [SI]; nothing where no gauge is known."""
    gauge: str | None
    band: str
    """The gauge with its 95 % band, as a sentence says it."""
    by: str | None
    at: str | None
    waits: Finding | None = None
    """Why it decides nothing, where it does not."""

    @property
    def is_waiting(self) -> bool:
        """Whether nothing may be decided by it."""
        return self.waits is not None

    @property
    def doubt(self) -> float | None:
        """Standard uncertainty [SI]."""
        return None if self.uncertainty is None else self.uncertainty.total


def read_figures(unit: Unit, job: Job, shop: Shop) -> tuple[list[Figure], list[Finding]]:
    """All figures of a job in its order, and what is to be said about those that stand.

    A later figure stands for an earlier one of the same piece, and with the earlier one goes what was to be said of it.
    Later is the one of the later moment, where both tell one, else the one written later.
    """
    figures: list[Figure] = []
    noted: list[tuple[int, Finding]] = []
    stands: dict[tuple[str, str, int, bool], int] = {}
    latest: dict[tuple[str, str, int, bool], Figure] = {}
    drawn = Sizes(unit)
    for at, reading in enumerate(job.readings):
        asked = _asked(unit, drawn, reading)
        if asked is None:
            continue
        found = _findings(asked, reading, job, shop, unit)
        for figure in _figures(asked, reading, shop):
            key = (figure.part, figure.reading, figure.piece, figure.is_new)
            known = latest.get(key)
            if known is not None and is_before(figure.at, known.at):
                noted.append((stands[key], _out_of_order(asked, figure, known, unit)))
                continue
            waits = [one for one in found if one.is_waiting and one.piece in (figure.piece, -1)]
            figures.append(replace(figure, waits=waits[-1] if waits else None))
            stands[key] = at
            latest[key] = replace(figure, at=later_of(known.at if known is not None else None, figure.at))
        noted += [(at, one) for one in found]
    standing = {(part, reading, piece, at) for (part, reading, piece, _), at in stands.items()}
    whole = {(part, reading, -1, at) for part, reading, _, at in standing}
    kept = [one for at, one in noted if (one.part, one.reading, one.piece, at) in standing | whole]
    return figures, [replace(one, piece=max(one.piece, 0)) for one in kept]


def _out_of_order(asked: Asked, figure: Figure, known: Figure, unit: Unit) -> Finding:
    """That a figure counts though another one is written after it."""
    is_one_of_many = asked.part in unit.parts and unit.parts[asked.part].count > 1
    title = f"{asked.title}, piece {figure.piece + 1}" if is_one_of_many else asked.title
    why = f"{figure.typed} of {figure.at} is written after what was read on {known.at}, which is later and counts."
    return Finding("out of order", asked.part, asked.name, figure.piece, False, f"{title}: {why}", why, figure.is_new)


def _asked(unit: Unit, drawn: Sizes, reading: Reading) -> Asked | None:
    if reading.result is not None:
        return asked_of_result(unit, drawn, reading.result)
    if reading.part is None or reading.reading is None:
        return None
    return asked_of_reading(unit, reading.part, reading.reading)


def _figures(asked: Asked, reading: Reading, shop: Shop) -> Iterator[Figure]:
    groups: list[tuple[int, Sequence[Quantity]]]
    is_piece = reading.per == "piece" and bool(asked.part)
    if is_piece:
        groups = [(reading.piece - 1 + at, (figure,)) for at, figure in enumerate(reading.figures)]
    else:
        groups = [(reading.piece - 1, reading.figures)]
    limit = asked.new_limit if reading.new else asked.used_limit
    for piece, figures in groups:
        places = _decided(asked, figures, limit, is_piece)
        name, gauge = gauge_of(asked.gauge, reading.gauge, shop, abs(figures[0].nominal), figures[0].dimension)
        yield Figure(
            part=asked.part,
            reading=asked.name,
            piece=piece,
            is_new=reading.new,
            value=places.value,
            size=_size(asked, places),
            places=tuple(one.mean for one in places.places),
            text=_text(places, figures, limit),
            typed=_typed(figures, len(places.places) > 1),
            place=places.deciding[0].name if len(places.deciding) == 1 and len(figures) > 1 else "",
            dimension=figures[0].dimension.name,
            missing=0 if is_piece else places.missing,
            uncertainty=worth(places, band_of_readings(gauge, figures)),
            gauge=name,
            band=told_band(name, gauge, figures),
            by=reading.by,
            at=reading.at,
        )


def _decided(asked: Asked, figures: Sequence[Quantity], limit: Limit | None, is_piece: bool) -> Places:
    if asked.places == 1 or is_piece:
        # More figures than places are repeats of the one place.
        return decide_places((Place("the place", tuple(one.nominal for one in figures)),), "mean", None, 1)
    places = tuple(Place(f"place {at}", (one.nominal,)) for at, one in enumerate(figures, 1))
    by = asked.decides
    if (by == "worst" and limit is None) or (by == "range" and len(places) < 2):
        by = "mean"
    return decide_places(places, by, limit, asked.places)


def _size(asked: Asked, places: Places) -> Fraction:
    return places.value if asked.decides in ("min", "max") else places.mean


def _text(places: Places, figures: Sequence[Quantity], limit: Limit | None) -> str:
    """The deciding figure as it was typed; a mean in as many decimals, more only where its limit needs them."""
    same = [one.text for one in figures if one.nominal == places.value]
    unit = unit_behind(figures[0].text)
    if same or unit is None:
        return same[0] if same else SHOW.show_exact(places.value, figures[0].dimension)
    dimension = figures[0].dimension
    scaled = unit.from_si(places.value, dimension)
    decimals = max(len(_DECIMALS.sub(r"\1", one.text)) for one in figures)
    while decimals < MOST_DECIMALS and _misleads(unit.to_si(round(scaled, decimals), dimension), places, limit):
        decimals += 1
    return f"{float(round(scaled, decimals)):.{decimals}f} {unit.symbol}"


def _misleads(shown: Fraction, places: Places, limit: Limit | None) -> bool:
    """Whether a rounded figure lies on an end of its limit, or beyond one, that the figure itself does not."""
    if limit is None or shown == places.value:
        return False
    return shown in (limit.low, limit.high) or is_inside(shown, limit) != is_inside(places.value, limit)


def _typed(figures: Sequence[Quantity], is_by_place: bool) -> str:
    if is_by_place:
        return ", ".join(f"{one.text} at place {at}" for at, one in enumerate(figures, 1))
    return f"{listed([one.text for one in figures])} at one place" if len(figures) > 1 else figures[0].text


def places_to_come(count: int) -> str:
    """That so many places are still to be measured."""
    return f"{count} more {'place is' if count == 1 else 'places are'} to be measured"


def listed(words: Sequence[str]) -> str:
    """`a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


# What has to be said about a reading.


class _Say(Protocol):
    """Takes down one finding about the reading at hand."""

    def __call__(self, kind: FindingKind, is_waiting: bool, sentence: str, piece: int = -1) -> None: ...


def _findings(asked: Asked, reading: Reading, job: Job, shop: Shop, unit: Unit) -> list[Finding]:
    said: list[tuple[FindingKind, bool, str, int]] = []

    def say(kind: FindingKind, is_waiting: bool, sentence: str, piece: int = -1) -> None:
        said.append((kind, is_waiting, sentence, piece))

    for at, figure in enumerate(reading.figures):
        doubt = doubt_about(asked, figure)
        if doubt is not None and (doubt.is_certain or not reading.confirmed):
            piece = reading.piece - 1 + (at if reading.per == "piece" else 0)
            say(doubt.kind, True, doubt.sentence, piece)
    to_come = asked.places - len(reading.figures)
    if to_come > 0 and not asked.part:
        say("places to come", True, f"{_typed(reading.figures, True)}, and {places_to_come(to_come)}.")
    _say_apart(say, asked, reading, shop)
    _say_warm(say, reading, job, shop, unit)
    if asked.load is not None and (reading.load is None or reading.load.nominal < asked.load.nominal * LEAST_LOAD):
        told = "without a load" if reading.load is None else f"under {reading.load}"
        say("load", True, f"it was read {told}, the book asks for {asked.load}; read it again under that load.")
    _say_gauge(say, asked, reading, job, shop)
    is_one_of_many = asked.part in unit.parts and unit.parts[asked.part].count > 1
    found = []
    for kind, is_waiting, why, piece in said:
        # Pieces of which the same is to be said are told in one sentence.
        alike = sorted({one[3] + 1 for one in said if one[:3] == (kind, is_waiting, why)})
        pieces = f", {'piece' if len(alike) == 1 else 'pieces'} {listed([str(one) for one in alike])}"
        title = f"{asked.title}{pieces if is_one_of_many and piece >= 0 else ''}"
        found.append(Finding(kind, asked.part, asked.name, piece, is_waiting, f"{title}: {why}", why, reading.new))
    return found


def _say_apart(say: _Say, asked: Asked, reading: Reading, shop: Shop) -> None:
    """Repeats at one place that scatter more than the gauge explains; to confirm them does not bring them together."""
    figures = reading.figures
    if asked.places > 1 or reading.per == "piece" or len({one.dimension.exponents for one in figures}) > 1:
        return
    name, gauge = gauge_of(asked.gauge, reading.gauge, shop, abs(figures[0].nominal), figures[0].dimension)
    most = most_apart(band_of_readings(gauge, figures), gauge, len(figures))
    apart = max(one.nominal for one in figures) - min(one.nominal for one in figures)
    if most is None or apart <= most:
        return
    dimension = figures[0].dimension
    say(
        "repeats apart",
        True,
        f"{_typed(figures, False)} lie {FINE.show(apart, dimension, 'up')} apart, and {len(figures)} readings "
        f"{told_band(name, gauge, figures)} lie at most {FINE.show(most, dimension, 'down')} apart 95 times in 100; "
        "find why, and read it again.",
    )


def _say_warm(say: _Say, reading: Reading, job: Job, shop: Shop, unit: Unit) -> None:
    temperature = reading.temperature or job.temperature
    if temperature is None or reading.figures[0].dimension != LENGTH:
        return
    told = unit.reference_temperature or shop.reference_temperature
    reference = told.nominal if told else REFERENCE_TEMPERATURE
    band = shop.temperature_band.nominal if shop.temperature_band else WARM_BAND
    off = temperature.nominal - reference
    if abs(off) > band:
        show = replace(telling_of(shop), digits=3)
        by = f"{show.show(abs(off), TEMPERATURE_DIFFERENCE)} {'above' if off > 0 else 'below'}"
        say(
            "temperature",
            True,
            f"the part was at {temperature}, {by} the reference of "
            f"{told or '20 °C'}; let it come to the room's temperature and read it again.",
        )


def _say_gauge(say: _Say, asked: Asked, reading: Reading, job: Job, shop: Shop) -> None:
    if reading.gauge is None:
        say("gauge not known", False, f"no gauge is named; a {asked.gauge} is asked for. Say which one it was.")
        return
    gauge = shop.gauges.get(reading.gauge)
    if gauge is None:
        say("gauge not known", False, f"the shop has no gauge {shown(reading.gauge)}; how sure it is cannot be said.")
        return
    if gauge.class_ != asked.gauge:
        say(
            "other gauge", False, f"read by {reading.gauge}, a {gauge.class_}, where the book asks for a {asked.gauge}."
        )
    day = (reading.at or job.today)[:10]
    if gauge.due is not None and gauge.due < day:
        say(
            "gauge overdue",
            False,
            f"{reading.gauge} was due to be held to a standard on {gauge.due}, before it was used on {day}.",
        )
