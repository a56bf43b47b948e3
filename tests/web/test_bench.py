"""The bench page: one move at a time, nothing under load without its plan read, what happened always taken down."""

from __future__ import annotations

import re
from collections.abc import Callable
from uuid import uuid4

import pytest
from django.http import HttpResponse
from django.test import Client

from layshaft.shop.ledger.intake import TakenIn, take_in
from layshaft.shop.ledger.models import BookRevision, Entry, Job
from layshaft.shop.ledger.standing import standing_of
from tests.shop.ledger.shop import person

AtScreen = Callable[[str], Client]


def new_job(book: str, variant: str) -> Job:
    row = BookRevision.objects.get(book=book)
    return take_in(TakenIn(book=row, variant=variant, customer="M. Orrel", key=uuid4()), person("ferrow"))


def fields(answer: HttpResponse) -> dict[str, str]:
    """What the form of the move sends when nothing is typed."""
    page = answer.content.decode()
    form = page[page.index('/bench/done"') :]
    names = ("key", "seen", "step", "pieces")
    found = {name: re.search(rf'name="{name}"[^>]*?value="([^"]*)"', form[: form.index("</form>")]) for name in names}
    return {name: match.group(1).replace("&#x27;", "'") for name, match in found.items() if match}


def move(client: Client, job: Job, **more: str) -> HttpResponse:
    """Open the bench and send its move, with what else is typed."""
    page = client.get(f"/jobs/{job.number}/bench")
    return client.post(f"/jobs/{job.number}/bench/done", {**fields(page), **more})


def test_a_whole_unit_is_taken_down_by_its_moves(at_screen: AtScreen) -> None:
    job, client = new_job("layline", "iron"), at_screen("maddick")
    planned = standing_of(job).left.taken_off
    for _ in range(200):
        job.refresh_from_db()
        standing = standing_of(job)
        if not any(step.kind != "prepare" for step in standing.left.steps):
            break
        assert move(client, job, read="yes").status_code == 302
    assert sorted(standing.history.taken_off) == sorted(planned)
    assert not standing.loaded


def test_a_load_is_taken_up_only_when_its_plan_was_read(at_screen: AtScreen) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("maddick")
    for _ in range(80):
        answer = move(client, job)
        if answer.status_code != 302:
            break
    assert answer.status_code == 409
    assert "Read the plan of this load first" in answer.content.decode()
    before = Entry.objects.filter(job=job).count()
    assert move(client, job, read="yes").status_code == 302
    assert Entry.objects.filter(job=job).count() > before


def test_an_apprentice_wants_a_second_pin_there(at_screen: AtScreen) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("quill")
    while (answer := move(client, job, read="yes")).status_code == 302:
        pass
    assert "wants the name of a rebuilder" in answer.content.decode()
    told = move(client, job, read="yes", second="maddick", second_pin="0001").content.decode()
    assert "second signature" in told
    assert move(client, job, read="yes", second="maddick", second_pin="2580").status_code == 302


def test_some_of_several_pieces(at_screen: AtScreen) -> None:
    job, client = new_job("layline", "iron"), at_screen("quill")
    assert move(client, job).status_code == 302, "drained first"
    assert move(client, job, pieces="3").status_code == 302
    assert Entry.objects.filter(job=job).last().body == {"partly": "LL-012", "pieces off": 3}
    assert "of 7?" in client.get(f"/jobs/{job.number}/bench").content.decode()


def test_a_page_that_is_out_of_date_writes_nothing(at_screen: AtScreen) -> None:
    job, client = new_job("layline", "iron"), at_screen("quill")
    page = client.get(f"/jobs/{job.number}/bench")
    move(at_screen("maddick"), job)
    before = Entry.objects.count()
    answer = client.post(f"/jobs/{job.number}/bench/done", fields(page))
    assert answer.status_code == 409
    assert "moved on" in answer.content.decode()
    assert Entry.objects.count() == before


def test_may_i_is_refused_with_its_reason_and_writes_nothing(at_screen: AtScreen) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("quill")
    before = Entry.objects.count()
    answer = client.post(f"/jobs/{job.number}/bench/may", {"part": "OT-042"})
    assert "<strong>No.</strong>" in answer.content.decode()
    assert Entry.objects.count() == before


def test_what_happened_is_taken_down_and_what_to_do_now_is_shown(at_screen: AtScreen) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("quill")
    sent = {"key": str(uuid4()), "seen": "1", "part": "OT-043", "what": "broken", "words": "heard it go"}
    assert client.post(f"/jobs/{job.number}/bench/went", sent).status_code == 302
    assert Entry.objects.filter(job=job).last().body == {"seen": "OT-043", "is": "broken", "words": "heard it go"}


@pytest.mark.parametrize(
    "sent",
    [
        {},
        {"part": "OT-043"},
        {"part": "no such", "what": "off"},
        {"part": "OT-043", "what": "exploded"},
        {"part": "OT-011", "what": "partly", "pieces": "-1"},
        {"part": "OT-011", "what": "partly", "pieces": "9" * 40},
        {"turned": "sideways"},
        {"zero": "no such load"},
    ],
)
def test_nonsense_is_refused_with_a_sentence(at_screen: AtScreen, sent: dict[str, str]) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("maddick")
    before = Entry.objects.count()
    answer = client.post(f"/jobs/{job.number}/bench/went", {"key": str(uuid4()), "seen": "1", **sent})
    assert answer.status_code == 409
    assert 'role="alert"' in answer.content.decode()
    assert Entry.objects.count() == before


@pytest.mark.parametrize("stamp", [{"key": "x"}, {"seen": "many"}, {"seen": "9" * 30}, {"key": ""}])
def test_a_form_without_its_stamp_writes_nothing(at_screen: AtScreen, stamp: dict[str, str]) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("maddick")
    sent = {"key": str(uuid4()), "seen": "1", "part": "OT-043", "what": "broken", **stamp}
    assert client.post(f"/jobs/{job.number}/bench/went", sent).status_code == 409


def test_sent_twice_it_is_written_once(at_screen: AtScreen) -> None:
    job, client = new_job("overtop", "OT6"), at_screen("maddick")
    sent = {"key": str(uuid4()), "seen": "1", "part": "OT-043", "what": "broken"}
    for _ in range(2):
        assert client.post(f"/jobs/{job.number}/bench/went", sent).status_code == 302
    assert Entry.objects.filter(job=job, kind="done").count() == 1
