"""An assortment in whole figures: what `search` and `tally` are given, and what their answers mean."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from layshaft.gauging.assortment import Assortment, Demand, Selective
from layshaft.gauging.choice import Bound, Choice, Ground
from layshaft.gauging.pick import Pick
from layshaft.gauging.search import SEARCH_BUDGET, Found, Hit, search_best
from layshaft.gauging.subset import PieceSums, common_grid
from layshaft.gauging.tally import Count, count_picks


class Question:
    """An assortment on a common grid, with its answers turned back into figures.

    Parameters
    ----------
    assortment : Assortment [any one unit]

    Raises
    ------
    ValueError
        What `PieceSums` refuses.

    Examples
    --------
    >>> from layshaft.gauging.assortment import Result, Size
    >>> from layshaft.gauging.window import Window
    >>> ring = Selective("ring", (Size(Fraction("1.5")), Size(Fraction("1.6"))))
    >>> gap = Result("gap", Fraction(2), {"ring": Fraction(-1)}, Window(Fraction("0.3"), Fraction("0.45")))
    >>> question = Question(Assortment((ring,), (), (gap,)))
    >>> question.describe(question.best(1).hits[0]).sizes
    {'ring': Fraction(8, 5)}
    """

    def __init__(self, assortment: Assortment) -> None:
        self._assortment = assortment
        figures = [size.value for selective in assortment.selectives for size in selective.sizes]
        figures += [piece for pool in assortment.pools for piece in pool.pieces]
        self._grid = common_grid(figures)
        self._money = common_grid(size.cost for one in assortment.selectives for size in one.sizes)
        self._sums = [
            PieceSums([int(piece * self._grid) for piece in pool.pieces], pool.count)
            for pool in assortment.pools
        ]
        choices = [self._sized(one) for one in assortment.selectives]
        choices += [
            Choice(sums.sums, sums.ways, (0,) * len(sums.sums), tuple(range(len(sums.sums))))
            for sums in self._sums
        ]
        names = assortment.choice_names
        self._choices = choices
        bounds = _bounds(assortment.demands, names, self._grid)
        # Where a place or a pool has nothing to take there is nothing to search.
        self._ground = Ground(choices, bounds) if all(one.figures for one in choices) else None

    def _sized(self, selective: Selective) -> Choice:
        offered = [(size.value, rank, size) for rank, size in enumerate(selective.sizes) if size.stock != 0]
        offered.sort(key=lambda one: one[0])
        return Choice(
            tuple(int(value * self._grid) for value, _, _ in offered),
            (1,) * len(offered),
            tuple(int(size.cost * self._money) for _, _, size in offered),
            tuple(rank for _, rank, _ in offered),
            selective.drawer or selective.name,
            tuple(size.stock for _, _, size in offered),
        )

    def best(self, keep: int, budget: int = SEARCH_BUDGET) -> Found:
        """The best hits, none where there is nothing to take."""
        return search_best(self._ground, keep, budget) if self._ground else Found((), True)

    def count(self) -> Count | None:
        """How many picks are inside."""
        return count_picks(self._ground) if self._ground else Count(0, 0, 0, 0)

    def describe(self, hit: Hit) -> Pick:
        """The pick behind a hit, worked out afresh from the figures as given."""
        figures = [choice.figures[place] for choice, place in zip(self._choices, hit.places, strict=True)]
        split = len(self._assortment.selectives)
        sizes = {
            one.name: Fraction(figure, self._grid)
            for one, figure in zip(self._assortment.selectives, figures[:split], strict=True)
        }
        pieces, sums = {}, {}
        for pool, reach, figure in zip(self._assortment.pools, self._sums, figures[split:], strict=True):
            pieces[pool.name] = reach.pick(figure)
            sums[pool.name] = sum((pool.pieces[place] for place in pieces[pool.name]), Fraction(0))
        values = self._assortment.values({**sizes, **sums})
        distances = {one.name: one.distance(values[one.name]) for one in self._assortment.demands}
        return Pick(sizes, pieces, sums, values, distances, Fraction(hit.cost, self._money))


def _bounds(demands: Iterable[Demand], names: Sequence[str], grid: int) -> list[Bound]:
    """Demands in whole figures, each on its own grid, with weights that make distances comparable."""
    drafts = []
    for demand in demands:
        figures = (demand.constant, demand.limit.low, demand.limit.high, demand.aim)
        fixed = [figure * grid for figure in figures if figure is not None]
        own = common_grid([*fixed, *demand.coefficients.values()])
        drafts.append((demand, own))
    parts = [1 / (demand.scale * own) for demand, own in drafts]
    shared = math.lcm(*(part.denominator for part in parts))
    return [
        _bound(demand, own, int(part * shared), names, grid)
        for (demand, own), part in zip(drafts, parts, strict=True)
    ]


def _bound(demand: Demand, own: int, weight: int, names: Sequence[str], grid: int) -> Bound:
    low, high, aim = (
        None if figure is None else int(figure * grid * own)
        for figure in (demand.limit.low, demand.limit.high, None if demand.aim is None else 2 * demand.aim)
    )
    factors = tuple(int(demand.coefficients.get(name, Fraction(0)) * own) for name in names)
    return Bound(int(demand.constant * grid * own), factors, low, high, weight, aim, demand.is_cross)
