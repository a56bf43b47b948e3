"""Several places and repeats of one feature: taper, worst place, mean, and when to measure again."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from layshaft.gauging.uncertainty import ReadingUncertainty
from layshaft.gauging.window import Limit, margin


class DecideBy(StrEnum):
    """Which figure of several places is held against the limit."""

    WORST = "worst"
    MEAN = "mean"
    MIN = "min"
    MAX = "max"
    RANGE = "range"


@dataclass(frozen=True, slots=True)
class Place:
    """The readings of one place.

    Attributes
    ----------
    name : str [-]
        Where it was taken.
    readings : tuple of Fraction [any one unit]
        As typed, one or more.
    """

    name: str
    readings: tuple[Fraction, ...]

    @property
    def mean(self) -> Fraction:
        """Exact mean of the readings of this place."""
        return sum(self.readings, Fraction(0)) / len(self.readings)


@dataclass(frozen=True, slots=True)
class Places:
    """What several places say together.

    Attributes
    ----------
    value : Fraction [unit of the readings]
        The figure that is held against the limit.
    decide_by : DecideBy [-]
        How it was found.
    deciding : tuple of Place [-]
        The places behind it: one, all, or the highest and the lowest.
    places : tuple of Place [-]
        All, in the order given.
    asked : int [-]
        How many places the book asks for.
    """

    value: Fraction
    decide_by: DecideBy
    deciding: tuple[Place, ...]
    places: tuple[Place, ...]
    asked: int

    @property
    def lowest(self) -> Place:
        """Place with the smallest mean; the first of equals."""
        return min(self.places, key=lambda place: place.mean)

    @property
    def highest(self) -> Place:
        """Place with the largest mean; the first of equals."""
        return max(self.places, key=lambda place: place.mean)

    @property
    def range(self) -> Fraction:
        """Taper: largest minus smallest place [unit of the readings]."""
        return self.highest.mean - self.lowest.mean

    @property
    def mean(self) -> Fraction:
        """Mean of the places, each place counting once [unit of the readings]."""
        return sum((place.mean for place in self.places), Fraction(0)) / len(self.places)

    @property
    def missing(self) -> int:
        """Places still to be measured; above zero the verdict is measure again."""
        return max(0, self.asked - len(self.places))


def gather_places(readings: Iterable[tuple[str, Fraction]]) -> tuple[Place, ...]:
    """Sort single readings by their place, places in the order of their first reading.

    Parameters
    ----------
    readings : iterable of (str, Fraction) [any one unit]
        Name of the place and figure as typed.

    Returns
    -------
    tuple of Place [unit of the readings]

    Examples
    --------
    >>> taken = [("front", Fraction("1.75")), ("rear", Fraction("1.74")), ("front", Fraction("1.76"))]
    >>> [(place.name, float(place.mean)) for place in gather_places(taken)]
    [('front', 1.755), ('rear', 1.74)]
    """
    found: dict[str, list[Fraction]] = {}
    for name, value in readings:
        found.setdefault(name, []).append(value)
    return tuple(Place(name, tuple(values)) for name, values in found.items())


def decide_places(
    places: Sequence[Place], decide_by: DecideBy | str, limit: Limit | None = None, asked: int = 1
) -> Places:
    """Find the figure that several places of one feature are judged by.

    Parameters
    ----------
    places : sequence of Place [any one unit]
        One or more, repeats of one place kept together.
    decide_by : DecideBy or str [-]
        `worst` is the place nearest to failing the limit: against a low end the thinnest, against a high end
        the thickest, with two ends whichever is closer to its end.
    limit : Limit or None [unit of the readings]
        Needed for `worst`.
    asked : int [-]
        How many places are asked for.

    Returns
    -------
    Places [unit of the readings]

    Raises
    ------
    ValueError
        No place, a place without a reading, two places of one name, `worst` without a limit, or `range`
        with a single place.

    Notes
    -----
    A mean hides a taper, so the taper is always given with it. Repeats of one place are averaged first: a
    place measured three times weighs no more than the others.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> from layshaft.gauging.window import Window
    >>> bore = [Place("front", (Fraction("40.02"),)), Place("rear", (Fraction("40.07"),))]
    >>> found = decide_places(bore, "worst", Window(Fraction("39.98"), Fraction("40.05")), asked=4)
    >>> found.deciding[0].name, found.range, found.missing
    ('rear', Fraction(1, 20), 2)
    """
    places = tuple(places)
    if not places or any(not place.readings for place in places):
        raise ValueError("a feature needs at least one place, and every place at least one reading")
    if len({place.name for place in places}) < len(places):
        raise ValueError("two places bear the same name: readings of one place belong together")
    by = DecideBy(decide_by)
    ordered = sorted(places, key=lambda place: place.mean)
    lowest, highest = ordered[0], ordered[-1]
    deciding: tuple[Place, ...]
    match by:
        case DecideBy.MIN:
            value, deciding = lowest.mean, (lowest,)
        case DecideBy.MAX:
            value, deciding = highest.mean, (highest,)
        case DecideBy.MEAN:
            value, deciding = sum((place.mean for place in places), Fraction(0)) / len(places), places
        case DecideBy.RANGE:
            if len(places) < 2:
                raise ValueError("a range needs at least two places")
            value, deciding = highest.mean - lowest.mean, (highest, lowest)
        case DecideBy.WORST:
            if limit is None:
                raise ValueError("the worst place is known only against a limit")
            worst = min(places, key=lambda place: margin(place.mean, limit).distance)
            value, deciding = worst.mean, (worst,)
    return Places(value, by, deciding, places, asked)


def places_uncertainty(
    found: Places, one: ReadingUncertainty, is_same_gauge: bool = True
) -> ReadingUncertainty:
    """What the deciding figure of several places is worth.

    Parameters
    ----------
    found : Places [any one unit]
    one : ReadingUncertainty [unit of the readings]
        Parts of a single reading.
    is_same_gauge : bool [-]
        Whether all places were measured by one gauge; its bias then stays whole in a mean and drops out of a
        range.

    Returns
    -------
    ReadingUncertainty [unit of the readings]

    Notes
    -----
    The worst of several places is taken as if it had been picked beforehand; that the extreme of several
    doubtful readings tends to lie a little too far out is not corrected, which errs on the careful side.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.2 and 5.2.

    Examples
    --------
    >>> both = [Place("front", (Fraction(1),)), Place("rear", (Fraction(1), Fraction(1)))]
    >>> taper = places_uncertainty(decide_places(both, "range"), ReadingUncertainty(random=0.002, bias=0.005))
    >>> round(taper.random, 6), taper.bias
    (0.002449, 0.0)
    """
    own = math.fsum(1 / len(place.readings) for place in found.deciding)
    count = len(found.deciding)
    if found.decide_by is DecideBy.RANGE:
        bias = 0.0 if is_same_gauge else one.bias * math.sqrt(count)
        return ReadingUncertainty(one.random * math.sqrt(own), bias, one.rounding * math.sqrt(count))
    bias = one.bias if is_same_gauge else one.bias / math.sqrt(count)
    return ReadingUncertainty(one.random * math.sqrt(own) / count, bias, one.rounding / math.sqrt(count))
