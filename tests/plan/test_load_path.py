"""Parts that a load hangs on: which they are, and that nobody keeps one against a verdict."""

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Job
from layshaft.plan.load_path import load_path
from layshaft.plan.verdict import judge
from tests.plan.gap_box import shop
from tests.plan.two_rings import TEXT

LOOK = "    looks: {state: {how: eye, grades: {true: reuse, bent: renew}}}\n"


def box():
    text = TEXT
    for name in ("Spring", "Outer ring", "Cover"):
        text = text.replace(f"    name: {name}\n", f"    name: {name}\n{LOOK}".replace("true:", "fine:"))
    return load_book(text, "two-rings.yaml").unit("plain")


def kept(part: str, grade: str):
    """The verdict on a part that someone keeps."""
    job = Job.model_validate(
        {
            "id": "T-1",
            "book": {"id": "two-rings", "revision": 1},
            "shop": {"id": "bench", "revision": 1},
            "variant": "plain",
            "opened": "2026-11-01",
            "today": "2026-11-02",
            "looks": [{"part": part, "look": "state", "grade": grade}],
            "choices": [{"keep": part, "by": "customer", "why": "told of it"}],
        }
    )
    return judge(box(), job, shop())[part]


def test_the_springs_and_what_holds_them():
    """By the drawing of the box: the spring, the two rings behind each other that hold its cap, and no cover."""
    assert set(load_path(box())) == {"BX-02", "BX-04", "BX-05"}


@pytest.mark.parametrize(("part", "why"), [("BX-02", "a spring of "), ("BX-04", "what holds ")])
def test_what_holds_a_load_is_not_kept_against_a_verdict(part, why):
    found = kept(part, "bent")
    assert (found.verdict, found.kept_by) == ("renew", None)
    assert f"customer chose to keep it: told of it, which is refused: it is {why}" in found.reason


def test_to_keep_what_is_good_anyway_is_not_refused():
    assert kept("BX-04", "fine").verdict == "reuse"


def test_a_cover_may_be_kept():
    found = kept("BX-06", "bent")
    assert (found.verdict, found.kept_by) == ("reuse", "customer")
