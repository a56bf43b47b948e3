"""How a job stands: what its entries come to, worked out when it is asked for and kept until the next entry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property, lru_cache
from typing import Any

from layshaft.book.definition import Job as JobFile
from layshaft.book.definition import Unit
from layshaft.plan.bench import Bench
from layshaft.plan.job_order import TakingDown, take_down_job
from layshaft.plan.judgement import Judgement
from layshaft.plan.load import Loads
from layshaft.plan.load_report import LoadReport, load_report
from layshaft.plan.measured import Measured
from layshaft.plan.press_text import Teller
from layshaft.plan.press_use import DOWN, PressUse, press_uses, warned
from layshaft.plan.rebuild import Rebuild, rebuild
from layshaft.plan.so_far import SoFar, so_far
from layshaft.plan.spring_read import loads_found
from layshaft.plan.step import Plan
from layshaft.plan.verdict import judge
from layshaft.quantity import Show
from layshaft.shop.ledger.desk import Desk, open_desk, people_now, settings_now
from layshaft.shop.ledger.models import Job


@dataclass(frozen=True)
class Standing:
    """One job at one count of entries; what is slow to work out is worked out once."""

    desk: Desk

    @cached_property
    def unit(self) -> Unit:
        """The unit in the job's variant."""
        return self.desk.unit

    @cached_property
    def bench(self) -> Bench:
        """The unit made ready for planning."""
        return _bench(self.desk.book.sha256, self.desk.job.variant, self.desk)

    @cached_property
    def show(self) -> Show:
        """The units that the shop reads."""
        return Show("inch" if self.desk.shop.units == "inch" else "metric")

    @cached_property
    def measured(self) -> Measured:
        """What was read."""
        return Measured(self.unit, self.desk.content, self.desk.shop)

    @cached_property
    def loads(self) -> Loads:
        """The loads as found, at this job's sizes."""
        return loads_found(self.bench, self.desk.content, self.measured.sizes())

    @cached_property
    def history(self) -> SoFar:
        """The state that the unit is in now, and what to do first."""
        return so_far(self.bench, self.loads, self.desk.content)

    @cached_property
    def taking_down(self) -> TakingDown:
        """The whole work of taking down, and what is left of it."""
        return take_down_job(self.bench, self.loads, self.history, self.desk.content)

    @cached_property
    def presses(self) -> tuple[PressUse, ...]:
        """The press plans that what is left asks for."""
        left = self.taking_down.left
        nothing = (Plan((), left.cost, left.bound, True), self.history.state)
        return press_uses(
            self.bench, self.loads, self.desk.shop, (left, self.history.state), nothing, self.show
        )

    @cached_property
    def left(self) -> Plan:
        """What is left of taking down, its steps under load with figures or a warning."""
        return warned(self.taking_down.left, DOWN, self.presses)

    @cached_property
    def loaded(self) -> tuple[LoadReport, ...]:
        """What is loaded now."""
        return load_report(self.bench, self.loads, self.history.state)

    @cached_property
    def loaded_told(self) -> tuple[str, ...]:
        """The same in sentences."""
        return Teller(self.bench, self.show).report(self.loaded)

    @cached_property
    def judgements(self) -> Mapping[str, Judgement]:
        """The verdict on every part, as far as it goes."""
        return judge(self.unit, self.desk.content, self.desk.shop, None, self.measured)

    @cached_property
    def rebuilt(self) -> Rebuild:
        """The whole job worked through: fits, order list, price, assembly, what is open."""
        key = (self.desk.book.sha256, self.desk.job.variant, repr(self._decisive), repr(self.desk.shop))
        if key not in _rebuilds:
            while len(_rebuilds) >= KEPT:
                _rebuilds.pop(next(iter(_rebuilds)), None)
            _rebuilds[key] = rebuild(self.unit, self.desk.content, self.desk.shop)
        return replace(_rebuilds[key], job=self.desk.content)

    @property
    def _decisive(self) -> JobFile:
        """The job without the proofs that speak for no result: whether those are made changes nothing but that."""
        proofs = self.unit.proofs
        kept = (one for one in self.desk.content.proved if proofs[one.proof].result or proofs[one.proof].settles)
        return self.desk.content.model_copy(update={"proved": tuple(kept)})


KEPT = 64
"""So many jobs are kept worked through."""
_rebuilds: dict[tuple[str, ...], Rebuild] = {}
"""Worked-through jobs by the very text that they come from: what is fitted or moved about changes nothing in them."""
_benches: dict[tuple[str, str], Bench] = {}


def _bench(book: str, variant: str, desk: Desk) -> Bench:
    """One bench for each variant of a book's text: neither ever changes."""
    if (book, variant) not in _benches:
        _benches[book, variant] = Bench(desk.unit)
    return _benches[book, variant]


def standing_of(job: Job) -> Standing:
    """How a job stands now."""
    return _standing(job.pk, job.entries, job.touched, settings_now().text, people_now())


@lru_cache(maxsize=64)
def _standing(job: int, entries: int, touched: datetime, settings: str, people: tuple[Any, ...]) -> Standing:
    """Kept by all that it was worked out from."""
    return Standing(open_desk(Job.objects.select_related("book").get(pk=job)))
