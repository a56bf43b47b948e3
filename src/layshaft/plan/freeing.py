"""Which smallest sets of retainers free a load: rings, screws and caps that something waits for."""

from __future__ import annotations

from collections.abc import Hashable, Iterator

from layshaft.book.definition import Need, NeedPart, Unit
from layshaft.mechanics import cut
from layshaft.plan.bench import Bench
from layshaft.plan.length import is_present, spring_id, whole_layout
from layshaft.plan.load import Loads
from layshaft.plan.state import State


def freeing_sets(bench: Bench, loads: Loads, state: State, load: str) -> cut.Cuts:
    """Every smallest set of retainers whose going breaks all that holds a load short of its longest free length.

    What nobody has looked at counts as whole. A retainer of several pieces counts once, for it holds as long as
    enough of them do. A path that no retainer breaks stands in `fast`: then only other work frees the load.
    """
    if bench.unit.loads[load].seats is None:
        return _wound(bench, load)
    if not is_present(loads, state, load):
        return cut.Cuts((frozenset(),), (), True)
    found = cut.paths(whole_layout(loads, state), spring_id(loads, load, state))
    held_by = retainers(bench.unit)
    keep = bench.mask(held_by) & bench.movable & ~state.detached & ~bench.gone(state)
    parts: dict[Hashable, frozenset[Hashable]] = {
        stop: frozenset(bench.parts(breakers & keep)) for stop, breakers in bench.stop_breakers.items()
    }
    leant: dict[Hashable, frozenset[Hashable]] = {
        spring: frozenset(bench.parts(breakers & keep)) for spring, breakers in loads.spring_breakers.items()
    }
    return cut.smallest_cuts(found, parts, leant)


def holding_parts(bench: Bench, loads: Loads, state: State, load: str) -> int:
    """Every part whose going could let a load open further, or part its spring from a seat, as bits."""
    parts = loads.breakers(load)
    if bench.unit.loads[load].seats is None or not is_present(loads, state, load):
        return parts
    found = cut.paths(whole_layout(loads, state), spring_id(loads, load, state))
    if not found.is_complete:
        return bench.movable
    for path in found.found:
        for stop in path.stops:
            parts |= bench.stop_breakers[str(stop)]
        for spring in path.springs:
            parts |= loads.spring_breakers[str(spring)]
    return parts


def _wound(bench: Bench, load: str) -> cut.Cuts:
    """A wound spring is let go by parting it from either of the two parts it is wound between."""
    between = bench.unit.loads[load].wound_between or ()
    return cut.Cuts(tuple(frozenset((part,)) for part in between if bench.unit.parts[part].ways), (), True)


def retainers(unit: Unit) -> frozenset[str]:
    """The parts that hold others, by the book: all that stands in a `held by`, or in the reach of a release way."""
    needs = (need for part in unit.parts.values() for way in part.ways for need in way.held_by)
    held_by = {part for need in needs for part in _parts_of(need)}
    reach = {part for load in unit.loads.values() for release in load.releases for part in release.reach}
    return frozenset(held_by | reach)


def _parts_of(need: Need) -> Iterator[str]:
    if isinstance(need, NeedPart):
        yield need.part
    else:
        for item in need.items:
            yield from _parts_of(item)
