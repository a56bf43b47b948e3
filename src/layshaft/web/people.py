"""The people of the shop: the owner takes someone on, changes a role, sets another PIN, marks someone gone."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Person, Role
from layshaft.shop.ledger.people import add_person, change_person, set_pin
from layshaft.shop.ledger.right import RIGHTS
from layshaft.web.page import asks_for, page


@require_http_methods(["GET", "POST"])
@asks_for("change people")
def people(request: HttpRequest) -> HttpResponse:
    """Everyone on record; a new one by the form below."""
    if request.method == "POST":
        sent = request.POST
        try:
            add_person(sent.get("name", "")[:80], sent.get("role", ""), sent.get("pin", ""), request.person)
        except Refused as refusal:
            return _page(request, {"told": refusal.sentence, "typed": sent}, 409)
        return HttpResponseRedirect(reverse("people"))
    return _page(request)


def _page(request: HttpRequest, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    told = {
        "people": Person.objects.order_by("-is_here", "name"),
        "roles": [(role.value, [right for right, who in RIGHTS.items() if role in who]) for role in Role],
        **(more or {}),
    }
    return page(request, "people.html", told, status)


@require_POST
@asks_for("change people")
def change(request: HttpRequest, key: str) -> HttpResponse:
    """Another role, another PIN, gone or here again."""
    person = Person.objects.filter(key=key).first()
    sent = request.POST
    try:
        if person is None:
            raise Refused("no job", f"Nobody here is called {key}.")
        match sent.get("what"):
            case "role":
                change_person(person, request.person, role=sent.get("role", ""))
            case "pin":
                set_pin(person, sent.get("pin", ""), request.person)
            case "gone":
                change_person(person, request.person, is_here=False)
            case "here":
                change_person(person, request.person, is_here=True)
            case _:
                raise Refused("what", "What is to be changed? The page has lost it: open it again.")
    except Refused as refusal:
        return _page(request, {"told": refusal.sentence}, 404 if refusal.id == "no job" else 409)
    return HttpResponseRedirect(reverse("people"))
