"""Choices and bounds in whole figures: the ground that `search` and `tally` walk over.

A choice takes one of its figures; a bound is a sum of choices with whole factors that should lie between two
ends. What the figures mean is in `selection`.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """Figures one of which is taken.

    Attributes
    ----------
    figures : tuple of int [grid]
        Smallest first, without repeats.
    ways : tuple of int [-]
        In how many ways each figure comes about; one for a size.
    costs : tuple of int [money grid]
        What taking each costs.
    ranks : tuple of int [-]
        Place of each in the order given: the smaller is preferred among equals.
    drawer : str or None [-]
        Where the figures are taken from; `None` for a pool of plates, whose picks do not name a set of sizes.
    stocks : tuple of int or None [-]
        How many of each figure the drawer holds; `None` is any number.
    """

    figures: tuple[int, ...]
    ways: tuple[int, ...]
    costs: tuple[int, ...]
    ranks: tuple[int, ...]
    drawer: str | None = None
    stocks: tuple[int | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Bound:
    """A sum of choices and the ends it should lie between.

    Attributes
    ----------
    constant : int [own grid]
    factors : tuple of int [own grid over grid]
        One for each choice.
    low, high : int or None [own grid]
        Ends, both inside.
    weight : int [score over own grid]
        Makes distances of different bounds comparable.
    aim : int or None [half own grid]
        Twice the figure it should be nearest to, where it has one.
    is_cross : bool [-]
        Whether it ties several results together.
    """

    constant: int
    factors: tuple[int, ...]
    low: int | None
    high: int | None
    weight: int
    aim: int | None
    is_cross: bool

    def score(self, total: int) -> int:
        """Twice the weighted distance to the nearer end, negative outside."""
        rooms = [] if self.low is None else [total - self.low]
        if self.high is not None:
            rooms.append(self.high - total)
        return 2 * self.weight * min(rooms)

    def best_score(self, least: int, most: int) -> int:
        """Greatest score of any total between two figures."""
        if self.low is None or self.high is None:
            return self.score(most if self.high is None else least)
        if 2 * least >= self.low + self.high:
            return self.score(least)
        if 2 * most <= self.low + self.high:
            return self.score(most)
        return self.weight * (self.high - self.low)

    def off(self, total: int) -> int:
        """Twice the weighted distance from the aim."""
        return 0 if self.aim is None else self.weight * abs(2 * total - self.aim)

    def least_off(self, least: int, most: int) -> int:
        """Smallest distance from the aim of any total between two figures."""
        if self.aim is None or 2 * least <= self.aim <= 2 * most:
            return 0
        return min(self.off(least), self.off(most))

    def room(self, total: int, factor: int, score: int) -> tuple[float, float]:
        """Figures of a choice that keep the score at least so high, the other choices summing to `total`."""
        # 2 * weight * (total + factor * figure - low) >= score, and likewise at the high end.
        short = -(-score // (2 * self.weight))
        least, most = -math.inf, math.inf
        for need, slope in (
            (None if self.low is None else self.low + short - total, factor),
            (None if self.high is None else total + short - self.high, -factor),
        ):
            if need is None:
                continue
            if slope > 0:
                least = max(least, -(-need // slope))
            elif slope < 0:
                most = min(most, need // slope)
            elif need > 0:
                return math.inf, -math.inf
        return least, most


class Ground:
    """All choices and bounds of one question, and what can still be reached from each depth of a walk.

    Parameters
    ----------
    choices : sequence of Choice [grid]
        One or more, each with at least one figure.
    bounds : sequence of Bound [own grids]

    Attributes
    ----------
    movable : tuple of int [-]
        Bounds that some choice moves.
    order : tuple of int [-]
        Choices in the order they are walked; pools go last, as they have no drawer and mostly more figures.
    rests : list of list of (int, int) [own grids]
        Least and most that the choices from each depth onwards add to each bound.

    Examples
    --------
    >>> ring = Choice((10, 12, 15), (1, 1, 1), (0, 0, 0), (0, 1, 2), "ring", (None, None, None))
    >>> Ground([ring], [Bound(20, (-1,), 5, 9, 1, 14, False)]).rests
    [[(-15, -10)], [(0, 0)]]
    """

    def __init__(self, choices: Sequence[Choice], bounds: Sequence[Bound]) -> None:
        self.choices = tuple(choices)
        self.bounds = tuple(bounds)
        self.movable = tuple(number for number, bound in enumerate(self.bounds) if any(bound.factors))
        self.order = tuple(
            sorted(
                range(len(self.choices)),
                key=lambda index: (self.choices[index].drawer is None, len(self.choices[index].figures)),
            )
        )
        self.rests = self._reaches()

    def _reaches(self) -> list[list[tuple[int, int]]]:
        rests = [[(0, 0)] * len(self.bounds)]
        for index in reversed(self.order):
            figures, row = self.choices[index].figures, []
            for bound, (least, most) in zip(self.bounds, rests[-1], strict=True):
                ends = (bound.factors[index] * figures[0], bound.factors[index] * figures[-1])
                row.append((least + min(ends), most + max(ends)))
            rests.append(row)
        return rests[::-1]

    def constants(self) -> list[int]:
        """Totals of the bounds before anything is chosen."""
        return [bound.constant for bound in self.bounds]

    def added(self, totals: Sequence[int], index: int, figure: int) -> list[int]:
        """Totals once a choice has taken a figure."""
        pairs = zip(totals, self.bounds, strict=True)
        return [total + bound.factors[index] * figure for total, bound in pairs]

    def is_left(self, index: int, place: int, taken: Mapping[int, int]) -> bool:
        """Whether the drawer still holds that size when the other choices have taken theirs."""
        choice = self.choices[index]
        if choice.drawer is None or (stock := choice.stocks[place]) is None:
            return True
        used = sum(
            self.choices[other].drawer == choice.drawer
            and self.choices[other].figures[at] == choice.figures[place]
            for other, at in taken.items()
        )
        return used < stock

    def places_between(
        self, index: int, totals: Sequence[int], numbers: Sequence[int], score: int
    ) -> tuple[int, int]:
        """Places of the figures of a choice that keep all given bounds at least so high a score."""
        least, most = -math.inf, math.inf
        for number in numbers:
            bound = self.bounds[number]
            low, high = bound.room(totals[number], bound.factors[index], score)
            least, most = max(least, low), min(most, high)
        figures = self.choices[index].figures
        start = bisect_left(figures, least)
        return start, max(start, bisect_right(figures, most))

    def sizes(self, taken: Mapping[int, int]) -> tuple[int, ...]:
        """What a pick takes from drawers, apart from the plates."""
        return tuple(taken[index] for index, choice in enumerate(self.choices) if choice.drawer is not None)
