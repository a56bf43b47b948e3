"""The work of reworks is billed once it is due, and a rework without a time leaves the total open."""

from fractions import Fraction
from functools import cache

from layshaft.book import load_book
from layshaft.plan.measured import Measured
from layshaft.plan.order_list import order_list
from layshaft.plan.price import price_job
from layshaft.plan.rework_work import rework_work
from layshaft.plan.verdict import judge
from tests.plan.gap_box import BOOK, job, shop

HOW = "how: Lap on a flat plate, down to: at most 0.03 mm"
PLATES = "looks: {heat: {how: eye, grades: {clean: reuse, straw: measure again, blue: renew}}}"
GRADES = "{clean: reuse, burr: rework, blue: renew}"
FILED = f"looks: {{heat: {{how: eye, grades: {GRADES}, rework: {{how: File it, time: 3 min}}}}}}"
LAPPED = ("Rework of GB-01 Box, flatness", Fraction(20))


@cache
def unit(time: str = ", time: 20 min"):
    return load_book(BOOK.replace(HOW, f"{HOW}{time}").replace(PLATES, FILED), "gap-box.yaml").unit("plain")


def flat(figure: str) -> str:
    return f"  - {{part: GB-01, reading: flatness, figures: [{', '.join([figure] * 4)}], gauge: feeler 2}}\n"


def worked(readings: str = "", looks: str = "", more: str = "", of=None):
    of = of or unit()
    record = job(readings, looks, more)
    measured = Measured(of, record, shop())
    return rework_work(of, record, measured.reworks, judge(of, record, shop(), measured=measured))


def test_a_rework_is_billed_when_it_is_due_and_when_it_was_done():
    assert worked(flat("0.12 mm")).labour == (LAPPED,)
    assert worked(flat("0.12 mm") + flat("0.02 mm")).labour == (LAPPED,)
    assert worked(flat("0.02 mm")).labour == ()


def test_of_a_part_that_is_renewed_only_what_was_done_is_billed():
    renew = "choices: [{renew: GB-01, by: someone}]\n"
    assert worked(flat("0.12 mm"), more=renew).labour == ()
    assert worked(flat("0.12 mm") + flat("0.02 mm"), more=renew).labour == (LAPPED,)


def test_a_part_kept_against_the_rework_is_not_reworked():
    depth = "  - {part: GB-01, reading: depth, figures: [40.00 mm], gauge: depth micrometer 1}\n"
    assert worked(depth + flat("0.12 mm"), more="choices: [{keep: GB-01, by: someone}]\n").labour == ()


def test_each_piece_that_a_look_condemns_to_it_counts():
    """By hand: three pieces at 3 min each are 9 min."""
    looks = "  - {part: GB-05, look: heat, grade: burr, pieces: [1, 2, 3]}\n"
    (line,) = worked(looks=looks).labour
    assert line == ("Rework of GB-05 Plate, heat, 3 times", Fraction(9))
    done = looks + "  - {part: GB-05, look: heat, grade: clean, pieces: [1, 2, 3, 4]}\n"
    assert worked(looks=done).labour == (line,)


def test_a_rework_without_a_time_leaves_the_total_open():
    found = worked(flat("0.12 mm"), of=unit(""))
    sentence = "Rework of GB-01 Box, flatness: the book gives no time for it, and its labour may be added."
    assert (found.labour, found.untimed) == ((), (sentence,))
    order = order_list(unit(), shop(), "2026-11-02", {})
    price = price_job(unit(), shop(), "2026-11-02", order, found.labour, untimed=found.untimed)
    assert sentence in price.open
    assert price.if_renewed is None
    assert price.told().startswith("at least ")


def test_minutes_come_to_money_at_the_labour_rate():
    """By hand: 20 min at 90.00 CUR an hour are 30.00 CUR."""
    order = order_list(unit(), shop(), "2026-11-02", {})
    price = price_job(unit(), shop(), "2026-11-02", order, worked(flat("0.12 mm")).labour)
    assert str(price.sum_of("labour")) == "30.00 CUR"
