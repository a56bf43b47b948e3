"""Looks and readings by page: the verdict is there with the answer, a figure without its unit gets the armed one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import uuid4

from django.http import HttpResponse
from django.test import Client

from layshaft.shop.ledger.models import Entry, Job
from tests.shop.ledger.shop import NUMBER

AtScreen = Callable[[str], Client]


def sent(client: Client, job: Job, kind: str, part: str, body: dict[str, Any]) -> HttpResponse:
    job.refresh_from_db()
    stamp = {"key": str(uuid4()), "seen": str(job.entries)}
    return client.post(f"/jobs/{NUMBER}/parts/{part}/{kind}", {**stamp, **body}, follow=True)


def test_a_bare_figure_gets_the_unit_that_is_armed(at_screen: AtScreen, job: Job) -> None:
    client = at_screen("maddick")
    figures = {"reading": "flatness", "figure": ["0.06", "0.05", "0.07", ".08"], "unit": "mm", "gauge": "feeler set 1"}
    answer = sent(client, job, "reading", "OT-034", figures)
    assert Entry.objects.last().body["figures"] == ["0.06 mm", "0.05 mm", "0.07 mm", ".08 mm"]
    assert "latness .08 mm at place 4, within the 0.15 mm allowed" in answer.content.decode()


def test_a_figure_with_a_unit_keeps_it(at_screen: AtScreen, job: Job) -> None:
    body = {"reading": "flatness", "figure": ["0.002 in"], "unit": "mm", "gauge": "feeler set 1"}
    sent(at_screen("maddick"), job, "reading", "OT-034", body)
    assert Entry.objects.last().body["figures"] == ["0.002 in"]


def test_ten_times_off_waits_and_decides_nothing(at_screen: AtScreen, job: Job) -> None:
    body = {"reading": "thickness", "figure": ["84.45"] * 4, "unit": "mm", "gauge": "micrometer 1"}
    answer = sent(at_screen("maddick"), job, "reading", "OT-034", body).content.decode()
    assert "Measure again" in answer


def test_what_cannot_be_read_is_refused_beside_its_form(at_screen: AtScreen, job: Job) -> None:
    before = Entry.objects.count()
    for figure in ("", "thick", "0.06 furlong", "9" * 5000, "<script>alert(1)</script>"):
        body = {"reading": "flatness", "figure": [figure], "unit": "mm"}
        answer = sent(at_screen("maddick"), job, "reading", "OT-034", body)
        assert answer.status_code == 409
        assert "<script>alert" not in answer.content.decode()
    assert Entry.objects.count() == before


def test_a_look_is_graded_in_the_book_s_words(at_screen: AtScreen, job: Job) -> None:
    answer = sent(at_screen("quill"), job, "look", "OT-034", {"look": "faces", "grade": "scored"})
    assert "scored" in answer.content.decode()
    assert sent(at_screen("quill"), job, "look", "OT-034", {"look": "faces", "grade": "lovely"}).status_code == 409


def test_limits_are_not_shown_to_an_apprentice(at_screen: AtScreen, job: Job) -> None:
    page = f"/jobs/{NUMBER}/parts/OT-034"
    assert "Used again: at most 0.15 mm" in at_screen("maddick").get(page).content.decode()
    assert "Used again" not in at_screen("quill").get(page).content.decode()


def test_a_part_that_is_none_is_told_so(at_screen: AtScreen, job: Job) -> None:
    assert at_screen("quill").get(f"/jobs/{NUMBER}/parts/OT-999").status_code == 404
