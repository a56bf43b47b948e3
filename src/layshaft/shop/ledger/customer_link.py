"""Showing a job to its customer: by a link that nobody can guess, that shows that one job, until someone ends it."""

from __future__ import annotations

from hashlib import sha256
from secrets import token_urlsafe

from django.db import transaction
from django.utils import timezone

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import CustomerLink, Event, Job, Person

BYTES = 32
"""Of chance in a link: as many as in a key that nobody tries out."""


def make_link(job: Job, by: Person) -> str:
    """A new link's token; it is told once and kept nowhere."""
    token = token_urlsafe(BYTES)
    now = timezone.now()
    with transaction.atomic():
        CustomerLink.objects.create(job=job, digest=_digest(token), at=now, by=by)
        Event.objects.create(at=now, by=by, about=f"job {job.number}", now="shown to its customer by a link")
    return token


def end_link(job: Job, link: int, by: Person) -> None:
    """From now on the link shows nothing."""
    now = timezone.now()
    with transaction.atomic():
        open_ones = CustomerLink.objects.filter(pk=link, job=job, ended_at=None)
        if not open_ones.update(ended_at=now, ended_by=by):
            raise Refused("no link", "There is no such link on this job, or it was ended before.")
        Event.objects.create(at=now, by=by, about=f"job {job.number}", was="shown by a link", now="link ended")


def job_of_link(token: str) -> Job | None:
    """The job that a link shows, as long as nobody ended it."""
    links = CustomerLink.objects.select_related("job__book")
    found = links.filter(digest=_digest(token), ended_at=None).first()
    return found.job if found is not None else None


def _digest(token: str) -> str:
    return sha256(token.encode()).hexdigest()
