"""The one writer: all or nothing, once for each key, never over somebody else's entry."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from layshaft.shop.ledger import write as writing
from layshaft.shop.ledger.desk import open_desk
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import standing
from layshaft.shop.ledger.models import Entry, Job, Person
from layshaft.shop.ledger.write import write
from tests.shop.ledger.shop import person, put, wanted

THICK = {"part": "OT-034", "reading": "thickness", "figures": ["5.52 mm"], "gauge": "micrometer 1"}


def refusal(kind: str, body: dict[str, Any], by: str = "maddick", **more: Any) -> Refused:
    before = Entry.objects.count()
    with pytest.raises(Refused) as refused:
        put(kind, body, by, **more)
    assert Entry.objects.count() == before
    return refused.value


def test_an_entry_counts_up_the_job_and_stands_in_its_file(job: Job) -> None:
    entry = put("reading", THICK)
    job.refresh_from_db()
    assert entry.number == job.entries
    last = open_desk(job).content.readings[-1]
    assert (last.part, last.figures[0].text, last.by) == ("OT-034", "5.52 mm", "maddick")


def test_sent_twice_under_one_key_it_is_one_entry(job: Job) -> None:
    sent = wanted("reading", THICK)
    first, again = write(sent), write(sent)
    assert first.pk == again.pk
    assert Entry.objects.filter(key=sent.key).count() == 1


def test_a_key_of_another_entry_is_refused(job: Job) -> None:
    first = put("reading", THICK)
    assert refusal("look", {"part": "OT-034", "look": "faces", "grade": "even"}, key=first.key).id == "key used"


def test_what_a_job_file_may_not_say_is_not_written_either(job: Job) -> None:
    found = refusal("reading", {**THICK, "reading": "thicknes"})
    assert found.id == "fault"
    assert "thickness" in found.sentence


def test_a_figure_without_its_unit_is_not_written(job: Job) -> None:
    assert refusal("reading", {**THICK, "figures": ["5.52"]}).id == "fault"


def test_who_was_faster_is_not_overwritten(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody writes between the look at the job and the write: the write starts anew and comes after theirs."""
    checked = writing._checked
    others: list[Entry] = []

    def and_then_another(*args: Any) -> Any:
        found = checked(*args)
        if not others:
            others.append(Entry(key="b" * 32))
            others[0] = put("note", {"words": "wash at ten"}, by="quill")
        return found

    monkeypatch.setattr(writing, "_checked", and_then_another)
    entry = put("reading", THICK)
    assert entry.number == others[0].number + 1
    assert Job.objects.get(pk=job.pk).entries == entry.number


def test_two_who_read_the_same_unseen_both_stay_and_a_person_settles_it(job: Job) -> None:
    first = put("reading", THICK, by="quill")
    second = put("reading", {**THICK, "figures": ["5.47 mm"]}, by="maddick", seen=first.number - 1)
    assert "quill wrote about the same" in second.waits
    job.refresh_from_db()
    assert job.waits == 1
    assert open_desk(job).content.readings[-1].figures[0].text == "5.52 mm"
    put("settled", {"entry": second.number, "counts": True})
    put("settled", {"entry": first.number, "counts": False, "why": "read dry"})
    job.refresh_from_db()
    desk = open_desk(job)
    assert job.waits == 0
    assert desk.content.readings[-1].figures[0].text == "5.47 mm"
    assert standing(desk.lines)[first.number] == "put aside"


def test_who_has_seen_the_other_s_reading_takes_its_place(job: Job) -> None:
    put("reading", THICK, by="quill")
    assert put("reading", {**THICK, "figures": ["5.47 mm"]}).waits == ""


@pytest.mark.parametrize(
    ("kind", "body", "by"),
    [
        ("reading", THICK, "orrin"),
        ("choice", {"renew": "OT-034"}, "quill"),
        ("settled", {"entry": 3, "counts": True}, "quill"),
        ("accepted", {"who": "R. Tessenby"}, "quill"),
    ],
)
def test_not_everyone_may_write_everything(job: Job, kind: str, body: dict[str, Any], by: str) -> None:
    assert refusal(kind, body, by).id == "no right"


def test_who_left_signs_no_more(job: Job) -> None:
    Person.objects.filter(key="maddick").update(is_here=False)
    assert refusal("reading", THICK).id == "not here"


HELD = {"held": "direct spring"}


def test_an_apprentice_takes_up_a_load_only_with_a_second_name(job: Job) -> None:
    assert refusal("done", HELD, by="quill").id == "second person"
    assert refusal("done", HELD, by="quill", second=person("quill")).id == "second person"
    assert refusal("done", HELD, by="quill", second=person("orrin")).id == "second person"
    entry = put("done", HELD, by="quill", second=person("ferrow"))
    assert entry.body["countersigned"] == "ferrow"
    job.refresh_from_db()
    assert job.held_load == "direct spring"
    assert refusal("done", {"off": "OT-042"}, by="quill").id == "second person"


def test_what_happened_is_taken_down_even_where_it_was_not_allowed(job: Job) -> None:
    assert put("done", {"off": "OT-085"}).number


def test_a_place_that_is_none_is_refused(job: Job) -> None:
    assert refusal("placed", {"to": "the moon"}).id == "place"
    put("placed", {"to": "wash", "why": "greasy"}, by="orrin")
    job.refresh_from_db()
    assert job.place == "wash"


def test_an_unknown_kind_or_job_is_refused(job: Job) -> None:
    assert refusal("poem", {}).id == "kind"
    with pytest.raises(Refused, match="no job KL-9"):
        write(replace(wanted("note", {"words": "x"}), job="KL-9"))


def test_nobody_signs_for_somebody_else(job: Job) -> None:
    forged = {**THICK, "by": "ferrow", "at": "2020-01-01 08:00"}
    assert {"by", "at"}.isdisjoint(put("reading", forged).body)
    assert open_desk(job).content.readings[-1].by == "maddick"
    put("choice", {"keep": "OT-034", "why": "told of it", "by": "customer"})
    assert open_desk(job).content.choices[-1].by == "customer"
