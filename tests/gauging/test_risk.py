"""Risks of a whole run, against the bivariate normal distribution, and by brute numbers."""

import math
from fractions import Fraction as F

import numpy
import pytest
from scipy.stats import multivariate_normal, norm

from layshaft.gauging.risk import Spread, weigh_risk
from layshaft.gauging.window import Window

LIMIT, ACCEPT = Window(F(-2), F(3)), Window(F("-1.5"), F("2.5"))


@pytest.mark.parametrize("uncertainty", [0.05, 0.4, 2.0])
def test_against_the_bivariate_normal(uncertainty):
    # Truth and reading are jointly normal: each share is a rectangle of their distribution.
    found = weigh_risk(Spread.normal(0.3, 1.7), uncertainty, LIMIT, ACCEPT)
    spread = 1.7**2
    both = multivariate_normal(
        [0.3, 0.3], [[spread, spread], [spread, spread + uncertainty**2]], abseps=1e-12, releps=1e-12
    )

    def corner(truth: float, reading: float) -> float:
        return float(both.cdf([truth, reading]))

    good_passed = corner(3, 2.5) - corner(-2, 2.5) - corner(3, -1.5) + corner(-2, -1.5)
    wide = math.sqrt(spread + uncertainty**2)
    passed = float(norm.cdf(2.5, 0.3, wide) - norm.cdf(-1.5, 0.3, wide))
    good = float(norm.cdf(3, 0.3, 1.7) - norm.cdf(-2, 0.3, 1.7))
    assert found.good_passed == pytest.approx(good_passed, abs=1e-8)
    assert found.bad_passed == pytest.approx(passed - good_passed, abs=1e-8)
    assert found.good_refused == pytest.approx(good - good_passed, abs=1e-8)


def test_one_end_against_a_sum_over_many_points():
    found = weigh_risk(Spread.normal(0.0, 1.0), 0.3, Window(None, F(1)), Window(None, F("0.8")))
    truth = numpy.linspace(1.0, 9.0, 400_001)
    density = numpy.exp(-(truth**2) / 2) / math.sqrt(2 * math.pi)
    passing = numpy.array([math.erfc((one - 0.8) / 0.3 / math.sqrt(2)) / 2 for one in truth])
    assert found.bad_passed == pytest.approx(float(numpy.trapezoid(density * passing, truth)), abs=1e-9)


def test_a_guard_band_trades_one_risk_for_the_other():
    loose = weigh_risk(Spread.normal(0.0, 1.0), 0.4, LIMIT, LIMIT)
    tight = weigh_risk(Spread.normal(0.0, 1.0), 0.4, LIMIT, ACCEPT)
    assert tight.bad_passed < loose.bad_passed
    assert tight.good_refused > loose.good_refused


def test_nothing_accepted_has_no_bad_ones_among_it():
    far = Window(F(1000), None)
    assert weigh_risk(Spread.normal(0.0, 1.0), 0.1, LIMIT, far).bad_among_passed == 0


def test_a_limit_beyond_the_spread():
    found = weigh_risk(Spread.normal(0.0, 1.0), 0.1, Window(F(50), None), Window(F(-50), None))
    assert found.bad_passed == pytest.approx(1.0)
    assert found.good_passed == pytest.approx(0.0)


def test_no_doubt_is_refused():
    with pytest.raises(ValueError, match="above zero"):
        weigh_risk(Spread.normal(0.0, 1.0), 0.0, LIMIT, ACCEPT)
