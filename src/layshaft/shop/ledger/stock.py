"""Books and settings as revisions: checked before they are taken, added to what is there, never put in its place."""

from __future__ import annotations

from hashlib import sha256

from django.db import IntegrityError, transaction
from django.utils import timezone

from layshaft.book import check_book, load_book
from layshaft.book.sheet_check import check_shop_text
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import BookRevision, Event, Person, SettingsRevision


def add_book(text: bytes, by: Person | None) -> BookRevision:
    """A unit book, or a new revision of one; the same text again is the row that is there."""
    digest = sha256(text).hexdigest()
    report = check_book(text, "book.yaml")
    if not report.is_clean:
        raise Refused("book faults", report.text())
    book = load_book(text, "book.yaml")
    known = BookRevision.objects.filter(book=book.id, revision=book.revision).first()
    if known is not None:
        if known.sha256 == digest:
            return known
        raise Refused(
            "revision taken",
            f"Revision {book.revision} of {book.id} is here with another text. A changed book needs a new `revision`.",
        )
    now = timezone.now()
    unit = next(iter(book.units.values()))
    try:
        with transaction.atomic():
            row = BookRevision.objects.create(
                book=book.id, revision=book.revision, name=unit.name, maker=unit.maker, sha256=digest, text=text,
                at=now, by=by,
            )  # fmt: skip
            Event.objects.create(at=now, by=by, about=f"book {book.id}", now=f"revision {book.revision}")
    except IntegrityError:
        return BookRevision.objects.get(book=book.id, revision=book.revision, sha256=digest)
    return row


def change_settings(text: str, why: str, by: Person | None, expected: int) -> SettingsRevision:
    """The next revision of the settings; `expected` is the one it was made from."""
    report = check_shop_text(text, "settings")
    if not report.is_clean:
        raise Refused("settings faults", report.text())
    newest = SettingsRevision.objects.first()
    changed = Refused("settings changed", "Somebody changed the settings meanwhile. Look at them again first.")
    if (newest.revision if newest is not None else 0) != expected:
        raise changed
    now = timezone.now()
    try:
        with transaction.atomic():
            row = SettingsRevision.objects.create(revision=expected + 1, text=text, at=now, by=by, why=why)
            Event.objects.create(
                at=now, by=by, about="settings", was=str(expected), now=str(expected + 1), why=why[:300]
            )
    except IntegrityError:
        raise changed from None
    return row


FIRST_SETTINGS = """\
# The shop's settings. Presses, gauges, drawer and prices come in as they are known; what is missing is said where it
# is missed.
layshaft shop: 1
id: shop
name: {name}
revision: 1
dated: {day}
currency: CUR
labour rate: 0 CUR
units: {units}
paper: {paper}
reference temperature: 20 °C
"""


def first_settings(name: str, units: str, by: Person) -> SettingsRevision:
    """The settings of a new shop: its name and its units, and no figure that nobody gave."""
    name = " ".join(name.split()) or "A shop without a name"
    quoted = "'" + name.replace("'", "''") + "'"
    told = {"units": "inch", "paper": "letter"} if units == "inch" else {"units": "metric", "paper": "a4"}
    text = FIRST_SETTINGS.format(name=quoted, day=timezone.localdate().isoformat(), **told)
    return change_settings(text, "a new shop", by, 0)
