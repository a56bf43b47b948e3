"""Price and order by page: what it was and is, the customer's yes and word, what to buy and what the drawer has."""

from __future__ import annotations

from collections.abc import Callable
from uuid import uuid4

import pytest
from django.http import HttpResponse
from django.test import Client

from layshaft.shop.ledger.estimate import estimate_of
from layshaft.shop.ledger.models import Entry, Job
from layshaft.shop.ledger.standing import standing_of
from tests.shop.ledger.shop import NUMBER

AtScreen = Callable[[str], Client]
YES = {"who": "R. Tessenby", "how": "by telephone"}


def sent(client: Client, job: Job, to: str, /, **more: str) -> HttpResponse:
    job.refresh_from_db()
    return client.post(f"/jobs/{NUMBER}/price/{to}", {"key": str(uuid4()), "seen": str(job.entries), **more})


def test_estimate_and_price_stand_there_with_what_is_open_and_what_to_buy(at_screen: AtScreen, job: Job) -> None:
    page = at_screen("orrin").get(f"/jobs/{NUMBER}/price").content.decode()
    stand = standing_of(job)
    assert f"<h1>At least {stand.rebuilt.price.total}</h1>" in page
    assert f"Before it was opened: at least {estimate_of(stand).total}" in page
    assert "Nobody has said yes to a price on this job yet." in page
    assert "OT-054 Planet carrier assembly may be added (430.00 CUR each)" in page
    for line in stand.rebuilt.price.lines:
        assert f"<td>{line.amount}</td>" in page
    assert "OT-084 Tail roller bearing: rollers: pitted." in page
    assert "<h3>Dray Street bearings</h3>" in page
    assert "11 × OT-045 Direct friction plate." in page
    assert "OT-086 Park pawl is kept, as the customer said" in page
    assert "Take down the customer&#x27;s word" not in page


def test_a_yes_is_taken_down_with_its_total_and_shown(at_screen: AtScreen, job: Job) -> None:
    client, seen, total = at_screen("orrin"), job.entries, str(standing_of(job).rebuilt.price.total)
    answer = sent(client, job, "yes", **YES, up_to="1500", words="go on")
    assert answer.status_code == 302
    assert Entry.objects.last().body == {
        **YES, "total": total, "is firm": False, "up to": "1500.00 CUR", "entries": seen, "words": "go on",
    }  # fmt: skip
    page = client.get(answer["Location"]).content.decode()
    assert f"R. Tessenby said yes to at least {total}." in page
    assert "and up to 1500.00 CUR without being asked again" in page
    assert "taken down by S. Orrin" in page


def test_a_yes_to_a_price_that_the_page_no_longer_shows_is_refused(at_screen: AtScreen, job: Job) -> None:
    answer = sent(at_screen("orrin"), job, "yes", **YES, seen="3")
    assert answer.status_code == 409
    assert "Look at the price again first" in answer.content.decode()


def test_the_customer_s_word_is_the_customer_s(at_screen: AtScreen, job: Job) -> None:
    assert sent(at_screen("maddick"), job, "word", part="OT-054", what="keep", why="sells it").status_code == 302
    assert Entry.objects.last().body == {"keep": "OT-054", "why": "sells it", "by": "customer"}


@pytest.mark.parametrize(
    ("what", "more"),
    [
        ("yes", {}),
        ("yes", {"who": " ", "how": "by telephone"}),
        ("yes", {"who": "R. Tessenby", "how": "by pigeon"}),
        ("yes", {**YES, "who": "x" * 5000}),
        ("yes", {**YES, "words": "x" * 5000}),
        ("yes", {**YES, "up_to": "1.00"}),
        ("yes", {**YES, "up_to": "<script>alert(1)</script>"}),
        ("word", {}),
        ("word", {"part": "OT-054", "what": "paint"}),
        ("word", {"what": "keep"}),
        ("word", {"what": "keep", "part": "no such"}),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(
    at_screen: AtScreen, job: Job, what: str, more: dict[str, str]
) -> None:
    before = Entry.objects.count()
    answer = sent(at_screen("ferrow"), job, what, **more)
    assert answer.status_code == 409
    assert 'role="alert"' in answer.content.decode()
    assert "<script>alert" not in answer.content.decode()
    assert Entry.objects.count() == before
