"""Putting together: one move at a time, nothing under load unread or unseen, no release while anything is open."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import timedelta
from html import unescape
from uuid import uuid4

import pytest
from django.http import HttpResponse
from django.test import Client
from django.utils import timezone

from layshaft.plan.step import PlannedStep
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.models import Entry, Job
from layshaft.shop.ledger.putting import Putting, body_of
from layshaft.shop.ledger.putting_check import putting_of
from layshaft.shop.ledger.under_load import held_after
from tests.shop.ledger.shop import NUMBER, person

AtScreen = Callable[[str], Client]
PAGE = f"/jobs/{NUMBER}/assembly"


def go_on_to(job: Job, is_there: Callable[[PlannedStep], bool], *, hours: int = 3) -> Putting:
    """The demo job put together up to the first step that is so, its moves and proofs written all at once."""
    steps = putting_of(job).steps
    before = steps[: next(at for at, step in enumerate(steps) if is_there(step))]
    at = timezone.now() - timedelta(hours=hours)
    rows, held = [], job.held_load
    for count, step in enumerate(before, job.entries + 1):
        kind = {"prepare": "prepared", "prove": "proved"}.get(step.kind, "fitted")
        body = {"proof": step.proof, "outcome": "held"} if kind == "proved" else body_of(step)
        held = held_after(held, kind, body)
        told = {"kind": kind, "body": body, "seen": count - 1}
        rows.append(Entry(job=job, number=count, key=uuid4(), at=at, by=person("maddick"), **told))
    Entry.objects.bulk_create(rows)
    Job.objects.filter(pk=job.pk).update(entries=job.entries + len(rows), held_load=held)
    job.refresh_from_db()
    return putting_of(job)


def is_at(kind: str, load: str | None = None) -> Callable[[PlannedStep], bool]:
    return lambda step: step.kind == kind and (load is None or step.load == load)


def send(client: Client, what: str = "done", **more: str | Iterable[str]) -> HttpResponse:
    """Send the form of the move that the page shows, with what is ticked and typed."""
    page = client.get(PAGE).content.decode()
    step = re.search(r'name="step" value="([^"]*)"', page)
    told = {"key": str(uuid4()), "seen": str(find_job(NUMBER).entries), "step": unescape(step[1]) if step else ""}
    return client.post(f"{PAGE}/{what}", {**told, **more})


def said(answer: HttpResponse) -> str:
    """What the page says to someone whose entry was refused."""
    assert answer.status_code == 409
    told = re.search(r'role="alert">(.*?)</p>', answer.content.decode(), re.DOTALL)
    assert told
    return unescape(told[1])


def test_a_soak_begun_is_on_record_and_nothing_goes_in_before_its_time(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("maddick")
    assert putting_of(job).next.kind == "prepare"
    assert send(client).status_code == 302
    assert Entry.objects.filter(job=job).last().kind == "prepared"
    putting = putting_of(find_job(NUMBER))
    soaked = next(step for step in putting.steps if "OT-045" in step.parts and step.kind == "fit")
    assert any("Not before" in sentence for sentence in putting.against(soaked))
    Entry.objects.filter(job=job, kind="prepared").update(at=timezone.now() - timedelta(minutes=121))
    Job.objects.filter(pk=job.pk).update(touched=timezone.now())
    assert not any("Not before" in sentence for sentence in putting_of(find_job(NUMBER)).against(soaked))


def test_a_page_that_is_out_of_date_writes_nothing(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("maddick")
    before = Entry.objects.count()
    assert "moved on" in said(send(client, seen="3"))
    assert "moved on" in said(send(client, step="Fit something else"))
    assert Entry.objects.count() == before


def test_what_is_not_settled_goes_in_only_with_a_word(job: Job, at_screen: AtScreen) -> None:
    go_on_to(job, lambda step: step.kind == "fit" and "OT-072" in step.parts)
    client = at_screen("maddick")
    assert "not settled" in said(send(client))
    assert "not settled" in said(send(client, anyway="yes"))
    assert send(client, anyway="yes", words="tried dry").status_code == 302
    assert Entry.objects.filter(job=job).last().body["anyway"] is True


def test_a_load_is_pressed_home_by_its_plan_and_with_everything_in_line(job: Job, at_screen: AtScreen) -> None:
    go_on_to(job, is_at("compress", "direct spring"))
    client = at_screen("maddick")
    page = client.get(PAGE).content.decode()
    assert "The plan of this load" in page
    assert "up to 5.46 kN" in page
    assert "Read the plan" in said(send(client))
    assert "so first" in said(send(client, read="yes"))
    assert send(client, read="yes", lined_up="yes").status_code == 302
    assert find_job(NUMBER).held_load == "direct spring"
    assert "Still loaded" in client.get(PAGE).content.decode()


def test_a_hold_that_is_put_aside_holds_no_more(job: Job, at_screen: AtScreen) -> None:
    go_on_to(job, is_at("let home", "direct spring"))
    assert job.held_load == "direct spring"
    held = Entry.objects.filter(job=job, body__step="compress").last()
    sent = {"key": str(uuid4()), "seen": str(job.entries), "counts": "no", "why": "it was only tried"}
    assert at_screen("maddick").post(f"/jobs/{NUMBER}/settle/{held.number}", sent).status_code == 302
    assert find_job(NUMBER).held_load == ""


def test_nothing_is_let_off_onto_rings_that_nobody_saw_seated(job: Job, at_screen: AtScreen) -> None:
    go_on_to(job, is_at("let home", "direct spring"))
    client = at_screen("maddick")
    assert "OT-042, OT-043" in said(send(client))
    assert "OT-043" in said(send(client, seated=["OT-042"]))
    seen = {"seated": ["OT-042", "OT-043"]}
    assert "in stages" in said(send(client, **seen))
    assert "depth is missing" in said(send(client, **seen, in_stages="yes", depth=["118.2 mm"]))
    assert "cannot be read" in said(send(client, **seen, in_stages="yes", depth=["118.2 mm", "as before"]))
    assert send(client, **seen, in_stages="yes", depth=["118.2 mm", "117.9 mm"]).status_code == 302
    assert find_job(NUMBER).held_load == ""
    assert "direct spring is loaded, and its retainers hold it" in client.get(PAGE).content.decode()


def test_an_apprentice_is_watched_under_a_load_and_at_a_one_way_clutch(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("quill")
    go_on_to(job, lambda step: "OT-070" in step.parts and step.kind == "fit")
    more = {"anyway": "yes", "words": "the rollers come tomorrow"}
    assert "one-way clutch" in said(send(client, **more))
    assert "PIN" in said(send(client, **more, second="maddick", second_pin="0000"))
    assert send(client, **more, second="maddick", second_pin="2580").status_code == 302
    assert Entry.objects.filter(job=job).last().body["countersigned"] == "maddick"


def test_a_proof_wants_its_figure_and_blocks_when_it_did_not_hold(job: Job, at_screen: AtScreen) -> None:
    putting = go_on_to(job, lambda step: step.kind == "prove" and putting_of(job).wants_figure(step))
    client = at_screen("quill")
    page = client.get(PAGE).content.decode()
    assert "It proves:" in page
    assert "It does not prove:" in page
    assert "one of a figure" in said(send(client, "proved", outcome="held"))
    assert "Did it hold" in said(send(client, "proved", figure="17.2 mm"))
    sent = {"figure": "17.2 mm", "gauge": "depth micrometer 1"}
    assert send(client, "proved", **sent, outcome="did not hold").status_code == 302
    assert putting_of(find_job(NUMBER)).next.proof == putting.next.proof
    assert "prove again" in client.get(PAGE).content.decode()


def test_it_came_apart_again_and_what_was_proved_is_proved_anew(job: Job, at_screen: AtScreen) -> None:
    first = job.entries + 1
    go_on_to(job, lambda step: "OT-051" in step.parts)
    client = at_screen("maddick")
    sent = {"entry": str(first + 1), "words": "a seal was nicked"}
    assert "had to be let off" in said(send(client, "apart", **sent))
    assert "Why" in said(send(client, "apart", entry=str(first + 1)))
    assert "How far" in said(send(client, "apart", entry="all", words="x"))
    assert "moved on" in said(send(client, "apart", entry="99999", words="x", zero="yes"))
    assert send(client, "apart", **sent, zero="yes").status_code == 302
    putting = putting_of(find_job(NUMBER))
    assert putting.done[:2] == (True, False)
    assert putting.loaded == ()


def test_nothing_is_released_while_anything_is_open(job: Job, at_screen: AtScreen) -> None:
    client = at_screen("maddick")
    before = Entry.objects.count()
    sent = {"key": str(uuid4()), "seen": str(job.entries)}
    answer = client.post(f"/jobs/{NUMBER}/release", sent)
    assert "It is not released: something is open." in said(answer)
    assert at_screen("quill").post(f"/jobs/{NUMBER}/release", sent).status_code == 403
    assert Entry.objects.count() == before


def test_a_torque_is_typed_with_its_figure(job: Job, at_screen: AtScreen) -> None:
    putting = go_on_to(job, lambda step: step.torque is not None)
    client = at_screen("maddick")
    asked = next(one for part in putting.next.parts if (one := putting.stand.unit.parts[part].fastener)).torque.text
    assert "What was it tightened to" in said(send(client))
    assert "cannot be read" in said(send(client, torque="tight"))
    assert "cannot be read" in said(send(client, torque="10 mm"))
    assert f"The book asks {asked}" in said(send(client, torque="990 N·m"))
    more = {"anyway": "yes", "words": "by the card"} if putting.against(putting.next) else {}
    assert send(client, torque=asked, **more).status_code == 302


@pytest.mark.parametrize("sent", [{"step": "x" * 10_000}, {"key": "none"}, {"seen": "<script>"}])
def test_nonsense_writes_nothing(job: Job, at_screen: AtScreen, sent: dict[str, str]) -> None:
    before = Entry.objects.count()
    assert send(at_screen("maddick"), **sent).status_code == 409
    assert Entry.objects.count() == before
