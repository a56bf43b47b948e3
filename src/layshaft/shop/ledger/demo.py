"""A demo shop with several jobs at different stages, all of it invented: one call loads it into an empty record."""

from __future__ import annotations

import re
from pathlib import Path

from django.db import transaction

from layshaft.book.sheet import load_job, load_shop
from layshaft.shop.ledger.bring import bring_in
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job, Person
from layshaft.shop.ledger.people import add_person
from layshaft.shop.ledger.stock import add_book, change_settings

PIN = "2580"
"""The PIN of everyone in the demo shop; it is told on the page that offers to load it."""
_PEOPLE = re.compile(r"^people:\n(?:[ #].*\n|\n(?= ))+", re.MULTILINE)


def split_people(text: str) -> str:
    """Settings without the people: those have rows of their own."""
    return _PEOPLE.sub("", text)


def load_demo(books: Path) -> None:
    """People, books, settings and jobs of the demo, from the folder of the shipped books."""
    if Person.objects.exists() or Job.objects.exists():
        raise Refused("not empty", "The demo goes into an empty shop only: this one has people or jobs of its own.")
    text = (books / "demo" / "shop.yaml").read_text("utf-8")
    with transaction.atomic():
        owner = None
        for key, person in load_shop(text, "shop.yaml").content.people.items():
            made = add_person(person.name, person.role, PIN, owner)
            Person.objects.filter(pk=made.pk).update(key=key)
            owner = owner or Person.objects.get(pk=made.pk)
        change_settings(split_people(text), "the demo shop", owner, 0)
        for book in sorted(books.glob("*/book.yaml")):
            add_book(book.read_bytes(), owner)
        assert owner is not None
        for file in sorted((books / "demo").glob("job*.yaml")):
            bring_in(load_job(file.read_bytes(), file.name).content, owner)
