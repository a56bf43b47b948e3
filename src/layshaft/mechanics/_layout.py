"""Bodies on one axis, the stops between them and the springs that push them apart.

Here are ``Point``, ``Stop``, ``Spring``, ``Layout``, the mark ``Solid`` and the refusal ``Misfit``; `rest` hands
them on. Where they come to rest is in `rest`, which stops hold a spring in `cut`.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import chain

from layshaft.mechanics._domain import require_above, require_finite, require_not_negative, require_positive
from layshaft.mechanics._net import Arc, Net, Seat

Id = Hashable
Number = float | Fraction

# Floats closer than this [m] are one length: far below what any gauge shows, far above rounding.
CONTACT = 1e-12


@dataclass(frozen=True, slots=True)
class Point:
    """A spot on a body, `offset` [m] along the axis from the body's own zero."""

    body: Id
    offset: Number


@dataclass(frozen=True, slots=True)
class Stop:
    """Point `b` may sit at most `gap` [m] beyond point `a`: x(b) - x(a) <= gap, which may be negative."""

    id: Id
    a: Id
    b: Id
    gap: Number


@dataclass(frozen=True, slots=True)
class Spring:
    """A spring that pushes point `b` along the axis away from point `a` while it is shorter than free.

    `rate` [N/m]; `free_length` [m]; `solid_length` [m], shorter than which it cannot be pressed.
    """

    id: Id
    a: Id
    b: Id
    rate: float
    free_length: Number
    solid_length: Number


@dataclass(frozen=True, slots=True)
class Solid:
    """Stands among stops for a spring whose coils touch."""

    spring: Id

    def __str__(self) -> str:
        return f"{self.spring} gone solid"


class Misfit(ValueError):
    """The parts cannot be so: round the stops of `cycle` a length of `short` [m] is missing."""

    def __init__(self, cycle: tuple[Id, ...], short: Number) -> None:
        self.cycle = cycle
        self.short = short
        names = ", ".join(str(link) for link in cycle)
        super().__init__(f"the parts cannot be so: round the stops {names}, {float(short):.6g} m are missing")


@dataclass(frozen=True)
class Layout:
    """Bodies on one axis with their points, stops, springs and constant forces.

    The zero of every `fixed` body is at zero. `forces` [N] act on bodies and are positive along the axis: a weight
    on a unit that stands nose up, say. Gaps and offsets that are all whole numbers or fractions stay exact wherever
    lengths are compared.
    """

    points: Mapping[Id, Point]
    stops: tuple[Stop, ...]
    springs: tuple[Spring, ...]
    fixed: frozenset[Id]
    forces: Mapping[Id, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, kind in (("stops", tuple), ("springs", tuple), ("fixed", frozenset)):
            object.__setattr__(self, name, kind(getattr(self, name)))
        self._check_names()
        for point in self.points.values():
            require_finite(offset=point.offset)
        for stop in self.stops:
            require_finite(gap=stop.gap)
        for force in self.forces.values():
            require_finite(force=force)
        for spring in self.springs:
            require_positive(rate=spring.rate)
            require_not_negative(solid_length=spring.solid_length)
            require_above(spring.solid_length, "the solid length", free_length=spring.free_length)

    def _check_names(self) -> None:
        if not self.fixed:
            raise ValueError("no body is fixed; name the one that the others are measured from")
        stops, springs = {stop.id for stop in self.stops}, {spring.id for spring in self.springs}
        for kind, ids, members in (("stop", stops, self.stops), ("spring", springs, self.springs)):
            if len(ids) < len(members):
                raise ValueError(f"two {kind}s have the same id")
        links: list[Stop | Spring] = [*self.stops, *self.springs]
        for link in links:
            for end in (link.a, link.b):
                if end not in self.points:
                    raise ValueError(f"{link.id!r} ends at point {end!r}, which is not in the layout")

    def spring(self, name: Id) -> Spring:
        """The spring of that id; `KeyError` when there is none."""
        for spring in self.springs:
            if spring.id == name:
                return spring
        raise KeyError(name)

    def without(self, stops: Iterable[Id] = (), bodies: Iterable[Id] = ()) -> Layout:
        """The layout after stops went and bodies were lifted out, with their points, stops, springs and forces.

        Ids that are not in the layout change nothing. `ValueError` for a body that is fixed.
        """
        gone, out = frozenset(stops), frozenset(bodies)
        if out & self.fixed:
            raise ValueError("a fixed body cannot be lifted out")
        lost = {name for name, point in self.points.items() if point.body in out} if out else set()
        smaller: Layout = object.__new__(Layout)
        # Members of a checked layout need no second check; a search over states makes thousands of these.
        vars(smaller).update(
            points={name: p for name, p in self.points.items() if name not in lost} if out else self.points,
            stops=tuple(s for s in self.stops if not (s.id in gone or s.a in lost or s.b in lost)),
            springs=tuple(s for s in self.springs if not (s.a in lost or s.b in lost)),
            fixed=self.fixed,
            forces={body: n for body, n in self.forces.items() if body not in out} if out else self.forces,
        )
        if "net" in vars(self):
            links: set[Id] = {s.id for s in self.stops} - {s.id for s in smaller.stops}
            freed = {s.id for s in self.springs} - {s.id for s in smaller.springs}
            vars(smaller)["net"] = self.net.without(links | {Solid(name) for name in freed}, freed, out)
        return smaller

    @cached_property
    def is_exact(self) -> bool:
        """Whether all gaps and offsets are whole numbers or fractions."""
        figures = chain((stop.gap for stop in self.stops), (point.offset for point in self.points.values()))
        return all(isinstance(figure, (int, Fraction)) for figure in figures)

    @cached_property
    def net(self) -> Net:
        """The bodies as nodes of a graph, with arcs in floats: the stops, then the springs when solid."""
        node: dict[Id, int] = dict.fromkeys(self.fixed, 0)
        for body in chain((point.body for point in self.points.values()), self.forces):
            node.setdefault(body, len(node) - len(self.fixed) + 1)
        arcs = tuple(
            Arc(node[p.body], node[q.body], float(weight), link) for p, q, weight, link in self.differences()
        )
        seats = {}
        for spring in self.springs:
            a, b = self.points[spring.a], self.points[spring.b]
            offset = float(b.offset - a.offset)
            free = float(spring.free_length)
            travel = free - float(spring.solid_length)
            seats[spring.id] = Seat(node[a.body], node[b.body], spring.rate, free - offset, travel, offset)
        return Net(len(node) - len(self.fixed) + 1, node, arcs, seats, CONTACT)

    def differences(self) -> Iterable[tuple[Point, Point, Number, Id]]:
        """Tail, head, the most that the head's body may be beyond the tail's, and what makes it so."""
        for stop in self.stops:
            a, b = self.points[stop.a], self.points[stop.b]
            yield a, b, stop.gap - b.offset + a.offset, stop.id
        for spring in self.springs:
            a, b = self.points[spring.a], self.points[spring.b]
            solid = Fraction(spring.solid_length) if self.is_exact else spring.solid_length
            yield b, a, b.offset - a.offset - solid, Solid(spring.id)
