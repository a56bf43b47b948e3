"""What every page has: who is signed in, what they may do, how a refusal is told."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any
from urllib.parse import quote

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Person
from layshaft.shop.ledger.right import RIGHTS, may

View = Callable[..., HttpResponse]
PERSON = "person"


def person_of(request: HttpRequest) -> Person | None:
    """Who is signed in on this device; one who left is not."""
    found = request.session.get(PERSON)
    return Person.objects.filter(pk=found, is_here=True).first() if found is not None else None


def page(request: HttpRequest, template: str, told: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    """A page with what all of them show."""
    person = getattr(request, "person", None) or person_of(request)
    context = {"person": person, "may": _rights(person), **(told or {})}
    return render(request, template, context, status=status)


def _rights(person: Person | None) -> dict[str, bool]:
    return {right.replace(" ", "_"): person is not None and may(person.role, right) for right in RIGHTS}


def asks_for(right: str) -> Callable[[View], View]:
    """A page for people who are signed in and have a right; others are asked who they are, or refused."""

    def ask(view: View) -> View:
        @wraps(view)
        def answer(request: HttpRequest, *args: Any, **more: Any) -> HttpResponse:
            person = person_of(request)
            if person is None:
                back = request.get_full_path() if request.method == "GET" else reverse("where")
                return HttpResponseRedirect(f"{reverse('who')}?then={quote(back)}")
            request.person = person
            if not may(person.role, right):
                told = Refused("no right", f"To {right} is not for {person.role}s. Ask someone who may.")
                return refused(request, told, 403)
            try:
                return view(request, *args, **more)
            except Refused as told:
                return refused(request, told, 404 if told.id == "no job" else 409)

        answer.asks_for = right
        return answer

    return ask


def refused(request: HttpRequest, told: Refused, status: int) -> HttpResponse:
    """A page that says why not; nothing was changed."""
    return page(request, "refused.html", {"sentence": told.sentence}, status)
