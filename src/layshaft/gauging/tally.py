"""How many picks lie inside the limits, in whole figures.

A limit may hold one result or tie several together; picks that pass every single limit and still fail across
them are counted apart, since no check of one clearance at a time finds them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from layshaft.gauging.choice import Ground

COUNT_BUDGET = 200_000
"""Branches and picks after which counting is given up; the best pick is found in any case."""


@dataclass(frozen=True, slots=True)
class Count:
    """How many picks there are.

    Attributes
    ----------
    sets_inside, sets_failing : int [-]
        Sets of sizes that some pick of plates brings inside every single limit, and those of them that some
        such pick lets fail a limit across results.
    picks_inside, picks_failing : int [-]
        The same for picks, plates told apart.
    """

    sets_inside: int
    sets_failing: int
    picks_inside: int
    picks_failing: int


@dataclass(slots=True)
class _Sheet:
    """Counts so far, and how many more branches may be visited."""

    left: int
    inside: set[tuple[int, ...]] = field(default_factory=set)
    failing: set[tuple[int, ...]] = field(default_factory=set)
    picks_inside: int = 0
    picks_failing: int = 0


def count_picks(ground: Ground, budget: int = COUNT_BUDGET) -> Count | None:
    """Count the picks inside the single limits, and those of them that fail a limit across results.

    Parameters
    ----------
    ground : Ground [own grids]
    budget : int [-]
        Branches and picks to visit at most.

    Returns
    -------
    Count or None [-]
        `None` when the budget did not do.

    Notes
    -----
    Branches from which no single limit can be met are left out, so that the time goes with the number of sets
    that fit, not with all there are.

    References
    ----------
    As `search_best`.

    Examples
    --------
    >>> from layshaft.gauging.choice import Bound, Choice
    >>> ring = Choice((10, 12, 15), (1, 1, 1), (0, 0, 0), (0, 1, 2), "ring", (None, None, None))
    >>> count_picks(Ground([ring], [Bound(20, (-1,), 5, 9, 1, 14, False)])).sets_inside
    2
    """
    sheet = _Sheet(budget)
    _walk(ground, 0, ground.constants(), {}, 1, sheet)
    if sheet.left < 0:
        return None
    return Count(len(sheet.inside), len(sheet.failing), sheet.picks_inside, sheet.picks_failing)


def _walk(
    ground: Ground, depth: int, totals: list[int], taken: Mapping[int, int], ways: int, sheet: _Sheet
) -> None:
    sheet.left -= 1
    if sheet.left < 0 or not _is_reachable(ground, depth, totals):
        return
    index = ground.order[depth]
    choice = ground.choices[index]
    if depth < len(ground.order) - 1:
        for place, figure in enumerate(choice.figures):
            if ground.is_left(index, place, taken):
                now = ground.added(totals, index, figure)
                _walk(ground, depth + 1, now, {**taken, index: place}, ways * choice.ways[place], sheet)
        return
    single = [number for number, bound in enumerate(ground.bounds) if not bound.is_cross]
    start, stop = ground.places_between(index, totals, single, 0)
    sheet.left -= stop - start
    first, last = ground.places_between(index, totals, range(len(ground.bounds)), 0)
    for place in range(start, stop):
        if ground.is_left(index, place, taken):
            sizes, picks = ground.sizes({**taken, index: place}), ways * choice.ways[place]
            sheet.inside.add(sizes)
            sheet.picks_inside += picks
            if not first <= place < last:
                sheet.failing.add(sizes)
                sheet.picks_failing += picks


def _is_reachable(ground: Ground, depth: int, totals: list[int]) -> bool:
    """Whether every single limit can still be met, each by itself."""
    for bound, total, (least, most) in zip(ground.bounds, totals, ground.rests[depth], strict=True):
        if not bound.is_cross and (
            (bound.low is not None and total + most < bound.low)
            or (bound.high is not None and total + least > bound.high)
        ):
            return False
    return True
