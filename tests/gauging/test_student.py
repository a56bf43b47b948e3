"""Student's distribution against SciPy's, which uses another method."""

import math

import pytest
from scipy.stats import norm, t

from layshaft.gauging.student import probability_within, student_factor


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 5, 10, 17, 40, 1001])
@pytest.mark.parametrize("probability", [0.5, 0.6827, 0.95, 0.999])
def test_factor_against_scipy(freedom, probability):
    expected = t.ppf((1 + probability) / 2, freedom)
    assert student_factor(probability, freedom) == pytest.approx(expected, rel=1e-9)
    assert probability_within(expected, freedom) == pytest.approx(probability, rel=1e-9)


def test_part_of_a_degree_is_cut_off():
    assert student_factor(0.95, 16.99) == student_factor(0.95, 16)


def test_endless_degrees_are_normal():
    assert student_factor(0.95, math.inf) == pytest.approx(norm.ppf(0.975), rel=1e-12)
    assert student_factor(0.95, 19_999) == pytest.approx(student_factor(0.95, 20_000), rel=1e-4)


@pytest.mark.parametrize("probability, freedom", [(0.0, 5), (1.0, 5), (0.95, 0.5), (0.95, math.nan)])
def test_impossible_questions_are_refused(probability, freedom):
    with pytest.raises(ValueError):
        student_factor(probability, freedom)


def test_impossible_factors_are_refused():
    with pytest.raises(ValueError, match="factor"):
        probability_within(-1.0, 5)
    with pytest.raises(ValueError, match="degree"):
        probability_within(1.0, 0)
