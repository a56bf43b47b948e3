"""Lengths as bands: shared sizes cancel along a path, other springs widen it, and no corner lies outside."""

from __future__ import annotations

from itertools import product

import pytest

from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.state import State
from tests.book.overtop import UNITS, mm
from tests.plan.press_box import bench_of, unit

FRONT = (
    "  front spring: {springs: [PB-07], seats: [PB-01 front, PB-03 front], "
    "releases: [{kind: long screws, thread engaged: 200 mm, reach: [PB-03], time: 5 min}]}\n"
)


def two_springs(rate: str, free: str, other_rate: str, other_free: str) -> Lengths:
    """The box with a second spring in front of the cap, and no ring between."""
    data = f"{{kind: helical, free length: {other_free}, rate: {other_rate}, solid length: 4 mm}}"
    other = (
        f"  PB-07: {{name: Front spring, class: spring, mass: 0.3 kg, spring: {data}, "
        f"ways: [{{toward: front, behind: {{PB-03: cap}}, time: 1 min}}]}}\n"
    )
    _, loads = bench_of(
        unit(
            ("free length: 132.3 ± 1.5 mm", f"free length: {free}"),
            ("rate: 65.693 N/mm", f"rate: {rate}"),
            ("solid length: 57.75 mm", "solid length: 40 mm"),
            ("faces: {groove: 22 mm", "faces: {front: 0 mm, groove: 22 mm"),
            ("  cap on its ring: {a: PB-01 groove", "  cap on its ring: {a: PB-01 front"),
            ("at most: [less PB-04 front to rear]", "at most: 0 mm"),
            ("post: 36 mm", "post: 60 mm"),
            ("  PB-03:\n", other + "  PB-03:\n"),
            ("loads:\n", "loads:\n" + FRONT),
        )
    )
    return Lengths(loads)


def test_installed_length_of_the_overdrive_is_out_by_the_sum_of_what_lies_on_the_path():
    """Own sum of the book's tolerances, in mm: each part on the way by the wave ring counts once.

    Hub 0.08, wave ring 0.03, pressure plate 0.02, eight friction plates of 0.03, seven steel plates of 0.02, backing
    plate 0.05, thrust plate 0.03, its bearing 0.02, carrier 0.08: 0.69 in all.
    """
    bench = Bench(UNITS[0])
    length = Lengths(Loads(bench, Sizes(UNITS[0]))).installed("direct spring")
    assert [mm(length.low), mm(length.nominal), mm(length.high)] == pytest.approx([75.31, 76.0, 76.69])


def test_springs_that_balance_lie_inside_their_band_at_every_corner():
    """The cap between a spring of 10 N/mm and one of 20 N/mm: k1 (F1 - L1) = k2 (F2 - (100 - L1)), solved by hand."""
    lengths = two_springs("10 ± 0.5 N/mm", "110 ± 2 mm", "20 ± 1 N/mm", "70 ± 1 mm")
    band = lengths.in_state("box spring", State(attitude="nose up"))
    assert mm(band.nominal) == pytest.approx((10 * 110 - 20 * 70 + 20 * 100) / 30, abs=0.01)
    for k1, f1, k2, f2 in product((9.5, 10, 10.5), (108, 110, 112), (19, 20, 21), (69, 70, 71)):
        settled = (k1 * f1 - k2 * f2 + k2 * 100) / (k1 + k2)
        assert mm(band.low) <= settled <= mm(band.high)


def test_a_spring_that_is_out_is_as_long_as_free():
    bench, loads = bench_of(unit())
    out = State(detached=bench.mask(["PB-04", "PB-03", "PB-02"]), attitude="nose up")
    assert mm(Lengths(loads).in_state("box spring", out).nominal) == pytest.approx(133.8)
