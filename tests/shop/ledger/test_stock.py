"""Revisions of books and settings: checked, added, never replaced."""

from __future__ import annotations

import pytest

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import BookRevision, Event, Job, SettingsRevision
from layshaft.shop.ledger.stock import add_book, change_settings
from tests.shop.ledger.shop import BOOKS, person

LAYLINE = (BOOKS / "layline" / "book.yaml").read_text("utf-8")


def test_the_same_book_again_is_the_one_that_is_there(job: Job) -> None:
    before = BookRevision.objects.count()
    assert add_book(LAYLINE.encode(), person("ferrow")).book == "layline"
    assert BookRevision.objects.count() == before


def test_another_text_under_the_same_revision_is_refused(job: Job) -> None:
    with pytest.raises(Refused, match="needs a new `revision`"):
        add_book((LAYLINE + "# more\n").encode(), person("ferrow"))


def test_a_new_revision_stands_beside_the_old_one(job: Job) -> None:
    text = LAYLINE.replace("\nrevision: 1\n", "\nrevision: 2\n", 1)
    assert add_book(text.encode(), person("ferrow")).revision == 2
    assert list(BookRevision.objects.filter(book="layline").values_list("revision", flat=True)) == [2, 1]


def test_a_faulty_book_is_refused_with_its_report(job: Job) -> None:
    with pytest.raises(Refused, match="fault") as refused:
        add_book(b"layshaft book: 1\n", person("ferrow"))
    assert refused.value.id == "book faults"


def test_settings_change_only_from_what_was_seen(job: Job) -> None:
    text = SettingsRevision.objects.get().text.replace("units: metric", "units: inch")
    made = change_settings(text, "inch from now on", person("ferrow"), 1)
    assert made.revision == 2
    assert Event.objects.first().why == "inch from now on"
    with pytest.raises(Refused, match="meanwhile"):
        change_settings(text, "again", person("ferrow"), 1)


def test_faulty_settings_are_refused(job: Job) -> None:
    with pytest.raises(Refused) as refused:
        change_settings("layshaft shop: 1\nid: x\n", "oops", person("ferrow"), 1)
    assert refused.value.id == "settings faults"
