"""Figures that decide nothing yet: repeats apart, what cannot be, ranges of one place; and who may keep what."""

from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from layshaft.plan.wanted import next_most_telling
from tests.plan.gap_box import BOOK, JOB, SHOP, job, shop, unit

EVEN = "  - {part: GB-06, look: flanks, grade: even}\n  - {part: GB-07, look: bore, grade: clean}\n"
FLAT = "      depth: {how: depth micrometer, gauge: depth micrometer, from: front, to: floor, new: 39.95 .. 40.05 mm}\n"
WITH_RANGE = (
    "      taper: {how: micrometer, gauge: micrometer, places: 3, decides: range, new: 0 .. 0.01 mm,\n"
    "              reuse: at most 0.02 mm}\n"
)


@cache
def ranged():
    """The small unit with a reading that is judged by how far its places differ."""
    return load_book(BOOK.replace(FLAT, FLAT + WITH_RANGE), "gap-box.yaml").unit("plain")


def judged(readings: str, looks: str = "", more: str = "", of=None):
    return judge(of or unit(), job(readings, looks, more), shop())


def reading(part: str, name: str, figures: str, gauge: str = "micrometer 1", more: str = "") -> str:
    return f"  - {{part: {part}, reading: {name}, figures: [{figures}], gauge: {gauge}{more}}}\n"


# Repeats.


def test_repeats_too_far_apart_are_measured_again():
    """By hand: 2.8 times half of 0.010 mm is 0.014 mm (ISO 5725-6:1994, table 1); 40.00 and 40.04 lie 0.04 mm apart."""
    found = judged(reading("GB-01", "depth", "40.00 mm, 40.04 mm", "depth micrometer 1"))["GB-01"]
    assert found.verdict == "measure again"
    assert found.figures[0].is_waiting
    assert found.figures[0].sentence == (
        "depth 40.00 mm and 40.04 mm at one place lie 0.040 mm apart, and 2 readings by depth micrometer 1 "
        "(± 0.010 mm) lie at most 0.014 mm apart 95 times in 100; find why, and read it again"
    )


def test_repeats_too_far_apart_enter_no_chain_even_if_confirmed():
    taken = Measured(
        unit(), job(reading("GB-01", "depth", "40.00 mm, 40.04 mm", "depth micrometer 1", ", confirmed: true")), shop()
    )
    assert taken.used("GB-01", "depth") is None


def test_repeats_within_what_the_gauge_explains_stand():
    found = judged(reading("GB-01", "depth", "40.000 mm, 40.012 mm", "depth micrometer 1"))["GB-01"]
    assert found.figures[0].verdict == "reuse"


def test_places_are_no_repeats():
    found = judged(reading("GB-02", "journal", "24.96 mm, 24.99 mm"))["GB-02"]
    assert found.figures[0].verdict == "reuse"


def test_what_is_read_again_takes_its_finding_along():
    wild = reading("GB-01", "depth", "40.00 mm, 40.04 mm", "depth micrometer 1")
    taken = Measured(unit(), job(wild + reading("GB-01", "depth", "40.00 mm", "depth micrometer 1")), shop())
    assert not taken.findings
    assert not taken.figure("GB-01", "depth").is_waiting


# What cannot be.


@pytest.mark.parametrize("figure", ["0 mm", "-24.99 mm"])
@pytest.mark.parametrize("more", ["", ", confirmed: true"])
def test_a_size_is_above_nothing(figure, more):
    found = judged(reading("GB-02", "journal", f"{figure}, 24.99 mm", more=more))["GB-02"]
    assert found.verdict == "measure again"
    assert found.figures[0].sentence.startswith(f"journal {figure} at place 1, 24.99 mm at place 2 waits: {figure} is ")


@pytest.mark.parametrize("figure", ["0 mm", "-0.30 mm"])
def test_a_clearance_that_starts_above_nothing_is_not_passed_at_or_below_it(figure):
    readings = reading("GB-06", "side clearance", f"{figure}, {figure}, {figure}", "feeler 1")
    assert judged(readings, EVEN)["GB-06"].verdict == "measure again"


def test_a_flatness_may_be_nothing_and_not_less():
    flat = [reading("GB-01", "flatness", f"{one}, 0 mm, 0 mm, 0 mm", "feeler 1") for one in ("0 mm", "-0.01 mm")]
    said = [next(one for one in judged(text)["GB-01"].figures if one.reading == "flatness") for text in flat]
    assert [one.verdict for one in said] == ["reuse", "measure again"]


def test_a_slip_names_its_piece_and_alike_ones_are_told_once():
    readings = (
        "  - {part: GB-05, reading: thickness, per: piece, figures: [2.00 mm, 20.0 mm, 2.00 mm, 20.0 mm], "
        "gauge: micrometer 1}\n"
    )
    told = {one.sentence for one in Measured(unit(), job(readings), shop()).findings}
    assert told == {
        "GB-05 Plate, thickness, pieces 2 and 4: 20.0 mm against about 2.00 mm as drawn: "
        "the decimal point has slipped. Correct or confirm it."
    }


# Ranges.


@pytest.mark.parametrize("figure", ["0.005 mm", "40.00 mm"])
def test_a_range_is_not_judged_by_one_place(figure):
    found = judged(reading("GB-01", "taper", figure), of=ranged())["GB-01"]
    said = next(one for one in found.figures if one.reading == "taper")
    assert (said.verdict, said.is_waiting, said.is_inside) == ("measure again", True, None)
    assert said.sentence == f"taper {figure}, and 2 more places are to be measured"


def test_a_range_of_all_its_places_is_judged():
    found = judged(reading("GB-01", "taper", "40.000 mm, 40.004 mm, 40.002 mm"), of=ranged())["GB-01"]
    assert next(one for one in found.figures if one.reading == "taper").verdict == "reuse"


# Not known.


def test_what_is_not_known_is_an_open_point():
    more = "intake: {noticed: [{part: GB-12, is: not known, words: Under the cover}]}\n"
    found = judge(unit(), job("", "", more), shop(), frozenset({"GB-11"}))["GB-12"]
    assert (found.verdict, found.is_open) == ("open", True)
    (point,) = (one for one in next_most_telling({"GB-12": found}, unit()) if one.name == "state")
    assert point.sentence == (
        "Say whether GB-12 Rotor is whole, broken or missing; it was noticed as not known (Under the cover)."
    )


@pytest.mark.parametrize(
    ("looks", "more"),
    [
        ("  - {part: GB-12, look: tip, grade: sharp}\n", ""),
        ("", "done: [{seen: GB-12, is: whole}]\n"),
    ],
)
def test_a_look_or_a_word_settles_what_was_not_known(looks, more):
    noticed = "intake: {noticed: [{part: GB-12, is: not known}]}\n"
    found = judge(unit(), job("", looks, noticed + more), shop())["GB-12"]
    assert "state" not in [one.name for one in found.open]


# Who may keep what.


@pytest.mark.parametrize("figures", ["0 mm, 0.4 mm, 0.4 mm", "0.4 mm, 0.4 mm"])
def test_a_figure_that_waits_is_not_kept_away(figures):
    more = "choices: [{keep: GB-06, by: customer, why: told of it}]\n"
    found = judged(reading("GB-06", "side clearance", figures, "feeler 1"), EVEN, more)["GB-06"]
    assert (found.verdict, found.is_open) == ("measure again", True)
    assert [one.name for one in found.open] == ["side clearance"]
    assert "which this does not allow" in found.reason


def test_a_look_to_be_reworked_says_what_to_do():
    text = BOOK.replace("sharp: reuse, worn: renew", "sharp: reuse, worn: renew, nicked: rework")
    mended = load_book(text, "gap-box.yaml").unit("plain")
    found = judged("", "  - {part: GB-12, look: tip, grade: nicked}\n", of=mended)["GB-12"]
    assert (found.verdict, found.reason) == (
        "rework",
        "Rotor: tip: nicked; mend it, then look at it again.",
    )


def test_pieces_to_be_measured_again_are_told_in_their_number():
    figures = "2.00 mm, 20.0 mm, 2.00 mm, {} mm"
    told = []
    for last in ("2.00", "20.0"):
        text = f"  - {{part: GB-05, reading: thickness, per: piece, figures: [{figures.format(last)}]}}\n"
        found = judged(text, "  - {part: GB-05, look: heat, grade: clean}\n")["GB-05"]
        told.append(found.open[0].sentence)
    assert told == [
        "Measure again GB-05 Plate, thickness (micrometer), piece 2.",
        "Measure again GB-05 Plate, thickness (micrometer), pieces 2, 4.",
    ]


# Figures as they are told.


@pytest.mark.parametrize(
    ("places", "told"),
    [
        ("24.981 mm, 24.982 mm", "24.982 mm"),
        ("0.9835 in, 0.9836 in", "0.9836 in"),
        # The mean is 24.9495 mm, under the 24.95 mm asked: as 24.950 mm it would look met, as 24.95 it is not.
        ("24.949 mm, 24.950 mm", "24.9495 mm"),
    ],
)
def test_a_mean_has_the_decimals_it_was_read_with_unless_its_limit_needs_more(places, told):
    mean = BOOK.replace("places: 2, new: 24.98", "places: 2, decides: mean, new: 24.98")
    assert mean != BOOK
    one = load_book(mean, "gap-box.yaml").unit("plain")
    figure = Measured(one, job(reading("GB-02", "journal", places)), shop()).figure("GB-02", "journal")
    assert figure.text == told


@pytest.mark.parametrize(("units", "by"), [("inch", "42 °F"), ("metric", "23.3 K")])
def test_a_part_that_is_too_warm_is_so_by_a_difference_in_the_units_of_the_shop(units, by):
    """110 °F less 68 °F are 42 of its degrees, and 23.3 of the other's."""
    bench = load_shop(SHOP.replace("currency", f"units: {units}\ncurrency"), "shop.yaml").content
    warm = load_job(
        JOB.replace("20 °C", "110 °F") + f"readings:\n{reading('GB-01', 'depth', '40.00 mm', 'depth micrometer 1')}",
        "job.yaml",
    ).content
    (found,) = Measured(unit(), warm, bench).findings
    assert f"the part was at 110 °F, {by} above the reference of 20 °C" in found.sentence
