"""The fit against trying every set of sizes and plates, and what it says when nothing does or something is missing."""

import re
from fractions import Fraction
from functools import cache
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.sheet import load_shop
from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from tests.plan.gap_box import BOOK, MEASURED, SHOP, job, shop, unit

MM = Fraction(1, 1000)
FULL = (
    "  GB-03: {sizes: {0.90 mm: 1, 1.00 mm: 1, 1.10 mm: 1, 1.20 mm: 1}}\n"
    "  GB-04: {sizes: {1.80 mm: 1, 2.00 mm: 1, 2.20 mm: 1}}\n"
)
BLUE = "  - {part: GB-05, look: heat, grade: blue}\n"
CLEAN = "  - {part: GB-05, look: heat, grade: clean}\n"


def fitted(readings: str = MEASURED, looks: str = CLEAN, drawer: str = FULL, more: str = ""):
    one = shop(drawer)
    measured = Measured(unit(), job(readings, looks, more), one)
    return choose_fit(unit(), measured, one, judge(unit(), measured.job, one, None, measured))


def score(depth: Fraction, plates: Fraction, shim: Fraction, ring: Fraction) -> Fraction:
    """The smallest distance to a limit over its width, worked out apart; the cross limit borrows 0.4."""
    floor = depth - 30 - shim - plates
    shoulder = depth - 20 - ring - plates - 9
    distances = [
        min(floor - Fraction("0.8"), Fraction("1.2") - floor) / Fraction("0.4"),
        min(shoulder - Fraction("0.8"), Fraction("1.4") - shoulder) / Fraction("0.6"),
        (shoulder - floor + Fraction("0.2")) / Fraction("0.4"),
    ]
    return min(distances)


SHIM_SIZES = [Fraction(text) for text in ("0.90", "1.00", "1.10", "1.20")]
RING_SIZES = [Fraction(text) for text in ("1.80", "2.00", "2.20")]


NEARLY_SURE = [("size tolerance: 0.01 mm", "size tolerance: 0.000001 mm"), ("    limit: at most 0.004627\n", "")]
"""The small book with sizes as good as exact, and without the limit that is no sum."""
SHARP = re.compile("u95: [0-9.]+ mm")


@cache
def sharp_unit():
    text = BOOK
    for before, after in NEARLY_SURE:
        assert before in text
        text = text.replace(before, after)
    return load_book(text, "gap-box.yaml").unit("plain")


def sharp_fit(readings: str, drawer: str):
    """With gauges so fine that only a figure on its limit is not sure."""
    text = SHARP.sub("u95: 0.000001 mm", f"{SHOP}drawer:\n{drawer}")
    one = load_shop(text, "shop.yaml").content
    measured = Measured(sharp_unit(), job(readings, CLEAN), one)
    return choose_fit(sharp_unit(), measured, one, judge(sharp_unit(), measured.job, one, None, measured))


def rank(score: Fraction, bought: int) -> tuple[bool, bool, int, Fraction]:
    """Smallest is best: outside, on a limit, how many are bought, then the room within the limits."""
    return score < 0, score == 0, bought, -score


@settings(max_examples=30)
@given(
    st.integers(-40, 40),
    st.sets(st.sampled_from(SHIM_SIZES), min_size=1),
    st.sets(st.sampled_from(RING_SIZES), min_size=1),
)
def test_the_best_of_all_that_is_on_hand_or_listed(hundredths, shims, rings):
    """Against trying every pair of sizes."""
    depth = 40 + Fraction(hundredths, 100)
    shim_text, ring_text = (", ".join(f"{float(size):.2f} mm: 1" for size in sorted(one)) for one in (shims, rings))
    drawer = f"  GB-03: {{sizes: {{{shim_text}}}}}\n  GB-04: {{sizes: {{{ring_text}}}}}\n"
    fit = sharp_fit(MEASURED.replace("40.00 mm", f"{float(depth):.2f} mm"), drawer)
    ranks = {
        pair: rank(score(depth, Fraction(8), *pair), (pair[0] not in shims) + (pair[1] not in rings))
        for pair in product(SHIM_SIZES, RING_SIZES)
    }
    best = min(ranks.values())
    if not best[0]:
        assert ranks[fit.sizes["GB-03"] / MM, fit.sizes["GB-04"] / MM] == best
        assert len(fit.to_buy) == best[2]
        on_hand = sum(not one[0] and not one[2] for one in ranks.values())
        assert len(fit.others) == min(7, on_hand - (not fit.to_buy))
        assert bool(fit.misses) == (not on_hand)
    else:
        assert not fit.sizes
        assert fit.miss is not None
        assert fit.miss.failures
        nearest = fit.miss.nearest.sizes
        room = max(score(depth, Fraction(8), *pair) for pair in product(SHIM_SIZES, RING_SIZES))
        assert score(depth, Fraction(8), nearest["GB-03"] / MM, nearest["GB-04"] / MM) == room


@settings(max_examples=15)
@given(
    st.integers(-40, 40),
    st.sets(st.sampled_from(SHIM_SIZES)),
    st.sets(st.sampled_from(RING_SIZES)),
    st.sampled_from(SHIM_SIZES),
)
def test_a_fuller_drawer_makes_nothing_worse_or_dearer(hundredths, shims, rings, more):
    readings = MEASURED.replace("40.00 mm", f"{float(40 + Fraction(hundredths, 100)):.2f} mm")

    def standing(held):
        lists = {"GB-03": held, "GB-04": rings}
        drawer = "".join(
            f"  {part}: {{sizes: {{{', '.join(f'{float(size):.2f} mm: 1' for size in sorted(sizes))}}}}}\n"
            for part, sizes in lists.items()
            if sizes
        )
        fit = fitted(readings, drawer=drawer or "  GB-05: {count: 0}\n")
        verdicts = [one.verdict for one in fit.values.values()]
        return verdicts.count("outside"), verdicts.count("not sure") + verdicts.count("open"), len(fit.to_buy)

    assert standing(shims | {more}) <= standing(shims)


POOL = [1.98, 2.01, 1.95, 2.03, 1.99, 1.97, 1.89]


@settings(max_examples=15)
@given(st.integers(-30, 30))
def test_used_plates_and_sizes_together(hundredths):
    """Against trying every four plates of the drawer with every pair of sizes; the seventh plate is under its limit."""
    depth = 40 + Fraction(hundredths, 100)
    drawer = FULL + f"  GB-05: {{count: 0, measured: [{', '.join(f'{one} mm' for one in POOL)}]}}\n"
    fit = fitted(MEASURED.replace("40.00 mm", f"{float(depth):.2f} mm"), BLUE, drawer)
    usable = [Fraction(str(one)) for one in POOL[:6]]
    best = max(
        score(depth, sum(plates, Fraction(0)), shim, ring)
        for plates in combinations(usable, 4)
        for shim, ring in product(SHIM_SIZES, RING_SIZES)
    )
    if best < 0:
        assert fit.miss is not None
        return
    plates = sum(fit.figures["GB-05"], Fraction(0)) / MM
    assert score(depth, plates, fit.sizes["GB-03"] / MM, fit.sizes["GB-04"] / MM) == best
    assert fit.reclaimed == {"GB-05": 4}
    assert 7 not in fit.pieces["GB-05"]
    assert fit.values["floor gap"].value == (depth - 30 - plates) * MM - fit.sizes["GB-03"]


OWN = "  - {part: GB-03, reading: thickness, figures: [1.004 mm], gauge: micrometer 1}\n"


def test_its_own_size_counts_as_one_on_hand():
    fit = fitted(MEASURED + OWN, drawer="  GB-04: {sizes: {2.00 mm: 1}}\n")
    assert fit.sizes["GB-03"] == Fraction("1.004") * MM
    assert fit.own == ("GB-03",)
    assert fit.sentences[0] == "GB-03 Floor shim (selective): 1.004 mm, its own."
    assert fit.values["floor gap"].value == Fraction("0.996") * MM


def test_its_own_size_is_none_when_it_is_renewed():
    fit = fitted(
        MEASURED + OWN, drawer="  GB-04: {sizes: {2.00 mm: 1}}\n", more="choices: [{renew: GB-03, by: ferrow}]\n"
    )
    assert "GB-03" not in fit.own
    assert fit.to_buy == {"GB-03": MM}


def test_a_size_that_someone_chose_stands():
    fit = fitted(more="choices: [{fit: GB-03, size: 1.10 mm, by: ferrow}]\n")
    assert fit.sizes["GB-03"] == Fraction("1.10") * MM


def test_what_is_not_measured_is_not_chosen():
    readings = "".join(f"{line}\n" for line in MEASURED.splitlines() if "length" not in line)
    fit = fitted(readings)
    assert list(fit.unchosen) == ["GB-03"]
    assert "GB-04" in fit.sizes
    assert [one.name for one in fit.waiting] == ["length"]


def test_nothing_measured_nothing_chosen():
    fit = fitted("", "")
    assert not fit.sizes
    assert fit.probability is None
    assert {one.part for one in fit.waiting} >= {"GB-01", "GB-02", "GB-05"}


def test_nearest_miss_and_what_to_buy():
    fit = fitted(
        drawer="  GB-03: {sizes: {1.20 mm: 1}}\n  GB-04: {sizes: {2.00 mm: 1}}\n",
        readings=MEASURED.replace("40.00", "39.98"),
    )
    assert fit.miss is not None
    assert [(one.result, one.by) for one in fit.miss.failures] == [("floor gap", Fraction("0.02") * MM)]
    assert "GB-03" in fit.to_buy
    assert fit.sentences[-2:] == (
        "Nothing in the drawer does. Nearest, with GB-03 1.20 mm and GB-04 2.00 mm: floor gap 0.780 mm, outside "
        "0.80 .. 1.20 mm by 0.020 mm.",
        "Would do, with a size to be bought: GB-03 1.00 mm.",
    )


@pytest.mark.parametrize("drawer", [FULL, "  GB-05: {count: 0}\n"])
def test_a_set_outside_one_limit_by_a_hair_is_told_with_what_would_do(drawer):
    """40.405 less 30, four times 2 and the thickest shim of 1.20 leaves 1.205 of at most 1.20, all else inside."""
    fit = fitted(MEASURED.replace("40.00 mm", "40.405 mm"), drawer=drawer)
    assert not fit.sizes
    told = [one for one in fit.sentences if "earest" in one or one.startswith("All else so")]
    assert told[0].startswith("Nothing in the drawer or on the list does. Nearest, with GB-03 1.20 mm and GB-04 2.")
    assert told[0].endswith(": floor gap 1.205 mm, outside 0.80 .. 1.20 mm by 0.005 mm.")
    assert told[1].startswith("All else so, GB-03 from 1.205 mm to ")
    assert told[1].endswith(" would do, which is not listed; else a link of the chain has to be looked at again.")
    assert list(fit.unchosen.values()) == [
        "GB-03 Floor shim (selective): no size chosen; no size on the list brings floor gap inside.",
        "GB-04 Shoulder ring (selective): no size chosen; it goes with the sizes behind floor gap, and no set of sizes "
        "meets every limit.",
    ]


def test_a_drawer_can_be_handed_in():
    """So that several jobs can share one drawer."""
    one = shop(FULL)
    measured = Measured(unit(), job(MEASURED, CLEAN), one)
    judged = judge(unit(), measured.job, one, None, measured)
    emptied = {part: stock for part, stock in one.drawer.items() if part != "GB-03"}
    assert "GB-03" in choose_fit(unit(), measured, one, judged, emptied).to_buy
    assert "GB-03" not in choose_fit(unit(), measured, one, judged).to_buy


# What stays, what it costs, and what else is offered.

PRICES = (
    "prices:\n  - {from: 2026-01-01, source: counter, lead: 1 day, parts: {GB-03: {list: 9.00 CUR, cost: 4.00 CUR}, "
    "GB-04: {list: 30.00 CUR, cost: 12.00 CUR}}}\n"
)


def priced_fit(readings: str, drawer: str):
    """The sharp unit, with what its selective parts cost."""
    text = SHARP.sub("u95: 0.000001 mm", f"{SHOP}{f'drawer:{chr(10)}{drawer}' if drawer else ''}{PRICES}")
    one = load_shop(text, "shop.yaml").content
    measured = Measured(sharp_unit(), job(readings, CLEAN), one)
    return choose_fit(sharp_unit(), measured, one, judge(sharp_unit(), measured.job, one, None, measured))


@settings(max_examples=40)
@given(
    st.integers(-40, 40),
    # Of sizes that are not listed: so none of its own lies on a limit with all that is unsure of it cancelling out.
    st.sampled_from([one + Fraction(3, 100) for one in SHIM_SIZES]),
    st.sampled_from([one + Fraction(1, 100) for one in RING_SIZES]),
    st.sets(st.sampled_from(SHIM_SIZES)),
    st.sets(st.sampled_from(RING_SIZES)),
)
def test_the_least_that_is_billed_among_what_is_sure(hundredths, own_shim, own_ring, shims, rings):
    """Against trying every pair: 9 for another shim, 30 for another ring, in the drawer or not; own ones are free."""
    depth = 40 + Fraction(hundredths, 100)
    readings = MEASURED.replace("40.00 mm", f"{float(depth):.2f} mm") + (
        f"  - {{part: GB-03, reading: thickness, figures: [{float(own_shim):.2f} mm], gauge: micrometer 1}}\n"
        f"  - {{part: GB-04, reading: thickness, figures: [{float(own_ring):.2f} mm], gauge: micrometer 1}}\n"
    )
    drawer = "".join(
        f"  {part}: {{sizes: {{{', '.join(f'{float(size):.2f} mm: 1' for size in sorted(sizes))}}}}}\n"
        for part, sizes in {"GB-03": shims, "GB-04": rings}.items()
        if sizes
    )
    fit = priced_fit(readings, drawer)

    def rank(shim, ring):
        room = score(depth, Fraction(8), shim, ring)
        billed = 9 * (shim != own_shim) + 30 * (ring != own_ring)
        bought = (shim not in shims | {own_shim}) + (ring not in rings | {own_ring})
        return room < 0, room == 0, billed, bought

    best = min(rank(*pair) for pair in product([*SHIM_SIZES, own_shim], [*RING_SIZES, own_ring]))
    if best[0]:
        assert not fit.sizes
        return
    assert rank(fit.sizes["GB-03"] / MM, fit.sizes["GB-04"] / MM) == best
    kept = {"GB-03": own_shim * MM, "GB-04": own_ring * MM}
    if fit.sizes != kept and score(depth, Fraction(8), own_shim, own_ring) >= 0:
        assert fit.others[0].sizes == kept, "its own pieces are told first"


def test_a_set_that_misses_a_limit_as_far_as_known_is_not_offered():
    """The floor gap waits for the depth; as drawn, 40 less 30 and four times 2 leaves 2.00 for gap and shim."""
    readings = "".join(f"{line}\n" for line in MEASURED.splitlines() if "depth" not in line)
    fit = fitted(readings)
    for one in fit.others:
        for name, value in one.values.items():
            limit = unit().results[name].limit
            assert limit is None or limit.contains(value), name


def test_a_set_that_is_not_sure_says_so():
    """0.81 of 0.80 .. 1.20 mm, with the shim as listed give or take 0.01 mm."""
    drawer = "  GB-03: {sizes: {1.00 mm: 1, 1.10 mm: 1}}\n  GB-04: {sizes: {2.00 mm: 1}}\n"
    fit = fitted(MEASURED.replace("40.00 mm", "39.91 mm"), drawer=drawer)
    other = next(one for one in fit.others if one.sizes["GB-03"] == Fraction("1.10") * MM)
    assert other.doubts["floor gap"] < 0.95


def test_a_chosen_size_that_is_not_on_hand_is_to_be_bought():
    """Also where it brings nothing inside: then no answer holds it."""
    for size, depth in (("1.10 mm", "40.00 mm"), ("1.20 mm", "39.90 mm")):
        fit = fitted(
            MEASURED.replace("40.00 mm", depth),
            drawer="  GB-03: {sizes: {1.00 mm: 1}}\n  GB-04: {sizes: {2.00 mm: 1}}\n",
            more=f"choices: [{{fit: GB-03, size: {size}, by: ferrow}}]\n",
        )
        assert "GB-03" in fit.to_buy
        told = f"GB-03 Floor shim (selective): {float(size[:4]):.2f} mm, to be bought; chosen by ferrow."
        assert told in fit.sentences
