"""What a proof says that it settles has to be there."""

from __future__ import annotations

from layshaft.book import check_book
from tests.paper.two_jobs import BOOKS

LAYLINE = (BOOKS / "layline" / "book.yaml").read_text("utf-8")
SETTLES = "settles: [countershaft setting, preload force, hot setting]"


def test_a_proof_settles_results_of_the_book_alone() -> None:
    assert SETTLES in LAYLINE
    assert not [one for one in check_book(LAYLINE, "book.yaml").found if "settles" in one.path]
    amiss = check_book(LAYLINE.replace(SETTLES, "settles: [hot settings]"), "book.yaml")
    (found,) = [one for one in amiss.faults if "settles" in one.path]
    assert found.found == "hot settings"
    assert "hot setting" in found.try_
