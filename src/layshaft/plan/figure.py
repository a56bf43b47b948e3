"""Figures of a job: what was typed at the bench, brought to the one figure that decides, with what it is worth.

A figure that cannot be what was meant (ten times off, a wrong unit, a warm part) waits: it is shown, and nothing is
decided by it until someone has read again or confirmed it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, Protocol

from layshaft.book.definition import Gauge, Job, Reading, Shop, Unit
from layshaft.book.definition.base import shown
from layshaft.book.size import Sizes
from layshaft.gauging.places import Place, Places, decide_places, places_uncertainty
from layshaft.gauging.uncertainty import ReadingUncertainty, stated_uncertainty
from layshaft.plan.expected import Asked, asked_of_reading, asked_of_result, doubt_about
from layshaft.quantity import LENGTH, TEMPERATURE_DIFFERENCE, Limit, Quantity, Show

SHOW = Show(decimals=2)
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
    is_waiting: bool = False

    @property
    def doubt(self) -> float | None:
        """Standard uncertainty [SI]."""
        return None if self.uncertainty is None else self.uncertainty.total


def read_figures(unit: Unit, job: Job, shop: Shop) -> tuple[list[Figure], list[Finding]]:
    """All figures of a job in its order, and what is to be said about them; a later figure stands for an earlier."""
    figures: list[Figure] = []
    findings: list[Finding] = []
    drawn = Sizes(unit)
    for reading in job.readings:
        asked = _asked(unit, drawn, reading)
        if asked is None:
            continue
        found = _findings(asked, reading, job, shop, unit)
        for figure in _figures(asked, reading, shop):
            own = [one for one in found if one.piece in (figure.piece, -1)]
            figures.append(replace(figure, is_waiting=any(one.is_waiting for one in own)))
        findings += [replace(one, piece=max(one.piece, 0)) for one in found]
    return figures, findings


def _asked(unit: Unit, drawn: Sizes, reading: Reading) -> Asked | None:
    if reading.result is not None:
        return asked_of_result(unit, drawn, reading.result)
    if reading.part is None or reading.reading is None:
        return None
    return asked_of_reading(unit, reading.part, reading.reading)


def _figures(asked: Asked, reading: Reading, shop: Shop) -> Iterator[Figure]:
    groups: list[tuple[int, Sequence[Quantity]]]
    if reading.per == "piece":
        groups = [(reading.piece - 1 + at, (figure,)) for at, figure in enumerate(reading.figures)]
    else:
        groups = [(reading.piece - 1, reading.figures)]
    limit = asked.new_limit if reading.new else asked.used_limit
    for piece, figures in groups:
        places = _decided(asked, figures, limit, reading.per == "piece")
        name, gauge = gauge_of(asked.gauge, reading.gauge, shop)
        yield Figure(
            part=asked.part,
            reading=asked.name,
            piece=piece,
            is_new=reading.new,
            value=places.value,
            size=_size(asked, places),
            places=tuple(one.mean for one in places.places),
            text=_text(places, figures),
            place=places.deciding[0].name if len(places.deciding) == 1 and len(figures) > 1 else "",
            dimension=figures[0].dimension.name,
            missing=0 if reading.per == "piece" else places.missing,
            uncertainty=_worth(places, gauge),
            gauge=name,
            band=_band(name, gauge, figures[0]),
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


def _text(places: Places, figures: Sequence[Quantity]) -> str:
    same = [one.text for one in figures if one.nominal == places.value]
    return same[0] if same else SHOW.show_exact(places.value, figures[0].dimension)


# What a figure is worth.


def gauge_of(class_: str, name: str | None, shop: Shop) -> tuple[str | None, Gauge | None]:
    """The gauge that was used; where none is named, the least certain one of the class that the book asks for."""
    if name is not None:
        return name, shop.gauges.get(name)
    known = [(key, one) for key, one in shop.gauges.items() if one.class_ == class_]
    if not known:
        return None, None
    return max(known, key=lambda item: item[1].u95.nominal if item[1].u95 else Fraction(0))


def _worth(places: Places, gauge: Gauge | None) -> ReadingUncertainty | None:
    if gauge is None:
        return None
    if gauge.u95 is not None:
        band = gauge.u95.nominal
    elif gauge.u95_percent is not None:
        band = abs(places.value) * gauge.u95_percent / 100
    else:
        return None
    # A range of several places loses what all readings share; nothing is known of the split, so none is promised.
    share = 1.0 if places.decide_by == "range" else 0.0
    return places_uncertainty(places, stated_uncertainty(float(band), random_share=share))


def _band(name: str | None, gauge: Gauge | None, figure: Quantity) -> str:
    if name is None:
        return "by a gauge that is not known"
    if gauge is None or (gauge.u95 is None and gauge.u95_percent is None):
        return f"by {name}, of which nothing is known"
    if gauge.u95 is not None:
        return f"by {name} (± {gauge.u95.text})"
    percent = float(gauge.u95_percent or 0)
    return f"by {name} (± {percent:g} % of {figure.text})"


# What has to be said about a reading.


class _Say(Protocol):
    """Takes down one finding about the reading at hand."""

    def __call__(self, kind: FindingKind, is_waiting: bool, sentence: str, piece: int = -1) -> None: ...


def _findings(asked: Asked, reading: Reading, job: Job, shop: Shop, unit: Unit) -> list[Finding]:
    found: list[Finding] = []

    def say(kind: FindingKind, is_waiting: bool, sentence: str, piece: int = -1) -> None:
        found.append(Finding(kind, asked.part, asked.name, piece, is_waiting, f"{asked.title}: {sentence}"))

    for at, figure in enumerate(reading.figures):
        doubt = None if reading.confirmed else doubt_about(asked, figure)
        if doubt is not None:
            piece = reading.piece - 1 + (at if reading.per == "piece" else 0)
            say(doubt.kind, True, doubt.sentence, piece)
    _say_warm(say, reading, job, shop, unit)
    if asked.load is not None and (reading.load is None or reading.load.nominal < asked.load.nominal * LEAST_LOAD):
        told = "without a load" if reading.load is None else f"under {reading.load}"
        say("load", True, f"it was read {told}, the book asks for {asked.load}; read it again under that load.")
    _say_gauge(say, asked, reading, job, shop)
    return found


def _say_warm(say: _Say, reading: Reading, job: Job, shop: Shop, unit: Unit) -> None:
    temperature = reading.temperature or job.temperature
    if temperature is None or reading.figures[0].dimension != LENGTH:
        return
    told = unit.reference_temperature or shop.reference_temperature
    reference = told.nominal if told else REFERENCE_TEMPERATURE
    band = shop.temperature_band.nominal if shop.temperature_band else WARM_BAND
    off = temperature.nominal - reference
    if abs(off) > band:
        by = f"{SHOW.show(abs(off), TEMPERATURE_DIFFERENCE)} {'above' if off > 0 else 'below'}"
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
