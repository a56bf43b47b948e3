"""Taking a job in: its row and its first entries, together or not at all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.db import IntegrityError, transaction
from django.db.models import Max
from django.utils import timezone

from layshaft.shop.ledger.desk import book_of, settings_now
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import BookRevision, Entry, Job, Person
from layshaft.shop.ledger.right import may


@dataclass(frozen=True)
class TakenIn:
    """What the counter knows of a unit that comes in."""

    book: BookRevision
    variant: str
    customer: str
    key: UUID
    reach: str = ""
    serial: str = ""
    complaint: str = ""
    evidence: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    number: str = ""
    is_invented: bool = False
    opened: date | None = None


def take_in(taken: TakenIn, by: Person) -> Job:
    """A new job; the same one sent twice under one key is one job."""
    if not may(by.role, "take a job in"):
        raise Refused("no right", f"To take a job in is not for {by.role}s. Ask someone who may.")
    known = Entry.objects.filter(key=taken.key).select_related("job").first()
    if known is not None:
        return known.job
    book = book_of(taken.book)
    if taken.variant not in book.variants:
        raise Refused("variant", f"{taken.book.name} has no variant `{taken.variant}`: {', '.join(book.variants)}.")
    if not taken.customer.strip():
        raise Refused("customer", "Whose unit is it? A name is missing.")
    settings_now()
    try:
        with transaction.atomic():
            return _written(taken, by)
    except IntegrityError:
        raise Refused("number taken", f"There is a job {taken.number} already. Take another number.") from None


def _written(taken: TakenIn, by: Person) -> Job:
    now = timezone.now()
    opened = taken.opened or timezone.localdate()
    first = [("took in", {"variant": taken.variant, "customer": taken.customer.strip()}, taken.key)]
    job = Job.objects.create(
        number=taken.number.strip() or next_number(opened), book=taken.book, variant=taken.variant,
        customer=taken.customer.strip(), reach=taken.reach.strip(), serial=taken.serial.strip(), opened=opened,
        is_invented=taken.is_invented, touched=now, entries=1, summary=_summary(taken),
    )  # fmt: skip
    for kind, body, key in first:
        Entry.objects.create(job=job, number=1, key=key, at=now, by=by, kind=kind, body=body, seen=0)
    return job


def _summary(taken: TakenIn) -> str:
    words: Iterable[str] = (taken.customer, taken.reach, taken.serial, taken.variant, taken.book.book, taken.book.name)
    return " ".join((*words, taken.complaint)).casefold()


def next_number(day: date) -> str:
    """The next free number of a month: `2611-08`."""
    head = f"{day:%y%m}-"
    last = Job.objects.filter(number__startswith=head).aggregate(last=Max("number"))["last"]
    count = int(last.removeprefix(head)) + 1 if last and last.removeprefix(head).isdigit() else 1
    return f"{head}{count:02d}"
