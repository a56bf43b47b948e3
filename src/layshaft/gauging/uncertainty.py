"""How sure a figure is: from a gauge's data and the readings taken to one standard uncertainty.

Here are the gauge's own parts, repeats, correlated parts and the combination. What the uncertainty decides is
in `conformity`; several places of one feature are in `places`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from layshaft.gauging.student import student_factor

_INFINITE = math.inf


def _require_not_negative(**figures: float) -> None:
    for name, figure in figures.items():
        if not 0 <= figure < _INFINITE:
            raise ValueError(f"{name.replace('_', ' ')} must be zero or more and finite, not {figure!r}")


def standard_uncertainty(expanded: float, coverage_factor: float = 2.0) -> float:
    """Standard uncertainty behind an expanded one, such as a gauge's "within ± 0.025 mm at 95 %".

    Parameters
    ----------
    expanded : float [unit of the reading]
        Half-width of the stated band.
    coverage_factor : float [-]
        How many standard uncertainties the band is. Calibration papers state it, mostly 2; a band stated as
        "95 %" without a factor is a normal band with 1.96.

    Returns
    -------
    float [unit of the reading]

    Raises
    ------
    ValueError
        A negative band, or a factor that is not above zero.

    Notes
    -----
    The default 2 makes the standard uncertainty 2 % smaller than 1.96 does.

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.3 and 6.2.1.

    Examples
    --------
    >>> standard_uncertainty(0.025)
    0.0125
    >>> round(standard_uncertainty(0.025, coverage_factor=1.96), 5)
    0.01276
    """
    _require_not_negative(expanded=expanded)
    if not 0 < coverage_factor < _INFINITE:
        raise ValueError(f"a coverage factor must be above zero and finite, not {coverage_factor!r}")
    return expanded / coverage_factor


def resolution_uncertainty(step: float) -> float:
    """Standard uncertainty that a gauge's step leaves: the true figure lies anywhere within half a step.

    Parameters
    ----------
    step : float [unit of the reading]
        Smallest difference that the gauge shows.

    Returns
    -------
    float [unit of the reading]

    Raises
    ------
    ValueError
        A negative step.

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7 and F.2.2.1: a rectangle of half-width step/2 over the square root of 3.

    Examples
    --------
    >>> round(resolution_uncertainty(0.01), 6)
    0.002887
    """
    _require_not_negative(step=step)
    return step / 2 / math.sqrt(3)


def relative_uncertainty(value: float, share: float) -> float:
    """Standard uncertainty of a gauge whose error grows with the reading, such as a spring tester.

    Parameters
    ----------
    value : float [any one unit]
        Reading.
    share : float [-]
        Standard uncertainty as a share of the reading: 0.015 for 1.5 %.

    Returns
    -------
    float [unit of the value]

    Raises
    ------
    ValueError
        A negative share.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.6.

    Examples
    --------
    >>> relative_uncertainty(4200.0, 0.015)
    63.0
    """
    _require_not_negative(share=share)
    return abs(value) * share


@dataclass(frozen=True, slots=True)
class Gauge:
    """What is known about how a class of gauge errs.

    Attributes
    ----------
    random : float [unit of the reading]
        Standard uncertainty that differs from reading to reading.
    bias : float [unit of the reading]
        Standard uncertainty of what every reading of this gauge has in common: its calibration.
    resolution : float [unit of the reading]
        Step of the scale or display.
    relative_random, relative_bias : float [-]
        The same as shares of the reading.

    Notes
    -----
    A step rounds the same figure the same way each time, so its part is not made smaller by repeats.

    Examples
    --------
    >>> micrometer = Gauge(random=0.001, bias=0.0015, resolution=0.001)
    >>> round(micrometer.reading(1.75).total, 6)
    0.001826
    """

    random: float = 0.0
    bias: float = 0.0
    resolution: float = 0.0
    relative_random: float = 0.0
    relative_bias: float = 0.0

    def __post_init__(self) -> None:
        _require_not_negative(
            random=self.random,
            bias=self.bias,
            resolution=self.resolution,
            relative_random=self.relative_random,
            relative_bias=self.relative_bias,
        )

    def reading(self, value: float | Fraction) -> ReadingUncertainty:
        """What one reading by this gauge is worth."""
        figure = float(value)
        return ReadingUncertainty(
            math.hypot(self.random, relative_uncertainty(figure, self.relative_random)),
            math.hypot(self.bias, relative_uncertainty(figure, self.relative_bias)),
            resolution_uncertainty(self.resolution),
        )


@dataclass(frozen=True, slots=True)
class ReadingUncertainty:
    """The parts of one reading's uncertainty.

    Attributes
    ----------
    random : float [unit of the reading]
        New in every reading; a mean of n readings has 1/sqrt(n) of it.
    bias : float [unit of the reading]
        Shared by all readings of the gauge.
    rounding : float [unit of the reading]
        From the step of the scale; stays in a mean, is new from piece to piece.
    """

    random: float
    bias: float
    rounding: float = 0.0

    @property
    def total(self) -> float:
        """Standard uncertainty of the figure [unit of the reading]."""
        return math.hypot(self.random, self.bias, self.rounding)

    @property
    def own(self) -> float:
        """Standard uncertainty apart from the shared bias [unit of the reading]."""
        return math.hypot(self.random, self.rounding)


def stated_uncertainty(
    expanded: float, coverage_factor: float = 2.0, random_share: float = 0.0
) -> ReadingUncertainty:
    """Parts of a reading's uncertainty where only one band is known for the gauge.

    Parameters
    ----------
    expanded : float [unit of the reading]
        Half-width of the stated band.
    coverage_factor : float [-]
        See `standard_uncertainty`.
    random_share : float [-]
        Share of the variance that is new in every reading, 0 to 1.

    Returns
    -------
    ReadingUncertainty [unit of the reading]

    Raises
    ------
    ValueError
        A share outside 0 to 1, or what `standard_uncertainty` refuses.

    Notes
    -----
    Nothing is known about the split unless someone has studied the gauge. The default takes all of it as
    shared by all readings, so that repeats promise nothing that they may not keep.

    References
    ----------
    JCGM 100:2008 (GUM), 4.2 and 4.3; the default split is this program's choice.

    Examples
    --------
    >>> stated_uncertainty(0.025)
    ReadingUncertainty(random=0.0, bias=0.0125, rounding=0.0)
    """
    if not 0 <= random_share <= 1:
        raise ValueError(f"the random share of a variance lies between 0 and 1, not {random_share!r}")
    whole = standard_uncertainty(expanded, coverage_factor)
    return ReadingUncertainty(whole * math.sqrt(random_share), whole * math.sqrt(1 - random_share))


def mean_of_repeats(one: ReadingUncertainty, repeats: int) -> ReadingUncertainty:
    """What the mean of several readings of the same spot is worth.

    Parameters
    ----------
    one : ReadingUncertainty [unit of the reading]
        Parts of a single reading.
    repeats : int [-]
        Readings in the mean, one or more.

    Returns
    -------
    ReadingUncertainty [unit of the reading]
        Only the random part has shrunk.

    Raises
    ------
    ValueError
        No reading.

    References
    ----------
    JCGM 100:2008 (GUM), 4.2.3 for the mean, 5.2.4 for what readings have in common.

    Examples
    --------
    >>> mean_of_repeats(ReadingUncertainty(random=0.004, bias=0.003), 4).random
    0.002
    """
    if repeats < 1:
        raise ValueError(f"a mean needs at least one reading, not {repeats}")
    return ReadingUncertainty(one.random / math.sqrt(repeats), one.bias, one.rounding)


@dataclass(frozen=True, slots=True)
class Contribution:
    """One cause of doubt in a result.

    Attributes
    ----------
    uncertainty : float [unit of the cause]
        Standard uncertainty of the cause.
    sensitivity : float [unit of the result over unit of the cause]
        Change of the result for a unit change of the cause, with its sign.
    degrees_of_freedom : float [-]
        How well the uncertainty itself is known; infinite when it was given, not estimated.
    shared : str or None [-]
        Causes with the same word here are one and the same error: they add with their signs.
    """

    uncertainty: float
    sensitivity: float = 1.0
    degrees_of_freedom: float = _INFINITE
    shared: str | None = None


@dataclass(frozen=True, slots=True)
class CombinedUncertainty:
    """Standard uncertainty of a result and how well it is known.

    Attributes
    ----------
    uncertainty : float [unit of the result]
        Unrounded.
    degrees_of_freedom : float [-]
        Effective number by Welch and Satterthwaite, not yet cut down to a whole one.
    """

    uncertainty: float
    degrees_of_freedom: float

    def expanded(self, probability: float = 0.95) -> float:
        """Half-width of the band that holds the true figure with a given probability [unit of the result]."""
        return student_factor(probability, self.degrees_of_freedom) * self.uncertainty


def combine_uncertainty(contributions: Iterable[Contribution]) -> CombinedUncertainty:
    """Standard uncertainty of a result from all its causes.

    Parameters
    ----------
    contributions : iterable of Contribution [unit of the result, after the sensitivity]
        Independent of each other unless they share a word, then wholly correlated.

    Returns
    -------
    CombinedUncertainty [unit of the result]

    Raises
    ------
    ValueError
        A negative uncertainty, or fewer than one degree of freedom.

    Notes
    -----
    First order: for a result that bends within the band of a cause (a product of two doubtful figures, a
    square near zero) it says too little. Causes that share an error get the fewest degrees of freedom among
    them.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.2, 5.2.2 note 1 (wholly correlated causes add), G.4.1 (degrees of freedom).

    Examples
    --------
    Five plates by one micrometer: its calibration error of 1.5 µm counts five times, not 2.24 times.

    >>> plates = [Contribution(1.5, shared="micrometer 2") for _ in range(5)]
    >>> combine_uncertainty(plates).uncertainty
    7.5
    """
    groups: dict[object, tuple[float, float]] = {}
    for number, one in enumerate(contributions):
        _require_not_negative(uncertainty=one.uncertainty)
        if not one.degrees_of_freedom >= 1:
            raise ValueError(f"at least 1 degree of freedom is needed, not {one.degrees_of_freedom!r}")
        key = number if one.shared is None else one.shared
        amount, freedom = groups.get(key, (0.0, _INFINITE))
        groups[key] = (amount + one.sensitivity * one.uncertainty, min(freedom, one.degrees_of_freedom))
    total = math.hypot(*(amount for amount, _ in groups.values()))
    doubt = math.fsum(amount**4 / freedom for amount, freedom in groups.values())
    return CombinedUncertainty(total, total**4 / doubt if doubt else _INFINITE)
