"""Results from readings: leaves that cancel, tolerances, odds, direct readings and models, against other ways."""

import math
from fractions import Fraction

import numpy
import pytest
from scipy.stats import norm

from layshaft.book import load_book
from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.result import results
from layshaft.plan.verdict import judge
from tests.plan.gap_box import MEASURED, job, shop, unit

MM = Fraction(1, 1000)
SHIMS = """\
  - {part: GB-03, reading: thickness, figures: [1.000 mm], gauge: micrometer 1}
  - {part: GB-04, reading: thickness, figures: [2.000 mm], gauge: micrometer 1}
"""


def found(readings: str = "", of=None):
    one = of or unit()
    return results(one, Measured(one, job(readings), shop()))


def test_as_drawn_worst_case_and_root_sum_square():
    """40 ± 0.05, 30 ± 0.04, 1 ± 0.01 and four times 2 ± 0.02, summed by hand."""
    gap = found()["floor gap"]
    assert (gap.value, gap.low, gap.high) == (1 * MM, Fraction("0.82") * MM, Fraction("1.18") * MM)
    assert gap.rss * 1000 == pytest.approx(math.sqrt(0.05**2 + 0.04**2 + 0.01**2 + 4 * 0.02**2))
    assert gap.rss_batch * 1000 == pytest.approx(math.sqrt(0.05**2 + 0.04**2 + 0.01**2 + 0.08**2))
    assert (gap.origin, gap.verdict) == ("drawn", "open")


def test_missing_readings_are_named():
    points = found()["floor gap"].missing
    assert [(one.part, one.name) for one in points] == [
        ("GB-01", "depth"),
        ("GB-02", "length"),
        ("GB-03", "thickness"),
        ("GB-05", "thickness"),
    ]


def test_measured_throughout():
    gap = found(MEASURED + SHIMS)["floor gap"]
    assert (gap.value, gap.low, gap.high, gap.rss) == (1 * MM, 1 * MM, 1 * MM, 0)
    assert (gap.origin, gap.verdict, gap.missing) == ("measured", "inside", ())
    # One micrometer reads shaft, shim and four plates: its band of 0.004 adds six times; the depth has its own.
    assert gap.uncertainty * 1000 == pytest.approx(math.hypot(6 * 0.002, 0.005))
    assert gap.probability == pytest.approx(
        norm.cdf(0.2, scale=gap.uncertainty * 1000) - norm.cdf(-0.2, scale=gap.uncertainty * 1000)
    )


def test_near_certainty_is_told_only_where_every_link_is_measured():
    """40 less 30, 1 and four times 2 are 1; the box is left to its drawing, ± 0.05, the second time.

    One micrometer that errs by up to 0.004 read the shaft, the shim and four plates, all counting alike: 0.024 more.
    """
    whole = found(MEASURED + SHIMS)["floor gap"]
    assert (
        whole.sentence == "floor gap 1.000 mm, measured: inside 0.80 .. 1.20 mm by 0.200 mm, over 99.9 % likely inside."
    )
    assert (whole.is_settled, whole.settled_by) == (True, ())
    part = found("".join((MEASURED + SHIMS).splitlines(keepends=True)[1:]))["floor gap"]
    assert part.sentence == (
        "floor gap 1.000 mm (0.926 to 1.074 mm at worst, gauges counted), part measured, the rest as drawn or listed: "
        "0.80 .. 1.20 mm asked, and it cannot be said yet."
    )
    assert (part.is_settled, part.settled_by) == (False, ("Measure GB-01 Box, depth (depth micrometer).",))


@pytest.mark.parametrize(
    ("depth", "verdict", "sentence", "settled_by"),
    [
        (
            "40.25",
            "outside",
            "floor gap 1.250 mm, measured: outside 0.80 .. 1.20 mm by 0.050 mm.",
            # With a shim of 1.10 or 1.20 it is 1.15 or 1.05; with a box of 40.00 as drawn, 1.00.
            "Another listed size of GB-03 Floor shim (selective) brings it inside, if other limits allow. A new GB-01 "
            "Box brings it inside, if made as drawn.",
        ),
        (
            "40.199",
            "not sure",
            "floor gap 1.199 mm, measured: inside 0.80 .. 1.20 mm by 0.001 mm, 53.0 % likely inside, which is less "
            "than 95 %.",
            "Read GB-02 Shaft, length; GB-03 Floor shim (selective), thickness; GB-05 Plate, thickness again with a "
            "gauge that errs less than micrometer 1, which leaves most of the doubt.",
        ),
    ],
)
def test_what_would_settle_it(depth, verdict, sentence, settled_by):
    """The odds by the normal distribution, 0.001 mm of room over hypot(6 x 0.002, 0.005) mm: 0.5307, told downward."""
    gap = found(MEASURED.replace("40.00 mm", f"{depth} mm") + SHIMS)["floor gap"]
    if verdict == "not sure":
        assert norm.cdf(0.001 / math.hypot(0.012, 0.005)) == pytest.approx(0.5307, abs=5e-5)
    assert (gap.verdict, gap.sentence, gap.settled_by) == (verdict, sentence, (settled_by,))


def test_nothing_by_itself_brings_it_inside():
    """1.90 mm: the thickest shim leaves 1.70, a box as drawn 1.45 and a shaft as drawn 1.45."""
    readings = MEASURED.replace("40.00 mm", "40.45 mm").replace("30.000 mm", "29.550 mm")
    assert found(readings + SHIMS)["floor gap"].settled_by == (
        "Read its links again: no listed size of GB-03 Floor shim (selective) and no single new part as drawn brings "
        "it inside.",
    )


def test_shared_links_cancel_across_results():
    """The box and the plates are in both gaps; what differs is shaft, shims and the plain 9 mm."""
    difference = found()["difference"]
    assert difference.value == 0
    # GB-02 shoulder 0.04 and end 0.04, two shims 0.01 each; the box and the plates are gone.
    assert difference.high == Fraction("0.10") * MM
    assert {one.part for one in difference.missing} == {"GB-02", "GB-03", "GB-04"}


def test_a_figure_that_is_no_sum_against_sampling():
    """floor gap over journal, both at their tolerance; sampled by numpy with a fixed seed."""
    share = found()["share"]
    rng = numpy.random.default_rng(7)
    size = 200_000
    parts = [(40, 0.05, 1), (30, 0.04, -1), (1, 0.01, -1), *[(2, 0.02, -1)] * 4]
    gap = sum(sign * rng.normal(nominal, half / 3, size) for nominal, half, sign in parts)
    journal = rng.normal(24.99, 0.01 / 3, size)
    assert share.rss / 3 == pytest.approx(float(numpy.std(gap / journal)), rel=0.01)
    assert share.low <= Fraction("0.82") / 25
    assert share.high >= Fraction("1.18") / Fraction("24.98")


def test_chain_elongation_by_model():
    """Mid-span slack of 16.5 mm: the project's own invented case, 0.3888 % against 0.4627 %."""
    grown = found(MEASURED + SHIMS)["slackened"]
    assert float(grown.value) * 100 == pytest.approx(0.3888, abs=5e-5)
    assert grown.verdict == "inside"


def test_only_outside_by_exact_figures_is_outside():
    reading = MEASURED.replace("40.00 mm", "40.201 mm") + SHIMS
    gap = found(reading)["floor gap"]
    assert (gap.verdict, gap.margin) == ("outside", Fraction("-0.001") * MM)
    exactly = found(MEASURED.replace("40.00 mm", "40.20 mm") + SHIMS)["floor gap"]
    assert (exactly.verdict, exactly.margin) == ("not sure", 0)


def test_a_worn_part_is_never_taken_as_drawn():
    """All but the shaft is read: even where its drawing would do, a used shaft is not known."""
    readings = "\n".join(line for line in MEASURED.splitlines() if "GB-02" not in line) + "\n" + SHIMS
    gap = found(readings)["floor gap"]
    assert gap.verdict == "open"
    assert [one.name for one in gap.missing] == ["length"]


# A result read straight off the unit.

TRIAL = """\
layshaft book: 1
id: shim-box
name: Box with a shim
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: SB-01
starts: nose up
attitudes: [nose up]
axes: {main: {start: front, end: rear, start is up: nose up}}
variants: {plain: {}}
parts:
  SB-01: {name: Box, class: case, mass: 1 kg, faces: {front: 0 mm, floor: 50.0 ± 0.5 mm}}
  SB-02:
    {name: Shaft, class: shaft, mass: 1 kg, faces: {front: 0 mm, rear: 48.65 ± 0.5 mm},
     ways: [{toward: front, time: 1 min}]}
  SB-03:
    name: Shim (selective)
    class: selective
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 1.40 ± 0.01 mm}
    ways: [{toward: front, time: 1 min}]
    selective: {from: front, to: rear, sizes: [1.15 mm, 1.39 mm, 1.42 mm, 1.45 mm, 1.48 mm]}
    readings: {thickness: {how: micrometer, gauge: micrometer, from: front, to: rear}}
results:
  end play:
    about: Shaft in its box
    chain: [plus SB-01 front to floor, less SB-02 front to rear, less SB-03 front to rear]
    limit: preload 0.02 .. 0.08 mm
    drawn: -0.05 mm
    read: {how: dial, gauge: dial}
"""
TRIAL_READ = """\
  - {part: SB-03, reading: thickness, figures: [1.150 mm], gauge: micrometer 1}
  - {result: end play, figures: [0.231 mm], gauge: dial 1, confirmed: true}
"""


def test_a_trial_shim_is_corrected_for_the_one_that_goes_in():
    """End play of 0.231 with a trial shim of 1.15: the project's own invented case, best 1.42 with preload 0.039."""
    one = load_book(TRIAL, "shim-box.yaml").unit("plain")
    measured = Measured(one, job(TRIAL_READ), shop())
    judged = judge(one, measured.job, shop(), None, measured)
    on_hand = "  SB-03: {sizes: {1.39 mm: 2, 1.42 mm: 1, 1.45 mm: 1}}\n"
    fit = choose_fit(one, measured, shop(on_hand), judged)
    assert results(one, measured)["end play"].value == Fraction("0.231") * MM
    assert fit.sizes == {"SB-03": Fraction("1.42") * MM}
    assert fit.values["end play"].value == Fraction("-0.039") * MM
    assert {float(one.size) * 1000: float(-one.values["end play"]) * 1000 for one in fit.spares} == pytest.approx(
        {1.15: -0.231, 1.39: 0.009, 1.42: 0.039, 1.45: 0.069, 1.48: 0.099}
    )
