"""The orders that a job asks for: from the unit as it really is, as far as it has to go, and back together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from layshaft.book.definition import Job, Unit
from layshaft.plan.act import TakeOff
from layshaft.plan.as_found import unread
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.sequence import Cost
from layshaft.plan.so_far import SoFar
from layshaft.plan.source import Sources
from layshaft.plan.state import Condition, State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state

NOTHING = Plan((), Cost(0, 0, 0, 0, 0), Cost(0, 0, 0, 0, 0), True)


@dataclass(frozen=True, slots=True)
class TakingDown:
    """How a unit comes apart: the whole work from the start, for its price, and what is left of it, for the bench."""

    whole: Plan
    left: Plan
    off: frozenset[str]
    """The parts that are off in the end, those that were so already among them."""
    opened: frozenset[str]
    """The parts that the job has in hand: all of them, or those that come off for a job that wants only some."""
    refused: tuple[str, ...] = ()
    """Why there is no order for what is left."""


def take_down_job(bench: Bench, loads: Loads, history: SoFar, job: Job, also: Iterable[str] = ()) -> TakingDown:
    """The orders for a job; a unit in a state from which nothing can be planned is told, not failed."""
    unit, start = bench.unit, start_state(bench.unit)
    apart = frozenset(opened_by_record(unit, job)) | frozenset(also)
    whole = order_teardown(bench, loads, start, job.wants, apart)
    wants = frozenset(job.wants)
    if wants:
        wants |= apart | frozenset(_to_renew(bench, job))
        if wants > frozenset(job.wants):
            whole = order_teardown(bench, loads, start, wants, apart)
        after = _after(bench, start, whole.taken_off)
        bared = _bared(Judge(bench, loads), start, after)
        bared |= _to_choose(Judge(bench, loads), wants | bared, after)
        if not bared <= frozenset(whole.taken_off):
            wants |= bared
            whole = order_teardown(bench, loads, start, wants, apart)
    left, refused = _left(bench, loads, history.state, wants, apart) if history.state != start else (whole, ())
    off = frozenset((*whole.taken_off, *left.taken_off, *history.taken_off, *_missing(bench, history.state)))
    opened = off if wants else off | frozenset(unit.parts)
    return TakingDown(whole, unread(left, job), off, opened, refused)


def _left(
    bench: Bench, loads: Loads, state: State, wants: frozenset[str], apart: frozenset[str]
) -> tuple[Plan, tuple[str, ...]]:
    there = frozenset(part for part in wants if not state.detached & bench.bit(part))
    if wants and not there:
        return NOTHING, ()
    try:
        return order_teardown(bench, loads, state, there, apart), ()
    except NoAnswer as refusal:
        return NOTHING, (f"Stop: from the state it is in there is no order to plan by. {refusal}",)


def _missing(bench: Bench, state: State) -> Iterator[str]:
    """Parts that come out by themselves and are not there: they have to go in."""
    lost = (Condition.MISSING, Condition.NOT_FOUND)
    named = (name for name, known in state.conditions if known in lost)
    return (name for name in named if bench.movable & bench.bit(name))


def opened_by_record(unit: Unit, job: Job) -> Iterator[str]:
    """Parts that usually stay together and that this job took off, or chose to renew or to fit.

    A look or a reading opens none: it is made of what stays together as it stands, until its verdict asks for more.
    """
    named: set[str | None] = {done.off for done in job.done}
    named |= {name for choice in job.choices for name in (choice.renew, choice.fit)}
    return (name for name, part in unit.parts.items() if name in named and part.ways and part.stays_together)


def _to_renew(bench: Bench, job: Job) -> Iterator[str]:
    """What is broken, or chosen to be renewed or sized: a job that wants only some parts has to get at it too."""
    noticed = (one for one in job.intake.noticed if one.is_ in ("broken", "missing"))
    named: set[str | None] = {one.part for one in noticed}
    named |= {done.seen for done in job.done if done.is_ in ("broken", "missing")}
    named |= {name for choice in job.choices for name in (choice.renew, choice.fit)}
    return (part for part in bench.movable_in_book_order if part in named)


def _bared(judge: Judge, start: State, after: State) -> frozenset[str]:
    """Always-renewed parts that the work itself lays bare, or takes off in something else."""
    outside = laid_bare(judge, start)
    found = laid_bare(judge, after)
    return frozenset(
        part for part in found if part not in outside or not judge.bench.is_in_unit(after.detached, part)
    )


def _to_choose(judge: Judge, changed: frozenset[str], after: State) -> frozenset[str]:
    """Selective parts within reach then, that settle a limited result in which a part of the job stands as well."""
    unit = judge.bench.unit
    sources = Sources(unit)
    settled = [sources.parts(name) for name, result in unit.results.items() if result.limit is not None]
    return frozenset(
        part
        for part in judge.bench.movable_in_book_order
        if unit.parts[part].selective is not None
        and any(part in parts and parts & (changed - {part}) for parts in settled)
        and (not judge.bench.is_in_unit(after.detached, part) or _is_bare(judge, after, part))
    )


def laid_bare(judge: Judge, state: State) -> frozenset[str]:
    """Always-renewed parts that can now be taken off with nothing else, one baring the next."""
    found: set[str] = set()
    unit = judge.bench.unit
    always = [name for name in judge.bench.movable_in_book_order if unit.parts[name].renew == "always"]
    is_more = True
    while is_more:
        is_more = False
        for part in always:
            if not state.detached & judge.bench.bit(part) and _is_bare(judge, state, part):
                state = judge.after(state, TakeOff(part))
                found.add(part)
                is_more = True
    return frozenset(found)


def _is_bare(judge: Judge, state: State, part: str) -> bool:
    """Whether some way is open to it once the unit is turned as that way wants it."""
    for index, way in enumerate(judge.bench.unit.parts[part].ways):
        for attitude in way.attitude or (state.attitude,):
            if judge.may_i(replace(state, attitude=attitude), TakeOff(part, index)).is_yes:
                return True
    return False


def _after(bench: Bench, state: State, off: Iterable[str]) -> State:
    return replace(state, detached=state.detached | bench.mask(off))
