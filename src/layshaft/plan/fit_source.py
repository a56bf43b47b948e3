"""Where the piece for each place comes from: each of the unit's own goes to one place; the drawer; what is bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.plan.drawer import OwnPiece, SelectivePlace

Kind = Literal["own", "used", "drawer", "bought"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where one piece comes from."""

    kind: Kind
    own: OwnPiece | None = None


USED, DRAWER, BOUGHT = Source("used"), Source("drawer"), Source("bought")


def sources_of(places: Mapping[str, SelectivePlace], sizes: Mapping[str, Fraction]) -> dict[str, Source]:
    """The source of each place that has a size: first the unit's own pieces, each at its own place if it can be."""
    taken: dict[tuple[str, Fraction], list[str]] = {}
    for name, size in sizes.items():
        taken.setdefault((places[name].drawer, size), []).append(name)
    found: dict[str, Source] = {}
    for (_, size), names in taken.items():
        found |= dict(_shared_out(places, size, names))
    return {name: found[name] for name in sizes}


def _shared_out(
    places: Mapping[str, SelectivePlace], size: Fraction, names: list[str]
) -> Iterator[tuple[str, Source]]:
    first = places[names[0]]
    own = {one.place: one for one in first.own if one.size == size}
    at_home = [name for name in names if name in own]
    yield from ((name, Source("own", own.pop(name))) for name in at_home)
    left = [name for name in names if name not in at_home]
    moved = list(zip(left, own.values(), strict=False))
    yield from ((name, Source("own", piece)) for name, piece in moved)
    used, new = first.used.get(size, 0), first.stock.get(size, 0)
    for at, name in enumerate(left[len(moved) :]):
        yield name, USED if at < used else DRAWER if at < used + new else BOUGHT


def shortage(places: Mapping[str, SelectivePlace]) -> int:
    """At how many places no piece of the unit's own can be, whichever way they are put."""
    wanted = Counter(one.drawer for one in places.values())
    there = {one.drawer: len(one.own) for one in places.values()}
    return sum(max(0, number - there[drawer]) for drawer, number in wanted.items())
