"""A whole job worked through: what to do now, loads, verdicts, fits, press plans, orders, price, what is open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Job, Shop, Unit
from layshaft.plan.assembly import Fitted, order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.carry import sold_as
from layshaft.plan.figure import Finding
from layshaft.plan.fit import Fit, choose_fit
from layshaft.plan.job_order import NOTHING, TakingDown, take_down_job
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.load_report import LoadReport
from layshaft.plan.measured import Measured
from layshaft.plan.order_list import OrderList, order_fitted
from layshaft.plan.press_text import Teller
from layshaft.plan.press_use import DOWN, UP, PressUse, press_uses, refusals, warned
from layshaft.plan.price import Price, price_job
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.result import ResultValue, results
from layshaft.plan.rework import Reworked
from layshaft.plan.rework_work import rework_work
from layshaft.plan.so_far import SoFar, so_far
from layshaft.plan.spring_read import beyond_book, loads_found
from layshaft.plan.step import Plan, PlannedStep
from layshaft.plan.task_share import task_minutes
from layshaft.plan.teardown import start_state
from layshaft.plan.telling import Telling, telling_of
from layshaft.plan.together import loads_now, loads_told, proofs_made
from layshaft.plan.verdict import judge
from layshaft.plan.wanted import next_most_telling
from layshaft.quantity import Show


@dataclass(frozen=True)
class Rebuild:
    """Everything that a job's record comes to."""

    unit: Unit
    job: Job
    shop: Shop
    so_far: SoFar
    now: tuple[str, ...]
    """What to do before anything else: it stands first wherever the job is told."""
    loads: tuple[LoadReport, ...]
    loads_told: tuple[str, ...]
    presses: tuple[PressUse, ...]
    presses_told: tuple[tuple[str, ...], ...]
    is_begun: bool
    """Whether the unit is no longer as it stands whole: something is off, or was noticed that holds no more."""
    teardown: Plan
    """What is left of taking it down, from the state that it is in."""
    opened: frozenset[str]
    judgements: dict[str, Judgement]
    fit: Fit
    results: dict[str, ResultValue]
    order: OrderList
    price: Price
    assembly: Plan
    open: tuple[OpenPoint, ...]
    findings: tuple[str, ...]
    reworks: tuple[Reworked, ...] = ()
    """The reworks that the job tells were done."""


def rebuild(unit: Unit, job: Job, shop: Shop) -> Rebuild:
    """Work a job through; an unfinished one says what is still open. `shop` is narrowed to the unit's variant."""
    bench = Bench(unit)
    measured = Measured(unit, job, shop)
    loads = loads_found(bench, job, measured.sizes())
    history = so_far(bench, loads, job)
    show = Show("inch" if shop.units == "inch" else "metric")
    down, judgements = _judged(bench, loads, history, job, shop, measured)
    opened = down.opened if job.wants else None
    fit = choose_fit(unit, measured, shop, judgements, opened=opened)
    order = order_fitted(unit, shop, job.today, judgements, fit, down.opened)
    built = Loads(bench, fit.built.at_any_size())
    assembly, refused = _assembly(bench, built, down.off, fitted(unit, judgements, fit, telling_of(shop)))
    reworked = rework_work(unit, job, measured.reworks, judgements)
    whole = start_state(unit)
    beyond = _beyond(unit, job, judgements, show)
    uses = press_uses(bench, loads, shop, (down.left, history.state), (assembly, whole), show, built, beyond)
    teller = Teller(bench, show)
    made = proofs_made(unit, job, assembly)
    reports, is_partly = loads_now(bench, loads, built, history.state, made)
    return Rebuild(
        unit=unit,
        job=job,
        shop=shop,
        so_far=history,
        now=(*down.refused, *history.now, *refusals(uses), *refused),
        loads=reports,
        loads_told=tuple(loads_told(teller, reports, is_partly)),
        presses=uses,
        presses_told=tuple(teller.plan(use.plan) for use in uses),
        is_begun=history.state != whole,
        teardown=warned(down.left, DOWN, uses),
        opened=down.opened,
        judgements=judgements,
        fit=fit,
        results=results(unit, measured, fit, judgements),
        order=order,
        price=price_job(
            unit,
            shop,
            job.today,
            order,
            (*labour(unit, down.whole, assembly, opened), *reworked.labour),
            job.paid_by,
            reworked.untimed,
        ),
        assembly=warned(assembly, UP, uses),
        open=next_most_telling(judgements, unit, fit.waiting),
        findings=tuple(one.sentence for one in measured.findings if not _is_past(unit, one, judgements.get(one.part))),
        reworks=measured.reworks,
    )


def _is_past(unit: Unit, finding: Finding, judged: Judgement | None) -> bool:
    """Whether a figure is of a piece that is renewed anyway: nobody has to read that one again.

    One that does not wait still counts where the renewal, or a size that a result was read with, rests on it.
    """
    if judged is None or finding.is_new:
        return False
    is_all = len(judged.renewed_pieces) == len(judged.pieces)
    if finding.is_waiting:
        return is_all or finding.piece in judged.renewed_pieces
    plan = unit.parts[finding.part].readings[finding.reading]
    condemning = (one.verdict != "reuse" for one in judged.figures if one.reading == finding.reading and not one.is_new)
    return is_all and plan.from_ is None and not any(condemning)


def _beyond(unit: Unit, job: Job, judgements: dict[str, Judgement], show: Show) -> dict[str, tuple[Lack, ...]]:
    renewed = {part for part, judged in judgements.items() if judged.verdict == "renew"}
    return beyond_book(unit, job, renewed, show)


def _judged(
    bench: Bench, loads: Loads, history: SoFar, job: Job, shop: Shop, measured: Measured
) -> tuple[TakingDown, dict[str, Judgement]]:
    """The orders and the verdicts; what is renewed opens what has to come apart, or come out, for that."""
    also: frozenset[str] = frozenset()
    while True:
        down = take_down_job(bench, loads, history, job, also)
        judgements = judge(bench.unit, job, shop, down.opened, measured)
        more = {
            *_to_take_apart(bench, judgements),
            *_to_renew_together(bench, judgements),
            *_to_renew_with(bench, judgements),
        } - down.off - also
        if not more:
            return down, judgements
        also |= more


def _to_take_apart(bench: Bench, judgements: dict[str, Judgement]) -> Iterator[str]:
    for part in bench.movable_in_book_order:
        judged = judgements.get(part)
        if judged is None or bench.unit.parts[part].stays_together is None:
            continue
        if judged.verdict == "renew":
            if judged.bought_as in (None, part):
                yield part
        elif _is_renewed(judgements, bench.unit.parts[part].lies_in):
            yield part


def _to_renew_together(bench: Bench, judgements: dict[str, Judgement]) -> Iterator[str]:
    """What a job for some parts does not reach yet and has to renew, because another one of its set is renewed."""
    for group in bench.unit.sets.values():
        if group.rule == "renew together" and any(_is_renewed(judgements, part) for part in group.members):
            yield from (part for part in group.members if part not in judgements and bench.movable & bench.bit(part))


def _to_renew_with(bench: Bench, judgements: dict[str, Judgement]) -> Iterator[str]:
    """What a job for some parts does not reach yet of an assembly that is bought for a part of it: it comes new."""
    bought = {one.bought_as for one in judgements.values() if one.verdict == "renew" and one.bought_as is not None}
    for part in bench.movable_in_book_order:
        whole = sold_as(bench.unit, part)
        if part not in judgements and whole in bought:
            # What lies in the assembly comes out with it.
            lies_in_it = part != whole and bench.chain_masks[part] & bench.bit(whole)
            if not lies_in_it:
                yield part


def _is_renewed(judgements: dict[str, Judgement], part: str | None) -> bool:
    judged = judgements.get(part) if part is not None else None
    return judged is not None and judged.verdict == "renew"


def _assembly(
    bench: Bench, loads: Loads, off: Iterable[str], chosen: dict[str, Fitted]
) -> tuple[Plan, tuple[str, ...]]:
    try:
        return order_assembly(bench, loads, off, chosen), ()
    except NoAnswer as refusal:
        return NOTHING, (f"There is no order to put it together by. {refusal}",)


def fitted(unit: Unit, judgements: dict[str, Judgement], fit: Fit, telling: Telling) -> dict[str, Fitted]:
    """What goes in for each part: how many new or from the drawer, which sizes, what is not settled."""
    return {part: _fitted(part, definition.count, judgements, fit, telling) for part, definition in unit.parts.items()}


def _fitted(part: str, count: int, judgements: dict[str, Judgement], fit: Fit, telling: Telling) -> Fitted:
    judged = judgements.get(part)
    places = (part, *(f"{part} {piece}" for piece in range(1, count + 1)))
    sizes = dict.fromkeys(telling.size(fit.sizes[place]) for place in places if place in fit.sizes)
    used = min(fit.reclaimed.get(part, 0), count)
    sized = count if part in fit.sizes and part not in fit.own else sum(
        place in fit.sizes and place not in fit.own for place in places[1:]
    )
    condemned = judged.renew_count if judged is not None and part not in fit.own else 0
    renewed = max(condemned, sized)
    settled = judged is None or judged.verdict in ("renew", "reuse") or bool(sizes)
    is_sized = not any(place in fit.undecided for place in places)
    return Fitted(max(0, renewed - used), used, count, " and ".join(sizes) or None, settled, is_sized)


def labour(
    unit: Unit, teardown: Plan, assembly: Plan, opened: frozenset[str] | None = None
) -> tuple[tuple[str, Fraction], ...]:
    """Minutes by stage: the moves of taking down and putting together, and the book's other work on what is opened."""
    lines = [("Taking down", _minutes(teardown.steps))]
    lines += [(task.what, task_minutes(unit, task, opened)) for task in unit.tasks.values()]
    lines.append(("Putting together and proving", _minutes(assembly.steps)))
    return tuple((what, minutes) for what, minutes in lines if minutes)


def _minutes(steps: tuple[PlannedStep, ...]) -> Fraction:
    return sum((_as_written(step.minutes) for step in steps), Fraction(0))


def _as_written(minutes: float) -> Fraction:
    """The minutes that a book wrote, in minutes, hours or seconds, out of their nearest binary fraction."""
    return Fraction(minutes).limit_denominator(1_000_000)
