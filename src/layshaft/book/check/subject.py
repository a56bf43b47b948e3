"""The unit under check, with what several checks ask of it worked out once."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from layshaft.book.definition import Unit
from layshaft.book.definition.base import Definition
from layshaft.book.fault import Path
from layshaft.book.reference import Reference, references
from layshaft.book.separation import Tree
from layshaft.book.size import Sizes
from layshaft.mechanics import rest

Memory = dict[int, tuple[Reference, ...]]
"""What each definition names, kept while a book's variants are checked: most of them share it."""


@dataclass(eq=False)
class Subject:
    """One variant's unit under check."""

    unit: Unit
    memory: Memory = field(default_factory=dict)
    _layouts: dict[str, rest.Layout] = field(default_factory=dict)

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

    def layout(self, axis: str) -> rest.Layout:
        """The stops and seats of one axis as drawn, every stop whole, in exact lengths."""
        if axis not in self._layouts:
            self._layouts[axis] = self._layout(axis)
        return self._layouts[axis]

    def _layout(self, axis: str) -> rest.Layout:
        unit = self.unit
        faces: dict[str, rest.Point] = {}
        stops: list[rest.Stop] = []

        def place(*some: str) -> bool:
            on_axis = all(unit.axis_of(part_of(face)) == axis for face in some)
            for face in some if on_axis else ():
                faces[face] = rest.Point(part_of(face), self.sizes.coordinate(face).nominal)
            return on_axis

        for name, stop in unit.stops.items():
            if place(stop.a, stop.b):
                is_toward_end = stop.toward == unit.axes[axis].end
                a, b = (stop.a, stop.b) if is_toward_end else (stop.b, stop.a)
                stops.append(rest.Stop(name, a, b, self.sizes.stop_gap(name).nominal))
        for load in unit.loads.values():
            place(*(load.seats or ()))
        return rest.Layout(faces, tuple(stops), (), frozenset({unit.base}))


def part_of(face: str) -> str:
    """The part of a face written `PART face`."""
    return face.partition(" ")[0]
