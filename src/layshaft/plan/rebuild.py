"""A whole job worked through: what is loaded, verdicts, fits, press plans, orders, price, assembly and what is open."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Job, Shop, Unit
from layshaft.plan.assembly import Fitted, order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.fit import Fit, choose_fit
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.load import Loads
from layshaft.plan.load_report import LoadReport, load_report
from layshaft.plan.measured import Measured
from layshaft.plan.order_list import OrderList, order_fitted
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.press_text import Teller
from layshaft.plan.price import Price, price_job
from layshaft.plan.result import ResultValue, results
from layshaft.plan.so_far import SoFar, so_far
from layshaft.plan.step import Plan, PlannedStep
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.plan.verdict import judge
from layshaft.plan.wanted import next_most_telling
from layshaft.quantity import LENGTH, Show


@dataclass(frozen=True)
class Rebuild:
    """Everything that a job's record comes to."""

    unit: Unit
    job: Job
    shop: Shop
    so_far: SoFar
    loads: tuple[LoadReport, ...]
    loads_told: tuple[str, ...]
    presses: tuple[PressPlan | Refusal, ...]
    presses_told: tuple[tuple[str, ...], ...]
    teardown: Plan
    opened: frozenset[str]
    judgements: dict[str, Judgement]
    fit: Fit
    results: dict[str, ResultValue]
    order: OrderList
    price: Price
    assembly: Plan
    open: tuple[OpenPoint, ...]
    findings: tuple[str, ...]


def rebuild(unit: Unit, job: Job, shop: Shop) -> Rebuild:
    """Work a job through; an unfinished one says what is still open. `shop` is narrowed to the unit's variant."""
    bench = Bench(unit)
    measured = Measured(unit, job, shop)
    loads = Loads(bench, measured.sizes())
    history = so_far(bench, loads, job)
    show = Show("inch" if shop.units == "inch" else "metric")
    whole = start_state(unit)
    teardown = order_teardown(bench, loads, whole, job.wants)
    opened = frozenset(teardown.taken_off) | frozenset(part for part in unit.parts if not job.wants)
    judgements = judge(unit, job, shop, opened, measured)
    fit = choose_fit(unit, measured, shop, judgements)
    order = order_fitted(unit, shop, job.today, judgements, fit, opened)
    taken_off = frozenset(teardown.taken_off)
    assembly = order_assembly(bench, loads, taken_off, _fitted(unit, judgements, fit, show))
    presses = _presses(bench, loads, shop, show)
    teller = Teller(bench, show)
    reports = load_report(bench, loads, history.state)
    return Rebuild(
        unit=unit,
        job=job,
        shop=shop,
        so_far=history,
        loads=reports,
        loads_told=teller.report(reports),
        presses=presses,
        presses_told=tuple(teller.plan(plan) for plan in presses),
        teardown=teardown,
        opened=opened,
        judgements=judgements,
        fit=fit,
        results=results(unit, measured, fit, judgements),
        order=order,
        price=price_job(unit, shop, job.today, order, labour(unit, teardown, assembly)),
        assembly=assembly,
        open=next_most_telling(judgements, unit, fit.waiting),
        findings=tuple(finding.sentence for finding in measured.findings),
    )


def _fitted(unit: Unit, judgements: dict[str, Judgement], fit: Fit, show: Show) -> dict[str, Fitted]:
    """What goes in for each part: new or its own, and the size chosen."""
    found = {}
    for part in unit.parts:
        judged = judgements.get(part)
        size = show.show(fit.sizes[part], LENGTH) if part in fit.sizes else None
        is_new = judged is not None and judged.verdict == "renew" and part not in fit.own
        if is_new or size:
            found[part] = Fitted(is_new, size)
    return found


def _presses(bench: Bench, loads: Loads, shop: Shop, show: Show) -> tuple[PressPlan | Refusal, ...]:
    """A plan for the first release way of each load that wants a press or a compressor."""
    found = []
    for name, load in bench.unit.loads.items():
        if load.releases and load.releases[0].kind in ("press", "spring compressor", "long screws"):
            found.append(plan_press(bench, loads, name, 0, shop.presses, show=show))
    return tuple(found)


def labour(unit: Unit, teardown: Plan, assembly: Plan) -> tuple[tuple[str, Fraction], ...]:
    """Minutes by stage: the moves of taking down and putting together, and the book's other work."""
    lines = [("Taking down", _minutes(teardown.steps))]
    lines += [(task.what, Fraction(task.hands.nominal) / 60) for task in unit.tasks.values()]
    lines.append(("Putting together and proving", _minutes(assembly.steps)))
    return tuple((what, minutes) for what, minutes in lines if minutes)


def _minutes(steps: tuple[PlannedStep, ...]) -> Fraction:
    return Fraction(round(sum(step.minutes for step in steps) * 10), 10)
