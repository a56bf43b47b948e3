"""Sizes that a chain decides in which no reading tells a link: a trial, until the built unit is read; invented book."""

from fractions import Fraction

import pytest

from layshaft.book import load_book
from layshaft.paper.fit_row import size_rows
from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.rebuild import rebuild
from layshaft.plan.telling import METRIC
from layshaft.plan.verdict import judge
from tests.plan.gap_box import job, shop
from tests.plan.test_result import MM, TRIAL

BOOK = TRIAL.replace(
    "floor: 50.0 ± 0.5 mm}}",
    "floor: 50.0 ± 0.5 mm}, readings: {depth: {how: micrometer, gauge: micrometer, from: front, to: floor}}}",
)
DEPTH = "  - {part: SB-01, reading: depth, figures: [50.020 mm], gauge: micrometer 1}\n"
"""By the chain as drawn, 50.02 less 48.65 leaves 1.37: with 1.42 in it a preload of 0.05, the middle of its limit."""
AS_FOUND = """\
  - {part: SB-03, reading: thickness, figures: [1.150 mm], gauge: micrometer 1}
  - {result: end play, figures: [0.261 mm], gauge: dial 1, confirmed: true}
"""
DOUBTFUL = AS_FOUND.replace("0.261 mm", "0.261 mm, 26.1 mm").replace(", confirmed: true", "")
BUILT = "  - {result: end play, figures: [-0.031 mm], gauge: dial 1, new: true}\n"
DRAWER = "  SB-03: {sizes: {1.39 mm: 2, 1.42 mm: 1, 1.45 mm: 1}}\n"
TOLD = "Read end play on the built unit (dial), noted as new."


def fitted(readings, drawer=DRAWER, text=BOOK):
    one = load_book(text, "shim-box.yaml").unit("plain")
    measured = Measured(one, job(readings), shop(drawer))
    return choose_fit(one, measured, shop(drawer), judge(one, measured.job, shop(drawer), None, measured))


def test_the_reading_as_found_comes_first_while_nothing_says_that_the_unit_is_apart():
    fit = fitted("")
    assert not fit.sizes
    assert [one.sentence for one in fit.waiting] == ["Read end play (dial)."]
    assert fit.unchosen["SB-03"].endswith("no size chosen; end play waits for this: Read end play (dial).")


def test_with_its_other_links_in_hand_the_chain_says_what_to_try():
    fit = fitted(DEPTH)
    assert fit.sizes == {"SB-03": Fraction("1.42") * MM}
    assert fit.sentences[0] == (
        "SB-03 Shim (selective): 1.42 mm, from the drawer, to try by the chain as drawn: read end play on the built "
        "unit."
    )
    play = fit.values["end play"]
    assert (play.verdict, play.value) == ("open", Fraction("-0.05") * MM)
    assert [one.sentence for one in fit.waiting] == [TOLD]
    assert play.settled_by == (TOLD,)


def test_a_reading_as_found_outweighs_the_chain():
    """0.261 with 1.15 in it: 1.45 leaves a preload of 0.039, 1.42 one of 0.009."""
    fit = fitted(DEPTH + AS_FOUND)
    assert fit.sizes == {"SB-03": Fraction("1.45") * MM}
    assert fit.sentences[0] == "SB-03 Shim (selective): 1.45 mm, from the drawer."
    assert fit.values["end play"].verdict == "inside"


@pytest.mark.parametrize("before", [DEPTH, AS_FOUND, DEPTH + AS_FOUND])
def test_a_reading_of_the_built_unit_leaves_the_size_that_was_tried(before):
    fit = fitted(before + BUILT)
    assert fit.sizes == fitted(before).sizes
    assert not fit.waiting
    assert "to try" not in fit.sentences[0]
    play = fit.values["end play"]
    assert (play.verdict, play.origin, play.value) == ("inside", "read", Fraction("-0.031") * MM)


def test_a_built_unit_without_a_size_asks_for_its_name():
    fit = fitted(BUILT)
    assert fit.unchosen["SB-03"].endswith(
        "no size chosen; end play is read on the built unit: name the size in it as a choice of the job."
    )


def test_a_link_that_a_reading_tells_is_waited_for():
    shaft = BOOK.replace(
        "rear: 48.65 ± 0.5 mm},",
        "rear: 48.65 ± 0.5 mm}, readings: {length: {how: micrometer, gauge: micrometer, from: front, to: rear}},",
    )
    assert shaft != BOOK
    fit = fitted(DEPTH, text=shaft)
    assert not fit.sizes
    assert "SB-02 Shaft, length" in fit.unchosen["SB-03"]


def test_the_sheet_says_why_a_place_has_no_size():
    one = load_book(BOOK, "shim-box.yaml").unit("plain")
    look = "looks: []\nchoices: [{keep: SB-02, by: customer}]\n"
    rebuilt = rebuild(one, job(more=look), shop(DRAWER))
    rows = size_rows(rebuilt, METRIC)
    assert [row["sentence"] for row in rows] == [
        "Shim (selective): no size chosen; end play waits for this: Read end play (dial)."
    ]
    (step,) = (step for step in rebuilt.assembly.steps if "SB-03" in step.what)
    assert "no size chosen yet" in step.what
    (sized,) = (step for step in rebuild(one, job(DEPTH), shop(DRAWER)).assembly.steps if "SB-03" in step.what)
    assert "no size chosen yet" not in sized.what


@pytest.mark.parametrize("places", ["", DOUBTFUL])
def test_once_it_is_off_on_record_the_chain_says_what_to_try(places):
    """Nothing can be read as found of a unit that is apart: the size by the chain is tried, and the built unit read."""
    one = load_book(BOOK, "shim-box.yaml").unit("plain")
    apart = job(places, "", "done: [{off: SB-03}]\n")
    measured = Measured(one, apart, shop(DRAWER))
    fit = choose_fit(one, measured, shop(DRAWER), judge(one, apart, shop(DRAWER), None, measured))
    assert set(fit.sizes) == {"SB-03"}
    assert "to try by the chain as drawn: read end play on the built unit" in fit.sources["SB-03"]
    assert [point.sentence for point in fit.waiting if point.kind == "result"] == [TOLD]


OWN = "  - {part: SB-03, reading: thickness, figures: [1.420 mm], gauge: micrometer 1}\n"
LOOSE = BUILT.replace("-0.031 mm", "0.261 mm").replace("new: true", "confirmed: true, new: true")


def test_with_the_built_unit_read_inside_its_own_piece_stays():
    fit = fitted(OWN + BUILT)
    assert fit.sizes == {"SB-03": Fraction("1.42") * MM}
    assert fit.own == ("SB-03",)
    assert fit.sentences[0] == "SB-03 Shim (selective): 1.42 mm, its own, stays: end play inside on the built unit."
    assert not fit.unchosen
    assert not fit.to_buy


def test_without_a_piece_of_its_own_the_size_that_is_in_has_to_be_named():
    fit = fitted(BUILT)
    assert [one.sentence for one in fit.waiting] == [
        "Name the size that is in for SB-03 Shim (selective), as a choice of the job: end play was read on the built "
        "unit, and nothing says what with."
    ]
    named = job(BUILT, "", "choices: [{fit: SB-03, size: 1.42 mm, by: ferrow}]\n")
    one = load_book(BOOK, "shim-box.yaml").unit("plain")
    measured = Measured(one, named, shop(DRAWER))
    assert not choose_fit(one, measured, shop(DRAWER), judge(one, named, shop(DRAWER), None, measured)).waiting


def test_nothing_stays_by_a_reading_of_the_built_unit_that_is_outside():
    assert "stays" not in " ".join(fitted(OWN + LOOSE).sentences)


def test_nothing_else_is_offered_once_the_built_unit_is_inside():
    assert fitted(OWN + DEPTH).others
    assert fitted(OWN + DEPTH + LOOSE).others
    assert not fitted(OWN + DEPTH + BUILT).others
