"""Taking in, finding, placing and settling by page."""

from __future__ import annotations

from collections.abc import Callable
from uuid import uuid4

from django.test import Client

from layshaft.shop.ledger.models import BookRevision, Entry, Job
from tests.shop.ledger.shop import NUMBER

AtScreen = Callable[[str], Client]


def sent(**more: str) -> dict[str, str]:
    return {"key": str(uuid4()), "seen": "0", **more}


def unit() -> str:
    return f"{BookRevision.objects.get(book='layline').pk} iron"


def test_a_unit_is_taken_in_and_found_by_any_of_its_words(at_screen: AtScreen) -> None:
    client = at_screen("orrin")
    form = sent(unit=unit(), customer="M. Orrel", serial="X-17", complaint="Jumps out of third", missing="Gear lever")
    assert client.post("/jobs/new", form).status_code == 302
    job = Job.objects.get(customer="M. Orrel")
    assert [entry.kind for entry in Entry.objects.filter(job=job)] == ["took in", "complaint", "missing"]
    for words in ("orrel", "x-17", "THIRD jumps", job.number, "layline"):
        assert job.number in client.get("/", {"for": words}).content.decode(), words
    assert "No job has all" in client.get("/", {"for": "orrel fourth"}).content.decode()


def test_sent_twice_it_is_one_job(at_screen: AtScreen) -> None:
    client, form = at_screen("orrin"), sent(unit=unit(), customer="M. Orrel")
    assert client.post("/jobs/new", form)["Location"] == client.post("/jobs/new", form)["Location"]
    assert Job.objects.filter(customer="M. Orrel").count() == 1


def test_what_is_missing_is_said_and_what_was_typed_stays(at_screen: AtScreen) -> None:
    answer = at_screen("orrin").post("/jobs/new", sent(unit=unit(), customer=" ", complaint="Jumps out of third"))
    assert answer.status_code == 409
    assert "A name is missing" in answer.content.decode()
    assert "Jumps out of third" in answer.content.decode()
    for wrong in ("", "x", "999999 iron", f"{unit()}x", "1" * 40 + " iron"):
        assert at_screen("orrin").post("/jobs/new", sent(unit=wrong, customer="M. Orrel")).status_code in (404, 409)
    assert not Job.objects.filter(customer="M. Orrel").exists()


def test_a_unit_moves_and_the_page_shows_where(at_screen: AtScreen, job: Job) -> None:
    client = at_screen("orrin")
    client.post(f"/jobs/{NUMBER}/place", sent(to="wash", why="greasy"))
    page = client.get(f"/jobs/{NUMBER}/").content.decode()
    assert "Where it is: wash" in page and "greasy" in page
    assert Entry.objects.last().body == {"from": "bench", "to": "wash", "why": "greasy"}
    assert client.post(f"/jobs/{NUMBER}/place", sent(to="moon")).status_code == 409


def test_an_entry_put_aside_stays_to_be_seen(at_screen: AtScreen, job: Job) -> None:
    client = at_screen("maddick")
    number = Entry.objects.filter(job=job, kind="reading").first().number
    client.post(f"/jobs/{NUMBER}/settle/{number}", sent(counts="no", why="wrong part in hand"))
    page = client.get(f"/jobs/{NUMBER}/").content.decode()
    assert "put aside" in page and "wrong part in hand" in page
    assert client.post(f"/jobs/{NUMBER}/settle/99999", sent(counts="no", why="x")).status_code == 409


def test_a_job_that_is_none_is_told_so(at_screen: AtScreen) -> None:
    assert at_screen("quill").get("/jobs/KL-0/").status_code == 404


def test_nothing_typed_becomes_part_of_a_page(at_screen: AtScreen) -> None:
    client = at_screen("orrin")
    evil = "<img src=x onerror=alert(1)>"
    client.post("/jobs/new", sent(unit=unit(), customer=evil, complaint=evil))
    for page in ("/", f"/jobs/{Job.objects.first().number}/"):
        assert "<img src=x" not in client.get(page).content.decode()


def test_a_book_that_passes_no_longer_stops_its_own_jobs_and_no_others(at_screen: AtScreen, job: Job) -> None:
    row = BookRevision.objects.get(book="twinpath")
    text = bytes(row.text).replace(b"energy: 0.5 J", b"energy: -0.5 J")
    BookRevision.objects.filter(pk=row.pk).update(text=text, sha256="f" * 64)
    client = at_screen("maddick")
    page = client.get("/jobs/new").content.decode()
    assert "has a fault that was let pass" in page
    assert "Layline" in page
    assert client.post("/jobs/new", sent(unit=f"{row.pk} TP2", customer="M. Orrel")).status_code == 409
