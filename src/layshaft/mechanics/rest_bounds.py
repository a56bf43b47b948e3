"""How far lengths, forces and energies at rest can lie when gaps, rates and free lengths are only known to lie between.

Here are ``Spread`` and ``bounds``. The rest of one set of figures is in `rest`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from layshaft.mechanics._domain import OutOfRange
from layshaft.mechanics._layout import Id, Layout, Number, Solid, Spring
from layshaft.mechanics._reach import find_misfit, longest_length
from layshaft.mechanics._shared import blocks
from layshaft.mechanics.rest import at_rest

# Lowest and highest.
Range = tuple[float, float]


@dataclass(frozen=True)
class Spread:
    """Between what the `gaps` [m] of stops and the `free_lengths` [m] and `rates` [N/m] of springs lie, by id.

    What has no entry is as the layout has it.
    """

    gaps: Mapping[Id, tuple[Number, Number]] = field(default_factory=dict)
    free_lengths: Mapping[Id, tuple[Number, Number]] = field(default_factory=dict)
    rates: Mapping[Id, Range] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SpringBounds:
    """Between what a spring's `length` [m], `force` [N] and `energy` [J] at rest lie.

    `is_sharp` where some figures of the spread reach both ends; otherwise the ends may be further out than needed.
    """

    length: Range
    force: Range
    energy: Range
    is_sharp: bool


@dataclass(frozen=True, slots=True)
class RestBounds:
    """The bounds of each of the `springs`, and of the `energy` [J] of all together."""

    springs: Mapping[Id, SpringBounds]
    energy: Range


def bounds(layout: Layout, spread: Spread) -> RestBounds:
    """Bounds on springs at rest for all figures within a spread, rounded to the safe side where not sharp.

    Parameters
    ----------
    layout : Layout
        Bodies, stops, springs and forces.
    spread : Spread
        Lowest and highest gaps [m], free lengths [m] and rates [N/m]. Offsets and forces have none: let a gap have it.

    Returns
    -------
    RestBounds
        For each spring between what its length [m], force [N] and energy [J] lie; and the energy of all [J].

    Raises
    ------
    OutOfRange
        A lowest figure is above its highest, or a lowest free length is not above solid.
    KeyError
        The spread names a stop or spring that is not in the layout.
    Misfit
        The stops contradict each other even at their widest.

    Notes
    -----
    The most energy a spring can have in a state is that of its longest free length, stiffest rate and shortest
    length. A spring that works alone is as long as the shortest path of stops lets it be, or its free length; weights
    can press it shorter, but with no more force than all of them have. Of a spring that others act on no more is
    said than that it is not pressed beyond solid, and has no more energy than all springs that act on each other
    have together. Where the gaps at their narrowest contradict each other, solid is the shortest length counted on.
    Valid for figures that vary independently. Not checked: that every set of figures fits together.

    References
    ----------
    R. E. Moore, R. B. Kearfott, M. J. Cloud, Introduction to Interval Analysis, SIAM 2009, chapter 5 (bounds of
    functions that only rise or fall; chapter from memory). Own derivation of the rest.

    Example
    -------
    >>> from layshaft.mechanics.rest import Point, Stop
    >>> points = {"seat": Point("case", 0.0), "hub": Point("hub", 0.0), "end": Point("case", 0.076)}
    >>> main = Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775)
    >>> layout = Layout(points, (Stop("ring", "end", "hub", 0.0),), (main,), frozenset({"case"}))
    >>> found = bounds(layout, Spread(free_lengths={"main": (0.1308, 0.1338)})).springs["main"]
    >>> [round(force) for force in found.force], [round(energy, 1) for energy in found.energy]
    ([3600, 3797], [98.6, 109.7])
    """
    _check(layout, spread)
    loosest = _corner(layout, spread, lowest=0)
    tightest = _corner(layout, spread, lowest=1)
    if wrong := find_misfit(loosest):
        raise wrong
    pull = math.fsum(abs(force) for body, force in layout.forces.items() if body not in layout.fixed)
    fits = find_misfit(tightest) is None
    rest = at_rest(tightest) if fits and not pull else None
    springs = {}
    for group in _groups(layout):
        for name in group:
            high = tightest.spring(name)
            if len({_ends(layout, other) for other in group}) == 1:
                shortest = float(longest_length(tightest, name)[0]) if fits else 0.0
                springs[name] = _alone(loosest, high, shortest, pull, is_sharp=rest is not None)
            else:
                within = [tightest.spring(other) for other in group]
                energy = math.fsum(rest.springs[other].energy for other in group) if rest else math.inf
                springs[name] = _among(loosest, high, within, energy, pull)
    lowest = math.fsum(spring.energy[0] for spring in springs.values())
    highest = math.fsum(spring.energy[1] for spring in springs.values())
    total = (lowest if pull else at_rest(loosest).energy, rest.energy if rest else highest)
    return RestBounds({spring.id: springs[spring.id] for spring in layout.springs}, total)


def _alone(loosest: Layout, high: Spring, shortest: float, pull: float, is_sharp: bool) -> SpringBounds:
    """Bounds of a spring that others are at most beside; the stops let it get to `shortest` at their narrowest."""
    low = loosest.spring(high.id)
    solid = float(low.solid_length)
    shortest = max(shortest, solid)
    most = 0.5 * high.rate * (float(high.free_length) - solid) ** 2
    short = max(0.0, float(high.free_length) - shortest)
    energy = max(0.5 * high.rate * short**2, min(most, pull**2 / (2 * low.rate)))
    length = min(float(low.free_length) - pull / low.rate, shortest)
    return _joined(loosest, high, max(solid, length), max(high.rate * short, pull), energy, is_sharp)


def _among(loosest: Layout, high: Spring, group: list[Spring], energy: float, pull: float) -> SpringBounds:
    """Bounds of one of a group of springs that act on each other and have no more than `energy` together."""
    low = loosest.spring(high.id)
    solid = float(low.solid_length)
    energy = min(energy, 0.5 * high.rate * (float(high.free_length) - solid) ** 2)
    length = max(solid, float(low.free_length) - math.sqrt(2 * energy / low.rate))
    force = math.sqrt(2 * energy * high.rate)
    if length <= solid:
        # Through coils that touch the others may push with all that they can.
        force = pull + math.fsum(s.rate * (float(s.free_length) - float(s.solid_length)) for s in group)
    return _joined(loosest, high, length, force, energy, is_sharp=False)


def _joined(
    loosest: Layout, high: Spring, shortest: float, force: float, energy: float, is_sharp: bool
) -> SpringBounds:
    """Both ends: no spring is longer than the stops at their widest let it be, whatever acts on it."""
    low = loosest.spring(high.id)
    widest = float(longest_length(loosest, low)[0])
    short = max(0.0, float(low.free_length) - widest)
    return SpringBounds(
        (shortest, min(float(high.free_length), widest)),
        (low.rate * short, force),
        (0.5 * low.rate * short**2, energy),
        is_sharp,
    )


def _ends(layout: Layout, name: Id) -> tuple[int, int]:
    return layout.net.seats[name][:2]


def _groups(layout: Layout) -> list[list[Id]]:
    """Springs in groups that can act on each other: those on one circle of stops and springs."""
    names = [spring.id for spring in layout.springs]
    edges = [_ends(layout, name) for name in names]
    edges += [(tail, head) for tail, head, _, link in layout.net.arcs if not isinstance(link, Solid)]
    groups = [[names[edge] for edge in block if edge < len(names)] for block in blocks(edges)]
    on_one_body = [[name] for name in names if len(set(_ends(layout, name))) == 1]
    return [group for group in (*groups, *on_one_body) if group]


def _corner(layout: Layout, spread: Spread, lowest: int) -> Layout:
    """The layout with all springs at their weakest and gaps at their widest, or the other way about."""
    end = 1 - lowest
    return Layout(
        layout.points,
        tuple(replace(stop, gap=spread.gaps.get(stop.id, (stop.gap, stop.gap))[end]) for stop in layout.stops),
        tuple(
            replace(
                spring,
                rate=spread.rates.get(spring.id, (spring.rate, spring.rate))[lowest],
                free_length=spread.free_lengths.get(spring.id, (spring.free_length, spring.free_length))[lowest],
            )
            for spring in layout.springs
        ),
        layout.fixed,
        layout.forces,
    )


def _check(layout: Layout, spread: Spread) -> None:
    stops = {stop.id for stop in layout.stops}
    springs = {spring.id for spring in layout.springs}
    named = (("gap", stops), ("free_length", springs), ("rate", springs))
    for (kind, known), ranges in zip(named, (spread.gaps, spread.free_lengths, spread.rates), strict=True):
        for name, (low, high) in ranges.items():
            if name not in known:
                raise KeyError(name)
            if not low <= high:
                raise OutOfRange(f"lowest {kind} of {name}", low, f"at most the highest ({high!r})")
