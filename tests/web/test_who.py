"""Signing in: by name and PIN, the first owner by a link, a guesser locked out alone."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from unittest.mock import patch

import pytest
from django.http import HttpResponse
from django.test import Client
from django.utils import timezone

from layshaft.shop.ledger.guess import LOCKED_FOR, WRONG_ANYWHERE, WRONG_HERE
from layshaft.shop.ledger.models import Entry, Event, Job, Person, SettingsRevision
from layshaft.web.page import PERSON
from layshaft.web.who import first_token
from tests.shop.ledger.shop import person


def sign_in(client: Client, key: str, pin: str, **more: str) -> HttpResponse:
    return client.post("/who", {"name": key, "pin": pin, **more})


def test_the_right_pin_leads_on_to_where_one_was_going(job: Job) -> None:
    client = Client()
    assert client.get(f"/jobs/{job.number}/bench")["Location"] == f"/who?then=/jobs/{job.number}/bench"
    answer = sign_in(client, "maddick", "2580", then=f"/jobs/{job.number}/bench")
    assert answer["Location"] == f"/jobs/{job.number}/bench"
    assert client.session[PERSON] == person("maddick").pk


@pytest.mark.parametrize("then", ["https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)", "who"])
def test_it_leads_nowhere_else(job: Job, then: str) -> None:
    assert sign_in(Client(), "maddick", "2580", then=then)["Location"] == "/"


def test_one_guesser_is_locked_out_and_nobody_else(job: Job) -> None:
    guesser = Client()
    for _ in range(WRONG_HERE):
        assert sign_in(guesser, "maddick", "0001").status_code == 200
    assert "Too many wrong PINs" in sign_in(guesser, "maddick", "2580").content.decode()
    assert sign_in(guesser, "quill", "2580").status_code == 302
    assert sign_in(Client(), "maddick", "2580").status_code == 302


def test_who_throws_screens_away_is_stopped_at_last_and_it_ends(job: Job) -> None:
    for _ in range(WRONG_ANYWHERE):
        sign_in(Client(), "maddick", "0001")
    assert "Too many" in sign_in(Client(), "maddick", "2580").content.decode()
    later = timezone.now() + LOCKED_FOR + timedelta(seconds=1)
    with patch("django.utils.timezone.now", return_value=later):
        assert sign_in(Client(), "maddick", "2580").status_code == 302


def test_who_left_is_signed_out_at_once(at_screen: Callable[[str], Client]) -> None:
    client = at_screen("maddick")
    Person.objects.filter(key="maddick").update(is_here=False)
    assert client.get("/")["Location"].startswith("/who")


def test_handing_over_signs_out(at_screen: Callable[[str], Client]) -> None:
    client = at_screen("maddick")
    client.post("/leave")
    assert client.get("/")["Location"].startswith("/who")


def test_who_comes_next_goes_on_at_the_same_move(at_screen: Callable[[str], Client], job: Job) -> None:
    client, bench = at_screen("maddick"), f"/jobs/{job.number}/bench"
    assert f'name="then" value="{bench}"' in client.get(bench).content.decode()
    door = client.post("/leave", {"then": bench})["Location"]
    assert door == f"/who?then={bench}"
    assert f'name="then" value="{bench}"' in client.get(door).content.decode()
    assert sign_in(client, "quill", "2580", then=bench)["Location"] == bench
    assert client.post("/leave", {"then": "https://elsewhere.example/"})["Location"] == "/who?then=/"


def test_the_owner_s_link_is_worth_nothing_where_there_is_one(job: Job) -> None:
    assert Client().get(f"/first/{first_token()}")["Location"] == "/who"
    assert Client().get("/first/forged").status_code == 403


@pytest.fixture
def empty(db: None) -> None:
    """A shop that nobody has opened yet."""
    for rows in (Entry, Job, Event, SettingsRevision):
        rows.objects.all().delete()
    from layshaft.shop.ledger.models import BookRevision, Guess

    for rows in (BookRevision, Guess, Person):
        rows.objects.all().delete()


def test_the_first_owner_opens_the_shop_by_the_link(empty: None) -> None:
    client = Client()
    assert "no owner yet" in client.get("/who").content.decode()
    link = f"/first/{first_token()}"
    told = client.post(link, {"name": "A. Ferrow", "pin": "1111", "shop": "Kettle Lane"}).content.decode()
    assert "anyone would try first" in told
    answer = client.post(link, {"name": "A. Ferrow", "pin": "7319", "shop": "O'Dell & Daughter", "units": "inch"})
    assert answer["Location"] == "/"
    assert "units: inch" in SettingsRevision.objects.get().text
    assert "No unit has been taken in yet" in client.get("/").content.decode()
    assert Client().post(link, {"name": "B", "pin": "7319", "shop": "x"})["Location"] == "/who"
