"""Integrals with fixed points, so that the same question gives the same digits every time."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable

# Nodes and weights of the eight-point rule on -1..1, positive half.
_RULE = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)


def integrate(
    function: Callable[[float], float],
    low: float,
    high: float,
    breaks: Iterable[float] = (),
    panels: int = 24,
) -> float:
    """Integral of a function by eight-point Gauss-Legendre panels between given breaks.

    Parameters
    ----------
    function : callable [-]
        Smooth between the breaks.
    low, high : float [unit of the argument]
        Ends of the integral.
    breaks : iterable of float [unit of the argument]
        Where the function has a kink or changes its pace; those outside the ends are ignored.
    panels : int [-]
        Panels between two breaks.

    Returns
    -------
    float [unit of the function times unit of the argument]

    Raises
    ------
    ValueError
        The ends are not finite, or the high end lies below the low one.

    Notes
    -----
    Exact for polynomials up to degree 15 in each panel. There is no estimate of the error: a function with a
    feature much narrower than a panel needs a break beside it.

    References
    ----------
    Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, 25.4.29 and table 25.4.

    Examples
    --------
    >>> round(integrate(math.sin, 0.0, math.pi), 12)
    2.0
    """
    if not (math.isfinite(low) and math.isfinite(high) and low <= high):
        raise ValueError(f"an integral needs finite ends in order, not {low!r} and {high!r}")
    edges = [low, *sorted(edge for edge in breaks if low < edge < high), high]
    sums: list[float] = []
    for start, stop in itertools.pairwise(edges):
        half = (stop - start) / (2 * panels)
        for panel in range(panels):
            centre = start + half * (2 * panel + 1)
            sums.extend(
                half * weight * (function(centre - half * node) + function(centre + half * node))
                for node, weight in _RULE
            )
    return math.fsum(sums)
