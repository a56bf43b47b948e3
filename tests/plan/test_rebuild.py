"""A job worked through: what goes in is told in the shop's units, and what is not in hand is left alone."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layshaft.book import load_book
from layshaft.plan.rebuild import labour, rebuild
from layshaft.plan.sequence import Cost
from layshaft.plan.step import Plan, PlannedStep
from layshaft.quantity import parse_money
from tests.paper.two_jobs import INCH_JOB, INCH_SHOP, READINGS, inch, worked_through
from tests.plan import gap_box
from tests.plan.axle_box import job, shop, unit


def test_the_size_that_goes_in_is_told_in_the_shop_s_units() -> None:
    told = [step.what for step in inch().assembly.steps]
    assert any("LL-034 Countershaft preload shim (selective) (new, 0.0559 in (1.42 mm))" in what for what in told)


DRAWER = "  AB-03: {sizes: {1.45 mm: 2}}\n  AB-05: {sizes: {0.90 mm: 1, 0.95 mm: 1, 1.00 mm: 1, 1.05 mm: 1}}\n"


def test_a_job_that_wants_one_part_chooses_no_size_elsewhere() -> None:
    one = unit()
    whole = rebuild(one, job(""), shop(DRAWER))
    some = rebuild(one, job("", "wants: [AB-05]\n"), shop(DRAWER))
    assert some.opened < whole.opened
    assert {name.split(" ")[0] for name in (*some.fit.sizes, *some.fit.unchosen)} <= some.opened
    assert set(whole.fit.unchosen) - set(some.fit.unchosen)


def test_a_size_that_was_chosen_is_reached() -> None:
    chosen = "wants: [AB-05]\nchoices: [{fit: AB-03, size: 1.45 mm, by: ferrow}]\n"
    assert "AB-03" in rebuild(unit(), job("", chosen), shop(DRAWER)).opened


def plan_of(*minutes: float) -> Plan:
    cost = Cost(0, 0, 0, 0, 0)
    steps = tuple(PlannedStep(at, "take off", "x", minutes=one) for at, one in enumerate(minutes, 1))
    return Plan(steps, cost, cost, True)


@pytest.mark.parametrize(
    ("minutes", "exact"),
    [
        ((1.0, 1.0, 0.25), "2.25"),
        ((0.04,), "0.04"),
        ((0.1,) * 7, "0.7"),
        ((20 / 60, 0.1 + 0.2), "19/30"),
    ],
)
def test_minutes_are_added_up_as_they_are_written(minutes: tuple[float, ...], exact: str) -> None:
    lines = dict(labour(unit(), plan_of(*minutes), plan_of()))
    assert lines["Taking down"] == Fraction(exact)


def test_labour_is_rounded_once() -> None:
    """1 + 1 + 0.25 min at 90 an hour are 3.375, which is 3.38."""
    (_, minutes), *_ = labour(unit(), plan_of(1.0, 1.0, 0.25), plan_of())
    assert str(parse_money("90 CUR").rounded_product(minutes / 60)) == "3.38 CUR"


def test_of_a_set_renewed_together_verdict_order_and_assembly_count_the_same() -> None:
    """One plate of four is worn: the set's rule renews all of them, and nobody is asked to measure the other three."""
    book = gap_box.BOOK.replace("sets:\n", "sets:\n  plates: {members: [GB-05], rule: renew together}\n")
    one = load_book(book, "gap-box.yaml").unit("plain")
    readings = "  - {part: GB-05, reading: thickness, piece: 3, figures: [1.85 mm], gauge: micrometer 1}\n"
    found = rebuild(one, gap_box.job(readings), gap_box.shop())
    judged = found.judgements["GB-05"]
    assert (judged.verdict, judged.renew_count, judged.is_open) == ("renew", 4, False)
    assert judged.reason.startswith("Plate: plates is a set, renewed together; 1 of 4 (piece 3): thickness 1.85 mm")
    assert [need.pieces for need in found.order.needs if need.part == "GB-05"] == [4]
    assert [step.what for step in found.assembly.steps if "GB-05" in step.what and "(new)" in step.what]
    assert not any(point.part == "GB-05" and not point.is_new for point in found.open)


def test_a_job_for_one_of_a_set_reaches_what_is_renewed_with_it() -> None:
    looks = "wants: [LL-033]\nlooks: [{part: LL-033, look: rollers and races, grade: spall}]\n"
    found = worked_through("layline", INCH_JOB + looks, INCH_SHOP)
    assert found.judgements["LL-032"].verdict == "renew"
    assert "LL-032" in found.teardown.taken_off
    assert {need.part for need in found.order.needs} <= found.opened


def test_nobody_reads_again_what_is_renewed_anyway() -> None:
    """A slip of the pen about the old bearing is over with it; one about the new bearing waits."""
    look = "looks: [{part: LL-032, look: rollers and races, grade: spall}]\n"
    slip = "  - {part: LL-032, reading: stand height, figures: [193.5 mm, 193.5 mm, 193.5 mm]}\n"
    new = slip.replace("figures:", "new: true, figures:")
    said = {f"readings:\n{slip}": True, f"{look}readings:\n{slip}": False, f"{look}readings:\n{new}": True}
    for more, is_open in said.items():
        findings = worked_through("layline", INCH_JOB + more, INCH_SHOP).findings
        assert any("the decimal point has slipped" in one for one in findings) == is_open


def test_a_finer_reading_is_asked_of_the_part_that_goes_in() -> None:
    look = "looks: [{part: LL-032, look: rollers and races, grade: spall}]\n"
    readings = READINGS.replace("stand height, figures", "stand height, new: true, figures")
    stand = "stand gauge: {class: height gauge, u95: "
    shop = INCH_SHOP.replace(f"{stand}0.0004 in", f"{stand}0.0030 in")
    found = worked_through("layline", INCH_JOB + readings + look, shop).results["countershaft setting"]
    told = " ".join(found.settled_by)
    assert "LL-032" in told
    assert told.count("LL-032 Countershaft") == told.count("the new LL-032 Countershaft")
