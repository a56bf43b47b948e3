"""The press page: cautions first, the picture of the load, refusal where there is no plan."""

from __future__ import annotations

import re
from collections.abc import Callable
from uuid import uuid4

from django.test import Client

from layshaft.shop.ledger.intake import TakenIn, take_in
from layshaft.shop.ledger.models import BookRevision, Job, SettingsRevision
from layshaft.shop.ledger.press_way import other_ways, planned_ways
from layshaft.shop.ledger.standing import standing_of
from layshaft.shop.ledger.write import Wanted, write
from tests.shop.ledger.shop import NUMBER, person

AtScreen = Callable[[str], Client]


def new_job() -> Job:
    row = BookRevision.objects.get(book="overtop")
    return take_in(TakenIn(book=row, variant="OT6", customer="M. Orrel", key=uuid4()), person("ferrow"))


def test_what_is_loaded_shows_with_its_cautions_before_its_figures(at_screen: AtScreen) -> None:
    job = new_job()
    page = at_screen("quill").get(f"/jobs/{job.number}/press/direct spring/1").content.decode()
    assert page.index("Face shield on") < page.index("Taken up at") < page.index("<svg")
    for state in ("1 closed", "2 held", "OT-042 off", "OT-043 off", "5 free"):
        assert state in page
    assert "Stroke left on its ram" in page
    assert "LOADED: direct spring" in page
    assert "gauge 4." in page
    assert not re.search(r"\bsafe", page)


def test_each_load_that_is_left_is_linked_and_a_way_that_is_none_is_told(at_screen: AtScreen) -> None:
    job, client = new_job(), at_screen("quill")
    stand = standing_of(job)
    ways = [(way.load, way.release) for way in planned_ways(stand)]
    page = client.get(f"/jobs/{job.number}/press").content.decode()
    for load, release in [*ways[1:], *other_ways(stand)]:
        assert f"/press/{load.replace(' ', '%20')}/{release + 1}" in page
    for wrong in ("no such load/1", "direct spring/99", "direct spring/0"):
        assert client.get(f"/jobs/{job.number}/press/{wrong}").status_code == 404


def test_another_way_than_the_planned_one_is_worked_out_too(at_screen: AtScreen) -> None:
    job = new_job()
    load, release = next(other_ways(standing_of(job)))
    page = at_screen("quill").get(f"/jobs/{job.number}/press/{load}/{release + 1}").content.decode()
    assert "another way than the one planned" in page


def test_without_a_press_there_is_no_plan_but_what_to_do(at_screen: AtScreen) -> None:
    job = new_job()
    settings = SettingsRevision.objects.first()
    text = re.sub(r"^presses:\n(?:[ #].*\n)+", "", settings.text, flags=re.MULTILINE)
    SettingsRevision.objects.create(revision=settings.revision + 1, text=text, at=settings.at, why="press sold")
    page = at_screen("quill").get(f"/jobs/{job.number}/press/direct spring/1").content.decode()
    assert "There is no plan for this load. Do not start." in page
    assert "the shop file has no press" in page
    assert "<svg" not in page


def test_pressing_home_is_told_from_free_to_closed(at_screen: AtScreen) -> None:
    page = at_screen("quill").get(f"/jobs/{NUMBER}/press/direct spring/1").content.decode()
    assert "Putting together" in page
    assert page.index("1 free") < page.index("OT-043 in") < page.index("let home")
    assert "Home again, direct spring" in page


def test_while_it_is_held_the_page_shows_which_state_it_is_in(at_screen: AtScreen) -> None:
    job, client = new_job(), at_screen("maddick")
    before = len(list(standing_of(job).presses))
    for body in ({"held": "direct spring", "release": 1}, {"off": "OT-042"}):
        job.refresh_from_db()
        write(Wanted(job.number, "done", body, person("maddick"), uuid4(), job.entries))
    page = client.get(f"/jobs/{job.number}/press").content.decode()
    assert "3 OT-042 off, now" in page
    assert "Direct spring, in the press" in page
    assert "1 closed, up to" in page and "as fitted" in page
    job.refresh_from_db()
    assert len(planned_ways(standing_of(job))) == before
    assert not list(other_ways(standing_of(job)))
