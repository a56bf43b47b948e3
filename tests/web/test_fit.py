"""The fit page: every size with what it gives, one named by hand, and given up again."""

from __future__ import annotations

from collections.abc import Callable
from uuid import uuid4

import pytest
from django.http import HttpResponse
from django.test import Client

from layshaft.shop.ledger.models import Entry, Job
from tests.shop.ledger.shop import NUMBER

AtScreen = Callable[[str], Client]


def sent(client: Client, job: Job, to: str, /, **more: str) -> HttpResponse:
    job.refresh_from_db()
    return client.post(f"/jobs/{NUMBER}/fit/{to}", {"key": str(uuid4()), "seen": str(job.entries), **more})


def test_every_size_stands_there_with_what_it_gives_and_what_is_on_hand(at_screen: AtScreen, job: Job) -> None:
    page = at_screen("quill").get(f"/jobs/{NUMBER}/fit").content.decode()
    assert "<b>OT-020</b> Hub gap spacer" in page
    assert "<strong>3.743 mm</strong>, its own." in page
    assert "<em>Will not do:</em> hub gap 1.116 mm, outside 0.50 .. 0.90 mm by 0.216 mm." in page
    assert "3.90 mm</b>, 2 on hand." in page
    assert "One-way grip" in page
    assert "Name this size" not in page, "an apprentice chooses no size"


def test_a_size_is_named_the_rest_answers_and_it_is_given_up_again(at_screen: AtScreen, job: Job) -> None:
    client = at_screen("maddick")
    answer = sent(client, job, "named", part="OT-020", size="3.90 mm", why="to try")
    assert answer.status_code == 302
    assert Entry.objects.last().body == {"fit": "OT-020", "size": "3.90 mm", "why": "to try"}
    page = client.get(answer["Location"]).content.decode()
    assert "<strong>3.90 mm</strong>" in page
    assert "chosen by J. Maddick: to try" in page
    assert "Leave OT-020 to the reckoning again" in page
    assert sent(client, job, "given-up", part="OT-020").status_code == 302
    assert "<strong>3.743 mm</strong>, its own." in client.get(answer["Location"]).content.decode()


def test_a_named_size_that_no_set_goes_round_is_told_with_its_nearest_miss(at_screen: AtScreen, job: Job) -> None:
    client = at_screen("maddick")
    answer = sent(client, job, "named", part="OT-020", size="4.50 mm")
    page = client.get(answer["Location"]).content.decode()
    assert "Nothing in the drawer or on the list does. Nearest, with OT-020 4.50 mm" in page
    assert "This is with what somebody named: OT-020 4.50 mm." in page


@pytest.mark.parametrize(
    ("what", "more"),
    [
        ("named", {}),
        ("named", {"part": "OT-020"}),
        ("named", {"part": "OT-020", "size": "3.81 mm"}),
        ("named", {"part": "OT-020", "size": "9" * 5000}),
        ("named", {"part": "OT-020", "size": "<script>alert(1)</script>"}),
        ("named", {"part": "no such", "size": "3.90 mm"}),
        ("given-up", {"part": "OT-034"}),
        ("given-up", {}),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(
    at_screen: AtScreen, job: Job, what: str, more: dict[str, str]
) -> None:
    before = Entry.objects.count()
    answer = sent(at_screen("maddick"), job, what, **more)
    assert answer.status_code == 409
    assert 'role="alert"' in answer.content.decode()
    assert "<script>alert" not in answer.content.decode()
    assert Entry.objects.count() == before
