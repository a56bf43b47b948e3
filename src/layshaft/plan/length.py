"""How long a load is in a state, as a band: every size along the stops that hold it at its worst, shared sizes once."""

from __future__ import annotations

from collections.abc import Hashable
from math import inf

from layshaft.book.length import path_span
from layshaft.book.size import Span
from layshaft.mechanics import cut, rest, rest_bounds
from layshaft.plan.load import Loads
from layshaft.plan.spring_fact import Band, SpringFact
from layshaft.plan.state import State

SAME_LENGTH = 1e-6
"""Lengths this close are one [m]: far below what any gauge of a shop shows (own choice)."""


class Lengths:
    """The lengths of a unit's loads [m, or rad when wound], with what a path of stops allows worked out once."""

    def __init__(self, loads: Loads) -> None:
        self.loads = loads
        self._spans: dict[tuple[str, tuple[Hashable, ...]], Span] = {}

    def installed(self, load: str) -> Band:
        """How long a load is with everything whole and in place."""
        if self.loads.bench.unit.loads[load].seats is None:
            return self._wound(load)
        return self._band(load, State(), self.loads.installed_length(load))

    def in_state(self, load: str, state: State) -> Band:
        """How long a load is in a state, at the worst of what is not known."""
        if self.loads.bench.unit.loads[load].seats is None:
            return self._wound(load)
        return self._band(load, state, self.loads.could_be_loaded(state)[load].length)

    def _wound(self, load: str) -> Band:
        wound = self.loads.bench.unit.loads[load].wound
        return Band(wound.si_low, wound.si, wound.si_high) if wound is not None else Band(inf, inf, inf)

    def _band(self, load: str, state: State, nominal: float) -> Band:
        """Of several paths the shortest holds: the least of their low ends and of their high ends bound the length.

        A spring that acts on others is no matter of paths: there every size of the unit may count.
        """
        if nominal == inf or not is_present(self.loads, state, load):
            return Band(nominal, nominal, nominal)
        found = cut.paths(whole_layout(self.loads, state), spring_id(self.loads, load, state))
        spans = [self.path_span(load, path.stops) for path in found.found if not path.springs]
        shortest = min((float(span.nominal) for span in spans), default=inf)
        if found.is_complete and abs(shortest - nominal) <= SAME_LENGTH:
            low, high = min(span.low for span in spans), min(span.high for span in spans)
            return Band(float(low), shortest, float(high))
        return _coupled_band(self.loads, load, state, nominal)

    def path_span(self, load: str, stops: tuple[Hashable, ...]) -> Span:
        """The length that a path of stops lets a load get."""
        if (load, stops) not in self._spans:
            self._spans[load, stops] = path_span(self.loads.bench.unit, self.loads.sizes, load, stops)
        return self._spans[load, stops]


def _coupled_band(loads: Loads, load: str, state: State, nominal: float) -> Band:
    """Outer bounds for a load whose springs act on others: every stop, free length and rate may be at either end."""
    layout = whole_layout(loads, state)
    gone = loads.bench.gone(state)
    sizes, unit = loads.sizes, loads.bench.unit
    gaps: dict[Hashable, tuple[float, float]] = {}
    for stop in layout.stops:
        definition = unit.stops[str(stop.id)]
        # A face out of its place by so much lets the stop be wider or narrower by as much.
        off = sum(_off(sizes.coordinate(face)) for face in (definition.a, definition.b))
        off += _off(sizes.stop_gap(str(stop.id)))
        gaps[stop.id] = (float(stop.gap) - off, float(stop.gap) + off)
    facts: dict[Hashable, SpringFact] = {}
    for name in unit.loads:
        ids = loads.spring_ids(name, loads.present(state, gone))
        facts |= {one: fact for fact in loads.springs[name] for one in ids if one == f"{name} / {fact.part}"}
    spread = rest_bounds.Spread(
        gaps,
        {spring.id: (facts[spring.id].free.low, facts[spring.id].free.high) for spring in layout.springs},
        {spring.id: (facts[spring.id].rate.low, facts[spring.id].rate.high) for spring in layout.springs},
    )
    own = unit.loads[load].seats or ()
    seats = sum(_off(sizes.coordinate(face)) for face in own)
    try:
        low, high = rest_bounds.bounds(layout, spread).springs[spring_id(loads, load, state)].length
    except (rest.Misfit, rest.Unsettled):
        low, high = min(fact.solid for fact in loads.springs[load]), loads.longest_free(load)
    return Band(min(nominal, low - seats), nominal, max(nominal, high + seats))


def _off(span: Span) -> float:
    return float(max(span.high - span.nominal, span.nominal - span.low))


def whole_layout(loads: Loads, state: State) -> rest.Layout:
    """The stops and springs of a state as they are for "is it free": what nobody looked at holds, springs are long."""
    gone = loads.bench.gone(state)
    return loads.layout(loads.whole_stops(state, gone), loads.present(state, gone), State(), at_longest=True)


def is_present(loads: Loads, state: State, load: str) -> bool:
    """Whether any of a load's springs is there, between its seats."""
    return loads.is_present(load, loads.present(state, loads.bench.gone(state)))


def spring_id(loads: Loads, load: str, state: State) -> str:
    """What the longest spring of a load that is there is called in a layout; while it pushes the load is not free."""
    ids = loads.spring_ids(load, loads.present(state, loads.bench.gone(state)))
    free = {f"{load} / {fact.part}": fact.free.high for fact in loads.springs[load]}
    return max(ids, key=lambda one: free[one])
