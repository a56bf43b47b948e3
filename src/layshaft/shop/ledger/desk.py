"""A job opened from the record: its book, its shop, its entries folded into a job, each read once and kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from django.utils import timezone

from layshaft.book import Book, BookFaults, load_book
from layshaft.book.definition import Job as JobFile
from layshaft.book.definition import Shop, Unit
from layshaft.book.sheet import Sheet, load_job, load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import Heading, Line, job_text
from layshaft.shop.ledger.models import BookRevision, Entry, Job, Person, SettingsRevision


@dataclass(frozen=True)
class Desk:
    """A job with all that it is worked out by; `version` is how many entries it was folded from."""

    job: Job
    version: int
    book: Book
    unit: Unit
    shop: Shop
    lines: tuple[Line, ...]
    sheet: Sheet[JobFile]

    @property
    def content(self) -> JobFile:
        """The job as a job file says it."""
        return self.sheet.content


def book_of(row: BookRevision) -> Book:
    """The unit book of a row; rows never change, so one is read once."""
    return _book(row.pk, row.sha256)


@lru_cache(maxsize=32)
def _book(revision: int, digest: str) -> Book:
    row = BookRevision.objects.get(pk=revision, sha256=digest)
    try:
        return load_book(bytes(row.text), f"{row.book} {row.revision}")
    except BookFaults as faults:
        found = next(iter(faults.report.faults))
        why = f"Its book, {row.book} {row.revision}, has a fault that was let pass when it was added: {found.sentence}"
        raise Refused(
            "book", f"{why} Nothing is worked out from it; have a mended revision of the book added."
        ) from None


def settings_now() -> SettingsRevision:
    """The shop's settings as they are."""
    found = SettingsRevision.objects.first()
    if found is None:
        raise Refused("no settings", "This shop has no settings yet. Start it anew, or load the demo shop.")
    return found


def shop_of(settings: SettingsRevision, people: Sequence[tuple[str, str, str]]) -> Sheet[Shop]:
    """The shop file that settings and people amount to; `people` are keys with their names and roles."""
    return _shop(settings.text, tuple(people))


@lru_cache(maxsize=64)
def _shop(text: str, people: tuple[tuple[str, str, str], ...]) -> Sheet[Shop]:
    listed = "".join(f"  {key}: {{name: {_quoted(name)}, role: {role}}}\n" for key, name, role in people)
    return load_shop(f"{text.rstrip()}\npeople:\n{listed}" if listed else text, "settings")


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def people_now() -> tuple[tuple[str, str, str], ...]:
    """Everyone on record, those who left as well: what they signed stays signed."""
    return tuple(Person.objects.order_by("key").values_list("key", "name", "role"))


def lines_of(entries: Sequence[Entry]) -> tuple[Line, ...]:
    """Rows as folding sees them."""
    return tuple(
        Line(entry.number, entry.kind, entry.body, entry.by.key, moment(entry.at), entry.waits) for entry in entries
    )


def moment(at: datetime) -> str:
    """A time as a job file writes it."""
    return timezone.localtime(at).strftime("%Y-%m-%d %H:%M")


def heading_of(job: Job, shop: Shop, today: date) -> Heading:
    """What stands at the head of a job's file."""
    return Heading(
        number=job.number,
        book=(job.book.book, job.book.revision),
        shop=(shop.id, shop.revision),
        variant=job.variant,
        opened=job.opened.isoformat(),
        today=max(today, job.opened).isoformat(),
        serial=job.serial,
        customer=job.customer,
        reach=job.reach,
        is_invented=job.is_invented,
    )


def open_desk(job: Job, more: Sequence[Line] = ()) -> Desk:
    """A job as its entries have it now; `more` are lines that are not written yet."""
    entries = list(job.written.select_related("by").order_by("number"))
    lines = (*lines_of(entries), *more)
    book = book_of(job.book)
    shop = shop_of(settings_now(), people_now()).content
    sheet = load_job(job_text(heading_of(job, shop, timezone.localdate()), lines), job.number)
    return Desk(job, len(entries), book, book.unit(job.variant), narrow_shop(shop, book, job.variant), lines, sheet)


def find_job(number: str) -> Job:
    """A job by its number."""
    found = Job.objects.select_related("book").filter(number=number).first()
    if found is None:
        raise Refused("no job", f"There is no job {number}.")
    return found


def place_in_body(body: Any) -> str:
    """What an entry is about, in one word for looking it up: `OT-032 / thickness`."""
    named = [str(body[key]) for key in ("part", "off", "partly", "seen", "held", "proof", "result") if key in body]
    named += [str(body[key]) for key in ("reading", "look") if key in body]
    return " / ".join(named)[:200]
