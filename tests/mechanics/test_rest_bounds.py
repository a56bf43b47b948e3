"""Bounds on springs at rest: sharp where one works alone, coarse but said so where others act on it."""

import pytest

from layshaft.mechanics import OutOfRange
from layshaft.mechanics.rest import Layout, Misfit, Point, Spring, Stop
from layshaft.mechanics.rest_bounds import Spread, bounds

CASE = frozenset({"case"})
MAIN = Spring("main", "seat", "hub", 65_693.0, 0.1323, 0.05775)
POINTS = {"seat": Point("case", 0.0), "hub": Point("hub", 0.0), "end": Point("case", 0.076)}
HELD = Layout(POINTS, (Stop("ring", "end", "hub", 0.0),), (MAIN,), CASE)
SPREAD = Spread({"ring": (-0.0007, 0.0007)}, {"main": (0.1308, 0.1338)}, {"main": (64_000.0, 67_000.0)})


def test_spring_alone_has_sharp_bounds():
    # By hand: force 64 x (130.8 - 76.7) = 3462.4 N to 67 x (133.8 - 75.3) = 3919.5 N; energy by half rate times square.
    found = bounds(HELD, SPREAD).springs["main"]
    assert found.is_sharp
    assert found.length == pytest.approx((0.0753, 0.0767))
    assert found.force == pytest.approx((3462.4, 3919.5))
    assert found.energy == pytest.approx((64_000 / 2 * 0.0541**2, 67_000 / 2 * 0.0585**2))


def test_free_spring_has_its_free_length():
    found = bounds(Layout(POINTS, (), (MAIN,), CASE), SPREAD_OF_SPRING).springs["main"]
    assert found.length == pytest.approx((0.1308, 0.1338))
    assert found.force == found.energy == (0.0, 0.0)


SPREAD_OF_SPRING = Spread({}, SPREAD.free_lengths, SPREAD.rates)


def test_weight_can_press_a_spring_shorter_but_with_no_more_than_itself():
    loaded = Layout(POINTS, (), (MAIN,), CASE, {"hub": -100.0})
    found = bounds(loaded, SPREAD_OF_SPRING).springs["main"]
    assert not found.is_sharp
    assert found.force == pytest.approx((0.0, 100.0))
    assert found.length == pytest.approx((0.1308 - 100 / 64_000, 0.1338))
    assert found.energy == pytest.approx((0.0, 100**2 / 128_000))


def test_springs_that_act_on_each_other_have_no_more_than_all_together():
    points = {"a": Point("case", 0.0), "b": Point("slider", 0.0), "c": Point("slider", 0.0), "d": Point("case", 0.2)}
    springs = (Spring(1, "a", "b", 30_000.0, 0.15, 0.05), Spring(2, "c", "d", 10_000.0, 0.09, 0.03))
    found = bounds(Layout(points, (), springs, CASE), Spread())
    # Balance by hand: 0.04 m too long, in series 7500 N/m, 300 N; 1.5 J and 4.5 J.
    assert found.energy == pytest.approx((6.0, 6.0))
    for number, share in ((1, 1.5), (2, 4.5)):
        spring = found.springs[number]
        assert not spring.is_sharp
        assert spring.energy[0] <= share <= spring.energy[1] <= 6.0 + 1e-9
        assert spring.force[0] <= 300.0 <= spring.force[1]


def test_gaps_that_cannot_be_that_narrow_count_as_pressed_solid():
    stops = (*HELD.stops, Stop("shoulder", "hub", "end", 0.0))
    found = bounds(Layout(POINTS, stops, (MAIN,), CASE), SPREAD).springs["main"]
    assert not found.is_sharp
    assert found.length[0] == pytest.approx(0.05775)
    assert found.energy[1] == pytest.approx(67_000 / 2 * (0.1338 - 0.05775) ** 2)


def test_stops_that_never_fit_are_refused():
    wrong = Layout(POINTS, (*HELD.stops, Stop("shoulder", "hub", "end", -0.01)), (MAIN,), CASE)
    with pytest.raises(Misfit):
        bounds(wrong, SPREAD)


@pytest.mark.parametrize("spread, said", [
    (Spread(gaps={"ring": (0.001, -0.001)}), "lowest gap of ring is 0.001, but must be at most the highest"),
    (Spread(rates={"main": (0.0, 1.0)}), "rate is 0.0, but must be above zero"),
    (Spread(free_lengths={"main": (0.05, 0.1)}), "free length is 0.05, but must be above the solid length"),
])
def test_spread_that_cannot_be_is_refused(spread, said):
    with pytest.raises(OutOfRange, match=said):
        bounds(HELD, spread)


@pytest.mark.parametrize("spread", [Spread(gaps={"pin": (0, 1)}), Spread(rates={"pin": (1, 2)})])
def test_spread_of_something_unknown_is_refused(spread):
    with pytest.raises(KeyError, match="pin"):
        bounds(HELD, spread)
