"""A job file brought into the record: each of its lines an entry, in the order of the sections and of the lines."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid5

from django.db import transaction
from django.utils import timezone

from layshaft.book.definition import Job as JobFile
from layshaft.book.definition.base import Definition
from layshaft.quantity import Quantity
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import LISTS
from layshaft.shop.ledger.intake import TakenIn, take_in
from layshaft.shop.ledger.models import BookRevision, Entry, Job, Person
from layshaft.shop.ledger.under_load import held_after

BROUGHT = UUID("6f1c5a60-0d0f-4a44-9d5b-0a6a5e3b2f11")
"""The name space of keys made for lines of job files: the same file brought in twice is one job."""


def bring_in(content: JobFile, by: Person, *, number: str = "") -> Job:
    """A job with all the entries that its file has; signatures and times stay those of the file."""
    book = BookRevision.objects.filter(book=content.book.id, revision=content.book.revision).first()
    if book is None:
        raise Refused("no book", f"The unit book {content.book.id} {content.book.revision} is not here: add it first.")
    number = number or content.id
    people = {person.key: person for person in Person.objects.all()}
    with transaction.atomic():
        job = take_in(
            TakenIn(
                book=book, variant=content.variant, customer=content.customer.name if content.customer else "in stock",
                reach=(content.customer.reach or "") if content.customer else "", serial=content.serial or "",
                complaint=content.intake.complaint or "", key=uuid5(BROUGHT, f"{number} took in"), number=number,
                is_invented=content.invented, opened=date.fromisoformat(content.opened),
            ),
            by,
        )  # fmt: skip
        if job.entries == 1:
            _write_all(job, content, by, people)
    return job


def _write_all(job: Job, content: JobFile, by: Person, people: dict[str, Person]) -> None:
    at = timezone.now()
    rows, held = [], ""
    for count, (kind, body) in enumerate(_bodies(content), 2):
        signed = people.get(body.get("by", ""), by)
        if body.get("by") in people:
            del body["by"]
        moment = body.pop("at", None)
        held = held_after(held, kind, body)
        rows.append(
            Entry(
                job=job, number=count, key=uuid5(BROUGHT, f"{job.number} {count}"), at=_time(moment) or at, by=signed,
                kind=kind, body=body, seen=count - 1,
            )
        )  # fmt: skip
    Entry.objects.bulk_create(rows)
    Job.objects.filter(pk=job.pk).update(entries=1 + len(rows), held_load=held)
    job.refresh_from_db()


def _time(moment: str | None) -> datetime | None:
    if not moment:
        return None
    text = moment if len(moment) > 10 else f"{moment} 12:00"
    return timezone.make_aware(datetime.strptime(text, "%Y-%m-%d %H:%M"))


def _bodies(content: JobFile) -> Iterator[tuple[str, dict[str, Any]]]:
    intake = content.intake
    if intake.complaint:
        yield "complaint", {"words": intake.complaint}
    for words in intake.evidence:
        yield "evidence", {"words": words}
    for words in intake.missing:
        yield "missing", {"words": words}
    for noticed in intake.noticed:
        yield "noticed", _plain(noticed)
    if content.temperature is not None:
        yield "temperature", {"temperature": content.temperature.text}
    if content.wants:
        yield "wants", {"parts": list(content.wants)}
    for kind, section in LISTS.items():
        for line in getattr(content, section):
            yield kind, _plain(line)
    if content.accepted_by:
        yield "accepted", {"who": content.accepted_by}


def _plain(line: Definition) -> dict[str, Any]:
    """A line as it would be written: figures as typed, nothing that was left out."""
    fields = type(line).model_fields
    return {
        fields[name].alias or name: _as_typed(getattr(line, name))
        for name in fields
        if name in line.model_fields_set
    }


def _as_typed(value: Any) -> Any:
    if isinstance(value, (list, tuple)):
        return [_as_typed(one) for one in value]
    return value.text if isinstance(value, Quantity) else value
