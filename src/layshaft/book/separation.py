"""Which parts of a unit are still together: the fixed tree that `lies in` makes, read with the set of parts taken out.

States are bit masks over the parts in book order: bit `i` is set when part `i` has been taken out of what it lies in.
Two parts are separated when the nearest taken-out part at or above each of them (or else the base) is not the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from layshaft.book.definition import Need, NeedAll, NeedAny, NeedPart, Unit

Clause = frozenset[int]
MOST_CLAUSES = 2048


class TooManyBranches(ValueError):
    """A need of alternatives within alternatives that nobody could follow at the bench, either."""


class Tree:
    """The tree of a unit's parts, rooted in its base; a part is known by its index in book order."""

    def __init__(self, unit: Unit) -> None:
        self.order: tuple[str, ...] = tuple(unit.parts)
        self.index: dict[str, int] = {part: at for at, part in enumerate(self.order)}
        self.base: int = self.index[unit.base]
        self.parent: tuple[int, ...] = tuple(
            -1 if part == unit.base else self.index[unit.parts[part].lies_in or unit.base] for part in self.order
        )
        self._chains: tuple[tuple[int, ...], ...] = tuple(self._climb(at) for at in range(len(self.order)))

    def _climb(self, at: int) -> tuple[int, ...]:
        chain: list[int] = []
        while at not in (self.base, -1):
            if at in chain:
                raise ValueError(f"{self.order[at]} lies in itself")
            chain.append(at)
            at = self.parent[at]
        return tuple(chain)

    def __len__(self) -> int:
        return len(self.order)

    @cached_property
    def children(self) -> tuple[tuple[int, ...], ...]:
        """The parts that lie directly in each part."""
        below: list[list[int]] = [[] for _ in self.order]
        for at, parent in enumerate(self.parent):
            if parent >= 0:
                below[parent].append(at)
        return tuple(tuple(some) for some in below)

    @cached_property
    def below(self) -> tuple[int, ...]:
        """For each part the mask of all parts under it, itself not counted."""
        masks = [0] * len(self.order)
        for at, chain in enumerate(self._chains):
            for above in chain[1:]:
                masks[above] |= 1 << at
        masks[self.base] = self.mask(range(len(self.order))) & ~(1 << self.base)
        return tuple(masks)

    def mask(self, parts: Iterable[int]) -> int:
        """The bit mask of some part indices."""
        bits = 0
        for at in parts:
            bits |= 1 << at
        return bits

    def mask_of(self, names: Iterable[str]) -> int:
        """The bit mask of some part names."""
        return self.mask(self.index[name] for name in names)

    def names(self, mask: int) -> tuple[str, ...]:
        """The part names in a bit mask, in book order."""
        return tuple(self.order[at] for at in bits_of(mask))

    def chain(self, part: int) -> tuple[int, ...]:
        """The part, what it lies in, and so on up to just below the base."""
        return self._chains[part]

    def root(self, state: int, part: int) -> int:
        """The nearest part taken out at or above this one, or else the base."""
        for at in self._chains[part]:
            if state >> at & 1:
                return at
        return self.base

    def separated(self, state: int, a: int, b: int) -> bool:
        """Whether two parts are no longer in one assembly."""
        return self.root(state, a) != self.root(state, b)

    def carried(self, state: int, part: int) -> int:
        """The mask of parts that lift with a part when it is taken out now, itself not counted."""
        mask, waiting = 0, [part]
        while waiting:
            for child in self.children[waiting.pop()]:
                if not state >> child & 1:
                    mask |= 1 << child
                    waiting.append(child)
        return mask

    def assembly(self, state: int, part: int) -> int:
        """The mask of all parts in one assembly with this one, itself counted."""
        root = self.root(state, part)
        return self.carried(state, root) | 1 << root

    def parting(self, parts: Iterable[int]) -> Clause:
        """The parts of which any one taken out separates these from each other; empty when nothing can."""
        chains = [self._chains[at] for at in parts]
        if not chains:
            return frozenset()
        shared = frozenset(chains[0]).intersection(*chains[1:])
        return frozenset().union(*chains) - shared

    def need_clauses(self, part: int, need: Need) -> tuple[Clause, ...]:
        """What has to have been taken out before `part` may leave, as clauses that must each hold one taken-out part.

        An empty clause can never be met; no clause at all means that nothing is asked.
        """
        return smallest(self._clauses(part, need))

    def _clauses(self, part: int, need: Need) -> list[Clause]:
        if isinstance(need, NeedPart):
            return [self.parting((part, self.index[need.part])) - {part}]
        inner = [self._clauses(part, item) for item in need.items]
        if isinstance(need, NeedAll):
            return [clause for clauses in inner for clause in clauses]
        product: list[Clause] = [frozenset()]
        for clauses in inner:
            if len(product) * len(clauses) > MOST_CLAUSES:
                raise TooManyBranches(f"a need of {self.order[part]} branches more than {MOST_CLAUSES} ways")
            product = list(smallest(left | right for left in product for right in clauses))
        return product

    def needs_clauses(self, part: int, needs: Iterable[NeedPart | NeedAny | NeedAll]) -> tuple[Clause, ...]:
        """The clauses of several needs that must all be met."""
        return smallest(clause for need in needs for clause in self._clauses(part, need))


def smallest(clauses: Iterable[Clause]) -> tuple[Clause, ...]:
    """Drop every clause that another one inside it already asks for; in a fixed order."""
    kept: list[Clause] = []
    for clause in sorted(set(clauses), key=lambda one: (len(one), sorted(one))):
        if not any(other <= clause for other in kept):
            kept.append(clause)
    return tuple(kept)


def is_met(clauses: Iterable[Clause], state: int) -> bool:
    """Whether each clause holds a part that has been taken out."""
    return all(any(state >> at & 1 for at in clause) for clause in clauses)


def bits_of(mask: int) -> Iterator[int]:
    """The indices in a bit mask, lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low
