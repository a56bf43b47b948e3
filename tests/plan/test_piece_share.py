"""What is left of screws carries more: each figure against one worked out by hand; invented book of `test_hanging`."""

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.load_report import load_report
from layshaft.plan.press_text import Teller
from layshaft.plan.teardown import start_state
from tests.plan.test_hanging import BOOK

SCREW = "    name: Cap screw\n"


def told(off: int, rating: str = "", broken: int = 0):
    rated = BOOK.replace(SCREW, f"{SCREW}    rating: {rating}\n") if rating else BOOK
    bench = Bench(load_book(rated, "screw-cap.yaml").unit("standard"))
    state = start_state(bench.unit).with_partial("SC-20", off).with_broken("SC-20", broken)
    reports = load_report(bench, Loads(bench, Sizes(bench.unit)), state)
    return reports, [line for line in Teller(bench).report(reports) if " left: " in line]


@pytest.mark.parametrize("off, broken", [(2, 0), (1, 1)])
def test_what_each_piece_carries(off, broken):
    """21 N/mm x (71 - 50 + 0.1 + 0.1) mm = 445.2 N, the stiffest and longest spring; on four screws 111.3 N each."""
    reports, _ = told(off, "111.3 N", broken)
    (share,) = reports[0].shares
    assert (share.part, share.left, share.count, share.is_over) == ("SC-20", 4, 6, False)
    assert share.force == pytest.approx(445.2 / 4, rel=1e-9)
    assert told(off, "120 N", broken)[1] == ["4 of 6 SC-20 cap screw are left: up to 112 N on each of its 120 N."]


def test_more_than_it_is_rated_for():
    """On three screws 148.4 N each."""
    (line,) = told(3, "148 N")[1]
    assert line == "3 of 6 SC-20 cap screw are left: up to 149 N on each, ABOVE its 148 N: stand clear."


def test_without_a_rating():
    assert told(5)[1] == ["1 of 6 SC-20 cap screw is left: up to 446 N on each; what one is rated for is not given."]


def test_nothing_is_told_while_all_are_there():
    reports, lines = told(0, "120 N")
    assert (reports[0].shares, lines) == ((), [])
