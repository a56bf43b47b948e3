"""The best picks by branch and bound, in whole figures.

What the figures mean, and turning answers back into sizes and plates, is in `selection`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from layshaft.gauging.choice import Ground

SEARCH_BUDGET = 1_000_000
"""Looks at a bound after which the search hands back the best it has found, unproved."""


@dataclass(frozen=True, slots=True, order=True)
class Hit:
    """A pick; the smaller one is the better one.

    Attributes
    ----------
    negative_score : int [score]
        Minus the smallest score of all movable bounds.
    short : int [score]
        Sum of what the bounds that are not met fall short by; zero for a pick that meets all.
    off : int [score]
        Sum of the distances from the aims.
    cost : int [money grid]
    ranks : tuple of int [-]
        Places in the orders given.
    places : tuple of int [-]
        Place of the figure taken from each choice.
    """

    negative_score: int
    short: int
    off: int
    cost: int
    ranks: tuple[int, ...]
    places: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What a search has found.

    Attributes
    ----------
    hits : tuple of Hit [-]
        Best first.
    is_proved : bool [-]
        Whether nothing better was left unvisited.
    """

    hits: tuple[Hit, ...]
    is_proved: bool


class _Best:
    """The best pick of each of the best sets of sizes so far, and how much may still be visited."""

    def __init__(self, keep: int, budget: int) -> None:
        self._keep = keep
        self.left = budget
        self._found: dict[tuple[int, ...], Hit] = {}
        self._worst: Hit | None = None

    @property
    def floor(self) -> int | None:
        """Score below which nothing can enter any more."""
        return None if self._worst is None else -self._worst.negative_score

    def is_beaten(self, promise: tuple[int, int]) -> bool:
        """Whether nothing with at best that negative score and that distance from its aims can enter any more."""
        worst = self._worst
        return worst is not None and (promise[0], 0, promise[1]) > (worst.negative_score, worst.short, worst.off)

    def offer(self, hit: Hit, sizes: tuple[int, ...]) -> None:
        """Take a pick in when it is among the best."""
        if sizes in self._found and self._found[sizes] <= hit:
            return
        self._found[sizes] = hit
        if len(self._found) > self._keep:
            del self._found[max(self._found, key=lambda one: self._found[one])]
        if len(self._found) == self._keep:
            self._worst = max(self._found.values())

    def found(self) -> Found:
        """What there is now."""
        return Found(tuple(sorted(self._found.values())), self.left >= 0)


def search_best(ground: Ground, keep: int, budget: int = SEARCH_BUDGET) -> Found:
    """Find the best pick for each of the best sets of sizes.

    Parameters
    ----------
    ground : Ground [own grids]
    keep : int [-]
        How many sets of sizes, one or more.
    budget : int [-]
        Looks at a bound to take at most: one for each bound at each figure visited.

    Returns
    -------
    Found [-]
        Without a hit only when the drawers hold too few parts, or nothing was found within the budget.

    Notes
    -----
    Exact within the budget, which is counted in looks and not in time, so that every machine gives the same
    answer. The last choice is not walked through: its figures are sorted, so those that matter lie between two
    places found by halving. Bounds that no choice moves take no part in the score.

    References
    ----------
    A. Land and A. Doig, An automatic method of solving discrete programming problems, Econometrica 28 (1960).

    Examples
    --------
    >>> from layshaft.gauging.choice import Bound, Choice
    >>> ring = Choice((10, 12, 15), (1, 1, 1), (0, 0, 0), (0, 1, 2), "ring", (None, None, None))
    >>> search_best(Ground([ring], [Bound(20, (-1,), 5, 9, 1, 14, False)]), keep=1).hits[0].places
    (1,)
    """
    best = _Best(keep, budget)
    _descend(ground, 0, ground.constants(), {}, best)
    return best.found()


def _descend(ground: Ground, depth: int, totals: list[int], taken: Mapping[int, int], best: _Best) -> None:
    index = ground.order[depth]
    if depth == len(ground.order) - 1:
        _finish(ground, index, totals, taken, best)
        return
    branches = []
    best.left -= len(ground.choices[index].figures) * len(ground.bounds)
    for place, figure in enumerate(ground.choices[index].figures):
        if ground.is_left(index, place, taken):
            now = ground.added(totals, index, figure)
            branches.append((_promise(ground, depth + 1, now), place, now))
    for promise, place, now in sorted(branches):
        if best.left < 0 or best.is_beaten(promise):
            break
        _descend(ground, depth + 1, now, {**taken, index: place}, best)


def _promise(ground: Ground, depth: int, totals: Sequence[int]) -> tuple[int, int]:
    """Negative score and distance from the aims that nothing below this branch betters."""
    scores, off = [], 0
    for number in ground.movable:
        least, most = ground.rests[depth][number]
        bound = ground.bounds[number]
        scores.append(bound.best_score(totals[number] + least, totals[number] + most))
        off += bound.least_off(totals[number] + least, totals[number] + most)
    return -min(scores, default=0), off


def _finish(ground: Ground, index: int, totals: list[int], taken: Mapping[int, int], best: _Best) -> None:
    choice = ground.choices[index]
    start, stop = 0, len(choice.figures)
    if best.floor is not None:
        start, stop = ground.places_between(index, totals, ground.movable, best.floor)
    best.left -= (stop - start) * len(ground.bounds)
    for place in range(start, stop):
        if ground.is_left(index, place, taken):
            now = ground.added(totals, index, choice.figures[place])
            whole = {**taken, index: place}
            best.offer(_hit(ground, now, whole), ground.sizes(whole))


def _hit(ground: Ground, totals: Sequence[int], taken: Mapping[int, int]) -> Hit:
    places = tuple(taken[index] for index in range(len(ground.choices)))
    pairs = list(zip(ground.choices, places, strict=True))
    scores = [ground.bounds[number].score(totals[number]) for number in ground.movable]
    return Hit(
        -min(scores, default=0),
        -sum(min(score, 0) for score in scores),
        sum(ground.bounds[number].off(totals[number]) for number in ground.movable),
        sum(choice.costs[place] for choice, place in pairs),
        tuple(choice.ranks[place] for choice, place in pairs),
        places,
    )
