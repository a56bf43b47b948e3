"""What holds what: nothing lies in itself, nothing is held in a circle, and what has a way out can come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.book.check.subject import Subject
from layshaft.book.circle import circles
from layshaft.book.definition import NeedAll, NeedAny, NeedPart, Unit
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.separation import MOST_CLAUSES, Clause, TooManyBranches, Tree, bits_of


@dataclass(frozen=True)
class Demand:
    """One clause of one way out: any of these parts has to come out first; said of which parts, and where."""

    events: int
    word: str
    asked: tuple[str, ...]
    path: Path


Ways = dict[int, list[list[Demand]]]


def check_lying(unit: Unit) -> Iterator[Fault]:
    """Parts that lie in each other in a circle; parts are taken to exist."""
    lies_in = {name: (part.lies_in,) for name, part in unit.parts.items() if part.lies_in is not None}
    for circle in circles(lies_in):
        chain = ", ".join(f"{name} lies in {lies_in[name][0]}" for name in circle)
        yield fault("lies in itself", path=("parts", circle[0], "lies in"), found=chain)
    if unit.parts[unit.base].lies_in is not None:
        yield fault("base lies in", path=("parts", unit.base, "lies in"), found=str(unit.parts[unit.base].lies_in))


def check_holding(subject: Subject) -> Iterator[Fault]:
    """Circles of parts that hold each other, and parts that can never come out; loads are not asked."""
    unit, tree = subject.unit, subject.tree
    if unit.parts[unit.base].ways:
        yield fault("base has ways", path=("parts", unit.base, "ways"), found=unit.base)
    try:
        ways = _ways(unit, tree)
    except _Branching as branching:
        yield fault("need branches", path=branching.path, found=f"more than {MOST_CLAUSES} ways to meet it")
        return
    out = _come_out(ways)
    stuck = {at: ways[at] for at in ways if not out >> at & 1}
    movable = tree.mask(stuck)
    edges = {at: _waits_for(stuck[at], out, movable) for at in stuck}
    for circle in circles(edges):
        yield _circle_fault(tree, stuck, out, circle)
    for at, demands in stuck.items():
        if not edges[at]:
            yield _never_fault(tree, at, demands, out)


def _ways(unit: Unit, tree: Tree) -> Ways:
    """For each part with ways out, what each way demands."""
    ways: Ways = {}
    for name, part in unit.parts.items():
        if part.ways and name != unit.base:
            at = tree.index[name]
            ways[at] = [
                _demands(tree, at, ("parts", name, "ways", number), way.held_by, way.behind, way.on_bench)
                for number, way in enumerate(part.ways)
            ]
    return ways


Need = NeedPart | NeedAny | NeedAll


def _demands(
    tree: Tree, at: int, path: Path, held_by: tuple[Need, ...], behind: tuple[Need, ...], on_bench: bool
) -> list[Demand]:
    demands: list[Demand] = []
    for key, word, needs in (("held by", "is held by", held_by), ("behind", "is behind", behind)):
        for number, need in enumerate(needs):
            asked = tuple(_asked(need))
            for clause in _clauses(tree, at, need, (*path, key, number)):
                named = tuple(name for name in asked if tree.parting((at, tree.index[name])) - {at} <= clause)
                demands.append(Demand(tree.mask(clause), word, named or asked, (*path, key, number)))
    if on_bench:
        above = tree.chain(at)[1:]
        demands.append(
            Demand(
                tree.mask(above),
                "comes out on the bench, after",
                tuple(tree.order[one] for one in above),
                (*path, "on bench"),
            )
        )
    return demands


class _Branching(Exception):
    """A need that branches beyond bounds, and where it stands."""

    def __init__(self, path: Path) -> None:
        super().__init__(path)
        self.path = path


def _clauses(tree: Tree, at: int, need: Need, path: Path) -> tuple[Clause, ...]:
    try:
        return tree.need_clauses(at, need)
    except TooManyBranches:
        raise _Branching(path) from None


def _asked(need: Need) -> Iterator[str]:
    if isinstance(need, NeedPart):
        yield need.part
    else:
        for item in need.items:
            yield from _asked(item)


def _come_out(ways: Ways) -> int:
    """All parts that can come out in some order, as a mask: what is met once stays met, so one order finds all."""
    out = 0
    waiting = dict(ways)
    while True:
        free = [
            at
            for at, each in waiting.items()
            if any(all(demand.events & out for demand in demands) for demands in each)
        ]
        if not free:
            return out
        for at in free:
            out |= 1 << at
            del waiting[at]


def _waits_for(ways: list[list[Demand]], out: int, movable: int) -> list[int]:
    """The stuck parts that a part waits for over any of its ways."""
    waits = 0
    for demands in ways:
        for demand in demands:
            if not demand.events & out:
                waits |= demand.events & movable
    return list(bits_of(waits))


def _circle_fault(tree: Tree, stuck: Ways, out: int, circle: tuple[int, ...]) -> Fault:
    links: list[str] = []
    path: Path = ()
    for place, at in enumerate(circle):
        after = circle[(place + 1) % len(circle)]
        demand = next(
            one for demands in stuck[at] for one in demands if not one.events & out and one.events >> after & 1
        )
        path = path or demand.path
        holder = tree.order[after]
        if holder in demand.asked or demand.word.startswith("comes"):
            links.append(f"{tree.order[at]} {demand.word} {holder}")
        else:
            links.append(
                f"{tree.order[at]} {demand.word} {' or '.join(demand.asked)}, which lies in {holder}"
                if not tree.chain(at).count(after)
                else f"{tree.order[at]} lies in {holder} and {demand.word} {' or '.join(demand.asked)}"
            )
    return fault("held in a circle", path=path, found=", ".join(links))


def _never_fault(tree: Tree, at: int, ways: list[list[Demand]], out: int) -> Fault:
    blocking = [next(one for one in demands if not one.events & out) for demands in ways]
    told = "; ".join(dict.fromkeys(_said(tree, at, one) for one in blocking))
    return fault("never comes out", path=blocking[0].path, found=told, part=tree.order[at])


def _said(tree: Tree, at: int, demand: Demand) -> str:
    """What a demand asks for, with why that does not help where it lies above the part."""
    if not demand.asked:
        return "it comes out on the bench only, but lies in the base itself"
    above = {tree.order[one] for one in tree.chain(at)[1:]}
    base = tree.order[tree.base]
    holders = " or ".join(
        f"{name}, which it lies in" if name in above else f"{name}, the base" if name == base else name
        for name in demand.asked
    )
    return f"it {demand.word} {holders}"
