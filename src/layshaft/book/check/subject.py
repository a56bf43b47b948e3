"""The unit under check, with what several checks ask of it worked out once."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from math import inf, lcm

from layshaft.book.definition import Load, Unit
from layshaft.book.definition.base import Definition
from layshaft.book.fault import Path
from layshaft.book.length import path_span
from layshaft.book.reference import Reference, references
from layshaft.book.separation import Tree
from layshaft.book.size import Sizes
from layshaft.book.spring import longest_free, solid_length
from layshaft.mechanics import cut, rest

Memory = dict[int, tuple[Reference, ...]]
"""What each definition names, kept while a book's variants are checked: most of them share it."""


@dataclass(eq=False)
class Subject:
    """One variant's unit under check."""

    unit: Unit
    memory: Memory = field(default_factory=dict)
    named: Mapping[str, Collection[str]] = field(default_factory=dict)
    _apart: dict[tuple[str, str], tuple[Fraction | float, tuple[str, ...]]] = field(default_factory=dict)
    _layouts: dict[str, DrawnLayout] = field(default_factory=dict)

    @cached_property
    def references(self) -> list[tuple[Path, Reference]]:
        """Everything that is named anywhere in the unit, with the whole path of where."""
        found: list[tuple[Path, Reference]] = []
        for name, field_ in Unit.model_fields.items():
            value, key = getattr(self.unit, name), str(field_.alias)
            if isinstance(value, dict):
                for entry, definition in value.items():
                    found += [((key, entry, *one.path), one) for one in self._references(definition)]
            elif isinstance(value, Definition):
                found += [((key, *one.path), one) for one in self._references(value)]
        top = (("base", "part", self.unit.base), ("starts", "attitude", self.unit.starts))
        found += [((key,), Reference(subject, value, ())) for key, subject, value in top]
        return found

    def _references(self, definition: Definition) -> tuple[Reference, ...]:
        known = self.memory.get(id(definition))
        if known is None:
            known = self.memory[id(definition)] = references(definition)
        return known

    @cached_property
    def tree(self) -> Tree:
        """The tree of `lies in`."""
        return Tree(self.unit)

    @cached_property
    def sizes(self) -> Sizes:
        """The sizes as drawn."""
        return Sizes(self.unit)

    @cached_property
    def sizes_unknown(self) -> Sizes:
        """The sizes as drawn, and each selective part anywhere between its smallest and its largest."""
        return self.sizes.at_any_size()

    def layout(self, axis: str) -> DrawnLayout:
        """The stops and seats of one axis as drawn, every stop whole, in exact lengths."""
        if axis not in self._layouts:
            self._layouts[axis] = self._layout(axis)
        return self._layouts[axis]

    def apart(self, first: str, second: str) -> tuple[Fraction | float, tuple[str, ...]]:
        """How far apart the stops as drawn let two faces get [m], and which stops those are."""
        if (first, second) not in self._apart:
            layout = self.layout(self.unit.axis_of(part_of(first)))
            self._apart[first, second] = layout.longest(first, second)
        return self._apart[first, second]

    def shortest(self, name: str) -> Fraction | float:
        """How short the stops can come to hold a load [m], every size at its worst; infinite where none holds it."""
        seats = self.unit.loads[name].seats
        drawn = self.layout(self.unit.axis_of(part_of(seats[0]))) if seats is not None else None
        spring = self._spring(name, drawn) if drawn is not None else None
        if drawn is None or spring is None:
            return inf
        alone = rest.Layout(drawn.layout.points, drawn.layout.stops, (spring,), drawn.layout.fixed)
        try:
            held = cut.paths(alone, spring)
        except rest.Misfit:
            # Seats that cannot be so far apart are told as such.
            return inf
        return min((path_span(self.unit, self.sizes_unknown, name, path.stops).low for path in held.found), default=inf)

    @cached_property
    def leaning(self) -> dict[str, tuple[cut.Path, ...]]:
        """For each load, the ways that hold it by leaning on the springs of others; empty where there are none.

        Where springs push each other, no stop alone says how long one of them is.
        """
        return {name: self._leaning(name, load) for name, load in self.unit.loads.items() if load.seats is not None}

    def _leaning(self, name: str, load: Load) -> tuple[cut.Path, ...]:
        assert load.seats is not None
        drawn = self.layout(self.unit.axis_of(part_of(load.seats[0])))
        own = self._spring(name, drawn)
        others = [self._spring(other, drawn) for other in self.unit.loads if other != name]
        if own is None or not any(others):
            return ()
        springs = (own, *(one for one in others if one is not None))
        layout = rest.Layout(drawn.layout.points, drawn.layout.stops, springs, drawn.layout.fixed)
        return tuple(path for path in cut.paths(layout, own).found if path.springs)

    def _spring(self, name: str, drawn: DrawnLayout) -> rest.Spring | None:
        """A load as one spring of its longest free and its solid length; nothing off this axis or without them."""
        load = self.unit.loads[name]
        if load.seats is None or any(seat not in drawn.layout.points for seat in load.seats):
            return None
        data = [spring for part in load.springs if (spring := self.unit.parts[part].spring) is not None]
        free, solids = longest_free(self.unit, load), [solid_length(one) for one in data]
        if free is None:
            return None
        solid = max((one for one in solids if one is not None and one < free), default=Fraction(0))
        return rest.Spring(name, *load.seats, 1.0, free * drawn.scale, solid * drawn.scale)

    def _layout(self, axis: str) -> DrawnLayout:
        unit = self.unit
        places: dict[str, Fraction] = {}
        gaps: dict[str, Fraction] = {}

        def place(*faces: str) -> bool:
            on_axis = all(unit.axis_of(part_of(face)) == axis for face in faces)
            for face in faces if on_axis else ():
                part, _, name = face.partition(" ")
                places[face] = unit.parts[part].faces[name].nominal
            return on_axis

        for name, stop in unit.stops.items():
            if part_of(stop.a) != part_of(stop.b) and place(stop.a, stop.b):
                gaps[name] = self.sizes.drawn_gap(name)
        for load in unit.loads.values():
            # A seat that leads nowhere is told as such; the stops are compared all the same.
            if load.seats is not None and all(_is_face(unit, seat) for seat in load.seats):
                place(*load.seats)
        scale = lcm(*(length.denominator for length in (*places.values(), *gaps.values())))
        points: dict[Hashable, rest.Point] = {
            face: rest.Point(part_of(face), int(at * scale)) for face, at in places.items()
        }
        stops = tuple(self._stop(name, int(gap * scale), unit.axes[axis].end) for name, gap in gaps.items())
        return DrawnLayout(rest.Layout(points, stops, (), frozenset({unit.base})), scale)

    def _stop(self, name: str, gap: int, end: str) -> rest.Stop:
        stop = self.unit.stops[name]
        a, b = (stop.a, stop.b) if stop.toward == end else (stop.b, stop.a)
        return rest.Stop(name, a, b, gap)


@dataclass(frozen=True)
class DrawnLayout:
    """A layout in whole numbers, so that exact lengths are quick to compare: so many to a metre."""

    layout: rest.Layout
    scale: int

    def longest(self, first: str, second: str) -> tuple[Fraction | float, tuple[str, ...]]:
        """How far apart two faces can get [m] before the stops hold them, and which stops do."""
        if second not in self.layout.points:
            return inf, ()
        length, stops = rest.longest_length(self.layout, rest.Spring("", first, second, 1.0, 1, 0))
        return inf if length == inf else Fraction(int(length), self.scale), tuple(str(stop) for stop in stops)


def part_of(face: str) -> str:
    """The part of a face written `PART face`."""
    return face.partition(" ")[0]


def _is_face(unit: Unit, face: str) -> bool:
    part, _, name = face.partition(" ")
    return part in unit.parts and name in unit.parts[part].faces
