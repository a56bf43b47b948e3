"""Press plans as a job's steps ask for them: with the shop's own presses and limits."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layshaft.plan.press import PressPlan, Refusal
from layshaft.plan.press_use import DOWN, UP, press_uses
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import Show
from tests.paper.two_jobs import metric
from tests.plan.axle_box import shop
from tests.plan.press_box import bench_of, hand_cover, unit

BY_HAND = (
    "{kind: by hand under cover, reach: [PB-04], limits: {energy: 200 J, speed: 40 m/s}, time: 1 min, margin: 5 mm}"
)


@pytest.mark.parametrize(("own", "made"), [("300 J", PressPlan), ("0.5 J", Refusal)])
def test_the_shop_s_own_limit_for_a_hand_counts(own: str, made: type) -> None:
    bench, loads = bench_of(unit(release=BY_HAND))
    start = start_state(bench.unit)
    down = order_teardown(bench, loads, start)
    one = shop("  {}\n").model_copy(update={"hand_cover": hand_cover(own, "50 m/s")})
    (use,) = press_uses(bench, loads, one, (down, start), (replace(down, steps=()), start), Show())
    assert isinstance(use.plan, made)
    assert use.when == (DOWN,) and UP not in use.when
    if isinstance(use.plan, Refusal):
        assert use.plan.lacks[0].needed == "at most 0.5 J, the shop's own limit"


def test_what_is_pressed_home_is_as_long_as_the_sizes_that_go_in_make_it() -> None:
    """The same length by two ways: the stops at the sizes chosen, and the book's own chain for it."""
    rebuilt = metric()
    plan = next(use.plan for use in rebuilt.presses if use.way[0] == "direct spring" and "putting together" in use.when)
    assert plan.installed is not None
    told = rebuilt.results["spring installed length"].value
    assert told is not None
    assert plan.installed.length.nominal == pytest.approx(float(told), abs=1e-7)
    assert plan.installed.length.nominal != pytest.approx(0.076, abs=5e-5)
