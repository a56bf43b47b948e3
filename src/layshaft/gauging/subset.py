"""Every sum that a given number of measured pieces can reach, in how many ways, and which pieces reach it.

Figures are whole numbers on a common grid, so nothing is lost or made up. Few picks are all tried; for many
a table of reachable sums is kept in big integers, one slot a sum.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import combinations

# Up to here trying every pick is as quick as the table.
_FEW_PICKS = 2_000
# Beyond both of these a choice would take minutes.
_MANY_PICKS = 2_000_000
_LARGE_TABLE = 1 << 25


def common_grid(figures: Iterable[Fraction]) -> int:
    """Smallest whole number that makes every figure whole when multiplied by it.

    Parameters
    ----------
    figures : iterable of Fraction [any one unit]

    Returns
    -------
    int [one over the unit]

    Examples
    --------
    >>> common_grid([Fraction("1.782"), Fraction("0.0685") * Fraction("25.4")])
    10000
    """
    return math.lcm(*(figure.denominator for figure in figures))


class PieceSums:
    """Sums that exactly `count` of some pieces reach.

    Parameters
    ----------
    pieces : sequence of int [grid]
        Figures of the single pieces; equal ones are still different pieces.
    count : int [-]
        How many are picked, zero or more.

    Attributes
    ----------
    sums : tuple of int [grid]
        Reachable sums, smallest first; empty when there are too few pieces.
    ways : tuple of int [-]
        How many picks reach each of them.

    Raises
    ------
    ValueError
        A negative count, or figures so fine and so many that no exact answer comes in reasonable time.

    References
    ----------
    Subset sums by table: S. Martello and P. Toth, Knapsack Problems, 1990, ch. 4 (chapter from memory).

    Examples
    --------
    >>> found = PieceSums([1782, 1791, 1795, 1770], 2)
    >>> found.sums
    (3552, 3561, 3565, 3573, 3577, 3586)
    >>> found.pick(3565)
    (2, 3)
    """

    def __init__(self, pieces: Sequence[int], count: int) -> None:
        if count < 0:
            raise ValueError(f"zero or more pieces can be picked, not {count}")
        self.pieces = tuple(pieces)
        self.count = count
        self._offset = min(self.pieces, default=0)
        self._step = math.gcd(*(piece - self._offset for piece in self.pieces)) or 1
        self._shifts = tuple((piece - self._offset) // self._step for piece in self.pieces)
        self._slots = sum(sorted(self._shifts)[-count:]) + 1 if count else 1
        picks = math.comb(len(self.pieces), count)
        self._width = (picks.bit_length() + 7) // 8
        is_small_table = self._slots * self._width <= _LARGE_TABLE
        if not is_small_table and picks > _MANY_PICKS:
            raise ValueError(
                f"{count} of {len(self.pieces)} pieces with figures this fine are too many picks to try: "
                "read the pieces to a coarser step, or offer fewer"
            )
        self._first: dict[int, tuple[int, ...]] | None = None
        if picks <= _FEW_PICKS or not is_small_table:
            self.sums, self.ways = self._try_all()
        else:
            self.sums, self.ways = self._tabulate()

    def pick(self, total: int) -> tuple[int, ...]:
        """Places of the pieces in the first pick, in the order given, that reaches a sum [-]."""
        if self._first is not None:
            return self._first[total]
        rest, need, picked = (total - self.count * self._offset) // self._step, self.count, []
        for place, shift in enumerate(self._shifts):
            if need and rest >= shift and self._reach_from[place + 1][need - 1] >> (rest - shift) & 1:
                picked.append(place)
                rest, need = rest - shift, need - 1
        return tuple(picked)

    def _try_all(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        ways: dict[int, int] = {}
        self._first = {}
        for places in combinations(range(len(self.pieces)), self.count):
            total = sum(self.pieces[place] for place in places)
            ways[total] = ways.get(total, 0) + 1
            self._first.setdefault(total, places)
        sums = tuple(sorted(ways))
        return sums, tuple(ways[total] for total in sums)

    def _tabulate(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Ways to reach each sum: a slot is wide enough for all picks, so slots never spill over."""
        bits = 8 * self._width
        table = [1] + [0] * self.count
        for shift in self._shifts:
            for need in range(self.count, 0, -1):
                table[need] += table[need - 1] << (shift * bits)
        slots = table[self.count].to_bytes(self._slots * self._width, "little")
        found = []
        for slot in range(self._slots):
            ways = int.from_bytes(slots[slot * self._width : (slot + 1) * self._width], "little")
            if ways:
                found.append((self.count * self._offset + slot * self._step, ways))
        return tuple(total for total, _ in found), tuple(ways for _, ways in found)

    @cached_property
    def _reach_from(self) -> list[list[int]]:
        """Bit sets of the sums that n pieces reach, from each place onwards, for n up to the count."""
        reach = [[1] + [0] * self.count]
        for shift in reversed(self._shifts):
            after = reach[-1]
            reach.append([1] + [after[need] | after[need - 1] << shift for need in range(1, self.count + 1)])
        return reach[::-1]
