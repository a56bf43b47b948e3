"""Inside a limit or not, and how sure that is.

Whether a figure is inside is decided on the figure as typed; the probability that the true figure is inside
stands beside it and never overrules it. What a whole run of parts risks is in `risk`, what being wrong costs
in `decision`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from statistics import NormalDist

from layshaft.gauging.window import End, Limit, Margin, check_ends, margin

_NORMAL = NormalDist()

DEFAULT_CONFIDENCE = 0.95
"""Probability asked for before a verdict counts as sure (ISO 14253-1:2017, default; from memory)."""


class Guard(StrEnum):
    """How far a verdict can be relied on."""

    SURE_INSIDE = "sure inside"
    UNSURE_INSIDE = "inside, not sure"
    UNSURE_OUTSIDE = "outside, not sure"
    SURE_OUTSIDE = "sure outside"


@dataclass(frozen=True, slots=True)
class Conformity:
    """Verdict on one figure against one limit.

    Attributes
    ----------
    value : Fraction [unit of the limit]
        Figure as typed.
    is_inside : bool [-]
        By the exact figures; on an end is inside.
    probability : float [-]
        That the true figure is inside.
    margin : Margin [unit of the limit]
        Distance to the nearest end and which end; negative outside.
    guard : Guard [-]
        The verdict with its sureness at `confidence`.
    confidence : float [-]
        Probability asked for.
    """

    value: Fraction
    is_inside: bool
    probability: float
    margin: Margin
    guard: Guard
    confidence: float

    @property
    def end(self) -> End:
        """The end that decides."""
        return self.margin.end

    @property
    def is_sure(self) -> bool:
        """Whether the verdict, either way, holds with the probability asked for."""
        return self.guard in (Guard.SURE_INSIDE, Guard.SURE_OUTSIDE)


def _check_doubt(uncertainty: float) -> None:
    if not 0 <= uncertainty < math.inf:
        raise ValueError(f"a standard uncertainty is zero or more and finite, not {uncertainty!r}")


def _check_confidence(confidence: float) -> None:
    if not 0.5 < confidence < 1:
        raise ValueError(f"the probability asked for lies between 0.5 and 1, not {confidence!r}")


def probability_inside(value: Fraction | float, limit: Limit, uncertainty: float) -> float:
    """Probability that the true figure lies inside a limit, given a reading and its uncertainty.

    Parameters
    ----------
    value : Fraction or float [unit of the limit]
        Best estimate.
    limit : Limit [any one unit]
    uncertainty : float [unit of the limit]
        Standard uncertainty of the estimate. Zero gives 0 or 1, an end counting as inside.

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        A negative uncertainty, or a limit that `check_ends` refuses.

    Notes
    -----
    Normal distribution about the reading, nothing known beforehand about such parts. A limit that the true
    figure cannot pass for physical reasons is not taken into account.

    References
    ----------
    JCGM 106:2012, Evaluation of measurement data: the role of measurement uncertainty in conformity
    assessment, 7.2 to 7.4 (clause numbers from memory).

    Examples
    --------
    >>> from layshaft.gauging.window import Window
    >>> limit = Window(None, Fraction("0.70"))
    >>> round(probability_inside(Fraction("0.68"), limit, 0.0125), 3)
    0.945
    """
    _check_doubt(uncertainty)
    check_ends(limit)
    if uncertainty == 0:
        return float(margin(Fraction(value), limit).distance >= 0)
    below_high = 1.0 if limit.high is None else float(limit.high - value) / uncertainty
    above_low = math.inf if limit.low is None else float(value - limit.low) / uncertainty
    if limit.high is None:
        return _NORMAL.cdf(above_low)
    if limit.low is None:
        return _NORMAL.cdf(below_high)
    # The smaller tail is taken from whichever side keeps its digits.
    if below_high < above_low:
        return max(0.0, _NORMAL.cdf(below_high) - _NORMAL.cdf(-above_low))
    return max(0.0, _NORMAL.cdf(above_low) - _NORMAL.cdf(-below_high))


def judge_conformity(
    value: Fraction, limit: Limit, uncertainty: float, confidence: float = DEFAULT_CONFIDENCE
) -> Conformity:
    """Judge one figure against one limit.

    Parameters
    ----------
    value : Fraction [unit of the limit]
        Figure as typed, or worked out exactly from figures as typed.
    limit : Limit [any one unit]
    uncertainty : float [unit of the limit]
        Standard uncertainty of the figure.
    confidence : float [-]
        Probability asked for before the verdict is called sure, above 0.5 and below 1.

    Returns
    -------
    Conformity [unit of the limit]

    Raises
    ------
    ValueError
        A confidence or an uncertainty out of range, or a limit that `check_ends` refuses.

    Notes
    -----
    Between two ends that lie closer than 3.92 standard uncertainties nothing is ever sure inside at 95 %.

    References
    ----------
    JCGM 106:2012, 7.2, 8.1. ISO 14253-1:2017 for the default of 95 % (from memory, unverified).

    Examples
    --------
    >>> from layshaft.gauging.window import Window
    >>> verdict = judge_conformity(Fraction("0.68"), Window(None, Fraction("0.70")), 0.0125)
    >>> verdict.guard.value, verdict.is_inside, round(verdict.probability, 3)
    ('inside, not sure', True, 0.945)
    >>> judge_conformity(Fraction("0.70"), Window(None, Fraction("0.70")), 0.0125).is_inside
    True
    """
    _check_confidence(confidence)
    probability = probability_inside(value, limit, uncertainty)
    room = margin(value, limit)
    is_inside = room.distance >= 0
    if is_inside:
        guard = Guard.SURE_INSIDE if probability >= confidence else Guard.UNSURE_INSIDE
    else:
        guard = Guard.SURE_OUTSIDE if probability <= 1 - confidence else Guard.UNSURE_OUTSIDE
    return Conformity(value, is_inside, probability, room, guard, confidence)


def guard_band(uncertainty: float, confidence: float = DEFAULT_CONFIDENCE) -> float:
    """Width that a one-ended limit is drawn in by, so that a figure beyond it is sure.

    Parameters
    ----------
    uncertainty : float [unit of the limit]
        Standard uncertainty.
    confidence : float [-]
        Above 0.5 and below 1.

    Returns
    -------
    float [unit of the limit]

    Raises
    ------
    ValueError
        An argument out of range.

    Notes
    -----
    For two ends close together this is too little: use `sure_ends`.

    References
    ----------
    JCGM 106:2012, 8.3. ISO 14253-1:2017 prints 1.65 for 95 % (from memory, unverified).

    Examples
    --------
    >>> round(guard_band(0.0125), 4)
    0.0206
    """
    _check_doubt(uncertainty)
    _check_confidence(confidence)
    return _NORMAL.inv_cdf(confidence) * uncertainty


def relative_rejection_limit(limit: float, share: float, confidence: float = DEFAULT_CONFIDENCE) -> float:
    """Reading from which on a figure is surely too high, for a gauge whose error grows with the reading.

    Parameters
    ----------
    limit : float [any one unit]
        High end, above zero.
    share : float [-]
        Standard uncertainty as a share of the reading.
    confidence : float [-]
        Above 0.5 and below 1.

    Returns
    -------
    float [unit of the limit]

    Raises
    ------
    ValueError
        An argument out of range, or a gauge so poor that no reading is ever sure.

    References
    ----------
    JCGM 106:2012, 8.3.3.2, example 1 (from memory, unverified).

    Examples
    --------
    >>> round(relative_rejection_limit(100.0, 0.02, confidence=0.999), 2)
    106.59
    """
    _check_doubt(share)
    _check_confidence(confidence)
    if not 0 < limit < math.inf:
        raise ValueError(f"a high end above zero is needed, not {limit!r}")
    left = 1 - _NORMAL.inv_cdf(confidence) * share
    if left <= 0:
        raise ValueError(f"with a share of {share!r} no reading is sure at {confidence!r}")
    return limit / left


@dataclass(frozen=True, slots=True)
class SureEnds:
    """Ends between which, and beyond which, an estimate settles the matter.

    Attributes
    ----------
    inside : tuple of (float, float) or None [unit of the limit]
        Estimates within are sure inside; `None` when the ends are too close for any to be.
    below, above : float [unit of the limit]
        Estimates at or beyond are sure outside; infinite where the limit has no such end.
    """

    inside: tuple[float, float] | None
    below: float
    above: float


def sure_ends(limit: Limit, uncertainty: float, confidence: float = DEFAULT_CONFIDENCE) -> SureEnds:
    """Exact guard bands of a limit with one end or two, inwards and outwards.

    Parameters
    ----------
    limit : Limit [any one unit]
    uncertainty : float [unit of the limit]
        Standard uncertainty, above zero.
    confidence : float [-]
        Above 0.5 and below 1.

    Returns
    -------
    SureEnds [unit of the limit]

    Raises
    ------
    ValueError
        An argument out of range, or a limit that `check_ends` refuses.

    References
    ----------
    JCGM 106:2012, 7.4 (two-sided conformance probability) and 8.3.

    Examples
    --------
    A window six standard uncertainties wide leaves 1.355 of them either side of its middle.

    >>> from layshaft.gauging.window import Window
    >>> ends = sure_ends(Window(Fraction(-3), Fraction(3)), 1.0)
    >>> [round(end, 4) for end in ends.inside]
    [-1.3551, 1.3551]
    """
    _check_confidence(confidence)
    check_ends(limit)
    if not 0 < uncertainty < math.inf:
        raise ValueError(f"a standard uncertainty above zero is needed, not {uncertainty!r}")
    band = guard_band(uncertainty, confidence)
    low = -math.inf if limit.low is None else float(limit.low)
    high = math.inf if limit.high is None else float(limit.high)
    if limit.low is None or limit.high is None:
        return SureEnds((low + band, high - band), low - band, high + band)
    middle, half = (low + high) / 2, (high - low) / 2 / uncertainty

    def chance(offset: float) -> float:
        return _NORMAL.cdf(half - offset) - _NORMAL.cdf(-half - offset)

    inner = _crossing(chance, confidence, 0.0, half) if chance(0.0) >= confidence else None
    # A very narrow window is sure to be missed even by an estimate in its middle; only outside it counts.
    outer = half if chance(half) <= 1 - confidence else _crossing(chance, 1 - confidence, half, half + 40)
    inside = None if inner is None else (middle - inner * uncertainty, middle + inner * uncertainty)
    return SureEnds(inside, middle - outer * uncertainty, middle + outer * uncertainty)


def _crossing(chance: Callable[[float], float], level: float, low: float, high: float) -> float:
    """Offset at which a falling chance passes a level, by halving."""
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if chance(middle) >= level else (low, middle)
    return low
