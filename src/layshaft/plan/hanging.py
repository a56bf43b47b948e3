"""Parts that nothing of the unit holds any more: what hangs on the tool that carries it, and what lies behind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from layshaft.book.definition import Unit
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.state import Condition, State
from layshaft.plan.telling import lowered


def hung(bench: Bench, state: State) -> dict[str, str]:
    """The parts in the unit that point to the floor and that only a tool carries, each with the tool.

    What a release way presses on is held by that until it is let off.
    """
    gone, pressed = bench.gone(state) | bench.unknown(state), _pressed(bench.unit, state)
    found = {}
    for part in bench.parts(bench.movable & ~state.detached):
        definition = bench.unit.parts[part]
        is_there = bench.is_in_unit(state.detached, part) and state.condition(part) is not Condition.MISSING
        if definition.stays or part in pressed or not is_there:
            continue
        for index, way in enumerate(definition.ways):
            is_carried = way.support is not None and not way.tool and not way.on_bench
            is_free = all(clause.is_met(state.detached, gone) for clause in bench.needs[(part, index)])
            if is_carried and is_free and state.attitude in bench.down(part, way.toward):
                found[part] = str(way.support)
    return found


def _pressed(unit: Unit, state: State) -> frozenset[str]:
    if state.session is None:
        return frozenset()
    release = unit.loads[state.session.load].releases[state.session.release]
    return frozenset(face_part(face) for face in (release.pushes, release.stands_on) if face is not None)


def left_hanging(bench: Bench, before: State, after: State) -> Iterator[str]:
    """What to mind at a step that leaves parts to the tools that carry them, each in a sentence."""
    known = hung(bench, before)
    for part, support in hung(bench, after).items():
        if part not in known:
            name = f"{part} {lowered(bench.unit.parts[part].name)}"
            yield (
                f"From here on {name} points to the floor and hangs on the {support} alone: have that carry it before "
                f"this step. Hands out of the way."
            )


def kept_in(bench: Bench, state: State, loose: Iterable[str]) -> tuple[str, ...]:
    """The parts that only loose ones keep in the unit: they go with those if those go."""
    first = bench.mask(loose)
    return tuple(bench.parts(_freed(bench, state, first, first) & ~_freed(bench, state, 0, first) & ~first))


def _freed(bench: Bench, state: State, away: int, loose: int) -> int:
    """What leaves by itself once some are away, one after the other, by ways without a tool; the loose ones aside."""
    gone = bench.gone(state)
    while True:
        more = bench.mask(
            part
            for part in bench.parts(bench.movable & ~away & ~loose & ~state.detached & ~gone)
            if bench.is_in_unit(state.detached | away, part) and not bench.unit.parts[part].stays
            if any(
                all(clause.is_met(state.detached | away, gone) for clause in bench.needs[(part, index)])
                for index, way in enumerate(bench.unit.parts[part].ways)
                if not way.tool and not way.on_bench
            )
        )
        if not more:
            return away
        away |= more
