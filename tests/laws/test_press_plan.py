"""What holds of every press plan: bands in order, more spring never less force, energy in balance."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.plan.load_report import load_report
from layshaft.plan.press import PressPlan
from layshaft.plan.state import State
from tests.plan.press_box import bench_of, plan, unit

RATE = st.integers(5, 80)
FREE = st.integers(110, 150)
OFF = st.integers(0, 12).map(lambda tenths: tenths / 10)


def made(rate: float, free: float, off: float, groove: float = 0.0) -> PressPlan:
    found = plan(
        ("free length: 132.3 ± 1.5 mm", f"free length: {free} ± {off} mm"),
        ("rate: 65.693 N/mm", f"rate: {rate} N/mm"),
        ("groove: 22 mm", f"groove: 22 ± {groove} mm"),
    )
    assert isinstance(found, PressPlan)
    return found


@given(rate=RATE, free=FREE, off=OFF, groove=OFF)
def test_bands_hold_what_is_drawn_and_ratings_meet_the_greatest(rate, free, off, groove):
    found = made(rate, free, off, groove)
    for held in (found.installed, found.pressed, found.greatest):
        for band in (held.length, held.force, held.energy):
            assert band.low <= band.nominal <= band.high
    assert found.greatest.force.high >= found.pressed.force.high >= found.installed.force.high
    assert found.travel.high >= found.travel.nominal >= found.travel.low > 0
    assert found.speed >= max(stage.speed for stage in found.stages)


@given(rate=RATE, free=FREE, off=OFF, stiffer=st.integers(0, 20), longer=st.integers(0, 10))
def test_a_stiffer_or_longer_spring_never_gives_less(rate, free, off, stiffer, longer):
    before, after = made(rate, free, off), made(rate + stiffer, free + longer, off)
    for one, other in ((before.installed, after.installed), (before.pressed, after.pressed)):
        assert other.force.low >= one.force.low and other.force.high >= one.force.high
        assert other.energy.low >= one.energy.low and other.energy.high >= one.energy.high
    assert after.travel.high >= before.travel.high
    assert after.speed >= before.speed


@given(rate=RATE, free=FREE, off=OFF, lip=st.integers(1, 20))
def test_what_the_ring_lets_go_and_what_is_left_make_up_what_was_there(rate, free, off, lip):
    """k (L0 - 76)^2 / 2 before and k (L0 - 76 - x)^2 / 2 after in mm, written out here once more."""
    bench, loads = bench_of(
        unit(
            ("free length: 132.3 ± 1.5 mm", f"free length: {free} ± {off} mm"),
            ("rate: 65.693 N/mm", f"rate: {rate} N/mm"),
            ("faces: {groove: 22 mm", f"faces: {{lip: {24 - lip} mm, groove: 22 mm"),
            ("stops:\n", "stops:\n  cap on the lip: {a: PB-01 lip, b: PB-03 front, toward: front, at most: 0 mm}\n"),
        )
    )
    (report,) = load_report(bench, loads, State(attitude="nose up"))
    ring = next(one for one in report.removals if one.part == "PB-04")
    before, after = rate * (free - 76) ** 2 / 2000, rate * (free - 76 - lip) ** 2 / 2000
    assert report.now.energy == pytest.approx(before)
    assert ring.lets_go.energy == pytest.approx(before - after)
    assert ring.still is not None and ring.still.energy.nominal == pytest.approx(after)
    assert ring.energy == pytest.approx(rate * ((free + off - 76) ** 2 - (free + off - 76 - lip) ** 2) / 2000)
