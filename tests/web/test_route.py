"""Who may open and send what: every route, every role; a route that is not in the table fails."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.test import Client
from django.urls import reverse

from layshaft.shop.ledger.models import Entry, Event, Job
from layshaft.shop.ledger.right import RIGHTS, may
from layshaft.web.urls import urlpatterns
from tests.shop.ledger.shop import NUMBER

ROUTES: dict[str, tuple[str | None, tuple[object, ...]]] = {
    "where": ("look around", ()),
    "who": (None, ()),
    "leave": (None, ()),
    "first": (None, ("no-token",)),
    "shop": ("look around", ()),
    "settings": ("change settings", ()),
    "settings few": ("change settings", ()),
    "people": ("change people", ()),
    "person": ("change people", ("quill",)),
    "books": ("look around", ()),
    "add book": ("add books", ()),
    "book file": ("look around", (1,)),
    "new job": ("take a job in", ()),
    "job": ("look around", (NUMBER,)),
    "place": ("move a unit", (NUMBER,)),
    "settle": ("settle a doubt", (NUMBER, 3)),
    "bench": ("look around", (NUMBER,)),
    "bench done": ("write on the bench", (NUMBER,)),
    "bench may": ("look around", (NUMBER,)),
    "bench went": ("write on the bench", (NUMBER,)),
    "photos": ("look around", (NUMBER,)),
    "add photo": ("take a photo", (NUMBER,)),
    "picture": ("look around", (NUMBER, "0" * 64, "small")),
    "customer": ("show a customer", (NUMBER,)),
    "end link": ("show a customer", (NUMBER, 1)),
    "shown": (None, ("no-token",)),
    "shown photo": (None, ("no-token", "0" * 64, "small")),
    "assembly": ("look around", (NUMBER,)),
    "assembly done": ("write on the bench", (NUMBER,)),
    "assembly proved": ("prove", (NUMBER,)),
    "assembly apart": ("write on the bench", (NUMBER,)),
    "release": ("release", (NUMBER,)),
    "press": ("look around", (NUMBER,)),
    "press way": ("look around", (NUMBER, "direct spring", 1)),
    "fit": ("look around", (NUMBER,)),
    "fit named": ("choose", (NUMBER,)),
    "fit given up": ("choose", (NUMBER,)),
    "price": ("look around", (NUMBER,)),
    "price yes": ("record a yes", (NUMBER,)),
    "price word": ("choose", (NUMBER,)),
    "readings": ("look around", (NUMBER,)),
    "part": ("look around", (NUMBER, "OT-034")),
    "look": ("look and read", (NUMBER, "OT-034")),
    "reading": ("look and read", (NUMBER, "OT-034")),
}
"""For each route the right that it asks for, nothing where nobody is signed in yet, and what to call it with."""
PEOPLE = {"ferrow": "owner", "maddick": "rebuilder", "quill": "apprentice", "orrin": "counter"}


def test_every_route_stands_in_the_table() -> None:
    assert {route.name for route in urlpatterns} == ROUTES.keys()
    assert {right for right, _ in ROUTES.values() if right} <= RIGHTS.keys()


@pytest.mark.parametrize("name", ROUTES)
def test_a_route_asks_for_the_right_that_the_table_says(name: str) -> None:
    view = next(route.callback for route in urlpatterns if route.name == name)
    while hasattr(view, "__wrapped__") and not hasattr(view, "asks_for"):
        view = view.__wrapped__
    assert getattr(view, "asks_for", None) == ROUTES[name][0]


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("name", [name for name, (right, _) in ROUTES.items() if right])
def test_nobody_gets_past_the_door(job: Job, name: str, method: str) -> None:
    before = Entry.objects.count(), Event.objects.count()
    answer = getattr(Client(), method)(reverse(name, args=ROUTES[name][1]))
    assert answer.status_code in (302, 405)
    assert answer.status_code == 405 or answer["Location"].startswith("/who")
    assert (Entry.objects.count(), Event.objects.count()) == before


@pytest.mark.parametrize("key", PEOPLE)
@pytest.mark.parametrize("name", [name for name, (right, _) in ROUTES.items() if right])
def test_who_has_no_right_is_refused(at_screen: Callable[[str], Client], name: str, key: str) -> None:
    right, args = ROUTES[name]
    assert right is not None
    client = at_screen(key)
    answers = [getattr(client, method)(reverse(name, args=args)) for method in ("get", "post")]
    codes = {answer.status_code for answer in answers if answer.status_code != 405}
    if may(PEOPLE[key], right):
        assert 403 not in codes
    else:
        assert codes == {403}


@pytest.mark.parametrize("name", [name for name, (right, _) in ROUTES.items() if right])
def test_a_forged_request_is_refused(at_screen: Callable[[str], Client], name: str) -> None:
    strict = Client(enforce_csrf_checks=True)
    strict.cookies = at_screen("ferrow").cookies
    before = Entry.objects.count()
    assert strict.post(reverse(name, args=ROUTES[name][1])).status_code in (403, 405)
    assert Entry.objects.count() == before


def test_an_address_that_is_none_leads_back(job: Job) -> None:
    answer = Client().get("/nowhere")
    assert answer.status_code == 404
    assert f'href="{reverse("where")}"' in answer.content.decode()
