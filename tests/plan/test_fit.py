"""The fit against trying every set of sizes and plates, and what it says when nothing does or something is missing."""

from fractions import Fraction
from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from tests.plan.gap_box import MEASURED, job, shop, unit

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


@settings(max_examples=30)
@given(
    st.integers(-40, 40),
    st.sets(st.sampled_from(SHIM_SIZES), min_size=1),
    st.sets(st.sampled_from(RING_SIZES), min_size=1),
)
def test_the_best_of_all_that_is_on_hand(hundredths, shims, rings):
    """Against trying every pair of sizes."""
    depth = 40 + Fraction(hundredths, 100)
    shim_text, ring_text = (", ".join(f"{float(size):.2f} mm: 1" for size in sorted(one)) for one in (shims, rings))
    drawer = f"  GB-03: {{sizes: {{{shim_text}}}}}\n  GB-04: {{sizes: {{{ring_text}}}}}\n"
    fit = fitted(MEASURED.replace("40.00 mm", f"{float(depth):.2f} mm"), drawer=drawer)
    here = {pair: score(depth, Fraction(8), *pair) for pair in product(shims, rings)}
    everywhere = {pair: score(depth, Fraction(8), *pair) for pair in product(SHIM_SIZES, RING_SIZES)}
    best = max(here.values())
    if best >= 0:
        assert here[fit.sizes["GB-03"] / MM, fit.sizes["GB-04"] / MM] == best
        assert not fit.to_buy
        assert 1 + len(fit.others) == min(8, sum(one >= 0 for one in here.values()))
    elif max(everywhere.values()) >= 0:
        chosen = (fit.sizes["GB-03"] / MM, fit.sizes["GB-04"] / MM)
        with_one = [one for pair, one in everywhere.items() if one >= 0 and (pair[0] in shims or pair[1] in rings)]
        assert everywhere[chosen] == max(with_one or everywhere.values())
        assert len(fit.to_buy) == (1 if with_one else 2)
        assert fit.misses
    else:
        assert not fit.sizes
        assert fit.miss is not None
        assert fit.miss.failures


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
    assert fit.unchosen == ("GB-03",)
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
        "Nothing in the drawer does: floor gap comes to 0.780 mm at the nearest, outside 0.80 .. 1.20 mm by 0.020 mm.",
        "Would do, with sizes to be bought: GB-03 1.00 mm.",
    )


def test_a_drawer_can_be_handed_in():
    """So that several jobs can share one drawer."""
    one = shop(FULL)
    measured = Measured(unit(), job(MEASURED, CLEAN), one)
    judged = judge(unit(), measured.job, one, None, measured)
    emptied = {part: stock for part, stock in one.drawer.items() if part != "GB-03"}
    assert "GB-03" in choose_fit(unit(), measured, one, judged, emptied).to_buy
    assert "GB-03" not in choose_fit(unit(), measured, one, judged).to_buy
