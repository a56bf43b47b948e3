"""What it costs to be wrong either way, and whether one more reading is worth its minutes.

Money is any one currency; probabilities come from `conformity`. Nothing here decides where someone can get
hurt: a part whose failure endangers people is renewed on its limit, not on its price.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import NormalDist

from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, probability_inside, sure_ends
from layshaft.gauging.quadrature import integrate
from layshaft.gauging.window import Limit

_NORMAL = NormalDist()
# Beyond eight standard deviations lies 1e-15 of a normal distribution.
_REACH = 8.0


@dataclass(frozen=True, slots=True)
class Replacement:
    """Keep or replace, by money alone.

    Attributes
    ----------
    is_replace : bool [-]
        Whether the new part is the cheaper choice; at equal cost the part stays.
    cost_if_kept : float [money]
        Probability that it is bad times what a comeback costs.
    cost_if_replaced : float [money]
        Added price of the new part.
    break_even : float [-]
        Probability of being bad above which replacing pays; may be above 1.
    """

    is_replace: bool
    cost_if_kept: float
    cost_if_replaced: float
    break_even: float

    @property
    def saving(self) -> float:
        """What the better choice saves over the other [money]."""
        return abs(self.cost_if_kept - self.cost_if_replaced)


def judge_replacement(probability_bad: float, comeback_cost: float, added_price: float) -> Replacement:
    """Weigh a new part against the chance of a comeback.

    Parameters
    ----------
    probability_bad : float [-]
        That the part is bad now or fails within the warranty.
    comeback_cost : float [money]
        What a comeback costs the shop, above zero.
    added_price : float [money]
        What the new part adds for the one who pays, zero or more.

    Returns
    -------
    Replacement [money]

    Raises
    ------
    ValueError
        A probability outside 0 to 1, a comeback that costs nothing, or a negative price.

    Notes
    -----
    Minimum expected cost: a shop that cannot bear one large loss will replace earlier. A new part is taken as
    good.

    References
    ----------
    Common practice, no source. The rule is minimum expected cost, as in M. DeGroot, Optimal Statistical
    Decisions, 1970, ch. 8 (chapter from memory).

    Examples
    --------
    >>> choice = judge_replacement(0.055, comeback_cost=1290, added_price=29)
    >>> choice.is_replace, round(choice.break_even, 4)
    (True, 0.0225)
    """
    if not 0 <= probability_bad <= 1:
        raise ValueError(f"a probability lies between 0 and 1, not {probability_bad!r}")
    _check_money(comeback_cost, added_price)
    kept = probability_bad * comeback_cost
    return Replacement(kept > added_price, kept, added_price, added_price / comeback_cost)


def _check_money(comeback_cost: float, added_price: float) -> None:
    if not 0 < comeback_cost < math.inf:
        raise ValueError(f"a comeback costs more than zero, not {comeback_cost!r}")
    if not 0 <= added_price < math.inf:
        raise ValueError(f"the price of a new part is zero or more, not {added_price!r}")


def joined_uncertainty(before: float, new: float) -> float:
    """Standard uncertainty once an independent reading by another gauge is weighed in.

    Parameters
    ----------
    before : float [any one unit]
        Standard uncertainty of the figure so far, above zero.
    new : float [unit of the other]
        Standard uncertainty of the new reading, above zero.

    Returns
    -------
    float [unit of the others]

    Raises
    ------
    ValueError
        A figure that is not above zero.

    Notes
    -----
    A second reading by the *same* gauge shares its bias and gains less: take `mean_of_repeats` for that.

    References
    ----------
    Mean weighted by the inverse variances: J. Taylor, An Introduction to Error Analysis, 2nd ed., 1997, ch. 7
    (from memory).

    Examples
    --------
    >>> round(joined_uncertainty(0.0125, 0.0015), 6)
    0.001489
    """
    for figure in (before, new):
        if not 0 < figure < math.inf:
            raise ValueError(f"a standard uncertainty above zero is needed, not {figure!r}")
    return before * new / math.hypot(before, new)


@dataclass(frozen=True, slots=True)
class Question:
    """A figure so far, its limit, and what is at stake.

    Attributes
    ----------
    estimate : float [unit of the limit]
        Best estimate so far.
    uncertainty : float [unit of the limit]
        Its standard uncertainty, above zero.
    limit : Limit [any one unit]
        Where the true figure must lie.
    comeback_cost, added_price : float [money]
        As in `judge_replacement`.
    """

    estimate: float
    uncertainty: float
    limit: Limit
    comeback_cost: float
    added_price: float

    def __post_init__(self) -> None:
        _check_money(self.comeback_cost, self.added_price)
        if not 0 < self.uncertainty < math.inf:
            raise ValueError(f"a standard uncertainty above zero is needed, not {self.uncertainty!r}")

    def cost(self, estimate: float, uncertainty: float) -> float:
        """Expected cost of the better choice at a given state of knowledge [money]."""
        bad = 1 - probability_inside(estimate, self.limit, uncertainty)
        return min(bad * self.comeback_cost, self.added_price)


def _spread_of_estimate(question: Question, after: float) -> float:
    if not 0 <= after < math.inf:
        raise ValueError(f"a standard uncertainty is zero or more and finite, not {after!r}")
    return math.sqrt(max(0.0, question.uncertainty**2 - after**2))


def reading_value(question: Question, after: float) -> float:
    """Expected saving by one more reading, before what the reading itself costs.

    Parameters
    ----------
    question : Question [any one unit]
        What is known so far and what is at stake.
    after : float [unit of the limit]
        Standard uncertainty that will be left after the reading: `joined_uncertainty` for another gauge,
        `mean_of_repeats` for a repeat by the same one.

    Returns
    -------
    float [money]
        Zero when the reading would teach nothing.

    Raises
    ------
    ValueError
        An uncertainty that is negative or not finite.

    Notes
    -----
    Normal errors and no prior knowledge of such parts beyond the reading. Expected cost now minus expected
    cost of the better choice after the reading, over all that the reading may say.

    References
    ----------
    Value of sample information: H. Raiffa and R. Schlaifer, Applied Statistical Decision Theory, 1961, ch. 4
    (chapter from memory).

    Examples
    --------
    >>> from fractions import Fraction
    >>> from layshaft.gauging.window import Window
    >>> near = Question(0.68, 0.0125, Window(None, Fraction("0.70")), comeback_cost=1290, added_price=29)
    >>> round(reading_value(near, joined_uncertainty(0.0125, 0.0015)), 2)
    26.32
    """
    spread = _spread_of_estimate(question, after)
    if spread == 0:
        return 0.0
    turns = _turning_points(question, after)
    middle, reach = question.estimate, _REACH * spread
    breaks = [*turns, *(middle + step * spread for step in (-2, 0, 2))]
    ends = [float(end) for end in (question.limit.low, question.limit.high) if end is not None]
    breaks += [end + step * after for end in ends for step in (-8, -3, 0, 3, 8)]
    density = NormalDist(middle, spread).pdf
    later = integrate(
        lambda estimate: density(estimate) * question.cost(estimate, after),
        middle - reach,
        middle + reach,
        breaks,
        panels=8,
    )
    return max(0.0, question.cost(middle, question.uncertainty) - later)


def _turning_points(question: Question, after: float) -> list[float]:
    """Estimates at which keeping and replacing cost the same: the expected cost has a kink there."""
    allowed = question.added_price / question.comeback_cost
    if after == 0 or not 0 < allowed < 1 or allowed == 0.5:
        return []
    ends = sure_ends(question.limit, after, confidence=max(allowed, 1 - allowed))
    turns = (ends.inside or ()) if allowed < 0.5 else (ends.below, ends.above)
    return [end for end in turns if math.isfinite(end)]


def chance_settled(question: Question, after: float, confidence: float = DEFAULT_CONFIDENCE) -> float:
    """Probability that one more reading makes the verdict sure, inside or outside.

    Parameters
    ----------
    question : Question [any one unit]
    after : float [unit of the limit]
        Standard uncertainty left after the reading, above zero.
    confidence : float [-]
        Probability asked for before a verdict counts as sure.

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        An argument out of range.

    References
    ----------
    As `reading_value` and `sure_ends`.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from layshaft.gauging.window import Window
    >>> near = Question(0.68, 0.0125, Window(None, Fraction("0.70")), comeback_cost=1290, added_price=29)
    >>> round(chance_settled(near, joined_uncertainty(0.0125, 0.0015)), 3)
    0.957
    """
    ends = sure_ends(question.limit, after, confidence)
    spread = _spread_of_estimate(question, after)

    def below(end: float) -> float:
        if spread == 0:
            return float(question.estimate <= end)
        return _NORMAL.cdf((end - question.estimate) / spread)

    chance = below(ends.below) + (1 - below(ends.above))
    if ends.inside is not None:
        chance += below(ends.inside[1]) - below(ends.inside[0])
    return chance


@dataclass(frozen=True, slots=True)
class ReadingChoice:
    """One way to read again.

    Attributes
    ----------
    name : str [-]
        Gauge and method.
    after : float [unit of the limit]
        Standard uncertainty left after the reading, above zero.
    cost : float [money]
        Minutes, set-up and wear of the reading in money.
    """

    name: str
    after: float
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class ReadingWorth:
    """What one way to read again is worth.

    Attributes
    ----------
    choice : ReadingChoice [unit of the limit]
    value : float [money]
        Expected saving before its cost.
    chance_settled : float [-]
        That the verdict is sure afterwards.
    """

    choice: ReadingChoice
    value: float
    chance_settled: float

    @property
    def net(self) -> float:
        """Expected saving after the cost of the reading [money]."""
        return self.value - self.choice.cost

    @property
    def is_worth_it(self) -> bool:
        """Whether the reading saves more than it costs."""
        return self.net > 0


def rank_readings(
    question: Question, choices: Iterable[ReadingChoice], confidence: float = DEFAULT_CONFIDENCE
) -> tuple[ReadingWorth, ...]:
    """Order ways to read again by what they save.

    Parameters
    ----------
    question : Question [any one unit]
    choices : iterable of ReadingChoice [unit of the limit]
    confidence : float [-]
        Probability asked for before a verdict counts as sure.

    Returns
    -------
    tuple of ReadingWorth [money]
        Greatest net saving first, then the likeliest to settle it, then the order given. When the first one
        is not worth it, decide now.

    Raises
    ------
    ValueError
        An argument out of range.

    References
    ----------
    As `reading_value`.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from layshaft.gauging.window import Window
    >>> near = Question(0.68, 0.0125, Window(None, Fraction("0.70")), comeback_cost=1290, added_price=29)
    >>> ways = [ReadingChoice("feeler again", 0.0125, cost=2), ReadingChoice("dial", 0.0049, cost=5)]
    >>> [(worth.choice.name, worth.is_worth_it) for worth in rank_readings(near, ways)]
    [('dial', True), ('feeler again', False)]
    """
    found = [
        ReadingWorth(one, reading_value(question, one.after), chance_settled(question, one.after, confidence))
        for one in choices
    ]
    return tuple(sorted(found, key=lambda worth: (-worth.net, -worth.chance_settled)))
