"""One of the unit's own pieces goes to one place only, and only listed sizes can be bought; invented book."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.sheet import load_shop
from layshaft.plan.fit import choose_fit
from layshaft.plan.fitted_verdict import fitted_verdicts
from layshaft.plan.measured import Measured
from layshaft.plan.order_list import order_fitted
from layshaft.plan.verdict import judge
from tests.plan.gap_box import SHOP, job

MM = Fraction(1, 1000)
BOOK = """\
layshaft book: 1
id: gap-box
name: Box with two shims
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: GB-01
starts: nose up
attitudes: [nose up]
axes: {main: {start: front, end: rear, start is up: nose up}}
variants: {plain: {}}
parts:
  GB-01:
    name: Box
    class: case
    mass: 5 kg
    faces: {front: 0 mm, floor: 40.00 ± 0.05 mm}
    readings: {depth: {how: depth micrometer, gauge: depth micrometer, from: front, to: floor}}
  GB-02:
    name: Shaft
    class: shaft
    mass: 1 kg
    faces: {front: 0 mm, rear: 30.00 ± 0.04 mm}
    ways: [{toward: front, time: 1 min}]
    readings: {length: {how: micrometer, gauge: micrometer, from: front, to: rear}}
"""
TWO_PIECES = """\
  GB-03:
    name: Shim
    class: shim
    count: 2
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 0.40 ± 0.000001 mm}
    ways: [{toward: front, time: 1 min}]
    selective: {from: front, to: rear, size tolerance: 0.000001 mm, sizes: [0.30 mm, 0.40 mm, 0.50 mm]}
    readings: {thickness: {how: micrometer, gauge: micrometer, from: front, to: rear}}
results:
  play:
    about: Shaft end to the floor
    chain: [plus GB-01 front to floor, less GB-02 front to rear, less each GB-03 front to rear]
    limit: LIMIT
"""
TWO_PLACES = (
    TWO_PIECES.replace("    count: 2\n", "").replace(
        "results:",
        """\
  GB-04:
    name: Shim behind
    sold as: GB-03
    class: shim
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 0.40 ± 0.000001 mm}
    ways: [{toward: front, time: 1 min}]
    selective: {from: front, to: rear, size tolerance: 0.000001 mm, sizes: [0.30 mm, 0.40 mm, 0.50 mm]}
    readings: {thickness: {how: micrometer, gauge: micrometer, from: front, to: rear}}
results:""",
    )
).replace("less each GB-03 front to rear", "less GB-03 front to rear, less GB-04 front to rear")
LISTED = [Fraction(text) for text in ("0.30", "0.40", "0.50")]
PRICES = """\
prices:
  - {from: 2026-01-01, source: counter, lead: 1 day, parts: {GB-03: {list: 9.00 CUR, cost: 4.00 CUR}}}
"""


class Case:
    """A book with two shims that read so, a drawer, and what the fit makes of it."""

    def __init__(self, tail, own, drawer, limit="0.10 .. 0.20 mm", more="", extra="", used=()):
        self.places = ("GB-03", "GB-04") if "GB-04" in tail else ("GB-03 1", "GB-03 2")
        self.unit = load_book(BOOK + tail.replace("LIMIT", limit), "gap-box.yaml").unit("plain")
        readings = (
            "  - {part: GB-01, reading: depth, figures: [31.00 mm], gauge: depth micrometer 1}\n"
            "  - {part: GB-02, reading: length, figures: [30.000 mm], gauge: micrometer 1}\n"
        )
        for place, size in zip(self.places, own, strict=True):
            part, _, piece = place.partition(" ")
            which = f"piece: {piece}, " if piece else ""
            readings += (
                f"  - {{part: {part}, reading: thickness, {which}"
                f"figures: [{float(size):.3f} mm], gauge: micrometer 1}}\n"
            )
        readings += extra
        held = ", ".join(f"{float(size):.2f} mm: {number}" for size, number in drawer.items())
        measured = ", ".join(f"{float(size):.3f} mm" for size in used)
        text = f"{SHOP}drawer:\n  GB-03: {{sizes: {{{held}}}, measured: [{measured}]}}\n{PRICES}"
        text += "reclaimed percent: 40\n" if used else ""
        for wide in ("0.025", "0.005", "0.004", "0.010"):
            text = text.replace(f"u95: {wide} mm", "u95: 0.000001 mm")
        self.shop = load_shop(text, "shop.yaml").content
        self.job = job(readings, "", more)
        measured = Measured(self.unit, self.job, self.shop)
        self.judged = judge(self.unit, self.job, self.shop, None, measured)
        self.fit = choose_fit(self.unit, measured, self.shop, self.judged)

    @property
    def sizes(self):
        return [self.fit.sizes[place] / MM for place in self.places]


KINDS = pytest.mark.parametrize("tail", [TWO_PIECES, TWO_PLACES], ids=["two pieces", "two places"])


@KINDS
def test_an_own_piece_that_fits_twice_goes_in_once(tail):
    """0.402 twice would leave 0.196, inside; there is one such piece, and 0.402 is no size that is listed."""
    case = Case(tail, ("0.402", "0.349"), {Fraction("0.40"): 1}, "0.19 .. 0.20 mm")
    assert sorted(case.sizes) == [Fraction("0.40"), Fraction("0.402")]
    assert case.fit.own == (case.places[0],)
    assert not case.fit.to_buy
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    assert [(one.pieces, one.size) for one in order.taken] == [(1, Fraction("0.40") * MM)]
    assert not order.bought


def rank(sizes, own, drawer, low, high):
    """What a pair comes to, worked out apart: outside, on an end, billed at 9 for each piece not its own, bought."""
    left = dict(drawer)
    there = list(own)
    billed = bought = 0
    for size in sizes:
        if size in there:
            there.remove(size)
            continue
        if size not in LISTED:
            return None
        billed += 9
        if left.get(size, 0):
            left[size] -= 1
        else:
            bought += 1
    play = 1 - sum(sizes)
    return not low <= play <= high, play in (low, high), billed, bought


@KINDS
@settings(max_examples=40)
@given(
    st.tuples(*[st.sampled_from(["0.30", "0.302", "0.349", "0.402", "0.40", "0.451"])] * 2),
    st.dictionaries(st.sampled_from(LISTED), st.integers(1, 2)),
    st.integers(0, 40),
)
def test_each_piece_once_against_trying_every_pair(tail, own, drawer, low):
    own = [Fraction(one) for one in own]
    ends = Fraction(low, 100) + Fraction("0.001"), Fraction(low, 100) + Fraction("0.049")
    case = Case(tail, own, drawer, f"{float(ends[0]):.3f} .. {float(ends[1]):.3f} mm")
    ranks = {
        pair: found
        for pair in product({*own, *LISTED}, repeat=2)
        if (found := rank(pair, own, drawer, *ends)) is not None and not found[0]
    }
    if not ranks:
        assert not case.fit.sizes
        return
    assert case.fit.sizes
    found = rank(case.sizes, own, drawer, *ends)
    assert found == min(ranks.values())
    assert len(case.fit.to_buy) == found[3]
    assert 2 - len(case.fit.own) == found[2] / 9
    assert all(size / MM in LISTED for size in case.fit.to_buy.values())
    told = [tuple(sorted(one.sizes.values())) for one in case.fit.others]
    assert len(told) == len(set(told)), "a set is told once, whichever way round its pieces lie"
    assert tuple(sorted(case.fit.sizes.values())) not in told


@KINDS
def test_an_own_piece_stays_where_it_was(tail):
    case = Case(tail, ("0.402", "0.349"), {}, "0.24 .. 0.26 mm")
    assert case.sizes == [Fraction("0.402"), Fraction("0.349")]
    assert case.fit.sentences[0].endswith("0.402 mm, its own.")
    assert not case.fit.to_buy


def test_one_that_stays_beside_one_that_is_replaced():
    case = Case(TWO_PIECES, ("0.402", "0.349"), {Fraction("0.40"): 1}, "0.19 .. 0.20 mm")
    assert fitted_verdicts(case.judged, case.fit)["GB-03"].replaced_by == "0.40 mm at GB-03 2"


def test_a_chosen_size_that_one_piece_has_is_not_had_twice():
    """Nor is it ordered: 0.402 is the size of one piece that is there, and of none that is sold."""
    more = "choices: [{fit: GB-03, size: 0.402 mm, by: ferrow}]\n"
    case = Case(TWO_PIECES, ("0.402", "0.349"), {Fraction("0.40"): 2}, "0.19 .. 0.20 mm", more)
    assert not case.fit.to_buy
    assert case.fit.own == ("GB-03 1",)
    assert "GB-03 2" in case.fit.unchosen
    told = next(one for one in case.fit.sentences if one.startswith("GB-03 2"))
    assert told == (
        "GB-03 2 Shim: no size chosen; ferrow chose 0.402 mm, which is no listed size, and there is no piece of it "
        "for this place."
    )
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    assert not order.bought


def test_a_chosen_size_that_is_not_sold_is_never_ordered():
    """1.51 in for 1.51 mm, a slip of the unit."""
    more = "choices: [{fit: GB-03, size: 1.51 in, by: ferrow}]\n"
    case = Case(TWO_PIECES, ("0.402", "0.349"), {Fraction("0.40"): 2}, more=more)
    assert not case.fit.sizes
    assert not case.fit.to_buy
    assert all("1.51 in" in one for one in case.fit.sentences if "no size chosen" in one)
    assert not order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit).bought


def test_a_piece_that_goes_in_stands_as_it_was_read():
    """What the sheet asks for, measured and typed with `new: true`: the figure stands for the size it is nearest to."""
    chosen = "choices: [{fit: GB-04, size: 0.40 mm, by: ferrow}]\n"
    read = "  - {part: GB-04, reading: thickness, figures: [0.401 mm], gauge: micrometer 1, new: true}\n"
    for extra, left, origin in (("", "0.251", "part measured"), (read, "0.250", "measured")):
        wider = TWO_PLACES.replace("size tolerance: 0.000001 mm", "size tolerance: 0.001 mm")
        case = Case(wider, ("0.349", "0.349"), {Fraction("0.40"): 2}, "0.19 .. 0.31 mm", chosen, extra)
        assert (case.fit.values["play"].value, case.fit.values["play"].origin) == (Fraction(left) * MM, origin)
        assert case.fit.sentences[1] == "GB-04 Shim behind: 0.40 mm, from the drawer; chosen by ferrow."


@pytest.mark.parametrize("read, is_of_it", [("0.402", True), ("0.403", False), ("0.450", False), ("0.500", False)])
def test_what_was_read_has_to_be_the_size_that_is_chosen(read, is_of_it):
    """0.40 ± 0.002 mm by a micrometer good to 0.000001 mm; what is no piece of it waits, and nothing else is chosen."""
    wider = TWO_PLACES.replace("size tolerance: 0.000001 mm", "size tolerance: 0.002 mm")
    chosen = "choices: [{fit: GB-04, size: 0.40 mm, by: ferrow}]\n"
    extra = f"  - {{part: GB-04, reading: thickness, figures: [{read} mm], gauge: micrometer 1, new: true}}\n"
    case = Case(wider, ("0.349", "0.349"), {Fraction("0.40"): 2}, "0.19 .. 0.31 mm", chosen, extra)
    assert case.sizes == [Fraction("0.349"), Fraction("0.40")]
    assert (case.fit.values["play"].value == (1 - Fraction("0.349") - Fraction(read)) * MM) == is_of_it
    waiting = [(one.part, one.name, one.is_new) for one in case.fit.waiting]
    assert waiting == ([] if is_of_it else [("GB-04", "thickness", True)])
    told = [one for one in case.fit.sentences if "is not the size chosen, 0.40 mm" in one]
    assert bool(told) != is_of_it
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    assert [one.size for one in order.taken] == [Fraction("0.40") * MM]
    assert not order.bought


def test_a_place_that_gets_a_piece_of_another_is_not_filled_twice():
    """GB-03 is to be renewed and gets the piece out of GB-04, so that one new shim goes in, and one is billed."""
    renewed = "choices: [{renew: GB-03, by: ferrow}, {fit: GB-04, size: 0.50 mm, by: ferrow}]\n"
    case = Case(TWO_PLACES, ("0.302", "0.402"), {Fraction("0.50"): 1}, "0.09 .. 0.11 mm", renewed)
    assert case.fit.own == ("GB-03",)
    assert case.sizes == [Fraction("0.402"), Fraction("0.50")]
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    assert [(one.pieces, one.size) for one in order.needs] == [(1, Fraction("0.50") * MM)]
    assert not order.open
