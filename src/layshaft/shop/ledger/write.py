"""The one writer of entries: checked against the job as it is, then one transaction that expects it to be so still.

Everything that was sent is either on record when this returns, or refused with a sentence and nowhere. Sent twice
under one key, it is on record once. Two people who write about the same thing without having seen each other's entry
both stay on record; the later one waits until somebody has settled which of them counts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from layshaft.book.sheet import SheetFaults
from layshaft.book.sheet_check import check_job_beside
from layshaft.shop.ledger import desk
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import LISTS, Line, standing
from layshaft.shop.ledger.models import Entry, Job, Person, Place
from layshaft.shop.ledger.putting import held_by
from layshaft.shop.ledger.putting_check import refuse_move
from layshaft.shop.ledger.right import RIGHT_OF_KIND, may
from layshaft.shop.ledger.under_load import asks_for_second, held_after
from layshaft.shop.ledger.yes import refuse_yes

TRIES = 20
"""How often a write starts anew because others were faster; each start sees what they wrote."""
SIGNATURES = frozenset({"by", "at", "countersigned"})
"""What the record itself says of an entry, and nobody who sends one."""
WATCHED = frozenset({"done", "fitted", "taken out"})
"""The kinds of entry that a second person can sign."""
CUSTOMER = "customer"
"""Whose choice it is where the customer made it."""
ONE_VOICE = frozenset({"reading", "look", "choice", "proved"})
"""The kinds of entry where a later one about the same thing replaces an earlier one, so that two at once clash."""


@dataclass(frozen=True)
class Wanted:
    """What someone wants written: on which job, what, and how much of the job they had seen."""

    job: str
    kind: str
    body: Mapping[str, Any]
    by: Person
    key: UUID
    seen: int
    second: Person | None = None
    """Who countersigns, where that is asked for."""
    at: datetime | None = None
    more: Mapping[str, Any] = field(default_factory=dict)


def write(wanted: Wanted) -> Entry:
    """Put an entry on record, or refuse it."""
    _refuse_without_right(wanted)
    for _ in range(TRIES):
        known = Entry.objects.filter(key=wanted.key).select_related("job", "by").first()
        if known is not None:
            return _same(known, wanted)
        found = _try(wanted)
        if found is not None:
            return found
    raise Refused("busy", "Others write on this job all the time just now. Nothing was written; send it again.")


def _refuse_without_right(wanted: Wanted) -> None:
    if wanted.kind not in RIGHT_OF_KIND:
        raise Refused("kind", f"An entry cannot be a `{wanted.kind}`.")
    if not wanted.by.is_here:
        raise Refused("not here", f"{wanted.by.name} no longer signs here.")
    right = RIGHT_OF_KIND[wanted.kind]
    if not may(wanted.by.role, right):
        raise Refused("no right", f"To {right} is not for {wanted.by.role}s. Ask someone who may.")


def _same(known: Entry, wanted: Wanted) -> Entry:
    if (known.job.number, known.kind) != (wanted.job, wanted.kind):
        raise Refused("key used", "Another entry was sent under this key. Nothing was written; send it anew.")
    return known


def _try(wanted: Wanted) -> Entry | None:
    """One attempt; nothing when somebody was faster."""
    job = desk.find_job(wanted.job)
    before = job.entries
    at = wanted.at or timezone.now()
    body = _signed_by_two(wanted, job)
    line = Line(before + 1, wanted.kind, body, wanted.by.key, desk.moment(at))
    lines = _checked(job, line)
    waits = _clash(wanted, lines)
    entry = Entry(
        job=job, number=before + 1, key=wanted.key, at=at, by=wanted.by, kind=wanted.kind,
        about=desk.place_in_body(body), body=dict(body), seen=wanted.seen, waits=waits,
    )  # fmt: skip
    after = (*lines, Line(line.number, line.kind, line.body, line.by, line.at, waits))
    try:
        with transaction.atomic():
            changed = _summary(job, after, wanted)
            if not Job.objects.filter(pk=job.pk, entries=before).update(entries=before + 1, touched=at, **changed):
                return None
            entry.save(force_insert=True)
    except IntegrityError:
        return None
    return entry


def _signed_by_two(wanted: Wanted, job: Job) -> dict[str, Any]:
    """The body with its countersignature, where the work asks for one; nobody signs for somebody else."""
    body = {key: value for key, value in wanted.body.items() if value not in (None, "") and key not in SIGNATURES}
    if wanted.kind == "choice" and wanted.body.get("by") == CUSTOMER:
        body["by"] = CUSTOMER
    why = asks_for_second(job, wanted.kind, body, wanted.by)
    if wanted.second is None:
        if why:
            raise Refused("second person", why)
        return body
    if wanted.second.pk == wanted.by.pk or not may(wanted.second.role, "countersign"):
        raise Refused("second person", "The second signature is another person's, an owner's or a rebuilder's.")
    return {**body, "countersigned": wanted.second.key} if wanted.kind in WATCHED else body


def _checked(job: Job, line: Line) -> tuple[Line, ...]:
    """The job's lines so far; refused where the new one has a fault by the rules of a job file."""
    refuse_yes(line)
    try:
        opened = desk.open_desk(job, (line,))
    except SheetFaults as faults:
        raise Refused("fault", _told(faults.report)) from None
    lines = opened.lines[:-1]
    if line.kind == "settled":
        _refuse_to_settle(line, lines)
    refuse_move(job, line)
    if line.kind not in LISTS:
        return lines
    section = LISTS[line.kind]
    last = len(getattr(opened.content, section)) - 1
    report = check_job_beside(opened.sheet, opened.book, opened.shop)
    mine = [fault for fault in report.faults if tuple(fault.path[:2]) == (section, last)]
    if mine:
        raise Refused("fault", " ".join(_sentence(fault) for fault in mine))
    return lines


def _refuse_to_settle(line: Line, lines: tuple[Line, ...]) -> None:
    if not any(one.number == line.body.get("entry") for one in lines):
        raise Refused("no entry", f"There is no entry {line.body.get('entry')} on this job.")


def _told(report: Any) -> str:
    return " ".join(_sentence(fault) for fault in report.faults)


def _sentence(fault: Any) -> str:
    tail = [f"Needed: {fault.needed}." if fault.needed else "", f"Try: {fault.try_}." if fault.try_ else ""]
    return " ".join((fault.sentence, *(text for text in tail if text)))


def _clash(wanted: Wanted, lines: tuple[Line, ...]) -> str:
    """What to settle where someone else wrote about the same thing since the sender last looked."""
    if wanted.kind not in ONE_VOICE:
        return ""
    about = _subject(wanted.kind, wanted.body)
    stands = standing(lines)
    for line in lines:
        is_new = line.number > wanted.seen and line.by != wanted.by.key
        if is_new and stands[line.number] == "counts" and _subject(line.kind, line.body) == about:
            return f"{line.by} wrote about the same at {line.at[11:]} (entry {line.number}): say which of them counts."
    return ""


def _subject(kind: str, body: Mapping[str, Any]) -> tuple[Any, ...]:
    """What an entry speaks of: the same again takes its place."""
    keys = ("part", "reading", "result", "look", "piece", "pieces", "new", "proof", "renew", "keep", "fit")
    return (kind, *(str(body.get(key, "")) for key in keys))


def _is_of_fitting(lines: tuple[Line, ...], wanted: Wanted) -> bool:
    return any(line.number == wanted.body.get("entry") and line.kind == "fitted" for line in lines)


def _summary(job: Job, lines: tuple[Line, ...], wanted: Wanted) -> dict[str, Any]:
    """What the job's own row says of its entries, for pages that look at many jobs."""
    changed: dict[str, Any] = {
        "waits": sum(stand == "waits" for stand in standing(lines).values()),
        "held_load": held_after(job.held_load, wanted.kind, wanted.body),
    }
    if wanted.kind == "taken out" or (wanted.kind == "settled" and _is_of_fitting(lines, wanted)):
        stands = standing(lines)
        changed["held_load"] = held_by(line for line in lines if stands[line.number] == "counts")
    if wanted.kind == "taken out" and job.place == Place.READY:
        changed["place"] = Place.BENCH
    if wanted.kind == "released":
        changed["place"] = Place.READY
    if wanted.kind == "placed":
        if wanted.body.get("to") not in Place.values:
            raise Refused("place", f"There is no place `{wanted.body.get('to')}`.")
        changed["place"] = wanted.body["to"]
    if wanted.kind == "complaint":
        changed["summary"] = f"{job.summary} {wanted.body['words']}".casefold().strip()
    return changed
