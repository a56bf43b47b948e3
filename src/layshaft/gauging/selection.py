"""Choice of selective parts and plates, jointly, for several clearances that share dimensions.

What there is to choose from is stated in `assortment`, the answer in `pick`; the search is in `search` and
`tally`. One pack with one ring is simpler: see `pack`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from layshaft.gauging.assortment import Assortment, Demand
from layshaft.gauging.pick import Failure, Miss, NeededSize, Pick, Selection, Spare
from layshaft.gauging.question import Question
from layshaft.gauging.search import SEARCH_BUDGET
from layshaft.gauging.window import margin


def choose_jointly(assortment: Assortment, keep: int = 8, budget: int = SEARCH_BUDGET) -> Selection:
    """Choose sizes and pieces so that the smallest scaled distance to any limit is as large as can be.

    Parameters
    ----------
    assortment : Assortment [any one unit]
    keep : int [-]
        How many sets of sizes to hand back at most, the best included; one or more.
    budget : int [-]
        After which the search stops unproved, see `search_best`.

    Returns
    -------
    Selection [unit of the assortment]

    Raises
    ------
    ValueError
        Nothing to keep, or what `PieceSums` refuses.

    Notes
    -----
    Exact unless the answer says that it is not proved. Among equals decides, in this order: what limits that
    are not met fall short by, in all; nearness of all results to their aims, each scaled like its distance;
    cost; the order in which sizes are listed; the smaller sum of pieces. A figure on a limit meets it. Sizes
    and pieces are taken as read; how sure a result is depends on the gauges (`stack`).
    Questions that share no choice are better asked apart (`split_independent`): each then gets its own best.

    References
    ----------
    As `search_best` and `PieceSums`.

    Examples
    --------
    A clearance and a gap each have a ring; the stroke between them must not fall short.

    >>> from layshaft.gauging.assortment import CrossLimit, Result, Selective, Size
    >>> from layshaft.gauging.window import Window
    >>> def sizes(*texts):
    ...     return tuple(Size(Fraction(text)) for text in texts)
    >>> def between(low, high):
    ...     return Window(Fraction(low), Fraction(high))
    >>> places = Selective("plate", sizes("8.45", "8.65", "8.85")), Selective("spacer", sizes("3.75", "3.9"))
    >>> clearance = Result("clearance", Fraction("12.4"), {"plate": Fraction(-1)}, between("3.5", "4.1"))
    >>> gap = Result("gap", Fraction("4.6"), {"spacer": Fraction(-1)}, between("0.5", "0.9"))
    >>> least = Window(Fraction("2.75"), None)
    >>> stroke = CrossLimit("stroke", {"clearance": Fraction(1), "gap": Fraction(-1)}, least)
    >>> question = Assortment(places, (), (clearance, gap), (stroke,))
    >>> found = choose_jointly(question)
    >>> {name: float(size) for name, size in found.best.sizes.items()}, float(found.best.values["stroke"])
    ({'plate': 8.65, 'spacer': 3.9}, 3.05)
    >>> found.count.sets_inside, found.count.sets_failing
    (6, 1)
    """
    if keep < 1:
        raise ValueError(f"at least one set of sizes has to be kept, not {keep}")
    question = Question(assortment)
    found = question.best(keep, budget)
    picks = [question.describe(hit) for hit in found.hits]
    count = question.count()
    if picks and picks[0].is_inside:
        others = tuple(pick for pick in picks[1:] if pick.is_inside)
        return Selection(picks[0], others, spares_of(assortment, picks[0]), None, count, found.is_proved)
    nearest = picks[0] if picks else None
    full = Question(_fully_stocked(assortment))
    in_full = next((full.describe(hit) for hit in full.best(1, budget).hits), None)
    if in_full is None or in_full.is_inside:
        miss = _miss(assortment, nearest, in_full, None)
    else:
        miss = _miss(assortment, nearest, None, _miss(assortment, in_full, None, None))
    spares = spares_of(assortment, nearest) if nearest else ()
    return Selection(None, (), spares, miss, count, found.is_proved)


def _miss(assortment: Assortment, pick: Pick | None, if_all_stocked: Pick | None, of_sold: Miss | None) -> Miss:
    failures = _failures(assortment, pick) if pick else ()
    needed = _needed_sizes(assortment, pick) if pick else ()
    return Miss(pick, failures, needed, if_all_stocked, of_sold)


def _fully_stocked(assortment: Assortment) -> Assortment:
    stocked = tuple(
        replace(one, sizes=tuple(size.stocked for size in one.sizes))
        for one in assortment.selectives
    )
    return Assortment(stocked, assortment.pools, assortment.results, assortment.cross_limits)


def spares_of(assortment: Assortment, pick: Pick) -> tuple[Spare, ...]:
    """What every listed size at every place would give, all else as in one pick.

    Parameters
    ----------
    assortment : Assortment [any one unit]
    pick : Pick [same unit]

    Returns
    -------
    tuple of Spare [unit of the assortment]

    References
    ----------
    None: plain sums.

    Examples
    --------
    >>> from layshaft.gauging.assortment import Result, Selective, Size
    >>> from layshaft.gauging.window import Window
    >>> ring = Selective("ring", (Size(Fraction("1.5")), Size(Fraction("1.6"))))
    >>> gap = Result("gap", Fraction(2), {"ring": Fraction(-1)}, Window(Fraction("0.3"), Fraction("0.45")))
    >>> question = Assortment((ring,), (), (gap,))
    >>> [(float(one.size), one.failing) for one in spares_of(question, choose_jointly(question).best)]
    [(1.5, ('gap',)), (1.6, ())]
    """
    found = []
    for selective in assortment.selectives:
        for size in selective.sizes:
            values = assortment.values({**pick.sizes, **pick.sums, selective.name: size.value})
            failing = tuple(one.name for one in assortment.demands if one.distance(values[one.name]) < 0)
            is_picked = size.value == pick.sizes[selective.name]
            found.append(Spare(selective.name, size.value, size.stock, is_picked, values, failing))
    return tuple(found)


def _failures(assortment: Assortment, pick: Pick) -> tuple[Failure, ...]:
    found = []
    for demand in assortment.demands:
        value = pick.values[demand.name]
        room = margin(value, demand.limit)
        if room.distance < 0:
            found.append(Failure(demand.name, value, room.end, -room.distance))
    return tuple(found)


def _needed_sizes(assortment: Assortment, pick: Pick) -> tuple[NeededSize, ...]:
    found = []
    for selective in assortment.selectives:
        needed = _needed_size(assortment.demands, selective.name, pick)
        if needed is not None:
            found.append(needed)
    return tuple(found)


def _needed_size(demands: Iterable[Demand], name: str, pick: Pick) -> NeededSize | None:
    """Range of one size that meets every limit; `None` where there is none of zero thickness or more."""
    low, high = Fraction(0), None
    for demand in demands:
        factor = demand.coefficients.get(name, Fraction(0))
        rest = pick.values[demand.name] - factor * pick.sizes[name]
        if not factor:
            if demand.distance(rest) < 0:
                return None
            continue
        ends = [
            None if end is None else (end - rest) / factor for end in (demand.limit.low, demand.limit.high)
        ]
        least, most = ends if factor > 0 else reversed(ends)
        low = low if least is None else max(low, least)
        high = most if high is None or (most is not None and most < high) else high
    return None if high is not None and low > high else NeededSize(name, low, high)
