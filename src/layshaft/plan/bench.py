"""The facts of one unit made ready for quick questions about its states.

Parts are bits. Which needs are met and which stops are whole are then single operations on integers: two parts are
separated when any part on the way between them in the `lies in` tree is detached.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, reduce
from itertools import product
from operator import or_

from layshaft.book.definition import Need, NeedAll, NeedAny, NeedPart, Stop, Unit, Way
from layshaft.book.separation import Tree, bits_of
from layshaft.plan.state import Condition, State


def face_part(face: str) -> str:
    """The part that a face, written `PART face`, is on."""
    return face.split(" ", 1)[0]


@dataclass(frozen=True, slots=True)
class Clause:
    """One thing that has to be so: any of `events` was detached, or any of the `holders` is gone; both as bits."""

    events: int
    holders: int
    asked: tuple[str, ...]

    def is_met(self, detached: int, gone: int) -> bool:
        """Whether the clause is met in a state."""
        return bool(self.events & detached or self.holders & gone)

    def or_else(self, other: Clause) -> Clause:
        """The clause that is met when either is."""
        return Clause(self.events | other.events, self.holders | other.holders, (*self.asked, *other.asked))


class Bench:
    """A unit's parts, tree and stops as bits."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.tree = Tree(unit)
        self.names = self.tree.order
        self.index = self.tree.index

    def bit(self, part: str) -> int:
        """The bit of a part."""
        return 1 << self.index[part]

    def mask(self, parts: Iterable[str]) -> int:
        """The bits of several parts."""
        return self.tree.mask_of(parts)

    def parts(self, mask: int) -> Iterator[str]:
        """The parts of a mask, in the book's order."""
        return (self.names[at] for at in bits_of(mask))

    def joining(self, parts: Iterable[str]) -> int:
        """The parts of which any one detached means that these are no longer all in one assembly."""
        return self.tree.mask(self.tree.parting(self.index[part] for part in parts))

    def root(self, detached: int, part: str) -> str:
        """The part that leads the assembly a part is in; the base while it is in the unit."""
        return self.names[self.tree.root(detached, self.index[part])]

    @cached_property
    def chain_masks(self) -> dict[str, int]:
        """For each part, itself and everything it lies in up to but without the base, as bits."""
        return {name: self.tree.mask(self.tree.chain(at)) for name, at in self.index.items()}

    def is_in_unit(self, detached: int, part: str) -> bool:
        """Whether a part has neither come out nor gone along with anything that did."""
        return not detached & self.chain_masks[part]

    def carried(self, detached: int, part: str) -> int:
        """What leaves along with a part: all that lies in it and has not come out before, itself too."""
        at = self.index[part]
        return self.tree.carried(detached, at) | 1 << at

    @cached_property
    def movable(self) -> int:
        """The parts that can come out by themselves."""
        found = (name for name, part in self.unit.parts.items() if part.ways and name != self.unit.base)
        return self.mask(found)

    @cached_property
    def movable_in_book_order(self) -> tuple[str, ...]:
        """The parts that can come out by themselves, as the book lists them."""
        return tuple(self.parts(self.movable))

    def clauses(self, part: str, need: Need) -> tuple[Clause, ...]:
        """A need of a part as clauses that all have to be met; alternatives of groups are multiplied out."""
        match need:
            case NeedPart(part=holder):
                events = self.joining((part, holder)) & ~self.bit(part)
                return (Clause(events, self.bit(holder), (holder,)),)
            case NeedAll(items=items):
                return tuple(clause for item in items for clause in self.clauses(part, item))
            case NeedAny(items=items):
                choices = [self.clauses(part, item) for item in items]
                return tuple(reduce(Clause.or_else, picked) for picked in product(*choices))
        raise TypeError(need)

    @cached_property
    def needs(self) -> dict[tuple[str, int], tuple[Clause, ...]]:
        """For each part and each of its ways what has to be met, without loads and attitudes."""
        return {
            (name, index): self._way_clauses(name, way)
            for name, part in self.unit.parts.items()
            for index, way in enumerate(part.ways)
        }

    @cached_property
    def leaning(self) -> tuple[int, ...]:
        """For each part, by its number, the parts of which some way waits for it, as bits."""
        found = [0] * len(self.names)
        for (name, _), clauses in self.needs.items():
            for clause in clauses:
                for at in bits_of(clause.events | clause.holders):
                    found[at] |= self.bit(name)
        return tuple(found)

    def leaning_on(self, parts: int) -> int:
        """The parts of which some way waits for any of these, as bits."""
        return reduce(or_, (self.leaning[at] for at in bits_of(parts)), 0)

    def _way_clauses(self, name: str, way: Way) -> tuple[Clause, ...]:
        clauses = [clause for need in (*way.held_by, *way.behind) for clause in self.clauses(name, need)]
        if way.on_bench:
            parent = self.names[self.tree.parent[self.index[name]]]
            clauses.append(Clause(self.chain_masks[parent], 0, (parent,)))
        return tuple(clauses)

    @cached_property
    def falls_in(self) -> dict[tuple[str, int], frozenset[str]]:
        """For each way the attitudes in which a part that nothing holds would fall out by it."""
        return {
            (name, index): self._falls_in(name, way)
            for name, part in self.unit.parts.items()
            for index, way in enumerate(part.ways)
        }

    def _falls_in(self, name: str, way: Way) -> frozenset[str]:
        if way.tool or way.support or way.on_bench or self.unit.parts[name].stays:
            return frozenset()
        return self.down(name, way.toward)

    def down(self, part: str, toward: str) -> frozenset[str]:
        """The attitudes in which a direction points to the floor."""
        axis = self.unit.axes[self.unit.axis_of(part)]
        if toward == axis.start:
            return frozenset(axis.end_is_up)
        if toward == axis.end:
            return frozenset(axis.start_is_up)
        opening = self.unit.openings.get(toward)
        return frozenset(opening.faces_down) if opening else frozenset()

    @cached_property
    def sits_apart(self) -> frozenset[str]:
        """Parts of several pieces, each at a place of its own: a stop or a spring bears on the part itself.

        Of others, screws round a cover, any so many do; of these it matters which one is gone.
        """
        seats = [face for load in self.unit.loads.values() for face in load.seats or ()]
        stops = [face for stop in self.unit.stops.values() for face in (stop.a, stop.b)]
        return frozenset(part for face in (*seats, *stops) if self.unit.parts[part := face_part(face)].count > 1)

    def gone(self, state: State) -> int:
        """Parts that hold nothing any more: known broken or missing."""
        lost = (Condition.BROKEN, Condition.MISSING)
        return self.mask(name for name, known in state.conditions if known in lost)

    def unknown(self, state: State) -> int:
        """Parts of which nobody has seen whether they, or what stands in their place, still hold."""
        doubtful = (Condition.UNKNOWN, Condition.NOT_FOUND)
        return self.mask(name for name, known in state.conditions if known in doubtful)

    def thinned(self, state: State) -> int:
        """Parts of which some pieces are off or broken and others are left."""
        return self.mask(name for name, pieces in (*state.partial, *state.broken) if pieces)

    @cached_property
    def stop_parts(self) -> dict[str, tuple[str, ...]]:
        """The parts that each stop needs."""
        return {name: self._parts_of(stop) for name, stop in self.unit.stops.items()}

    def _parts_of(self, stop: Stop) -> tuple[str, ...]:
        members = [face_part(stop.a), face_part(stop.b), *stop.by]
        for pack in stop.packs:
            for item in self.unit.packs[pack].order:
                members.extend(item.alternate or ((item.part,) if item.part else ()))
        return tuple(dict.fromkeys(members))

    @cached_property
    def stop_breakers(self) -> dict[str, int]:
        """For each stop the parts of which any one detached breaks it."""
        return {name: self.joining(parts) for name, parts in self.stop_parts.items()}

    @cached_property
    def stop_members(self) -> dict[str, int]:
        """For each stop its own parts as bits."""
        return {name: self.mask(parts) for name, parts in self.stop_parts.items()}
