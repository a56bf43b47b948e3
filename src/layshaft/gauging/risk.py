"""What a whole run of parts risks at a given acceptance limit: bad ones passed, good ones refused.

One part's own probability is in `conformity`; here stands the long run, for a process whose spread is known.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from statistics import NormalDist

from layshaft.gauging.conformity import probability_inside
from layshaft.gauging.quadrature import integrate
from layshaft.gauging.window import Limit, check_ends

# A normal density holds all but 2e-23 of itself within ten standard deviations.
_REACH = 10.0


@dataclass(frozen=True, slots=True)
class Spread:
    """How the true figures of a run of parts are spread.

    Attributes
    ----------
    density : callable [one over the unit of the figure]
        Probability density, smooth between `low` and `high`.
    low, high : float [unit of the figure]
        Finite ends that hold practically all of it.

    Examples
    --------
    >>> Spread.normal(0.0, 2.0).high
    20.0
    """

    density: Callable[[float], float]
    low: float
    high: float

    @classmethod
    def normal(cls, mean: float, deviation: float) -> Spread:
        """Normal spread with a given mean and standard deviation."""
        return cls(NormalDist(mean, deviation).pdf, mean - _REACH * deviation, mean + _REACH * deviation)


@dataclass(frozen=True, slots=True)
class Risk:
    """Shares of a whole run of parts; the four add up to one.

    Attributes
    ----------
    bad_passed : float [-]
        Outside the limit and accepted: the customer's risk.
    good_refused : float [-]
        Inside the limit and not accepted: the shop's risk.
    good_passed, bad_refused : float [-]
        The two right verdicts.
    """

    bad_passed: float
    good_refused: float
    good_passed: float
    bad_refused: float

    @property
    def bad_among_passed(self) -> float:
        """Share of bad ones among the accepted, zero when nothing is accepted [-]."""
        passed = self.bad_passed + self.good_passed
        return self.bad_passed / passed if passed else 0.0


def weigh_risk(spread: Spread, uncertainty: float, limit: Limit, accept: Limit) -> Risk:
    """What a run of parts risks when readings inside `accept` pass and the truth must lie inside `limit`.

    Parameters
    ----------
    spread : Spread [unit of the limit]
        How the true figures are spread.
    uncertainty : float [unit of the limit]
        Standard uncertainty of a reading, above zero, normal.
    limit : Limit [any one unit]
        Where the true figure must lie.
    accept : Limit [unit of the limit]
        Where the reading must lie to pass.

    Returns
    -------
    Risk [-]

    Raises
    ------
    ValueError
        No uncertainty, or a limit that `check_ends` refuses.

    Notes
    -----
    The result is as good as the spread given: a shop that has measured ten parts does not know the tails.

    References
    ----------
    JCGM 106:2012, 9.5 (global risks, equations from memory).

    Examples
    --------
    Resistors of 1500 ohm, spread 0.12, read to 0.04, limits 0.20 either side, accepted up to 0.18.

    >>> from fractions import Fraction
    >>> from layshaft.gauging.window import Window
    >>> limit = Window(Fraction("1499.80"), Fraction("1500.20"))
    >>> accept = Window(Fraction("1499.82"), Fraction("1500.18"))
    >>> risk = weigh_risk(Spread.normal(1500.0, 0.12), 0.04, limit, accept)
    >>> round(risk.bad_passed, 4), round(risk.good_refused, 4)
    (0.0099, 0.069)
    """
    if not 0 < uncertainty < math.inf:
        raise ValueError(f"a standard uncertainty above zero is needed, not {uncertainty!r}")
    check_ends(limit)
    check_ends(accept)
    ends = [float(end) for end in (accept.low, accept.high) if end is not None]
    breaks = [end + step * uncertainty for end in ends for step in (-8, -2, 0, 2, 8)]

    def passing(truth: float) -> float:
        return spread.density(truth) * probability_inside(truth, accept, uncertainty)

    low = spread.low if limit.low is None else min(max(float(limit.low), spread.low), spread.high)
    high = spread.high if limit.high is None else max(min(float(limit.high), spread.high), spread.low)
    inside = integrate(spread.density, low, high)
    passed_inside = integrate(passing, low, high, breaks)
    passed_below = integrate(passing, spread.low, low, breaks)
    passed_outside = passed_below + integrate(passing, high, spread.high, breaks)
    outside = integrate(spread.density, spread.low, low) + integrate(spread.density, high, spread.high)
    return Risk(
        passed_outside, max(0.0, inside - passed_inside), passed_inside, max(0.0, outside - passed_outside)
    )
