"""Gauges by their certificates: a band as a length or as a share of the reading, repeats, and which gauge stands in."""

from fractions import Fraction

import pytest

from layshaft.book.sheet import load_shop
from layshaft.gauging.places import Place, decide_places
from layshaft.plan.gauge_band import band_at, band_of_readings, gauge_of, most_apart, told_band, worth
from layshaft.plan.measured import Measured
from layshaft.quantity import FORCE, LENGTH, parse_quantity
from tests.plan.gap_box import SHOP, job, shop, unit


def gauges(more: str):
    return load_shop(SHOP + more, "shop.yaml").content


def test_a_band_in_length_is_the_same_everywhere():
    feeler = shop().gauges["feeler 1"]
    assert band_at(feeler, Fraction(1)) == band_at(feeler, Fraction(0)) == Fraction("0.000025")


def test_a_share_is_one_of_the_reading():
    """4 % of 50 N is 2 N, by hand."""
    tester = gauges("  tester 1: {class: spring tester, u95 percent: 4, step: 0.5 N}\n").gauges["tester 1"]
    assert band_at(tester, Fraction(50), FORCE) == Fraction(2)
    assert band_at(tester, Fraction(-50), FORCE) == Fraction(2)


def test_a_share_of_next_to_nothing_is_half_a_step():
    tester = gauges("  tester 1: {class: spring tester, u95 percent: 4, step: 0.5 N}\n").gauges["tester 1"]
    assert band_at(tester, Fraction(0), FORCE) == Fraction("0.25")


def test_a_share_is_of_the_greatest_reading_not_of_a_range():
    caliper = gauges("  caliper 1: {class: caliper, u95 percent: 1}\n").gauges["caliper 1"]
    figures = [parse_quantity("20 mm", LENGTH), parse_quantity("20.1 mm", LENGTH)]
    assert band_of_readings(caliper, figures) == Fraction("0.000201")
    assert told_band("caliper 1", caliper, figures) == "by caliper 1 (± 1 % of 20.1 mm)"


def test_a_certificate_in_another_dimension_says_nothing():
    feeler = shop().gauges["feeler 1"]
    assert band_at(feeler, Fraction(50), FORCE) is None
    assert told_band("feeler 1", feeler, [parse_quantity("50 N", FORCE)]) == "by feeler 1, of which nothing is known"


@pytest.mark.parametrize(("near", "name"), [("0.030", "micrometer 2"), ("0.001", "micrometer 1")])
def test_the_least_certain_of_a_class_is_so_at_the_figure(near, name):
    """0.1 % of 30 mm is 0.030 mm, above the 0.004 mm of the other; of 1 mm it is 0.001 mm, below."""
    both = gauges("  micrometer 2: {class: micrometer, u95 percent: 0.1}\n")
    assert gauge_of("micrometer", None, both, Fraction(near), LENGTH)[0] == name


def test_two_repeats_lie_within_2_8_standard_deviations():
    """ISO 5725-6:1994, table 1: 2.8 for two results; half the band of 0.004 mm is one standard deviation."""
    assert most_apart(Fraction("0.000004"), None, 2) == Fraction("0.0000056")
    assert most_apart(None, None, 2) is None
    assert most_apart(Fraction("0.000004"), None, 1) is None


def test_one_step_apart_is_what_the_gauge_shows():
    coarse = gauges("  caliper 1: {class: caliper, u95: 0.002 mm, step: 0.01 mm}\n").gauges["caliper 1"]
    assert most_apart(Fraction("0.000002"), coarse, 2) == Fraction("0.00001")


def test_scatter_counts_where_it_is_more_than_the_gauge_says():
    """GUM 4.2.3: of 1 and 3 the mean's standard uncertainty is 1."""
    wide = decide_places((Place("the place", (Fraction(1), Fraction(3))),), "mean")
    assert worth(wide, Fraction("0.1")).total == pytest.approx(1.0)
    narrow = decide_places((Place("the place", (Fraction(1), Fraction(1))),), "mean")
    assert worth(narrow, Fraction("0.1")).total == pytest.approx(0.05)


def test_a_share_decides_in_a_verdict():
    """10 % of 30 mm is 3 mm; half of it is one standard deviation."""
    percent = gauges("  micrometer 2: {class: micrometer, u95 percent: 10}\n")
    reading = "  - {part: GB-02, reading: length, figures: [30.0 mm], gauge: micrometer 2}\n"
    figure = Measured(unit(), job(reading), percent).figure("GB-02", "length")
    assert figure.doubt == pytest.approx(0.0015)
