"""Releasing a unit: what stands against it, told point by point; nothing is released while anything does."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.plan.proof_outcome import failed_proofs, last_records
from layshaft.plan.step import PlannedStep
from layshaft.plan.telling import telling_of
from layshaft.shop.ledger.putting import Putting


def stands_against(putting: Putting) -> tuple[str, ...]:
    """Everything that is open, each once; where nothing is, the unit may be released."""
    return tuple(dict.fromkeys(_open(putting)))


def _open(putting: Putting) -> Iterator[str]:
    stand = putting.stand
    job, content, rebuilt = stand.desk.job, stand.desk.content, stand.rebuilt
    if job.held_load:
        yield f"{job.held_load} is still loaded, held by its tool."
    if job.waits:
        yield f"Entries that wait for a yes on the job's page: {job.waits}."
    if putting.first_taken_down:
        yield putting.first_taken_down
    yield from rebuilt.now
    yield from putting.changes
    left = list(_not_done(putting, is_proof=False))
    if left:
        yield f"Not done yet: {left[0].what}{f', and {len(left) - 1} more after it' if len(left) > 1 else ''}."
    records = last_records(content)
    failed = failed_proofs(stand.unit, content, telling_of(stand.desk.shop))
    yield from (one.sentence for one in failed)
    known = {one.proof for one in failed}
    for step in _not_done(putting, is_proof=True):
        if step.proof not in known:
            again = " again" if step.proof in records else ""
            yield f"Not proved yet{again}: {step.what}."
    for step in putting.steps:
        record = records.get(step.proof or "")
        if record is not None and record.figure is None and putting.wants_figure(step):
            yield f"Proved without its figure: {step.what}."
    yield from (point.sentence for point in rebuilt.open)
    yield from rebuilt.findings
    yield from (point.sentence for point in rebuilt.order.open)


def _not_done(putting: Putting, *, is_proof: bool) -> Iterator[PlannedStep]:
    for step, is_done in zip(putting.steps, putting.done, strict=True):
        if not is_done and (step.kind == "prove") is is_proof:
            yield step
