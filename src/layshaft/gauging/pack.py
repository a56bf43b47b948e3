"""One pack and one selective ring: which plates and which ring bring a clearance nearest its target.

Several sizes or several clearances at once are in `selection`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import accumulate

from layshaft.gauging.subset import PieceSums, common_grid
from layshaft.gauging.window import Limit, check_ends, margin


@dataclass(frozen=True, slots=True)
class PackPick:
    """One way to build a pack.

    Attributes
    ----------
    plates : tuple of int [-]
        Places of the plates in the list given, first ones preferred among equal sums.
    ring : int [-]
        Place of the ring in the list given.
    clearance : Fraction [unit of the plates]
        Depth minus ring minus plates.
    deviation : Fraction [unit of the plates]
        Clearance minus target.
    """

    plates: tuple[int, ...]
    ring: int
    clearance: Fraction
    deviation: Fraction


@dataclass(frozen=True, slots=True)
class PackChoice:
    """The best pack, or how near one comes.

    Attributes
    ----------
    best : PackPick or None [unit of the plates]
        Nearest to the target among those inside the limit; `None` when no pick is inside.
    feasible : int [-]
        Picks inside the limit, a pick being a set of plates and a ring.
    optimal : int [-]
        Picks as near to the target as the best.
    nearest : PackPick or None [unit of the plates]
        When none is inside: the pick that misses by least; `None` with too few plates or no ring.
    miss : Fraction [unit of the plates]
        By how much the nearest lies outside; zero otherwise.
    ring_needed : tuple of (Fraction or None, Fraction or None), or None [unit of the plates]
        Thinnest and thickest ring that would bring the nearest pick's plates inside; open where the limit is.
    """

    best: PackPick | None
    feasible: int
    optimal: int
    nearest: PackPick | None
    miss: Fraction
    ring_needed: tuple[Fraction | None, Fraction | None] | None


def choose_pack(
    plates: Sequence[Fraction],
    count: int,
    rings: Sequence[Fraction],
    depth: Fraction,
    limit: Limit,
    target: Fraction,
) -> PackChoice:
    """Choose plates and one ring for the clearance nearest to a target.

    Parameters
    ----------
    plates : sequence of Fraction [any one unit]
        Thickness of every plate at hand.
    count : int [-]
        How many plates the pack takes.
    rings : sequence of Fraction [unit of the plates]
        Thickness of the rings at hand, one is taken.
    depth : Fraction [unit of the plates]
        Room without ring and plates.
    limit : Limit [unit of the plates]
        What the clearance must lie in.
    target : Fraction [unit of the plates]
        What it should be nearest to.

    Returns
    -------
    PackChoice [unit of the plates]

    Raises
    ------
    ValueError
        A limit that `check_ends` refuses, or what `PieceSums` refuses.

    Notes
    -----
    Exact. Among equals the ring listed first, then the plates listed first. Thickness is taken as read: how
    sure the clearance is depends on the gauge (`stack`).

    References
    ----------
    As `PieceSums`.

    Examples
    --------
    >>> micrometres = [1782, 1791, 1795, 1770, 1804, 1788]
    >>> from layshaft.gauging.window import Window
    >>> choice = choose_pack(
    ...     [Fraction(plate) for plate in micrometres], 3, [Fraction(ring) for ring in (1500, 1580, 1660)],
    ...     Fraction(8075), Window(Fraction(1060), Fraction(1140)), Fraction(1100),
    ... )
    >>> choice.best.deviation, choice.optimal, choice.feasible
    (Fraction(5, 1), 1, 20)
    """
    check_ends(limit)
    ends = [end for end in (limit.low, limit.high) if end is not None]
    grid = common_grid([*plates, *rings, depth, target, *ends])
    sums = PieceSums([int(plate * grid) for plate in plates], count)
    windows = tuple(_wanted_sums(int((depth - ring) * grid), limit, target, grid) for ring in rings)

    def describe(ring: int, total: int) -> PackPick:
        clearance = depth - rings[ring] - Fraction(total, grid)
        return PackPick(sums.pick(total), ring, clearance, clearance - target)

    found = _nearest_to_target(sums, windows)
    if found.picks:
        best = describe(*found.picks[0])
        return PackChoice(best, found.feasible, found.optimal, None, Fraction(0), None)
    missed = _nearest_to_limit(sums, windows)
    if missed is None:
        return PackChoice(None, 0, 0, None, Fraction(0), None)
    nearest = describe(*missed)
    free = nearest.clearance + rings[nearest.ring]
    thinnest = None if limit.high is None else free - limit.high
    needed = (thinnest, None if limit.low is None else free - limit.low)
    return PackChoice(None, 0, 0, nearest, -margin(nearest.clearance, limit).distance, needed)


@dataclass(frozen=True, slots=True)
class _SumWindow:
    """Sums of plates that suit one ring: at least, at best, at most."""

    low: int | None
    wanted: int
    high: int | None


@dataclass(slots=True)
class _Found:
    """Picks (ring, sum) nearest to the target so far, and the counts of picks."""

    picks: list[tuple[int, int]] = field(default_factory=list)
    off: int = 0
    feasible: int = 0
    optimal: int = 0


def _wanted_sums(room: int, limit: Limit, target: Fraction, grid: int) -> _SumWindow:
    low = None if limit.high is None else room - int(limit.high * grid)
    high = None if limit.low is None else room - int(limit.low * grid)
    return _SumWindow(low, room - int(target * grid), high)


def _nearest_to_target(sums: PieceSums, windows: Sequence[_SumWindow]) -> _Found:
    """Best picks inside the limit; sums are sorted, so only the two beside the wanted one matter."""
    found = _Found()
    running = [0, *accumulate(sums.ways)]
    for ring, window in enumerate(windows):
        start = 0 if window.low is None else bisect_left(sums.sums, window.low)
        stop = len(sums.sums) if window.high is None else bisect_right(sums.sums, window.high)
        found.feasible += running[stop] - running[start]
        beside = min(max(bisect_left(sums.sums, window.wanted), start), stop)
        for index in range(max(beside - 1, start), min(beside + 1, stop)):
            off = abs(sums.sums[index] - window.wanted)
            if not found.picks or off < found.off:
                found.picks, found.off, found.optimal = [], off, 0
            if off == found.off:
                found.picks.append((ring, sums.sums[index]))
                found.optimal += sums.ways[index]
    return found


def _nearest_to_limit(sums: PieceSums, windows: Sequence[_SumWindow]) -> tuple[int, int] | None:
    """Ring and sum that miss by least where nothing lies inside; the first of equals."""
    missed: tuple[int, int, int] | None = None
    for ring, window in enumerate(windows):
        gap = bisect_left(sums.sums, window.wanted if window.low is None else window.low)
        for total in sums.sums[max(gap - 1, 0) : gap + 1]:
            under = 0 if window.low is None else window.low - total
            over = 0 if window.high is None else total - window.high
            miss = (max(under, over), ring, total)
            if missed is None or miss < missed:
                missed = miss
    return None if missed is None else missed[1:]
