"""Least energy of springs that act on each other or on weights, by bounds that are added as they are met.

The unknowns are the few distances that the springs hold their seats apart, not the positions of all bodies. A try
is laid out: where its distances and the stops contradict each other, the circle of stops and springs that shows it
bounds the sum of those distances; where it fits, the way the weights go down bounds their energy from below by how
much of them each spring carries. Each bound is one row of a small least-distance problem; there are finitely many,
and when a try meets none that is new it is the rest. The multipliers of the rows are forces: along a circle, or
a share of the weights on one way down.

References
----------
J. F. Benders, Partitioning procedures for solving mixed-variables programming problems, Numerische Mathematik 4
(1962), pp. 238-252 (bounds from the duals of an inner problem).
R. T. Rockafellar, Monotone operators and the proximal point algorithm, SIAM Journal on Control and Optimization 14
(1976), pp. 877-898.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from layshaft.mechanics._by_path import Settled, let_down
from layshaft.mechanics._nearest import Nearest, Unsettled
from layshaft.mechanics._net import Arc, Circle, Net

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

# A circle is taken as kept when no more than this [m] is missing for each spring on it.
HAIR = 1e-11
# Energies are taken as equal at this share of the energy at stake, beside what the weights do over a hair.
EQUAL = 1e-12
# Curvature that the energy of the weights is given about its last value, so that it has a least distance. It has
# no part in the result, which is taken only where the value no longer moves.
FAINT = 1e-2
# That the value no longer moves means that the shares of the weights on their ways down sum to 1, as near as this.
BALANCE = 1e-10
MOST_TRIES = 1000


@dataclass(frozen=True, slots=True)
class _Bound:
    """`on_springs` times the shortenings, plus the weights' energy if `has_weights`, are at least `least`.

    `bearing` is what one unit of its multiplier puts on each arc.
    """

    on_springs: tuple[float, ...]
    has_weights: bool
    least: float
    bearing: Mapping[int, float]


@dataclass(slots=True)
class _Search:
    """The bounds met so far and the last value of the weights' energy.

    `scale` is the energy at stake, `equal` a difference that is none.
    """

    net: Net
    scale: float
    equal: float
    weights_energy: float = 0.0
    bounds: list[_Bound] = field(default_factory=list)
    nearest: Nearest = field(default_factory=Nearest)

    def add_circle_of(self, circle: Circle) -> None:
        """The bound of a circle of which springs are the arcs beyond those of the net."""
        first = len(self.net.arcs)
        springs = [place - first for place in circle.arcs if place >= first]
        self.add_circle(springs, [place for place in circle.arcs if place < first])

    def add_circle(self, springs: Sequence[int], arcs: Sequence[int]) -> None:
        """Distances on a circle sum to no more than its stops leave."""
        seats = list(self.net.seats.values())
        room = math.fsum(self.net.arcs[place].weight for place in arcs)
        on_springs = tuple(float(number in springs) for number in range(len(seats)))
        least = math.fsum(seats[number].natural for number in springs) - room
        self.bounds.append(_Bound(on_springs, False, least, dict.fromkeys(arcs, 1.0)))

    def learn(self, energy: float, apart: Sequence[float], bearing: Mapping[int, float], known: float) -> bool:
        """Take up what the weights' way down shows; whether that is news, or their energy moved since the last try.

        `energy` is what the bounds say it is with seats so far `apart`, `known` what the way down in `bearing` shows.
        """
        is_moving = abs(energy - self.weights_energy) > BALANCE * self.scale / FAINT
        is_more = known > energy + self.equal or not any(bound.has_weights for bound in self.bounds)
        if is_more:
            first = len(self.net.arcs)
            borne = tuple(bearing.get(first + number, 0.0) for number in range(len(apart)))
            short = (seat.natural - at for seat, at in zip(self.net.seats.values(), apart, strict=True))
            least = known + math.fsum(force * by for force, by in zip(borne, short, strict=True))
            on_stops = {place: force for place, force in bearing.items() if place < first}
            self.bounds.append(_Bound(borne, True, least, on_stops))
        self.weights_energy = energy
        return is_more or is_moving

    def bearing(self, multipliers: Sequence[float]) -> dict[int, float]:
        """The force in each arc: every bound's share."""
        total: dict[int, float] = {}
        for bound, multiplier in zip(self.bounds, multipliers, strict=True):
            if multiplier > 0:
                for place, force in bound.bearing.items():
                    total[place] = total.get(place, 0.0) + multiplier * force
        return total

    def best_try(self) -> tuple[list[float], float, list[float]]:
        """Shortening of each spring, energy of the weights, and multiplier of each bound, as far as is known."""
        if not self.bounds:
            return [0.0] * len(self.net.seats), self.weights_energy, []
        import numpy as np

        rates = np.array([seat.rate for seat in self.net.seats.values()])
        rows = np.array([bound.on_springs for bound in self.bounds]) / np.sqrt(rates * self.scale)
        has_weights = np.array([bound.has_weights for bound in self.bounds], dtype=bool)
        least = np.array([bound.least for bound in self.bounds]) / self.scale
        least[has_weights] += 1 / FAINT - self.weights_energy / self.scale
        rows = np.column_stack((rows, has_weights / math.sqrt(FAINT)))
        length = np.linalg.norm(rows, axis=1)
        point, multiplier = self.nearest.solve(rows / length[:, None], least / length)
        short = point[:-1] * np.sqrt(self.scale / rates)
        energy = self.weights_energy
        if has_weights.any():
            energy += self.scale * float(point[-1] - 1 / math.sqrt(FAINT)) / math.sqrt(FAINT)
        return short.tolist(), energy, (multiplier / length).tolist()


def settle(net: Net, forces: Sequence[float]) -> Settled:
    """The rest of a net under forces that move no body for ever."""
    seats = list(net.seats.values())
    scale = _energy_at_stake(net, forces)
    search = _Search(net, scale, EQUAL * scale + HAIR * len(seats) * math.fsum(map(abs, forces)))
    for number, (distance, way) in enumerate(net.ways):
        if distance < seats[number].natural:
            search.add_circle([number], way)
    x = net.heights
    for _ in range(MOST_TRIES):
        short, energy, multipliers = search.best_try()
        apart = [seat.natural - by for seat, by in zip(seats, short, strict=True)]
        nearly = [length - HAIR for length in apart]
        try:
            x = net.fitted(nearly, x)
        except Circle as circle:
            search.add_circle_of(circle)
            continue
        if any(forces):
            x, bearing = _weights_down(net, nearly, x, forces)
            if search.learn(energy, apart, bearing, -_work(forces, x)):
                continue
        spring_forces = [seat.rate * by for seat, by in zip(seats, short, strict=True)]
        return Settled(x, apart, spring_forces, search.bearing(multipliers))
    raise Unsettled(f"springs and stops did not come to rest in {MOST_TRIES} tries")


def _work(forces: Sequence[float], x: Sequence[float]) -> float:
    return math.fsum(force * at for force, at in zip(forces, x, strict=True))


def _energy_at_stake(net: Net, forces: Sequence[float]) -> float:
    """A measure of the energies that are compared.

    What springs and weights have in some place that they fit in, and what the weights can press into springs.
    """
    x = net.heights
    weight = math.fsum(map(abs, forces))
    energy = weight * (max(x) - min(x))
    for seat in net.seats.values():
        energy += seat.rate / 2 * max(0.0, seat.natural - x[seat.b] + x[seat.a]) ** 2
        energy += seat.rate / 2 * min(seat.travel, weight / seat.rate) ** 2
    return energy or 1.0


def _weights_down(
    net: Net, apart: Sequence[float], x: Sequence[float], forces: Sequence[float]
) -> tuple[list[float], Mapping[int, float]]:
    """Positions of least energy of the weights, and the force in each arc that holds them."""
    if min(forces) >= 0 or max(forces) <= 0:
        return let_down(net, apart, x, forces)
    import numpy as np
    from scipy.optimize import linprog

    # The solver's tolerance is a fixed figure: small units of length and force put it below a hair.
    unit, force_unit = 1e-6, max(map(abs, forces))
    seats = zip(net.seats.values(), apart, strict=True)
    arcs = [*net.arcs, *(Arc(seat.b, seat.a, -length, None) for seat, length in seats)]
    cost = -np.array(forces[1:]) / force_unit
    room = np.array([arc.weight for arc in arcs]) / unit
    found = linprog(cost, incidence(arcs, len(x)), room, bounds=(None, None), method="highs-ds")
    if found.status != 0:
        raise Unsettled(f"weights that act both ways: {found.message}")
    bearing = -found.ineqlin.marginals * force_unit
    return [0.0, *(found.x * unit).tolist()], {int(i): float(bearing[i]) for i in np.flatnonzero(bearing > 0)}


def incidence(arcs: Sequence[Arc[float]], size: int) -> Floats:
    """A row for each arc with what it does to the nodes but 0, which stands still."""
    import numpy as np

    unit = np.eye(size)
    return (unit[[arc.head for arc in arcs]] - unit[[arc.tail for arc in arcs]])[:, 1:]


def falling(arcs: Sequence[Arc[float]], forces: Sequence[float]) -> dict[int, float]:
    """Nodes that nothing keeps from moving on for ever under these forces, with where to: plus or minus infinity."""
    import numpy as np
    from scipy.optimize import nnls

    rows = incidence(arcs, len(forces))
    outside = np.array(forces[1:])
    # What stops cannot balance is the way on; what they can leaves nothing.
    left = outside - (rows.T @ nnls(rows.T, outside)[0] if arcs else 0.0)
    away = np.flatnonzero(np.abs(left) > 1e-9 * np.abs(outside).max())
    return {int(node) + 1: math.copysign(math.inf, left[node]) for node in away}
