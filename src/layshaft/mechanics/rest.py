"""Springs held by stops on one axis: how long each is, what it stores, and what a change of the stops lets go.

Here are the layout (``Point``, ``Stop``, ``Spring``, ``Layout``), ``contradiction``, ``longest_length``, ``at_rest``
and ``let_go``.

Bodies are rigid and move along the axis only; there is no friction, so every figure is that of a unit whose parts
slide freely, and of the end of a movement, not of what it swings through. Which stops hold a spring is in `cut`,
what a tolerance does to the figures in `rest_bounds`, what a body let go can do in `release`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from layshaft.mechanics._by_path import Settled, falling_one_way, settle_by_path
from layshaft.mechanics._layout import Id, Layout, Misfit, Point, Solid, Spring, Stop
from layshaft.mechanics._nearest import Unsettled
from layshaft.mechanics._net import Arc, Circle, Net
from layshaft.mechanics._reach import contradiction, longest_length, misfit_of
from layshaft.mechanics._settle import falling, settle
from layshaft.mechanics._shared import shared

__all__ = [
    "Layout", "LetGo", "Misfit", "Point", "Rest", "Solid", "Spring", "SpringChange", "SpringRest", "Stop", "Unsettled",
    "at_rest", "contradiction", "let_go", "longest_length",
]

# Parts this close [m] at rest touch: more than all rounding on the way there, less than any gauge shows.
TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class SpringRest:
    """A spring at rest: `length` [m], `force` [N] and stored `energy` [J].

    A loose spring has its free length. `force` is what it pushes with, on a solid spring with what is passed through
    its coils as well; the energy of those touching coils is not counted.
    """

    length: float
    force: float
    energy: float
    is_solid: bool = False


@dataclass(frozen=True)
class Rest:
    """Where a layout comes to rest.

    `positions` [m] of bodies: where these can lie in several places, one of them. `springs`: all of them. `carried`
    [N]: the force in each stop that bears, where it is not settled by balance alone one possible force (`shared`).
    `energy` [J] of all springs; `potential` [J], that of the forces included, counted from bodies at zero. `falls`:
    bodies that nothing keeps from moving on; for them position and potential are infinite, and springs count as they
    are once these bodies are out of the way. `is_coupled`: springs act on each other or on a weight, so that a
    spring's length is more than a matter of paths.
    """

    positions: Mapping[Id, float]
    springs: Mapping[Id, SpringRest]
    carried: Mapping[Id, float]
    energy: float
    potential: float
    falls: frozenset[Id]
    is_coupled: bool
    layout: Layout = field(repr=False, compare=False)
    _settled: Settled = field(repr=False, compare=False)

    @cached_property
    def _tight_places(self) -> list[int]:
        x = self._settled.x
        arcs = enumerate(self.layout.net.arcs)
        return [place for place, (tail, head, weight, _) in arcs if weight - (x[head] - x[tail]) <= TOUCH]

    @cached_property
    def tight(self) -> frozenset[Id]:
        """The stops that touch in these positions, whether or not they bear; `Solid` stands for a spring.

        Bodies that fall do so in one piece with what they touch.
        """
        return frozenset(self.layout.net.arcs[place].link for place in self._tight_places)

    @cached_property
    def shared(self) -> frozenset[Id]:
        """The tight stops whose force balance alone does not settle: stiffness and fit share it out, unknown here.

        Where one of these is judged by its rating, count on it having to bear all.
        """
        arcs = self.layout.net.arcs
        return frozenset(arcs[place].link for place in shared(arcs, self._tight_places, self._settled.bearing))


def at_rest(layout: Layout) -> Rest:
    """Where springs and weights come to rest against the stops: the least energy that all stops allow.

    Parameters
    ----------
    layout : Layout
        Bodies, stops, springs and forces.

    Returns
    -------
    Rest
        Positions [m], and for each spring its length [m], force [N] and energy [J]; the force [N] in each stop.

    Raises
    ------
    Misfit
        The stops contradict each other, or press a spring shorter than solid.
    Unsettled
        The search for a balance met its limit; no figure is given.

    Notes
    -----
    Where all springs can have the length min(free length, shortest path of stops) at once, and no weight overpowers
    one, they have it, exactly. Otherwise they act on each other or on a weight, and a small convex problem is solved:
    lengths are right to a nanometre, and forces in stops balance those of springs and weights. Valid for rigid bodies
    on one axis without friction, springs of constant rate that only push, and stops that hold whatever comes. Not
    checked: whether a stop can carry its force; movement before rest.

    References
    ----------
    D. Goldfarb, A. Idnani, A numerically stable dual method for solving strictly convex quadratic programs,
    Mathematical Programming 27 (1983), pp. 1-33, for the convex problem, which is one of least distance as in C. L.
    Lawson, R. J. Hanson, Solving Least Squares Problems, Prentice-Hall 1974, chapter 23 (from memory). Principle of
    least potential energy.

    Example
    -------
    A spring of 65.7 N/mm, 132.3 mm free, that a ring lets get 78.7 mm long:

    >>> points = {"seat": Point("case", 0.0), "hub": Point("hub", 0.0), "ring": Point("case", 0.0787)}
    >>> layout = Layout(points, (Stop("ring", "ring", "hub", 0.0),),
    ...                 (Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775),), frozenset({"case"}))
    >>> main = at_rest(layout).springs["main"]
    >>> round(main.length, 4), round(main.force), round(main.energy, 1)
    (0.0787, 3521, 94.4)
    """
    net = layout.net
    try:
        _ = net.heights
    except Circle as circle:
        raise misfit_of(circle, net.arcs) from None
    forces = [0.0] * net.size
    for body, force in layout.forces.items():
        forces[net.node[body]] += force
    forces[0] = 0.0
    is_one_way = min(forces) >= 0 or max(forces) <= 0
    falls = _falling(net, forces, is_one_way)
    forces = [0.0 if node in falls else force for node, force in enumerate(forces)]
    settled = settle_by_path(net, forces) if is_one_way else None
    if settled:
        return _rest(layout, settled, forces, falls, is_coupled=False)
    return _rest(layout, settle(net, forces), forces, falls, is_coupled=True)


def _falling(net: Net, forces: list[float], is_one_way: bool) -> dict[int, float]:
    """Nodes that nothing holds against the forces, and where to; a spring holds, for it goes solid in the end."""
    if not any(forces):
        return {}
    held = [*net.arcs, *(Arc(seat.b, seat.a, 0.0, None) for seat in net.seats.values())]
    return falling_one_way(held, forces) if is_one_way else falling(held, forces)


def _rest(layout: Layout, settled: Settled, forces: list[float], falls: dict[int, float], is_coupled: bool) -> Rest:
    net = layout.net
    through_coils: dict[Id, float] = {}
    carried: dict[Id, float] = {}
    for place, force in settled.bearing.items():
        link = net.arcs[place].link
        if isinstance(link, Solid):
            through_coils[link.spring] = force
        else:
            carried[link] = force
    springs = {}
    for spring, apart, force in zip(layout.springs, settled.apart, settled.forces, strict=True):
        free = float(spring.free_length)
        length = min(free, apart + net.seats[spring.id].offset)
        is_solid = length - float(spring.solid_length) <= TOUCH
        energy = force**2 / (2 * spring.rate)
        springs[spring.id] = SpringRest(length, force + through_coils.get(spring.id, 0.0), energy, is_solid)
    energy = sum(spring.energy for spring in springs.values())
    work = sum(force * x for force, x in zip(forces, settled.x, strict=True) if force)
    return Rest(
        positions={body: falls.get(node, settled.x[node]) for body, node in net.node.items()},
        springs=springs,
        carried=carried,
        energy=energy,
        potential=-math.inf if falls else energy - work,
        falls=frozenset(body for body, node in net.node.items() if node in falls),
        is_coupled=is_coupled,
        layout=layout,
        _settled=settled,
    )


@dataclass(frozen=True, slots=True)
class SpringChange:
    """A spring before and after: `before` and `after` at rest, `jump` [m] and energy `released` [J] by it alone.

    After it was lifted out a spring is free. Where springs act on each other one may take up what another releases.
    """

    before: SpringRest
    after: SpringRest

    @property
    def jump(self) -> float:
        """Growth in length [m]."""
        return self.after.length - self.before.length

    @property
    def released(self) -> float:
        """Energy given off [J], negative when taken up."""
        return self.before.energy - self.after.energy


@dataclass(frozen=True, slots=True)
class LetGo:
    """What a change lets go: `springs` one by one, and `energy` [J] of all springs and weights together.

    `energy` is negative where work has to be put in, and infinite where bodies fall that did not before (`falls`).
    """

    springs: Mapping[Id, SpringChange]
    energy: float
    falls: frozenset[Id]


def let_go(before: Layout | Rest, after: Layout | Rest) -> LetGo:
    """What springs and weights give off on the way from one rest to another.

    Parameters
    ----------
    before : Layout or Rest
        How it was.
    after : Layout or Rest
        How it is with stops gone or moved, and with bodies and springs lifted out. No body or spring is added, and
        no force on a body that stays is another.

    Returns
    -------
    LetGo
        For each spring its lengths [m], forces [N] and energies [J], and the energy let go in all [J].

    Raises
    ------
    ValueError
        A body or spring is new, or a force changed: then the two states have no energy in common to compare.
    Misfit, Unsettled
        As for `at_rest`.

    Notes
    -----
    Valid from rest to rest, whatever comes between. The energy in all counts weights of the bodies that stay, from
    where they lay; where a loose body's place before is not settled, so is that share. A spring that was lifted out
    counts with all it stored. Not checked: what takes the energy up.

    References
    ----------
    Principle of least potential energy; for one spring (k/2)[(L0 - L1)^2 - (L0 - L2)^2], own derivation.

    Example
    -------
    With the ring gone, a sleeve holds the hub 2.7 mm further on:

    >>> points = {"seat": Point("case", 0.0), "hub": Point("hub", 0.0), "end": Point("case", 0.076)}
    >>> stops = (Stop("ring", "end", "hub", 0.0), Stop("sleeve", "end", "hub", 0.0027))
    >>> spring = Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775)
    >>> held = Layout(points, stops, (spring,), frozenset({"case"}))
    >>> gone = let_go(held, held.without(stops={"ring"}))
    >>> round(gone.energy, 2), round(gone.springs["main"].after.energy, 1)
    (9.75, 94.4)
    """
    first = before if isinstance(before, Rest) else at_rest(before)
    last = after if isinstance(after, Rest) else at_rest(after)
    _check_less(first.layout, last.layout)
    changes = {}
    for spring in first.layout.springs:
        free = SpringRest(float(spring.free_length), 0.0, 0.0)
        changes[spring.id] = SpringChange(first.springs[spring.id], last.springs.get(spring.id, free))
    work = math.fsum(
        force * (last.positions[body] - first.positions[body])
        for body, force in last.layout.forces.items()
        if force and body not in last.falls
    )
    falls = last.falls - first.falls
    return LetGo(changes, math.inf if falls else first.energy - last.energy + work, falls)


def _check_less(before: Layout, after: Layout) -> None:
    new_springs = {spring.id for spring in after.springs} - {spring.id for spring in before.springs}
    if new_springs:
        raise ValueError(f"spring {sorted(map(str, new_springs))[0]} is new after the change")
    for body in after.net.node:
        if body not in before.net.node:
            raise ValueError(f"body {body!r} is new after the change")
        if after.forces.get(body, 0.0) != before.forces.get(body, 0.0):
            raise ValueError(f"the force on body {body!r} is another after the change")
