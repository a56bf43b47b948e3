"""The fit where a limit rests on arithmetic: it takes part in the choice like a chain, or is looked at for each."""

import math
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from tests.plan.axle_box import DEPTH, DEPTHS, FULL, READ_DIRECTLY, SIDES, fitted

MM = Fraction(1, 1000)
SIDE_SIZES = [Fraction(size, 100) for size in (145, 150, 155)]
DIRECT = ("\n    drawn: 0.15 mm", READ_DIRECTLY)


@settings(max_examples=15)
@given(st.integers(-60, 60), st.integers(-20, 20))
def test_a_backlash_takes_part_in_the_choice(width, length):
    """Against trying every pair of shims by hand: the preload and the backlash, each by its own width."""
    readings = SIDES.replace("100.000", f"{100 + width / 1000:.3f}").replace("97.060", f"{97.06 + length / 1000:.3f}")
    fit = fitted(readings, FULL)

    def score(left: Fraction, right: Fraction) -> Fraction:
        preload = left + right + Fraction("97.06") + Fraction(length, 1000) - 100 - Fraction(width, 1000)
        backlash = Fraction("0.15") + Fraction("0.7") * (left - Fraction("1.5"))
        return min(
            min(preload - Fraction("0.03"), Fraction("0.09") - preload) / Fraction("0.06"),
            min(backlash - Fraction("0.10"), Fraction("0.20") - backlash) / Fraction("0.10"),
        )

    best = max(score(*pair) for pair in product(SIDE_SIZES, repeat=2))
    if best < 0:
        return
    chosen = (fit.sizes["AB-03"] / MM, fit.sizes["AB-04"] / MM)
    assert score(*chosen) >= 0
    if not fit.to_buy and fit.values["side play"].verdict == fit.values["backlash"].verdict == "inside":
        assert score(*chosen) == best
    assert fit.values["backlash"].value == (Fraction("0.15") + Fraction("0.7") * (chosen[0] - Fraction("1.5"))) * MM


def test_the_pair_that_keeps_the_backlash_is_taken():
    """Both pairs give the preload in the middle of its limit; only one keeps the backlash there."""
    drawer = "  AB-03: {sizes: {1.45 mm: 1, 1.50 mm: 1}}\n  AB-04: {sizes: {1.50 mm: 1, 1.55 mm: 1}}\n"
    fit = fitted(SIDES, drawer)
    assert (fit.sizes["AB-03"], fit.sizes["AB-04"]) == (Fraction("1.50") * MM, Fraction("1.50") * MM)
    assert {one.sizes["AB-03"] for one in fit.others} == {Fraction("1.45") * MM}
    assert fit.others[0].values["backlash"] == Fraction("0.115") * MM


def test_a_read_housing_and_an_etched_figure_choose_the_depth_shim():
    """145.03 less 90 less 0.08 leaves 54.95: with 1.05 the depth is 56.00."""
    readings = DEPTH.replace("145.000", "145.030").replace("0.00 mm", "0.08 mm")
    fit = fitted(readings, DEPTHS)
    assert fit.sizes["AB-05"] == Fraction("1.05") * MM
    assert fit.values["depth"].value == 56 * MM
    assert fit.values["depth"].verdict == "inside"


def test_a_depth_that_no_size_on_hand_meets_is_bought():
    fit = fitted(DEPTH, "  AB-05: {sizes: {0.90 mm: 1}}\n", DIRECT)
    assert fit.to_buy == {"AB-05": MM}
    assert [(one.result, one.by) for one in fit.misses[0].failures] == [("depth", Fraction("0.06") * MM)]


def test_a_plain_size_with_a_tolerance_behind_a_result_that_can_be_read():
    """Reading it on the built unit is asked for; the plain size is nobody's part."""
    fit = fitted(SIDES, FULL, DIRECT, ("plus 13.50 mm", "plus 13.50 ± 0.02 mm"))
    assert [one.name for one in fit.waiting if one.kind == "result"] == ["backlash"]
    assert fit.values["backlash"].high - fit.values["backlash"].low == Fraction("0.7") * Fraction("0.13") * MM


def test_what_waits_is_followed_as_drawn():
    """The backlash waits to be read, and still the pair that keeps it as drawn is taken."""
    drawer = "  AB-03: {sizes: {1.45 mm: 1, 1.50 mm: 1}}\n  AB-04: {sizes: {1.50 mm: 1, 1.55 mm: 1}}\n"
    assert fitted(SIDES, drawer, DIRECT).sizes["AB-03"] == Fraction("1.50") * MM


NO_SUM = ("is: 0.15 mm + 0.7 x wheel place", "is: max(0.15 mm + 0.7 x wheel place, 0.02 mm)")


def test_what_is_no_sum_is_looked_at_for_each_way():
    """1.55 at the left would give 0.185 of 0.10 .. 0.17: the way with 1.45 is taken, the other not offered."""
    drawer = "  AB-03: {sizes: {1.45 mm: 1, 1.55 mm: 1}}\n  AB-04: {sizes: {1.45 mm: 1, 1.55 mm: 1}}\n"
    fit = fitted(SIDES, drawer, NO_SUM, ("limit: 0.10 .. 0.20 mm", "limit: 0.06 .. 0.17 mm"))
    assert fit.sizes["AB-03"] == Fraction("1.45") * MM
    assert not fit.failing
    assert all(one.sizes["AB-03"] != Fraction("1.55") * MM for one in fit.others)


def test_a_place_that_is_not_chosen_says_why():
    fit = fitted("", FULL, DIRECT)
    assert set(fit.unchosen) == {"AB-03", "AB-04", "AB-05"}
    told = [line for line in fit.sentences if "no size chosen" in line]
    assert told[0] == (
        "AB-03 Left shim: no size chosen; side play and backlash wait for this: Measure AB-01 Housing, width (inside "
        "micrometer). Measure AB-02 Case with wheel, length (micrometer). Read backlash (dial on a tooth)."
    )
    assert told[2].startswith("AB-05 Depth shim: no size chosen; depth waits for this: Measure AB-01 Housing, front")
    limitless = fitted(DEPTH, DEPTHS, ("    limit: 55.96 .. 56.04 mm\n", ""))
    assert "AB-05 Depth shim: no size chosen; no limit of the book rests on its size." in limitless.sentences


@pytest.mark.parametrize(
    ("opened", "chosen", "told"),
    [
        (None, {"AB-03", "AB-04", "AB-05"}, {"side play", "backlash", "depth"}),
        (frozenset({"AB-05"}), {"AB-05"}, {"depth"}),
        (frozenset({"AB-03", "AB-04"}), {"AB-03", "AB-04"}, {"side play", "backlash"}),
        (frozenset(), set(), set()),
    ],
)
def test_only_what_is_opened(opened, chosen, told):
    fit = fitted(SIDES + DEPTH, FULL + DEPTHS, opened=opened)
    assert set(fit.sizes) == chosen
    assert set(fit.values) == told
    assert not fit.unchosen


WIDE = (
    ("limit: 55.96 .. 56.04 mm", "limit: 55.993 .. 56.007 mm"),
    ("size tolerance: 0.005 mm, sizes: [0.90", "size tolerance: 0.02 mm, sizes: [0.90"),
)


def test_what_would_settle_a_size_that_is_not_sure():
    """The bias of the one gauge that read housing and pinion cancels; the etched figure and the shim are left."""
    fit = fitted(DEPTH, "  AB-05: {sizes: {1.00 mm: 1}}\n", DIRECT, *WIDE)
    value = fit.values["depth"]
    assert value.verdict == "not sure"
    assert value.settled_by[0].startswith("The doubt is that of AB-05 Depth shim as drawn or listed, and no finer ga")
    then = math.hypot(0.0025, 0.002)
    odds = 100 * (norm.cdf(0.007 / then) - norm.cdf(-0.007 / then))
    assert (
        "AB-05 Depth shim: measure the one that goes in (thickness, micrometer 1) and note it as new; of the "
        f"size as listed it settles this: depth {100 * value.probability:.1f} % likely inside, then {odds:.1f} %."
    ) in fit.sentences
    point = next(one for one in fit.waiting if one.part == "AB-05")
    assert (point.name, point.is_new, point.decides) == ("thickness", True, ("depth",))
    assert point.sentence == "Measure the new AB-05 Depth shim, thickness (micrometer), noted as new."


def test_a_reading_of_a_part_that_is_renewed_is_wanted_of_the_new_one():
    chipped = "looks: [{part: AB-02, look: teeth, grade: chipped, by: ada}]\n"
    fit = fitted(SIDES, FULL, DIRECT, more=chipped)
    assert "Measure the new AB-02 Case with wheel, length (micrometer), noted as new." in {
        one.sentence for one in fit.waiting
    }


def test_places_of_one_sold_part_share_the_drawer():
    """One 1.50 is on hand for both sides: the other has to be bought."""
    same = ("name: Right shim\n", "name: Right shim\n    sold as: AB-03\n")
    fit = fitted(SIDES, "  AB-03: {sizes: {1.50 mm: 1}}\n", same)
    assert set(fit.sizes.values()) == {Fraction("1.50") * MM}
    assert len(fit.to_buy) == 1
    assert not fitted(SIDES, "  AB-03: {sizes: {1.50 mm: 2}}\n", same).to_buy


def test_a_direct_reading_of_what_is_no_sum_ends_with_the_parts_it_was_read_with():
    """The backlash was read with the old shims in; with others chosen it is worked out, and asked for again."""
    read = SIDES + "  - {result: backlash, figures: [0.12 mm], gauge: micrometer 1}\n"
    before = fitted(read, FULL, DIRECT, NO_SUM, opened=frozenset())
    after = fitted(read, FULL, DIRECT, NO_SUM)
    assert not before.values
    left = after.sizes["AB-03"] - Fraction("1.5") * MM
    assert after.values["backlash"].value == Fraction("0.15") * MM + Fraction("0.7") * left
    assert after.values["backlash"].origin != "read"
