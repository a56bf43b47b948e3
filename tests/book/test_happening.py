"""What a job says happened, entry after entry; how a report looks is told in the stories."""

from types import SimpleNamespace

import pytest

from layshaft.book.definition import Job
from layshaft.book.sheet_check.happening import happening_faults
from layshaft.book.sheet_check.subject import Subject
from tests.book.overtop import UNITS

HEAD = {
    "id": "J", "book": {"id": "overtop", "revision": "1"}, "shop": {"id": "s", "revision": "1"}, "variant": "OT5",
    "opened": "2026-11-02", "today": "2026-11-20",
}  # fmt: skip
LOADS = list(UNITS[1].loads)
HOLD, OFF, LET = {"held": LOADS[0]}, {"off": "OT-042"}, {"let off": LOADS[0]}


def told(*done):
    job = Job.model_validate({**HEAD, "done": list(done)})
    found = list(happening_faults(Subject(job, UNITS[1], SimpleNamespace())))
    assert {one.kind for one in found} <= {"note"}
    return [(one.path[1], one.id) for one in found]


def test_what_follows_in_order_is_fine():
    assert told(HOLD, OFF, LET, {"zero proved": LOADS[0]}, {"held": LOADS[1]}, {"let off": LOADS[1]}) == []


def test_some_off_before_all_off_is_fine():
    assert told({"partly": "OT-045", "pieces off": "2"}, {"off": "OT-045"}) == []


@pytest.mark.parametrize(
    "done, expected",
    [
        ([OFF, OFF, OFF], [(1, "off already"), (2, "off already")]),
        ([OFF, {"partly": "OT-042", "pieces off": "1"}], [(1, "off already")]),
        ([{"off": "OT-090"}], [(0, "base off")]),
        ([{"stuck": "OT-043", "to": "OT-043"}], [(0, "stuck to itself")]),
        ([HOLD, HOLD], [(1, "held already")]),
        ([HOLD, {"held": LOADS[1]}], [(1, "held already")]),
        ([LET], [(0, "let off unheld")]),
        ([HOLD, LET, LET], [(2, "let off unheld")]),
        ([HOLD, {"let off": LOADS[1]}], [(1, "let off unheld")]),
        ([HOLD, {"zero proved": LOADS[0]}], [(1, "proved while held")]),
        ([HOLD, {"zero proved": LOADS[1]}], []),
    ],
)
def test_what_contradicts_itself_is_noted(done, expected):
    assert told(*done) == expected


def test_letting_off_another_names_the_one_that_is_held():
    job = Job.model_validate({**HEAD, "done": [HOLD, {"let off": LOADS[1]}]})
    (one,) = happening_faults(Subject(job, UNITS[1], SimpleNamespace()))
    assert one.sentence == f"`{LOADS[1]}` is let off, but `{LOADS[0]}` is held, by entry 1."
