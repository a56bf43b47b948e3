"""Which parts a planner keeps its hands off while a load is live, and what has to be broken before it is taken up.

One path of stops holds a spring, the shortest; longer ones back it up. While the holding path is surely whole, a
backup may be broken without anything moving. So a part needs a release session, or the load free, when its leaving

* parts the spring from a seat, or
* breaks the holding path, a shorter one that nobody has looked at, or one that leans on another spring, or
* breaks a backup that the session which breaks the holding path can break too: onto such a backup the load may have
  been let down.

A part that breaks no path but such as are broken already may leave: nothing moves.

Every other backup has to be broken before a session is entered that breaks the holding path; otherwise the load would
come to rest on it with no way to take it up again. Where no order is found so, a load may be let down onto a backup
that another release way can break (`lets_down`); its parts are then kept too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from layshaft.plan.bench import Bench
from layshaft.plan.length import SAME_LENGTH
from layshaft.plan.load import Loads
from layshaft.plan.loaded import Holding
from layshaft.plan.state import State

ReleaseWay = tuple[str, int]
"""A load and the number of one of its release ways."""


@dataclass(frozen=True, slots=True)
class Guard:
    """One live load as the planner sees it; all parts as bits.

    `seats`: any of these gone parts the spring from a seat. `kept`: leaves only in a session, when the load is free, or
    when what it would break is broken. `freeing`: clauses that all have to be met before it is free. `before`: for each
    release way that takes it up, its own or another load's, clauses that have to be met before that is entered.
    """

    load: str
    seats: int
    kept: int
    freeing: tuple[int, ...]
    before: Mapping[ReleaseWay, tuple[int, ...]]
    paths: tuple[Holding, ...] = ()

    def quiet(self, part: int) -> tuple[int, ...]:
        """Clauses after which a part's leaving moves nothing: the load free, or each path it would break broken."""
        if part & self.seats:
            return self.freeing
        return tuple(path.breakers for path in self.paths if path.breakers & part)

    def eases_with(self, part: int, load: str) -> bool:
        """Whether a part's leaving only lets this load down as another, held, load is let off: it leans on that one."""
        broken = [path for path in self.paths if path.breakers & part]
        return not part & self.seats and bool(broken) and all(load in path.leans_on for path in broken)


def guard(
    bench: Bench,
    loads: Loads,
    state: State,
    load: str,
    *,
    lets_down: bool = False,
    frees_first: bool = False,
    taken_with: Iterable[ReleaseWay] = (),
) -> Guard:
    """How the planner guards a live load in a state; with `lets_down` it may come to rest on a backup.

    With `frees_first` a spring that pushes back is none of its holders where it rests on a firm path without that one.
    `taken_with` are release ways of other loads that take it up too.
    """
    seats = loads.breakers(load)
    own = ((load, index) for index in range(len(bench.unit.loads[load].releases)))
    reaches = {way: bench.mask(bench.unit.loads[way[0]].releases[way[1]].reach) for way in (*own, *taken_with)}
    if bench.unit.loads[load].seats is None:
        return Guard(load, seats, seats, loads.freeing_clauses(load, ()), dict.fromkeys(reaches, ()))
    paths = loads.holding_paths(state, load, bench.gone(state))
    sure = loads.holding_paths(state, load, bench.gone(state) | loads.in_doubt(state))
    holding = _holding(paths, sure)
    if frees_first:
        holding = tuple(path for path in holding if not path.leans_on or _moves_without(loads, state, load, path))
    backups = tuple(path for path in paths if path not in holding)
    main = tuple(reach for reach in reaches.values() if _breaks(reach, holding))
    rests = tuple(path for path in backups if lets_down and not path.leans_on and _breaks_any(reaches.values(), path))
    kept = seats | _union(holding) | _union(path for path in backups if path in rests or _breaks_any(main, path))
    before = {
        way: tuple(path.breakers for path in backups if path not in rests and not reach & path.breakers)
        if _breaks(reach, holding)
        else ()
        for way, reach in reaches.items()
    }
    return Guard(load, seats, kept, loads.freeing_clauses(load, paths), before, paths)


def _holding(paths: tuple[Holding, ...], sure: tuple[Holding, ...]) -> tuple[Holding, ...]:
    """The shortest path that is surely whole, any shorter one that may be, all that lean; all when none is sure."""
    firm = next((path for path in sure if not path.leans_on), None)
    if firm is None or firm not in paths:
        return paths
    shorter = paths[: paths.index(firm) + 1]
    return tuple(path for path in paths if path in shorter or path.leans_on)


def _moves_without(loads: Loads, state: State, load: str, path: Holding) -> bool:
    """Whether a load would have another length, were the springs gone that a path leans on."""
    bench = loads.bench
    leant = bench.mask(part for name in path.leans_on for part in bench.unit.loads[name].springs)
    readings = (bench.gone(state), bench.gone(state) | loads.in_doubt(state))
    lengths = ((loads.evaluate(state, gone), loads.evaluate(state, gone | leant)) for gone in readings)
    return any(abs(then[load].length - now[load].length) > SAME_LENGTH for now, then in lengths)


def _breaks(reach: int, paths: Iterable[Holding]) -> bool:
    return any(reach & path.breakers for path in paths)


def _breaks_any(reaches: Iterable[int], path: Holding) -> bool:
    return any(reach & path.breakers for reach in reaches)


def _union(paths: Iterable[Holding]) -> int:
    bits = 0
    for path in paths:
        bits |= path.breakers
    return bits
