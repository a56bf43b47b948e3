"""Repeats of one figure: the critical range against the studentized range, the scatter of a mean against statistics."""

import math
from fractions import Fraction
from statistics import stdev

import pytest
from scipy.stats import studentized_range

from layshaft.gauging.repeat import critical_range, critical_range_factor, mean_scatter, widened
from layshaft.gauging.uncertainty import ReadingUncertainty


@pytest.mark.parametrize("readings", [2, 3, 4, 6, 9, 14, 20])
def test_factor_against_the_studentized_range(readings):
    """SciPy's studentized range of a known deviation: its 95 % point, which the standard tells to one decimal."""
    assert float(critical_range_factor(readings)) == pytest.approx(
        studentized_range.ppf(0.95, readings, math.inf), abs=0.051
    )


def test_factor_grows_with_the_readings_and_stays_beyond_twenty():
    factors = [critical_range_factor(count) for count in range(2, 21)]
    assert factors == sorted(factors)
    assert critical_range_factor(50) == factors[-1]


def test_one_reading_has_no_range():
    with pytest.raises(ValueError, match="at least two readings"):
        critical_range_factor(1)


def test_range_is_exact():
    assert critical_range(Fraction("0.025"), 3) == Fraction("0.04125")


def test_scatter_against_statistics():
    typed = [Fraction(text) for text in ("1.972", "1.974", "1.971", "1.980")]
    assert mean_scatter(typed) == pytest.approx(stdev(map(float, typed)) / 2, rel=1e-9)
    assert mean_scatter(typed[:1]) == 0.0


@pytest.mark.parametrize(("scatter", "total"), [(0.0, 0.005), (0.004, 0.005), (0.02, 0.02)])
def test_the_greater_of_gauge_and_scatter_counts(scatter, total):
    found = widened(ReadingUncertainty(0.003, 0.004), scatter)
    assert found.total == pytest.approx(total)
    assert found.bias == 0.004
