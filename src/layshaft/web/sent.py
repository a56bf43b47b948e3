"""What a form sends, made into an entry: its key, how much of the job was seen, who signs beside."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from uuid import UUID, uuid5

from django.http import HttpRequest

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Entry, Person
from layshaft.shop.ledger.people import is_pin
from layshaft.shop.ledger.write import Wanted, write


def send(request: HttpRequest, number: str, kind: str, body: Mapping[str, Any], at: int = 0) -> Entry:
    """Write what a form sends; `at` counts the entries that one form makes."""
    key, seen = key_of(request), _seen(request)
    person: Person = request.person
    return write(
        Wanted(number, kind, body, person, uuid5(key, str(at)) if at else key, seen + at, _second(request))
    )


def key_of(request: HttpRequest) -> UUID:
    """The key that a form was stamped with."""
    try:
        return UUID(request.POST.get("key", ""))
    except ValueError:
        raise Refused("key", "This page has lost its stamp. Open it again, and send it once more.") from None


def _seen(request: HttpRequest) -> int:
    seen = request.POST.get("seen", "")
    if not (seen.isascii() and seen.isdigit() and len(seen) < 10):
        raise Refused("seen", "This page has lost its stamp. Open it again, and send it once more.")
    return int(seen)


def _second(request: HttpRequest) -> Person | None:
    """Who countersigns in place, by their own PIN."""
    key = request.POST.get("second", "")
    if not key:
        return None
    person = Person.objects.filter(key=key, is_here=True).first()
    if person is None or not is_pin(person, request.POST.get("second_pin", "")):
        raise Refused("second person", "The second signature's PIN is not that person's.")
    return person
