"""What a customer's link shows: one job in plain words, to whoever has the link, until it is ended."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.test import Client

from layshaft.shop.ledger.models import CustomerLink, Event, Job
from layshaft.shop.ledger.photo import keep_photo
from tests.shop.ledger.shop import NUMBER, person
from tests.web.test_photo import drawn

AtScreen = Callable[[str], Client]
PAGE = f"/jobs/{NUMBER}/customer"


def make(client: Client) -> str:
    """A new link's path, as the page tells it once."""
    found = re.search(r"http://testserver(/shown/[\w-]{43})<", client.post(PAGE).content.decode())
    assert found
    return found[1]


def test_a_link_shows_the_job_in_plain_words_to_someone_who_signed_in_nowhere(
    job: Job, at_screen: AtScreen, settings: Any, tmp_path: Path
) -> None:
    settings.PHOTOS = tmp_path
    photo = keep_photo(job, drawn(), person("quill"), words="the ring as found")
    path = make(at_screen("orrin"))
    answer = Client().get(path)
    page = answer.content.decode()
    assert answer.status_code == 200
    assert "has to be replaced" in page
    assert "In all" in page
    assert "the ring as found" in page
    assert (answer["Cache-Control"], answer["Referrer-Policy"]) == ("no-store", "no-referrer")
    assert Client().get(f"{path}/photos/{photo.digest}/small").status_code == 200
    assert Client().get(f"{path}/photos/{'0' * 64}/small").status_code == 404
    assert Client().post(path).status_code == 405


def test_nothing_of_the_shop_is_on_it(job: Job, at_screen: AtScreen) -> None:
    page = Client().get(make(at_screen("ferrow"))).content.decode()
    for secret in ("Where things are", "<form", "CSRF", "csrfmiddlewaretoken", "/jobs/"):
        assert secret not in page


def test_an_ended_link_shows_nothing(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("orrin")
    path = make(client)
    link = CustomerLink.objects.get()
    assert client.post(f"{PAGE}/{link.pk}/end").status_code == 302
    assert Client().get(path).status_code == 404
    assert Client().get(f"{path}/photos/{'0' * 64}/small").status_code == 404
    assert client.post(f"{PAGE}/{link.pk}/end").status_code == 409
    assert client.post(f"{PAGE}/999999/end").status_code == 409
    assert "ended by S. Orrin" in client.get(PAGE).content.decode()
    assert Event.objects.filter(about=f"job {NUMBER}").count() == 2


def test_a_link_is_told_once_and_kept_nowhere(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("orrin")
    token = make(client).removeprefix("/shown/")
    assert token not in client.get(PAGE).content.decode()
    assert CustomerLink.objects.get().digest != token
    for wrong in (token[:-1], token + "x", CustomerLink.objects.get().digest, "x" * 4000):
        assert Client().get(f"/shown/{wrong}").status_code == 404
