"""Several places of one feature."""

import math
from fractions import Fraction as F

import pytest

from layshaft.gauging.places import DecideBy, Place, decide_places, gather_places, places_uncertainty
from layshaft.gauging.uncertainty import ReadingUncertainty
from layshaft.gauging.window import Window

PLATE = gather_places(
    [("12", F("1.75")), ("3", F("1.71")), ("6", F("1.74")), ("9", F("1.78")), ("9", F("1.80"))]
)
ONE = ReadingUncertainty(random=0.004, bias=0.003, rounding=0.001)


@pytest.mark.parametrize(
    "decide_by, value",
    [("min", "1.71"), ("max", "1.79"), ("mean", "1.7475"), ("range", "0.08")],
)
def test_deciding_figure(decide_by, value):
    found = decide_places(PLATE, decide_by, asked=4)
    assert found.value == F(value)
    assert found.range == F("0.08")
    assert found.mean == F("1.7475")
    assert found.missing == 0


@pytest.mark.parametrize(
    "limit, place",
    [
        (Window(F("1.70"), None), "3"),
        (Window(None, F("1.80")), "9"),
        (Window(F("1.60"), F("1.80")), "9"),
        (Window(F("1.70"), F("1.90")), "3"),
        (Window(F("1.72"), F("1.78")), "3"),
    ],
)
def test_worst_is_the_place_nearest_to_failing(limit, place):
    found = decide_places(PLATE, DecideBy.WORST, limit)
    assert [one.name for one in found.deciding] == [place]


def test_a_mean_hides_the_taper_that_the_worst_place_shows():
    limit = Window(F("1.72"), None)
    assert decide_places(PLATE, "mean", limit).value > F("1.72")
    assert decide_places(PLATE, "worst", limit).value < F("1.72")


def test_one_place_where_four_were_asked_is_not_enough():
    assert decide_places(PLATE[:1], "worst", Window(F(1), None), asked=4).missing == 3
    assert decide_places(PLATE, "worst", Window(F(1), None), asked=2).missing == 0


def test_repeats_of_one_place_do_not_count_as_places():
    same = gather_places([("12", F("1.75")), ("12", F("1.75"))])
    assert decide_places(same, "mean", asked=2).missing == 1


def test_uncertainty_of_one_place():
    lowest = places_uncertainty(decide_places(PLATE, "min"), ONE)
    highest = places_uncertainty(decide_places(PLATE, "max"), ONE)
    assert (lowest.random, lowest.bias, lowest.rounding) == (0.004, 0.003, 0.001)
    assert highest.random == pytest.approx(0.004 / math.sqrt(2))


def test_uncertainty_of_a_mean_keeps_the_gauges_bias():
    found = decide_places(PLATE, "mean")
    mean = places_uncertainty(found, ONE)
    # Closed form: three single readings and one mean of two, a quarter of each.
    assert mean.random == pytest.approx(0.004 * math.sqrt(3.5) / 4)
    assert mean.bias == 0.003
    assert places_uncertainty(found, ONE, is_same_gauge=False).bias == pytest.approx(0.0015)


def test_a_range_by_one_gauge_is_free_of_its_bias():
    found = decide_places(PLATE, "range")
    assert places_uncertainty(found, ONE).bias == 0
    assert places_uncertainty(found, ONE).random == pytest.approx(0.004 * math.sqrt(1.5))
    assert places_uncertainty(found, ONE, is_same_gauge=False).bias == pytest.approx(0.003 * math.sqrt(2))


def test_a_range_of_equal_places_still_takes_two():
    even = [Place("front", (F(1),)), Place("rear", (F(1),))]
    assert len({place.name for place in decide_places(even, "range").deciding}) == 2


def test_lowest_and_highest():
    found = decide_places(PLATE, "mean")
    assert (found.lowest.name, found.highest.name) == ("3", "9")


@pytest.mark.parametrize(
    "ask",
    [
        lambda: decide_places([], "mean"),
        lambda: decide_places([Place("12", ())], "mean"),
        lambda: decide_places(PLATE, "worst"),
        lambda: decide_places(PLATE[:1], "range"),
        lambda: decide_places(PLATE, "median"),
        lambda: decide_places([PLATE[0], PLATE[0]], "mean"),
    ],
)
def test_impossible_questions_are_refused(ask):
    with pytest.raises(ValueError):
        ask()
