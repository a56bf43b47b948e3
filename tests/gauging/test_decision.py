"""Cost of being wrong and worth of a reading, against sums over many points."""

from fractions import Fraction as F

import numpy
import pytest
from scipy.stats import norm

from layshaft.gauging.decision import (
    Question,
    ReadingChoice,
    chance_settled,
    joined_uncertainty,
    judge_replacement,
    rank_readings,
    reading_value,
)
from layshaft.gauging.uncertainty import ReadingUncertainty, mean_of_repeats
from layshaft.gauging.window import Window

LIMITS = [
    Window(None, F("0.70")),
    Window(F("0.6"), F("0.70")),
    Window(F("0.67"), F("0.70")),
    Window(F("0.69"), None),
]
STAKES = [(1290, 29), (1540, 365), (100, 80), (100, 50), (100, 150), (100, 0)]


def bad(estimate, uncertainty, limit):
    below = 0.0 if limit.low is None else norm.cdf(float(limit.low), estimate, uncertainty)
    above = 0.0 if limit.high is None else norm.sf(float(limit.high), estimate, uncertainty)
    return below + above


@pytest.mark.parametrize("comeback, price, share", [(1290, 29, 0.023), (1540, 365, 0.24)])
def test_break_even(comeback, price, share):
    # Own case: a 29 plate against a 1290 comeback, a 365 carrier against 1540.
    assert judge_replacement(0.0, comeback, price).break_even == pytest.approx(share, abs=0.004)
    assert judge_replacement(share + 0.001, comeback, price).is_replace
    assert not judge_replacement(share - 0.004, comeback, price).is_replace


def test_at_equal_cost_the_part_stays():
    even = judge_replacement(0.25, 1000, 250)
    assert not even.is_replace
    assert even.saving == 0


@pytest.mark.parametrize("after", [0.0015, 0.0049, 0.01])
@pytest.mark.parametrize("stake", STAKES)
@pytest.mark.parametrize("limit", LIMITS)
def test_worth_of_a_reading_against_a_sum_over_many_points(limit, stake, after):
    comeback, price = stake
    question = Question(0.68, 0.0125, limit, comeback, price)
    spread = (0.0125**2 - after**2) ** 0.5
    steps = numpy.linspace(-8, 8, 40_001)
    later = numpy.minimum(bad(0.68 + spread * steps, after, limit) * comeback, price)
    now = min(bad(0.68, 0.0125, limit) * comeback, price)
    expected = now - float(numpy.trapezoid(norm.pdf(steps) * later, steps))
    assert reading_value(question, after) == pytest.approx(max(0.0, expected), abs=1e-5 * comeback)


@pytest.mark.parametrize("stake", STAKES)
@pytest.mark.parametrize("limit", LIMITS)
def test_worth_of_knowing_for_certain(limit, stake):
    # Closed form: what is bad is then replaced, or comes back where that is cheaper; what is good stays.
    comeback, price = stake
    share = bad(0.68, 0.0125, limit)
    expected = min(share * comeback, price) - share * min(comeback, price)
    found = reading_value(Question(0.68, 0.0125, limit, comeback, price), 0.0)
    assert found == pytest.approx(expected, abs=1e-9 * comeback)


@pytest.mark.parametrize("after", [0.0015, 0.0049, 0.01])
@pytest.mark.parametrize("limit", LIMITS)
def test_chance_to_settle_against_a_count_over_many_points(limit, after):
    question = Question(0.68, 0.0125, limit, 1290, 29)
    spread = (0.0125**2 - after**2) ** 0.5
    steps = norm.ppf((numpy.arange(100_000) + 0.5) / 100_000)
    estimates = 0.68 + spread * steps
    good = 1 - bad(estimates, after, limit)
    is_in = numpy.ones_like(estimates, dtype=bool)
    if limit.low is not None:
        is_in &= estimates >= float(limit.low)
    if limit.high is not None:
        is_in &= estimates <= float(limit.high)
    expected = float(numpy.mean((is_in & (good >= 0.95)) | (~is_in & (good <= 0.05))))
    assert chance_settled(question, after) == pytest.approx(expected, abs=2e-5)


def test_a_reading_that_teaches_nothing_is_worth_nothing():
    question = Question(0.68, 0.0125, LIMITS[0], 1290, 29)
    assert reading_value(question, 0.0125) == 0
    assert chance_settled(question, 0.0125) == 0
    assert chance_settled(Question(0.5, 0.0125, LIMITS[0], 1290, 29), 0.0125) == 1


def test_a_repeat_by_the_same_gauge_gains_less_than_another_gauge():
    one = ReadingUncertainty(random=0.0088, bias=0.0088)
    again = mean_of_repeats(one, 2).total
    other = joined_uncertainty(one.total, one.total)
    question = Question(0.68, one.total, LIMITS[0], 1290, 29)
    assert other == pytest.approx(one.total / 2**0.5)
    assert reading_value(question, other) > reading_value(question, again) > 0


def test_ranking_puts_what_saves_most_first_and_keeps_the_order_of_equals():
    question = Question(0.68, 0.0125, LIMITS[0], 1290, 29)
    ways = [
        ReadingChoice("again", 0.0125, cost=1),
        ReadingChoice("micrometer", 0.0015, cost=4),
        ReadingChoice("dial", 0.0049, cost=30),
        ReadingChoice("micrometer of the neighbour", 0.0015, cost=4),
    ]
    ranked = rank_readings(question, ways)
    names = [worth.choice.name for worth in ranked]
    assert names == ["micrometer", "micrometer of the neighbour", "again", "dial"]
    assert [worth.is_worth_it for worth in ranked] == [True, True, False, False]
    assert ranked[0].net == pytest.approx(ranked[0].value - 4)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: judge_replacement(1.2, 100, 10),
        lambda: judge_replacement(0.2, 0, 10),
        lambda: judge_replacement(0.2, 100, -1),
        lambda: joined_uncertainty(0.0, 1.0),
        lambda: Question(0.68, 0.0, LIMITS[0], 100, 10),
        lambda: Question(0.68, 0.1, LIMITS[0], 0, 10),
        lambda: reading_value(Question(0.68, 0.1, LIMITS[0], 100, 10), -0.1),
        lambda: chance_settled(Question(0.68, 0.1, LIMITS[0], 100, 10), 0.0),
    ],
)
def test_impossible_figures_are_refused(ask):
    with pytest.raises(ValueError):
        ask()
