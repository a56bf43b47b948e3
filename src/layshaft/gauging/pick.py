"""Answers to a choice of selective parts: the pick, what each spare would give, and the nearest miss."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from layshaft.gauging.tally import Count
from layshaft.gauging.window import End


@dataclass(frozen=True, slots=True)
class Pick:
    """One size for every place and one set of pieces from every pool, and what they give.

    Attributes
    ----------
    sizes : mapping of str to Fraction [unit of the sizes]
        Size taken at each place.
    pieces : mapping of str to tuple of int [-]
        Places of the pieces taken from each pool, first ones preferred among equal sums.
    sums : mapping of str to Fraction [unit of the sizes]
        Sum of the pieces taken from each pool.
    values : mapping of str to Fraction [unit of the results]
        Every result and expression.
    distances : mapping of str to Fraction [-]
        Scaled distance of every limit, negative outside.
    cost : Fraction [money]
    """

    sizes: Mapping[str, Fraction]
    pieces: Mapping[str, tuple[int, ...]]
    sums: Mapping[str, Fraction]
    values: Mapping[str, Fraction]
    distances: Mapping[str, Fraction]
    cost: Fraction

    @property
    def tightest(self) -> str | None:
        """Limit with the smallest scaled distance; the first of equals."""
        return min(self.distances, key=lambda name: self.distances[name], default=None)

    @property
    def smallest_distance(self) -> Fraction | None:
        """Scaled distance of the tightest limit [-]."""
        return min(self.distances.values(), default=None)

    @property
    def is_inside(self) -> bool:
        """Whether every limit is met."""
        return all(distance >= 0 for distance in self.distances.values())


@dataclass(frozen=True, slots=True)
class Spare:
    """What one size at one place would give, all else as picked.

    Attributes
    ----------
    selective : str [-]
        Place it would go to.
    size : Fraction [unit of the sizes]
    stock : int or None [-]
        How many the drawer holds.
    is_picked : bool [-]
        Whether it is the one picked.
    values : mapping of str to Fraction [unit of the results]
    failing : tuple of str [-]
        Limits it would not meet.
    """

    selective: str
    size: Fraction
    stock: int | None
    is_picked: bool
    values: Mapping[str, Fraction]
    failing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Failure:
    """A limit that is not met.

    Attributes
    ----------
    name : str [-]
    value : Fraction [unit of the limit]
    end : End [-]
        Which end is passed.
    by : Fraction [unit of the limit]
        By how much, above zero.
    """

    name: str
    value: Fraction
    end: End
    by: Fraction


@dataclass(frozen=True, slots=True)
class NeededSize:
    """Sizes at one place that would meet every limit, all else as in the nearest miss.

    Attributes
    ----------
    selective : str [-]
    low, high : Fraction or None [unit of the sizes]
        Ends, both meeting the limits; `None` where nothing bounds it.
    """

    selective: str
    low: Fraction | None
    high: Fraction | None


@dataclass(frozen=True, slots=True)
class Miss:
    """How near the parts at hand come when nothing does.

    Attributes
    ----------
    pick : Pick or None [unit of the sizes]
        That falls short least at its worst limit; `None` when a place or a pool has nothing to take.
    failures : tuple of Failure [unit of the limits]
        Limits that this pick does not meet.
    needed : tuple of NeededSize [unit of the sizes]
        Places at which one other size alone would do.
    if_all_stocked : Pick or None [unit of the sizes]
        Best pick if every size that is sold were in its drawer, when that meets every limit: it says what to buy.
    of_sold : Miss or None [unit of the sizes]
        How near every size that is sold comes, where not even those meet every limit.
    """

    pick: Pick | None
    failures: tuple[Failure, ...]
    needed: tuple[NeededSize, ...]
    if_all_stocked: Pick | None
    of_sold: Miss | None = None


@dataclass(frozen=True, slots=True)
class Selection:
    """Answer to one question.

    Attributes
    ----------
    best : Pick or None [unit of the sizes]
        `None` when nothing meets every limit.
    others : tuple of Pick [unit of the sizes]
        What else would do, best first: each another set of sizes, with its best pieces.
    spares : tuple of Spare [unit of the sizes]
        Every listed size at every place, all else as in the best pick or the nearest miss.
    miss : Miss or None [unit of the sizes]
        When nothing meets every limit.
    count : Count or None [-]
        How many picks meet the single limits, and how many of them fail across results; `None` when there are
        too many to count.
    is_proved : bool [-]
        Whether the search went to its end. Otherwise something better may exist, and where nothing was found to
        meet every limit, something may.
    """

    best: Pick | None
    others: tuple[Pick, ...]
    spares: tuple[Spare, ...]
    miss: Miss | None
    count: Count | None
    is_proved: bool
