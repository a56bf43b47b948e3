"""A small shop for the tests of the record: the demo's people, books, settings and job."""

from __future__ import annotations

from pathlib import Path
from uuid import uuid4

from layshaft.shop.ledger.demo import load_demo
from layshaft.shop.ledger.models import Entry, Job, Person
from layshaft.shop.ledger.write import Wanted, write

BOOKS = Path(__file__).parents[3] / "books"
NUMBER = "KL-2611-07"


def open_shop() -> Job:
    """The demo shop, loaded once; its one job."""
    if not Job.objects.filter(number=NUMBER).exists():
        load_demo(BOOKS)
    return Job.objects.get(number=NUMBER)


def person(key: str) -> Person:
    """Someone of the demo shop."""
    return Person.objects.get(key=key)


def wanted(kind: str, body: dict, by: str = "maddick", **more: object) -> Wanted:
    """An entry for the demo job, by someone who has seen all there is."""
    job = Job.objects.get(number=NUMBER)
    told = {"key": uuid4(), "seen": job.entries, **more}
    return Wanted(NUMBER, kind, body, person(by), **told)


def put(kind: str, body: dict, by: str = "maddick", **more: object) -> Entry:
    """The same, written."""
    return write(wanted(kind, body, by, **more))
