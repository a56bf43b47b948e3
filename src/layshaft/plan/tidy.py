"""An order made kinder where that costs nothing of weight: nothing loose in a turn, what is to be fitted late is late.

What no order need weigh is settled here: single moves are put elsewhere, each time held against the order's checker.
More risk, turning or pressing is never taken in exchange.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from layshaft.plan import sequence
from layshaft.plan.compile import Compiled
from layshaft.plan.sequence import Order, Problem, Step

Steps = tuple[Step, ...]


def without_loose_turns(
    compiled: Compiled, order: Order, targets: frozenset[int] | None = None, problem: Problem | None = None
) -> Order:
    """The order with parts whose retainers are off taken out before a turn, or their retainers left on.

    Only where that costs no more. `targets` as in a reach; `problem` where it is more than the compiled one.
    """
    problem, best = problem or compiled.problem, order
    for _ in range(len(order.steps)):
        better = next(_tightened(compiled, problem, best, targets), None)
        if better is None:
            return best
        best = better
    return best


def _tightened(compiled: Compiled, problem: Problem, order: Order, targets: frozenset[int] | None) -> Iterator[Order]:
    """Orders with fewer parts loose at a turn."""
    before = _count_loose(compiled, order.steps)
    if not before:
        return
    for at, loose in _loose_turns(compiled, order.steps):
        for part in loose:
            for steps in _tries(compiled, order.steps, at, part):
                found = sequence.replay(problem, steps, targets)
                if found.is_legal and found.cost <= order.cost and _count_loose(compiled, steps) < before:
                    yield replace(order, steps=steps, cost=found.cost)


def _tries(compiled: Compiled, steps: Steps, turn: int, part: str) -> Iterator[Steps]:
    makes = {step.move: at for at, step in enumerate(steps) if isinstance(step, sequence.Make)}
    own = makes.get(compiled.move_index[part])
    if own is not None and own > turn:
        yield _put(steps, own, turn)
    for need in compiled.bench.parts(_retainers(compiled, part)):
        held = makes.get(compiled.move_index[need])
        if held is not None and held < turn:
            yield _put(steps, held, turn)


def _put(steps: Steps, source: int, place: int) -> Steps:
    """One step moved so that it stands where another stands now."""
    rest = [*steps[:source], *steps[source + 1 :]]
    rest.insert(place, steps[source])
    return tuple(rest)


def _count_loose(compiled: Compiled, steps: Steps) -> int:
    return sum(len(loose) for _, loose in _loose_turns(compiled, steps))


def _loose_turns(compiled: Compiled, steps: Steps) -> Iterator[tuple[int, tuple[str, ...]]]:
    """For each turn the parts that are loose in the unit then."""
    detached = compiled.state.detached
    for at, step in enumerate(steps):
        if isinstance(step, sequence.Turn):
            yield at, loose_parts(compiled, detached)
        elif isinstance(step, sequence.Make) and step.move < len(compiled.move_parts):
            detached |= compiled.bench.bit(compiled.move_parts[step.move])


def loose_parts(compiled: Compiled, detached: int) -> tuple[str, ...]:
    """Parts still in the unit that something held when it was whole, and that nothing holds any more."""
    bench, gone = compiled.bench, compiled.bench.gone(compiled.state)
    found = []
    for part in compiled.move_parts:
        if bench.bit(part) & detached or bench.bit(part) & gone or not bench.is_in_unit(detached, part):
            continue
        ways = bench.unit.parts[part].ways
        is_open = (
            bool(way.held_by) and all(clause.is_met(detached, gone) for clause in bench.needs[(part, index)])
            for index, way in enumerate(ways)
        )
        if not bench.unit.parts[part].stays and any(is_open):
            found.append(part)
    return tuple(found)


def _retainers(compiled: Compiled, part: str) -> int:
    bits = 0
    for way in compiled.bench.unit.parts[part].ways:
        for need in way.held_by:
            for clause in compiled.bench.clauses(part, need):
                bits |= clause.events & compiled.bench.movable
    return bits


def fitted_late(problem: Problem, order: Order, moves: frozenset[int]) -> Order:
    """The order, which is run backwards to fit, with these moves as early in it as risk, turns and presses allow.

    What waits for another of them follows it there, so all are tried again until none moves any more. Of several the
    first in the book goes in last.
    """
    best = order
    for _ in range(len(moves) + 1):
        before = best
        for move in sorted(moves, reverse=True):
            best = next(_earlier(problem, best, move, moves), best)
        if best is before:
            return best
    return best


def _earlier(problem: Problem, order: Order, move: int, moves: frozenset[int]) -> Iterator[Order]:
    """Orders with a move earlier than some step other than those of `moves` that go before it, the earliest first."""
    steps = order.steps
    made = (at for at, step in enumerate(steps) if isinstance(step, sequence.Make) and step.move == move)
    at = next(made, 0)
    first = frozenset(other for other in moves if other < move)
    others = [place for place, step in enumerate(steps[:at]) if not _is_one_of(step, first)]
    for place in range(others[-1] + 1 if others else 0):
        tried = _put(steps, at, place)
        found = sequence.replay(problem, tried)
        if found.is_legal and found.cost[:3] <= order.cost[:3]:
            yield replace(order, steps=tried, cost=found.cost, is_proved=order.is_proved and found.cost <= order.cost)


def _is_one_of(step: Step, moves: frozenset[int]) -> bool:
    return isinstance(step, sequence.Make) and step.move in moves
