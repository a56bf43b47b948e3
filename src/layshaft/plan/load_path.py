"""The springs of a unit, and the rings, screws and caps that hold one: parts that nobody keeps against a verdict."""

from __future__ import annotations

from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.freeing import retainers
from layshaft.plan.load import Loads
from layshaft.plan.state import State


def load_path(unit: Unit) -> dict[str, str]:
    """Each part that a load hangs on, with what it is to it, as in `a spring of direct spring`."""
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    found: dict[str, str] = {}
    for name, load in unit.loads.items():
        for part in load.springs:
            found.setdefault(part, f"a spring of {name}")
    for name in unit.loads:
        for part in _retainers(unit, bench, loads, name):
            found.setdefault(part, f"what holds {name}")
    return found


def _retainers(unit: Unit, bench: Bench, loads: Loads, load: str) -> list[str]:
    """What holds something and stands in any path that holds a load; of a wound spring what its release ways reach."""
    definition = unit.loads[load]
    if definition.seats is None:
        return [part for release in definition.releases for part in release.reach]
    paths = loads.holding_paths(State(), load, 0)
    # A path that no part breaks stands for more paths than can be listed.
    is_listed = all(path.breakers for path in paths)
    holding = retainers(unit).union(*(stop.by for stop in unit.stops.values()))
    named = [part for part in unit.parts if part in holding]
    return [part for part in named if not is_listed or any(path.breakers & bench.bit(part) for path in paths)]
