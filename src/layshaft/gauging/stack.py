"""Dimension chains: what a sum of dimensions comes to, at worst and by the odds.

A dimension not yet measured stands here with its tolerance, a measured one with its reading and its
uncertainty. Dimensions that several results share are brought together with `net_terms` before they are
summed. Choosing selective parts is in `selection`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from layshaft.gauging.conformity import probability_inside
from layshaft.gauging.uncertainty import Contribution, combine_uncertainty
from layshaft.gauging.window import Limit, check_ends

NO_INFLATION = 1.0
"""Plain root sum square: every dimension normal, its tolerance three standard deviations."""

BENDER = 1.5
"""Widening for shifted and flattened spreads (A. Bender, as in F. Scholz, 1995; from memory)."""


@dataclass(frozen=True, slots=True)
class Term:
    """One leaf dimension of a chain.

    Attributes
    ----------
    name : str [-]
        What it is; the same name in two chains is the same dimension of the same piece.
    coefficient : Fraction [-]
        Plus one or minus one in a plain chain; any figure once chains are combined.
    nominal : Fraction [any one unit]
        As drawn; the reading when measured.
    low, high : Fraction [unit of the nominal]
        Ends of the tolerance of each piece; both the reading when measured.
    count : int [-]
        Pieces alike, each with the tolerance of its own.
    batch : str or None [-]
        Pieces of one batch, in this term or in others, run high or low together until they are measured.
    is_measured : bool [-]
        Whether a reading stands here.
    uncertainty : float [unit of the nominal]
        Of the reading, apart from what the gauge has in common with others.
    bias : float [unit of the nominal]
        What all readings of the gauge have in common.
    gauge : str or None [-]
        Which gauge; readings of one gauge share its bias, with their signs.
    """

    name: str
    coefficient: Fraction
    nominal: Fraction
    low: Fraction
    high: Fraction
    count: int = 1
    batch: str | None = None
    is_measured: bool = False
    uncertainty: float = 0.0
    bias: float = 0.0
    gauge: str | None = None

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError(f"{self.name}: the low end {self.low} lies above the high end {self.high}")
        if self.count < 1:
            raise ValueError(f"{self.name}: a term counts at least one piece, not {self.count}")
        if self.is_measured and (self.low != self.high or self.count != 1):
            raise ValueError(f"{self.name}: a reading is one figure, without a tolerance")

    @classmethod
    def drawn(
        cls,
        name: str,
        coefficient: Fraction | int,
        nominal: Fraction,
        minus: Fraction,
        plus: Fraction,
        count: int = 1,
        batch: str | None = None,
    ) -> Term:
        """Dimension known only from its tolerance, `minus` below the nominal and `plus` above it."""
        if minus < 0 or plus < 0:
            raise ValueError(f"{name}: a tolerance of minus {minus} and plus {plus}; neither may be negative")
        return cls(name, Fraction(coefficient), nominal, nominal - minus, nominal + plus, count, batch)

    @classmethod
    def measured(
        cls,
        name: str,
        coefficient: Fraction | int,
        reading: Fraction,
        uncertainty: float,
        bias: float = 0.0,
        gauge: str | None = None,
    ) -> Term:
        """Dimension that has been read."""
        return cls(
            name, Fraction(coefficient), reading, reading, reading, 1, None, True, uncertainty, bias, gauge
        )

    @property
    def middle(self) -> Fraction:
        """Middle of one piece's tolerance [unit of the nominal]."""
        return (self.low + self.high) / 2

    @property
    def half(self) -> Fraction:
        """Half of one piece's tolerance [unit of the nominal]."""
        return (self.high - self.low) / 2


@dataclass(frozen=True, slots=True)
class Stack:
    """What a chain comes to.

    Attributes
    ----------
    nominal : Fraction [unit of the terms]
        Sum of the nominals.
    middle : Fraction [unit of the terms]
        Sum of the middles; differs from the nominal where tolerances are not even.
    low, high : Fraction [unit of the terms]
        Worst case of the tolerances. Uncertainty of readings is not in it.
    rss : float [unit of the terms]
        Half-width by root sum square about the middle, widened as asked, never wider than the worst case.
    uncertainty : float [unit of the terms]
        Standard uncertainty from the readings.
    deviation : float [unit of the terms]
        Standard deviation of the result, tolerances and readings together.
    """

    nominal: Fraction
    middle: Fraction
    low: Fraction
    high: Fraction
    rss: float
    uncertainty: float
    deviation: float

    @property
    def worst(self) -> Fraction:
        """Half-width of the worst case [unit of the terms]."""
        return (self.high - self.low) / 2

    def probability_inside(self, limit: Limit) -> float:
        """Probability that the result lies inside a limit, taken as normal [-]."""
        return probability_inside(self.middle, limit, self.deviation)

    def capability(self, limit: Limit) -> float:
        """Distance from the middle to the nearer end over three standard deviations (Cpk) [-]."""
        check_ends(limit)
        if self.deviation == 0:
            raise ValueError("a result without spread has no capability")
        rooms = []
        if limit.low is not None:
            rooms.append(self.middle - limit.low)
        if limit.high is not None:
            rooms.append(limit.high - self.middle)
        return float(min(rooms)) / (3 * self.deviation)


def net_terms(parts: Iterable[tuple[Fraction | int, Sequence[Term]]]) -> tuple[Term, ...]:
    """Bring several chains together into one, each leaf dimension once with its net coefficient.

    Parameters
    ----------
    parts : iterable of (factor, sequence of Term) [any one unit]
        Factor that each chain enters with, and the chain down to its leaves.

    Returns
    -------
    tuple of Term [unit of the terms]
        In the order of first appearance; a dimension that cancels is gone.

    Raises
    ------
    ValueError
        One name stands for two different dimensions.

    References
    ----------
    Linear functions of shared inputs: JCGM 100:2008 (GUM), 5.1.3; F.1.2.

    Examples
    --------
    A release stroke is a brake clearance minus a hub gap; the gasket is in both and drops out.

    >>> gasket = Term.drawn("gasket", 1, Fraction("0.4"), Fraction("0.05"), Fraction("0.05"))
    >>> shoulder = Term.drawn("shoulder", 1, Fraction(46), Fraction("0.08"), Fraction("0.08"))
    >>> recess = Term.drawn("recess", 1, Fraction(14), Fraction("0.2"), Fraction("0.2"))
    >>> stroke = net_terms([(1, [shoulder, gasket]), (-1, [recess, gasket])])
    >>> [(term.name, int(term.coefficient)) for term in stroke]
    [('shoulder', 1), ('recess', -1)]
    """
    found: dict[str, Term] = {}
    for factor, terms in parts:
        for term in terms:
            known = found.get(term.name)
            own = Fraction(factor) * term.coefficient
            if known is not None and replace(known, coefficient=term.coefficient) != term:
                raise ValueError(f"{term.name} stands for two different dimensions")
            found[term.name] = replace(term, coefficient=own + (known.coefficient if known else 0))
    return tuple(term for term in found.values() if term.coefficient)


def stack(terms: Iterable[Term], inflation: float = NO_INFLATION, sigmas_per_tolerance: float = 3.0) -> Stack:
    """Sum a chain: worst case exactly, root sum square and uncertainty beside it.

    Parameters
    ----------
    terms : iterable of Term [any one unit]
        Leaves, each dimension once (see `net_terms`).
    inflation : float [-]
        Widening of the root sum square, 1 or more: 1 for normal spreads that sit in the middle of their
        tolerance, `BENDER` where that is not known, sqrt(3) when every dimension is spread evenly.
    sigmas_per_tolerance : float [-]
        Standard deviations in half a tolerance.

    Returns
    -------
    Stack [unit of the terms]

    Raises
    ------
    ValueError
        No term, one name twice, an inflation below 1, or a figure that is not finite.

    Notes
    -----
    Uneven tolerances are centred first. Pieces of one batch are taken as wholly together or as independent,
    whichever is wider; all others are independent. The default inflation is the textbook case; a chain ruled
    by one wide dimension, or by used parts, needs more. The odds promise nothing about one unit: only
    readings do.

    References
    ----------
    J. Shigley, R. Budynas, K. Nisbett, Mechanical Engineering Design, 9th ed., 1-14 (worst case and
    statistical stacks). F. Scholz, Tolerance Stack Analysis Methods, 1995 (inflation; from memory).

    Examples
    --------
    A housing 40 (+0.10/0), a bearing 20 (0/-0.12) and a ring 19.5 ± 0.02.

    >>> chain = [
    ...     Term.drawn("housing", 1, Fraction(40), Fraction(0), Fraction("0.10")),
    ...     Term.drawn("bearing", -1, Fraction(20), Fraction("0.12"), Fraction(0)),
    ...     Term.drawn("ring", -1, Fraction("19.5"), Fraction("0.02"), Fraction("0.02")),
    ... ]
    >>> gap = stack(chain)
    >>> float(gap.nominal), float(gap.middle), float(gap.low), float(gap.high), round(gap.rss, 6)
    (0.5, 0.61, 0.48, 0.74, 0.080623)
    """
    terms = tuple(terms)
    if not terms:
        raise ValueError("a chain needs at least one term")
    if len({term.name for term in terms}) < len(terms):
        raise ValueError("a dimension stands twice in the chain: bring it together with net_terms first")
    if not (1 <= inflation < math.inf and 0 < sigmas_per_tolerance < math.inf):
        raise ValueError(
            "needs an inflation of 1 or more and sigmas per tolerance above zero, "
            f"not {inflation!r} and {sigmas_per_tolerance!r}"
        )
    worst = sum((abs(term.coefficient) * term.count * term.half for term in terms), Fraction(0))
    middle = sum((term.coefficient * term.count * term.middle for term in terms), Fraction(0))
    nominal = sum((term.coefficient * term.count * term.nominal for term in terms), Fraction(0))
    rss = min(float(worst), inflation * _root_sum_square(terms))
    uncertainty = _reading_uncertainty(terms)
    deviation = math.hypot(rss / sigmas_per_tolerance, uncertainty)
    return Stack(nominal, middle, middle - worst, middle + worst, rss, uncertainty, deviation)


def _root_sum_square(terms: Sequence[Term]) -> float:
    """Half-width of independent tolerances, each batch the wider of wholly together and independent."""
    squares = Fraction(0)
    batches: dict[str, tuple[Fraction, Fraction]] = {}
    for term in terms:
        one = term.coefficient * term.half
        if term.batch is None:
            squares += term.count * one**2
        else:
            together, apart = batches.get(term.batch, (Fraction(0), Fraction(0)))
            batches[term.batch] = (together + term.count * one, apart + term.count * one**2)
    return math.sqrt(squares + sum(max(together**2, apart) for together, apart in batches.values()))


def _reading_uncertainty(terms: Sequence[Term]) -> float:
    """Standard uncertainty of the measured terms; the bias of one gauge adds with its signs."""
    causes: list[Contribution] = []
    for term in terms:
        if term.is_measured:
            causes.append(Contribution(term.uncertainty, float(term.coefficient)))
            causes.append(Contribution(term.bias, float(term.coefficient), shared=term.gauge))
    return combine_uncertainty(causes).uncertainty
