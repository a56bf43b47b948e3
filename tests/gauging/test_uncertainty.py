"""From a gauge's data to one standard uncertainty."""

import math
from fractions import Fraction

import pytest

from layshaft.gauging.uncertainty import (
    Contribution,
    Gauge,
    ReadingUncertainty,
    combine_uncertainty,
    mean_of_repeats,
    relative_uncertainty,
    resolution_uncertainty,
    standard_uncertainty,
    stated_uncertainty,
)


def test_coverage_factor_is_the_callers_choice():
    assert standard_uncertainty(0.025) == 0.0125
    assert standard_uncertainty(0.025, 1.96) == pytest.approx(0.012755, abs=5e-7)


def test_step_of_a_scale():
    assert resolution_uncertainty(0.01) == pytest.approx(0.01 / math.sqrt(12))


def test_spring_tester_errs_with_its_reading():
    tester = Gauge(relative_random=0.009, relative_bias=0.012)
    assert tester.reading(4200).total == pytest.approx(relative_uncertainty(4200, 0.015))
    assert tester.reading(Fraction(-4200)).total == pytest.approx(63)


def test_repeats_shrink_only_what_is_random():
    one = ReadingUncertainty(random=0.006, bias=0.004, rounding=0.003)
    nine = mean_of_repeats(one, 9)
    assert (nine.random, nine.bias, nine.rounding) == (0.002, 0.004, 0.003)
    assert mean_of_repeats(one, 10**8).total == pytest.approx(0.005)
    assert one.own == pytest.approx(math.hypot(0.006, 0.003))


def test_band_without_a_split_promises_nothing_from_repeats():
    assert mean_of_repeats(stated_uncertainty(0.02), 100).total == 0.01
    half = stated_uncertainty(0.02, random_share=0.5)
    assert half.total == pytest.approx(0.01)
    assert mean_of_repeats(half, 100).total < 0.0072


def test_independent_parts_add_by_their_squares():
    # Clearance = depth - ring - 5 plates, 10, 2 and 2 µm: closed form sqrt(100 + 4 + 5 * 4).
    parts = [Contribution(10), Contribution(2, -1), *[Contribution(2, -1)] * 5]
    assert combine_uncertainty(parts).uncertainty == pytest.approx(math.sqrt(124), rel=1e-12)
    assert round(math.sqrt(124), 2) == 11.14


def test_one_micrometers_error_adds_over_the_plates():
    shared = [Contribution(1.5, -1, shared="micrometer 2")] * 5
    assert combine_uncertainty(shared).uncertainty == 7.5
    assert combine_uncertainty([Contribution(1.5, -1)] * 5).uncertainty == pytest.approx(3.354, abs=0.0005)


def test_one_gauges_error_cancels_in_a_difference():
    depths = [Contribution(4, 1, shared="depth gauge"), Contribution(4, -1, shared="depth gauge")]
    assert combine_uncertainty(depths).uncertainty == 0


def test_degrees_of_freedom():
    assert combine_uncertainty([Contribution(1.0)]).degrees_of_freedom == math.inf
    assert combine_uncertainty([]).uncertainty == 0
    same = [Contribution(3.0, 1, 7)]
    assert combine_uncertainty(same).degrees_of_freedom == pytest.approx(7)
    equal = [Contribution(1.0, 1, 4), Contribution(1.0, 1, 4)]
    assert combine_uncertainty(equal).degrees_of_freedom == pytest.approx(8)
    shared = [Contribution(1.0, 1, 4, "a"), Contribution(1.0, 1, 9, "a")]
    assert combine_uncertainty(shared).degrees_of_freedom == pytest.approx(4)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: standard_uncertainty(-1.0),
        lambda: standard_uncertainty(1.0, 0.0),
        lambda: standard_uncertainty(math.nan),
        lambda: resolution_uncertainty(-0.01),
        lambda: relative_uncertainty(1.0, -0.1),
        lambda: Gauge(random=-1.0),
        lambda: stated_uncertainty(1.0, random_share=1.5),
        lambda: mean_of_repeats(ReadingUncertainty(1.0, 0.0), 0),
        lambda: combine_uncertainty([Contribution(-1.0)]),
        lambda: combine_uncertainty([Contribution(1.0, 1, 0.5)]),
    ],
)
def test_impossible_figures_are_refused(ask):
    with pytest.raises(ValueError):
        ask()
