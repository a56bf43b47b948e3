"""What a job quotes: the book, the shop and the revision of each it was done with, the variant, its days."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.book import Book
from layshaft.book.definition import Job
from layshaft.book.definition.job import Quoted
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.sheet_check.subject import Subject


def quote_faults(subject: Subject) -> Iterator[Fault]:
    """Each thing a job quotes otherwise than the unit and shop at hand have it."""
    job, unit, shop = subject.job, subject.unit, subject.shop
    yield from _quoted("book", job.book, unit.id, unit.revision)
    yield from _quoted("shop", job.shop, shop.id, shop.revision)
    if job.variant != unit.variant:
        yield fault("another variant", path=("variant",), found=job.variant, needed=unit.variant, given=unit.variant)
    if job.comeback_of == job.id:
        yield fault("comeback of itself", path=("comeback of",), found=job.id)
    if job.opened > job.today:
        yield fault("after today", path=("opened",), found=job.opened, today=job.today)


def variant_faults(job: Job, book: Book) -> Iterator[Fault]:
    """A fault where a job is of a variant that the book does not have; asked before there is a unit."""
    if job.variant not in book.variants:
        known = book.variants
        yield fault(
            "unknown variant",
            path=("variant",),
            found=job.variant,
            needed=listed(known),
            try_=nearest_try(job.variant, known),
        )


def _quoted(what: str, quoted: Quoted, given: str, revision: int) -> Iterator[Fault]:
    if quoted.id != given:
        yield fault("another file", path=(what, "id"), found=quoted.id, what=what, given=given)
    elif quoted.revision != revision:
        yield fault(
            "another revision",
            path=(what, "revision"),
            found=str(quoted.revision),
            what=what,
            name=given,
            given=str(revision),
        )
