"""Repeats of one figure at one place: how far apart a gauge lets them lie, and what their scatter makes of the mean."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from layshaft.gauging.uncertainty import ReadingUncertainty

_FACTORS = tuple(
    Fraction(tenths, 10) for tenths in (28, 33, 36, 39, 40, 42, 43, 44, 45, 46, 46, 47, 47, 48, 48, 49, 49, 50, 50)
)
"""Critical range factors for 2 to 20 readings, 95 % (ISO 5725-6:1994, table 1; from memory)."""


def critical_range_factor(readings: int) -> Fraction:
    """How many standard deviations the greatest and the least of some repeats stay within, 95 times in 100.

    Parameters
    ----------
    readings : int [-]
        Two or more; of more than 20 the factor of 20 is told, which calls repeats too far apart a little too early.

    Returns
    -------
    Fraction [-]

    Raises
    ------
    ValueError
        Fewer than two readings.

    References
    ----------
    ISO 5725-6:1994, Accuracy of measurement methods and results, part 6, table 1.

    Examples
    --------
    >>> float(critical_range_factor(2)), float(critical_range_factor(4))
    (2.8, 3.6)
    """
    if readings < 2:
        raise ValueError(f"a range needs at least two readings, not {readings}")
    return _FACTORS[min(readings, len(_FACTORS) + 1) - 2]


def critical_range(expanded: Fraction, readings: int, coverage_factor: Fraction = Fraction(2)) -> Fraction:
    """The most that repeats may lie apart before the gauge alone no longer explains it.

    Parameters
    ----------
    expanded : Fraction [unit of the reading]
        Half-width of the gauge's band.
    readings : int [-]
        How many repeats there are, two or more.
    coverage_factor : Fraction [-]
        How many standard uncertainties the band is.

    Returns
    -------
    Fraction [unit of the reading]

    Raises
    ------
    ValueError
        Fewer than two readings.

    Notes
    -----
    The standard asks for the deviation of repeats alone. A gauge's band also holds what all its readings share, so
    this range is on the wide side, and what lies outside it lies outside the standard's too.

    References
    ----------
    ISO 5725-6:1994, 4.1.4 and 5.2.2: the critical range of results obtained under repeatability conditions.

    Examples
    --------
    >>> float(critical_range(Fraction("0.02"), 2))
    0.028
    """
    return critical_range_factor(readings) * expanded / coverage_factor


def mean_scatter(readings: Sequence[Fraction]) -> float:
    """Standard uncertainty of a mean from the scatter of what it is the mean of (type A).

    Parameters
    ----------
    readings : sequence of Fraction [any one unit]
        Two or more; of one reading nothing is known, which is told as nothing.

    Returns
    -------
    float [unit of the readings]

    Notes
    -----
    Of few readings the scatter is itself poorly known; it widens what the gauge's data say and never narrows it.

    References
    ----------
    JCGM 100:2008 (GUM), 4.2.2 and 4.2.3.

    Examples
    --------
    >>> mean_scatter([Fraction(1), Fraction(3)])
    1.0
    """
    count = len(readings)
    if count < 2:
        return 0.0
    mean = sum(readings, Fraction(0)) / count
    square = sum((one - mean) ** 2 for one in readings) / (count - 1) / count
    return math.sqrt(square)


def widened(one: ReadingUncertainty, scatter: float) -> ReadingUncertainty:
    """What a mean is worth: the greater of what the gauge's data and what the scatter say, never less than the gauge.

    Parameters
    ----------
    one : ReadingUncertainty [unit of the reading]
        By the gauge's data.
    scatter : float [unit of the reading]
        As `mean_scatter` tells it.

    Returns
    -------
    ReadingUncertainty [unit of the reading]
        What is shared with other readings of the gauge stays as it was.

    References
    ----------
    JCGM 100:2008 (GUM), 4.2 and 4.3; that the greater of both counts, rather than both, is this program's choice,
    since the gauge's data hold its own scatter already.

    Examples
    --------
    >>> widened(ReadingUncertainty(0.0, 0.003), 0.005)
    ReadingUncertainty(random=0.004, bias=0.003, rounding=0.0)
    """
    if scatter <= one.total:
        return one
    return ReadingUncertainty(math.sqrt(scatter**2 - one.bias**2 - one.rounding**2), one.bias, one.rounding)
