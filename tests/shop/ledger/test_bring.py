"""A job file brought in and folded out again says the same; brought in twice it is one job."""

from __future__ import annotations

from layshaft.book.sheet import load_job
from layshaft.shop.ledger.bring import bring_in
from layshaft.shop.ledger.desk import heading_of, open_desk, people_now, settings_now, shop_of
from layshaft.shop.ledger.fold import job_text
from layshaft.shop.ledger.models import Entry, Job
from tests.shop.ledger.shop import BOOKS, person

FILE = load_job((BOOKS / "demo" / "job.yaml").read_bytes(), "job.yaml").content
OF_TODAY = {"today", "shop"}


def test_what_is_folded_is_what_was_brought_in(job: Job) -> None:
    folded = open_desk(job).content
    for section in type(FILE).model_fields:
        if section not in {*OF_TODAY, "done", "looks", "readings", "proved"}:
            assert getattr(folded, section) == getattr(FILE, section), section
    for section in ("done", "looks", "readings", "proved"):
        for mine, theirs in zip(getattr(folded, section), getattr(FILE, section), strict=True):
            assert mine.model_dump(exclude={"at", "by"}) == theirs.model_dump(exclude={"at", "by"})
            assert theirs.at is None or mine.at == theirs.at
            assert theirs.by is None or mine.by == theirs.by


def test_brought_in_twice_it_is_one_job(job: Job) -> None:
    entries = Entry.objects.count()
    assert bring_in(FILE, person("ferrow")).pk == job.pk
    assert Entry.objects.count() == entries


def test_the_text_is_a_job_file(job: Job) -> None:
    shop = shop_of(settings_now(), people_now()).content
    desk = open_desk(job)
    text = job_text(heading_of(job, shop, job.opened), desk.lines)
    assert text.startswith("layshaft job: 1\n")
    assert load_job(text, "job").content.id == job.number
