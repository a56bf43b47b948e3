"""Inside or not, and how sure."""

import math
from fractions import Fraction as F

import pytest
from scipy.stats import norm

from layshaft.gauging.conformity import (
    Guard,
    guard_band,
    judge_conformity,
    probability_inside,
    relative_rejection_limit,
    sure_ends,
)
from layshaft.gauging.window import Window

AT_MOST = Window(None, F("0.70"))
AT_LEAST = Window(F("3.90"), None)
BETWEEN = Window(F("0.5"), F("0.9"))


@pytest.mark.parametrize(
    "value, limit, uncertainty, guard",
    [
        ("0.60", AT_MOST, 0.0125, Guard.SURE_INSIDE),
        ("0.68", AT_MOST, 0.0125, Guard.UNSURE_INSIDE),
        ("0.70", AT_MOST, 0.0125, Guard.UNSURE_INSIDE),
        ("0.71", AT_MOST, 0.0125, Guard.UNSURE_OUTSIDE),
        ("0.75", AT_MOST, 0.0125, Guard.SURE_OUTSIDE),
        ("3.95", AT_LEAST, 0.02, Guard.SURE_INSIDE),
        ("3.89", AT_LEAST, 0.02, Guard.UNSURE_OUTSIDE),
        ("0.70", BETWEEN, 0.05, Guard.SURE_INSIDE),
        ("0.70", BETWEEN, 0.2, Guard.UNSURE_INSIDE),
        ("0.40", BETWEEN, 0.2, Guard.UNSURE_OUTSIDE),
    ],
)
def test_verdicts(value, limit, uncertainty, guard):
    verdict = judge_conformity(F(value), limit, uncertainty)
    assert verdict.guard is guard
    assert verdict.is_sure == guard.startswith("sure")
    assert verdict.is_inside == (guard in (Guard.SURE_INSIDE, Guard.UNSURE_INSIDE))


def test_without_doubt_the_exact_figures_decide():
    assert judge_conformity(F("0.70"), AT_MOST, 0.0).guard is Guard.SURE_INSIDE
    assert judge_conformity(F("0.70") + F(1, 10**15), AT_MOST, 0.0).guard is Guard.SURE_OUTSIDE


def test_a_coarse_gauge_does_not_make_a_figure_pass():
    # 0.72 by a gauge good to 0.1 is outside, if not surely so.
    verdict = judge_conformity(F("0.72"), AT_MOST, 0.1)
    assert not verdict.is_inside
    assert verdict.probability > 0.4
    assert (verdict.end, verdict.margin.distance) == ("high", F("-0.02"))


@pytest.mark.parametrize("value", [0.3, 0.5, 0.55, 0.7, 0.85, 0.9, 1.2])
@pytest.mark.parametrize("uncertainty", [0.001, 0.03, 0.4])
def test_probability_against_scipy(value, uncertainty):
    expected = norm.cdf(0.9, value, uncertainty) - norm.cdf(0.5, value, uncertainty)
    assert probability_inside(value, BETWEEN, uncertainty) == pytest.approx(expected, rel=1e-9, abs=1e-15)
    assert probability_inside(value, AT_MOST, uncertainty) == pytest.approx(norm.cdf(0.7, value, uncertainty))


def test_a_far_tail_keeps_its_digits():
    far = probability_inside(-9.0, Window(F(0), F(1)), 1.0)
    assert far == pytest.approx(norm.sf(9.0) - norm.sf(10.0), rel=1e-6)


@pytest.mark.parametrize("width, half", [(6, 1.3551), (8, 2.3551)])
def test_guard_band_of_two_ends(width, half):
    # Own calculation from the normal distribution; at these widths the same as half the width less 1.645.
    ends = sure_ends(Window(F(-width, 2), F(width, 2)), 1.0)
    assert ends.inside == pytest.approx((-half, half), abs=5e-5)
    assert half == pytest.approx(width / 2 - guard_band(1.0), abs=5e-5)


def test_nothing_is_sure_between_ends_closer_than_twice_one_point_nine_six():
    # Own calculation: 2 * 1.95996 standard uncertainties.
    assert sure_ends(Window(F(0), F("3.919")), 1.0).inside is None
    assert sure_ends(Window(F(0), F("3.920")), 1.0).inside is not None


def test_a_one_ended_guard_band_accepts_too_much_between_narrow_ends():
    # Width of 4 standard uncertainties: an estimate 0.355 off the middle passes by each end alone.
    narrow = Window(F(-2), F(2))
    off = 2 - guard_band(1.0)
    assert probability_inside(off, narrow, 1.0) == pytest.approx(0.9407, abs=5e-5)
    inner = sure_ends(narrow, 1.0).inside
    assert inner is not None
    assert inner[1] < off
    assert probability_inside(inner[1], narrow, 1.0) == pytest.approx(0.95, abs=1e-12)


def test_sure_ends_agree_with_the_verdict():
    for limit in (AT_MOST, AT_LEAST, BETWEEN):
        ends = sure_ends(limit, 0.05)
        assert ends.inside is not None
        for end in filter(math.isfinite, ends.inside):
            assert probability_inside(end, limit, 0.05) == pytest.approx(0.95, abs=1e-9)
        for end in filter(math.isfinite, (ends.below, ends.above)):
            assert probability_inside(end, limit, 0.05) == pytest.approx(0.05, abs=1e-9)


def test_very_narrow_ends_are_surely_missed_from_just_outside():
    ends = sure_ends(Window(F(0), F("0.01")), 1.0)
    assert (ends.below, ends.above) == pytest.approx((0.0, 0.01))


@pytest.mark.parametrize(
    "ask",
    [
        lambda: judge_conformity(F(1), AT_MOST, -0.1),
        lambda: judge_conformity(F(1), AT_MOST, math.nan),
        lambda: judge_conformity(F(1), AT_MOST, 0.1, confidence=0.5),
        lambda: judge_conformity(F(1), AT_MOST, 0.1, confidence=1.0),
        lambda: sure_ends(AT_MOST, 0.0),
        lambda: relative_rejection_limit(0.0, 0.02),
        lambda: relative_rejection_limit(100.0, 0.7),
    ],
)
def test_impossible_figures_are_refused(ask):
    with pytest.raises(ValueError):
        ask()
