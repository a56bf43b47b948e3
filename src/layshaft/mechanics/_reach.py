"""What stops alone allow: whether they can all be kept, and how long they let a spring get; `rest` hands this on."""

from __future__ import annotations

import math
from collections.abc import Sequence

from layshaft.mechanics._layout import CONTACT, Id, Layout, Misfit, Number, Solid, Spring
from layshaft.mechanics._net import Arc, Circle, around, lower, way_to


def contradiction(layout: Layout, tolerance: float = CONTACT) -> tuple[Id, ...] | None:
    """Stops that cannot all be kept, or nothing: a circle of them that sums to less than no length.

    Parameters
    ----------
    layout : Layout
        Bodies, stops and springs; a spring counts as a stop at its solid length.
    tolerance : float
        How much may be missing [m] before floats count as a contradiction: always reported when more is missing,
        never when less than this over the number of bodies is. Not used when the layout's lengths are exact.

    Returns
    -------
    tuple of ids, or None
        The stops of one such circle, in the direction in which they limit; `Solid` stands for a spring.

    Raises
    ------
    OutOfRange
        The layout holds a figure that is not possible.

    Notes
    -----
    Valid for stops on one axis. Not checked: other circles, when there are several.

    References
    ----------
    T. H. Cormen et al., Introduction to Algorithms, 3rd ed., section 24.4, difference constraints (section number
    from memory): such a system has a solution exactly when its graph has no negative cycle.

    Example
    -------
    A ring holds a hub to within 2 mm of a face, but the hub is said to start 3 mm off it:

    >>> from fractions import Fraction
    >>> from layshaft.mechanics.rest import Layout, Point, Stop, contradiction
    >>> points = {"face": Point("case", 0), "hub": Point("hub", 0)}
    >>> stops = (Stop("ring", "face", "hub", Fraction(2, 1000)), Stop("shoulder", "hub", "face", Fraction(-3, 1000)))
    >>> sorted(contradiction(Layout(points, stops, (), frozenset({"case"}))))
    ['ring', 'shoulder']
    """
    wrong = find_misfit(layout, tolerance)
    return wrong.cycle if wrong else None


def find_misfit(layout: Layout, tolerance: float = CONTACT) -> Misfit | None:
    """The refusal that a layout deserves, if any."""
    arcs = exact_arcs(layout)
    start: list[Number] = [0] * layout.net.size
    try:
        lower(around(len(start), arcs), start, 0 if layout.is_exact else tolerance, range(len(start)))
    except Circle as circle:
        return misfit_of(circle, arcs)
    return None


def misfit_of(circle: Circle, arcs: Sequence[Arc[float]] | Sequence[Arc[Number]]) -> Misfit:
    """The refusal that names the links of a circle."""
    chosen = [arcs[place] for place in circle.arcs]
    short: Number = -sum(arc.weight for arc in chosen)
    return Misfit(tuple(arc.link for arc in chosen), short)


def exact_arcs(layout: Layout) -> list[Arc[Number]]:
    """The arcs of a layout in the figures it was given in."""
    node = layout.net.node
    return [Arc(node[a.body], node[b.body], weight, link) for a, b, weight, link in layout.differences()]


def longest_length(layout: Layout, spring: Spring | Id) -> tuple[Number, tuple[Id, ...]]:
    """How long a spring can get before the stops hold its seats, and the stops that do.

    Parameters
    ----------
    layout : Layout
        Bodies, stops and springs.
    spring : Spring or id
        The spring, which need not be shorter than free.

    Returns
    -------
    length : float or Fraction
        Distance [m] between the seats at most, by stops alone; infinite when no stop holds them. Exact when the
        lengths of the layout are.
    stops : tuple of ids
        The stops from seat `a` to seat `b` that allow no more, in order; of several ways as short, one.

    Raises
    ------
    Misfit
        The stops contradict each other, so that no length can be told.
    KeyError
        No spring has that id.

    Notes
    -----
    The spring alone has the length min(longest free length, this). Not counted: other springs gone solid.

    References
    ----------
    T. H. Cormen et al., Introduction to Algorithms, 3rd ed., sections 24.1 and 24.4 (section numbers from memory):
    the greatest difference that a system of difference constraints allows is a shortest path.

    Example
    -------
    >>> from fractions import Fraction
    >>> from layshaft.mechanics.rest import Layout, Point, Spring, Stop, longest_length
    >>> points = {"seat": Point("case", 0), "hub": Point("hub", 0), "ring": Point("case", Fraction(76, 1000))}
    >>> layout = Layout(points, (Stop("ring", "ring", "hub", Fraction(27, 10000)),),
    ...                 (Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775),), frozenset({"case"}))
    >>> longest_length(layout, "main")
    (Fraction(787, 10000), ('ring',))
    """
    wanted = spring if isinstance(spring, Spring) else layout.spring(spring)
    if wrong := find_misfit(layout):
        raise wrong
    arcs = [arc for arc in exact_arcs(layout) if not isinstance(arc.link, Solid)]
    a, b = layout.points[wanted.a], layout.points[wanted.b]
    start, end = layout.net.node[a.body], layout.net.node[b.body]
    heights: list[Number] = [math.inf] * layout.net.size
    heights[start] = 0
    before = lower(around(len(heights), arcs), heights, 0 if layout.is_exact else CONTACT, [start])
    if heights[end] == math.inf:
        return math.inf, ()
    return heights[end] + b.offset - a.offset, tuple(arcs[place].link for place in way_to(before, end))
