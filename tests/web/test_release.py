"""A small job from the cover off to its release: each page's move sent, and the release only once nothing is open."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import unescape
from uuid import uuid4

from django.test import Client

from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.models import Entry, Job
from layshaft.shop.ledger.putting_check import putting_of
from layshaft.shop.ledger.release import stands_against
from layshaft.shop.ledger.standing import standing_of
from layshaft.shop.ledger.write import Wanted, write
from layshaft.web.bench import bodies
from tests.shop.ledger.shop import person
from tests.web.test_bench import new_job

AtScreen = Callable[[str], Client]
SOUND = {"face": "flat", "thread and head": "sound"}


def put(job: Job, kind: str, body: dict[str, object]) -> None:
    write(Wanted(job.number, kind, body, person("maddick"), uuid4(), find_job(job.number).entries))


def opened_cover() -> Job:
    """A job that asks for the inspection cover alone, which is off and looked at."""
    job = new_job("overtop", "OT6")
    put(job, "wants", {"parts": ["OT-091"]})
    for step in standing_of(find_job(job.number)).left.steps:
        for body in bodies(step):
            put(job, "done", body)
    for point in standing_of(find_job(job.number)).rebuilt.open:
        put(job, "look", {"part": point.part, "look": point.name, "grade": SOUND[point.name]})
    return find_job(job.number)


def sent(client: Client, job: Job, **more: str) -> int:
    """The move that the page shows, sent with what it asks for."""
    page = client.get(f"/jobs/{job.number}/assembly").content.decode()
    shown = re.search(r'name="step" value="([^"]*)"', page)
    assert shown
    step = putting_of(find_job(job.number)).next
    assert step is not None
    told = {"step": unescape(shown[1]), "key": str(uuid4()), "seen": str(find_job(job.number).entries)}
    if step.torque:
        told["torque"] = "3.5 N·m"
    where = "proved" if step.kind == "prove" else "done"
    return client.post(f"/jobs/{job.number}/assembly/{where}", {**told, **more}).status_code


def test_a_small_job_is_put_together_proved_and_released(at_screen: AtScreen) -> None:
    job, client = opened_cover(), at_screen("maddick")
    while (putting := putting_of(find_job(job.number))).next.kind != "prove":
        assert sent(client, job) == 302
        assert at_screen("ferrow").post(
            f"/jobs/{job.number}/release", {"key": str(uuid4()), "seen": "1"}
        ).status_code == 409  # fmt: skip
    assert stands_against(putting) == (f"Not proved yet: {putting.next.what}.",)
    assert sent(client, job, outcome="did not hold", words="slips hot") == 302
    assert "slips hot" in stands_against(putting_of(find_job(job.number)))[0]
    assert sent(client, job, outcome="held") == 302
    page = client.get(f"/jobs/{job.number}/assembly").content.decode()
    assert "Nothing is open." in page
    release = {"key": str(uuid4()), "seen": "1"}
    assert at_screen("quill").post(f"/jobs/{job.number}/release", release).status_code == 403
    for _ in range(2):
        assert client.post(f"/jobs/{job.number}/release", release).status_code == 302
    assert Entry.objects.filter(job=job, kind="released").count() == 1
    assert find_job(job.number).place == "ready"
    again = client.post(f"/jobs/{job.number}/release", {"key": str(uuid4()), "seen": "1"})
    assert "released already" in again.content.decode()
    first = Entry.objects.filter(job=job, kind="fitted").first()
    told = {"entry": str(first.number), "words": "a screw stripped", "key": str(uuid4()), "seen": "1"}
    assert client.post(f"/jobs/{job.number}/assembly/apart", told).status_code == 302
    assert not putting_of(find_job(job.number)).released
    assert find_job(job.number).place == "bench"


def test_what_went_in_is_told_on_the_bench_and_a_new_verdict_is_told_as_a_change(at_screen: AtScreen) -> None:
    job, client = opened_cover(), at_screen("maddick")
    for _ in range(2):
        assert sent(client, job) == 302
    bench = client.get(f"/jobs/{job.number}/bench").content.decode()
    assert "It is being put together" in bench
    assert client.post(f"/jobs/{job.number}/bench/may", {"part": "OT-010"}).status_code == 409
    put(job, "look", {"part": "OT-091", "look": "face", "grade": "cracked"})
    page = client.get(f"/jobs/{job.number}/assembly").content.decode()
    assert "says: OT-091 Inspection cover. The plan now says: OT-091 Inspection cover (new)." in page
