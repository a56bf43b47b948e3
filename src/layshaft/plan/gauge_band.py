"""What a gauge's certificate says of a figure: how wide its band is there, and what readings by it are worth."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from layshaft.book.definition import Gauge, Shop
from layshaft.gauging.places import Places, places_uncertainty
from layshaft.gauging.repeat import critical_range, mean_scatter, widened
from layshaft.gauging.uncertainty import ReadingUncertainty, stated_uncertainty
from layshaft.quantity import Dimension, Quantity


def gauge_of(
    class_: str, name: str | None, shop: Shop, near: Fraction = Fraction(0), dimension: Dimension | None = None
) -> tuple[str | None, Gauge | None]:
    """The gauge that was used; where none is named, of the class that the book asks for the least certain near there.

    One whose certificate is in another dimension than the figure tells nothing of it.
    """
    if name is not None:
        return name, shop.gauges.get(name)
    known = [(key, one) for key, one in shop.gauges.items() if one.class_ == class_]
    if not known:
        return None, None
    return max(known, key=lambda item: band_at(item[1], near, dimension) or Fraction(0))


def band_at(gauge: Gauge | None, value: Fraction, dimension: Dimension | None = None) -> Fraction | None:
    """Half the band that 95 of 100 readings near a figure lie in [SI]; nothing where the certificate does not say."""
    if gauge is None:
        return None
    if gauge.u95 is not None:
        is_of_it = dimension is None or gauge.u95.dimension.exponents == dimension.exponents
        return gauge.u95.nominal if is_of_it else None
    if gauge.u95_percent is None:
        return None
    # A share of next to nothing is nothing, and no gauge shows more than half its step.
    return max(abs(value) * gauge.u95_percent / 100, _step(gauge) / 2)


def band_of_readings(gauge: Gauge | None, figures: Iterable[Quantity]) -> Fraction | None:
    """The band of the greatest of some readings: a share is one of what was read, not of a difference between them."""
    read = list(figures)
    greatest = max(read, key=lambda one: abs(one.nominal))
    return band_at(gauge, greatest.nominal, greatest.dimension)


def worth(places: Places, band: Fraction | None) -> ReadingUncertainty | None:
    """What the deciding figure of some places is worth, by a gauge's band and by the scatter of repeats."""
    if band is None:
        return None
    # A range of several places loses what all readings share; nothing is known of the split, so none is promised.
    share = 1.0 if places.decide_by == "range" else 0.0
    said = places_uncertainty(places, stated_uncertainty(float(band), random_share=share))
    if len(places.places) > 1:
        return said
    return widened(said, mean_scatter(places.places[0].readings))


def most_apart(band: Fraction | None, gauge: Gauge | None, readings: int) -> Fraction | None:
    """How far apart a gauge lets repeats at one place lie: what its band explains, and never less than its step."""
    if band is None or readings < 2:
        return None
    return max(critical_range(band, readings), Fraction(0) if gauge is None else _step(gauge))


def _step(gauge: Gauge) -> Fraction:
    return Fraction(0) if gauge.step is None else gauge.step.nominal


def told_band(name: str | None, gauge: Gauge | None, figures: Iterable[Quantity]) -> str:
    """The gauge with its 95 % band, as a sentence says it."""
    if name is None:
        return "by a gauge that is not known"
    read = list(figures)
    if gauge is None or band_of_readings(gauge, read) is None:
        return f"by {name}, of which nothing is known"
    if gauge.u95 is not None:
        return f"by {name} (± {gauge.u95.text})"
    greatest = max(read, key=lambda one: abs(one.nominal))
    return f"by {name} (± {float(gauge.u95_percent or 0):g} % of {greatest.text})"
