"""The best picks by branch and bound, in whole figures.

What the figures mean, and turning answers back into sizes and plates, is in `selection`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from layshaft.gauging.choice import Ground


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


class _Best:
    """The best pick of each of the best sets of sizes so far."""

    def __init__(self, keep: int) -> None:
        self._keep = keep
        self._found: dict[tuple[int, ...], Hit] = {}
        self.floor: int | None = None

    def is_worse(self, score: int) -> bool:
        """Whether nothing of that score can enter any more."""
        return self.floor is not None and score < self.floor

    def offer(self, hit: Hit, sizes: tuple[int, ...]) -> None:
        """Take a pick in when it is among the best."""
        if sizes in self._found and self._found[sizes] <= hit:
            return
        self._found[sizes] = hit
        if len(self._found) > self._keep:
            del self._found[max(self._found, key=lambda one: self._found[one])]
        if len(self._found) == self._keep:
            self.floor = -max(self._found.values()).negative_score

    def hits(self) -> tuple[Hit, ...]:
        """Best first."""
        return tuple(sorted(self._found.values()))


def search_best(ground: Ground, keep: int) -> tuple[Hit, ...]:
    """Find the best pick for each of the best sets of sizes.

    Parameters
    ----------
    ground : Ground [own grids]
    keep : int [-]
        How many sets of sizes, one or more.

    Returns
    -------
    tuple of Hit [-]
        Best first; empty only when the drawers hold too few parts.

    Notes
    -----
    Exact. The last choice is not walked through: its figures are sorted, so those that matter lie between two
    places found by halving. Bounds that no choice moves take no part in the score.

    References
    ----------
    A. Land and A. Doig, An automatic method of solving discrete programming problems, Econometrica 28 (1960).

    Examples
    --------
    >>> from layshaft.gauging.choice import Bound, Choice
    >>> ring = Choice((10, 12, 15), (1, 1, 1), (0, 0, 0), (0, 1, 2), "ring", (None, None, None))
    >>> search_best(Ground([ring], [Bound(20, (-1,), 5, 9, 1, 14, False)]), keep=1)[0].places
    (1,)
    """
    best = _Best(keep)
    _descend(ground, 0, ground.constants(), {}, best)
    return best.hits()


def _descend(ground: Ground, depth: int, totals: list[int], taken: Mapping[int, int], best: _Best) -> None:
    index = ground.order[depth]
    if depth == len(ground.order) - 1:
        _finish(ground, index, totals, taken, best)
        return
    branches = []
    for place, figure in enumerate(ground.choices[index].figures):
        if ground.is_left(index, place, taken):
            now = ground.added(totals, index, figure)
            branches.append((-_promise(ground, depth + 1, now), place, now))
    for promise, place, now in sorted(branches):
        if best.is_worse(-promise):
            break
        _descend(ground, depth + 1, now, {**taken, index: place}, best)


def _promise(ground: Ground, depth: int, totals: Sequence[int]) -> int:
    """A score that nothing below this branch exceeds."""
    scores = []
    for number in ground.movable:
        least, most = ground.rests[depth][number]
        scores.append(ground.bounds[number].best_score(totals[number] + least, totals[number] + most))
    return min(scores, default=0)


def _finish(ground: Ground, index: int, totals: list[int], taken: Mapping[int, int], best: _Best) -> None:
    choice = ground.choices[index]
    start, stop = 0, len(choice.figures)
    if best.floor is not None:
        start, stop = ground.places_between(index, totals, ground.movable, best.floor)
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
