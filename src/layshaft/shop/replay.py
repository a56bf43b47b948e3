"""A job checked with what happened replayed: what the book has otherwise is noted where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book import Book, FaultReport
from layshaft.book.definition import Job, Shop
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.sheet import Sheet
from layshaft.book.sheet_check import check_job_beside, narrow_shop
from layshaft.plan.bench import Bench
from layshaft.plan.measured import Measured
from layshaft.plan.phrase import at_most_joules
from layshaft.plan.proof_moment import ProofMoments
from layshaft.plan.proof_outcome import last_records
from layshaft.plan.so_far import so_far
from layshaft.plan.spring_read import loads_found


def check_job_replayed(sheet: Sheet[Job], book: Book, shop: Shop) -> FaultReport:
    """Every fault and note of a job; where it has no fault, also what its own record let go or did otherwise."""
    report = check_job_beside(sheet, book, shop)
    if not report.is_clean or not (sheet.content.done or sheet.content.proved):
        return report
    replayed = sheet.report(list(_replayed(sheet.content, book, shop)))
    return FaultReport.of(report.file, (*report.found, *replayed.found))


def _replayed(job: Job, book: Book, shop: Shop) -> Iterator[Fault]:
    unit = book.unit(job.variant)
    bench = Bench(unit)
    sizes = Measured(unit, job, narrow_shop(shop, book, job.variant)).sizes()
    history = so_far(bench, loads_found(bench, job, sizes), job)
    for jolt in history.jolts:
        yield fault("let go", path=_path(job, jolt.entry), found=at_most_joules(jolt.energy), load=jolt.load)
    for one in history.against:
        yield fault("against the book", path=_path(job, one.entry), why=one.sentence)
    moments = ProofMoments(unit, job)
    for proved in last_records(job).values():
        why = moments.overtaken_by(unit.proofs[proved.proof], proved)
        if why:
            path: Path = ("proved", job.proved.index(proved), "at")
            yield fault("proof overtaken", path=path, found=proved.at or "", why=why)


def _path(job: Job, entry: int) -> Path:
    key = next(key for key, value in job.done[entry].model_dump(by_alias=True).items() if value is not None)
    return ("done", entry, key)
