"""What a job needs in parts that are sold: renewed ones, always-renew parts, whole sets, and assemblies."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from layshaft.book.definition import Unit
from layshaft.book.definition.part import sold_id
from layshaft.quantity import LENGTH, Show

SHOW = Show()


@dataclass(frozen=True, slots=True)
class Need:
    """So many pieces of a part that is sold, by the id it is sold by, in one size where it has several, and why."""

    part: str
    pieces: int
    why: tuple[str, ...]
    size: Fraction | None = None


@dataclass
class _Gathering:
    pieces: dict[str, int] = field(default_factory=dict)
    why: dict[str, list[str]] = field(default_factory=dict)

    def ask(self, part: str, pieces: int, reason: str) -> bool:
        """Take down that so many are needed; tell whether that is more than was known."""
        if reason not in self.why.setdefault(part, []):
            self.why[part].append(reason)
        is_more = pieces > self.pieces.get(part, 0)
        if is_more:
            self.pieces[part] = pieces
        return is_more


def gather_needs(
    unit: Unit,
    renew: Mapping[str, int],
    sizes: Mapping[str, Fraction] | None = None,
    opened: Collection[str] | None = None,
) -> tuple[Need, ...]:
    """Every need, each by what it is sold as, in the order of the book.

    `opened` are the parts a job reaches, nothing for the whole unit.
    """
    return add_up(unit, needs_by_place(unit, renew, sizes, opened))


def add_up(unit: Unit, needs: Iterable[Need]) -> tuple[Need, ...]:
    """Needs of parts put together by what is bought: several places of one sold part are one need, with their sum."""
    added: dict[tuple[str, Fraction | None], Need] = {}
    for need in needs:
        sold = sold_id(unit.parts, need.part)
        why = need.why if sold == need.part else tuple(f"{need.part}: {reason}" for reason in need.why)
        before = added.get((sold, need.size), Need(sold, 0, (), need.size))
        added[sold, need.size] = Need(sold, before.pieces + need.pieces, (*before.why, *why), need.size)
    return tuple(added.values())


def needs_by_place(
    unit: Unit,
    renew: Mapping[str, int],
    sizes: Mapping[str, Fraction] | None = None,
    opened: Collection[str] | None = None,
) -> tuple[Need, ...]:
    """Every need part by part, before several places of one sold part are added up."""
    gathering = _Gathering()
    for part, pieces in renew.items():
        _ask_renewed(unit, gathering, part, pieces)
    for name, definition in unit.parts.items():
        if definition.renew == "always" and (opened is None or name in opened):
            gathering.ask(name, definition.count, "always renewed")
    chosen = _chosen(unit, sizes or {})
    for part, counted in chosen.items():
        told = " and ".join(SHOW.show_exact(size, LENGTH) for size in counted)
        gathering.ask(part, counted.total(), f"{told} chosen")
    _carry(unit, gathering)
    return tuple(need for part in unit.parts if part in gathering.pieces for need in _needs(part, gathering, chosen))


def _chosen(unit: Unit, sizes: Mapping[str, Fraction]) -> dict[str, Counter[Fraction]]:
    """How many pieces of each part are to be of which size; a place is `PART`, or `PART 2` for one of several."""
    chosen: dict[str, Counter[Fraction]] = {}
    for place, size in sizes.items():
        part = place if place in unit.parts else place.rpartition(" ")[0]
        chosen.setdefault(part, Counter())[size] += unit.parts[part].count if part == place else 1
    return chosen


def _needs(part: str, gathering: _Gathering, chosen: Mapping[str, Counter[Fraction]]) -> Iterator[Need]:
    left, why = gathering.pieces[part], tuple(gathering.why[part])
    for size, pieces in chosen.get(part, Counter[Fraction]()).items():
        left -= pieces
        yield Need(part, pieces, why, size)
    if left > 0:
        yield Need(part, left, why)


def _ask_renewed(unit: Unit, gathering: _Gathering, part: str, pieces: int) -> None:
    count = unit.parts[part].count
    if not 0 <= pieces <= count:
        raise ValueError(f"{pieces} of {part} cannot be renewed: there are {count}")
    if pieces:
        gathering.ask(part, pieces, "renewed" if count == 1 else f"{pieces} of {count} renewed")


def _carry(unit: Unit, gathering: _Gathering) -> None:
    """Carry needs to sets and assemblies until nothing more comes of it."""
    is_moving = True
    while is_moving:
        is_moving = _carry_to_sets(unit, gathering)
        for part in list(gathering.pieces):
            served_in = unit.parts[part].served_in
            if served_in is not None:
                pieces, reasons = gathering.pieces.pop(part), gathering.why.pop(part)
                for reason in reasons:
                    reason = f"{part} ({reason}) is served in it"
                    gathering.ask(served_in, _assemblies(unit, part, pieces, served_in), reason)
                is_moving = True


def _carry_to_sets(unit: Unit, gathering: _Gathering) -> bool:
    is_moving = False
    for mating in unit.sets.values():
        first = next((member for member in mating.members if member in gathering.pieces), None)
        if mating.rule != "renew together" or first is None:
            continue
        for member in mating.members:
            count = unit.parts[member].count
            if gathering.pieces.get(member, 0) < count and not _is_bought_with(unit, member, gathering):
                is_moving |= gathering.ask(member, count, f"renewed together with {first}")
    return is_moving


def _is_bought_with(unit: Unit, part: str, gathering: _Gathering) -> bool:
    """Whether a part comes in an assembly that is bought anyway."""
    served_in = unit.parts[part].served_in
    while served_in is not None:
        if served_in in gathering.pieces:
            return True
        served_in = unit.parts[served_in].served_in
    return False


def _assemblies(unit: Unit, part: str, pieces: int, served_in: str) -> int:
    """The most assemblies that so many pieces can be spread over."""
    count: int = unit.parts[served_in].count
    return min(pieces, count)
