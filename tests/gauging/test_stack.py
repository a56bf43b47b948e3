"""Dimension chains; named examples of books are in `tests/worked`."""

import math
from fractions import Fraction as F

import pytest

from layshaft.gauging.stack import BENDER, Term, net_terms, stack
from layshaft.gauging.window import Window


def even(name, sign, nominal, tolerance, **more):
    return Term.drawn(name, sign, F(nominal), F(tolerance), F(tolerance), **more)


# Public test vectors, bearing housing: 40 (+0.10/0) - 20 (0/-0.12) - 19.5 ± 0.02, window 0.40 to 0.80.
HOUSING = stack(
    [
        Term.drawn("housing", 1, F(40), F(0), F("0.10")),
        Term.drawn("bearing", -1, F(20), F("0.12"), F(0)),
        even("ring", -1, "19.5", "0.02"),
    ]
)

# Own calculation; inflation factors from F. Scholz 1995, from memory.
FIVE = [even(str(number), 1, "1", half) for number, half in enumerate([".05", ".10", ".05", ".20", ".10"])]


def test_uneven_tolerances_are_centred_first():
    assert (HOUSING.nominal, HOUSING.middle) == (F("0.50"), F("0.61"))
    assert (HOUSING.low, HOUSING.high) == (F("0.48"), F("0.74"))
    assert HOUSING.rss == pytest.approx(0.080623, abs=5e-7)
    assert HOUSING.deviation == pytest.approx(0.026874, abs=5e-7)
    assert HOUSING.capability(Window(F("0.40"), F("0.80"))) == pytest.approx(2.35666, abs=5e-6)


def test_inflation_is_a_stated_choice():
    assert stack(FIVE).worst == F("0.50")
    assert stack(FIVE).rss == pytest.approx(0.25495, abs=5e-6)
    assert stack(FIVE, BENDER).rss == pytest.approx(0.38243, abs=5e-6)
    assert stack(FIVE, math.sqrt(3)).rss == pytest.approx(0.44159, abs=5e-6)
    assert stack(FIVE, math.sqrt(1.5)).rss == pytest.approx(0.31225, abs=5e-6)


def test_odds_are_never_wider_than_the_worst_case():
    assert stack(FIVE[:1], BENDER).rss == 0.05


def test_twelve_plates_and_a_housing():
    # Own calculation: 12 × 0.05 + 0.10, and the root of 12 × 0.05² + 0.10².
    pack = stack([even("plate", -1, "1.8", "0.05", count=12), even("housing", 1, "25", "0.10")])
    assert pack.worst == F("0.70")
    assert pack.rss == pytest.approx(0.20, abs=1e-12)


def test_plates_of_one_batch_run_together_until_they_are_measured():
    housing = even("housing", 1, "25", "0.10")
    pack = stack([even("plate", -1, "1.8", "0.05", count=12, batch="delivery 7"), housing])
    assert pack.worst == F("0.70")
    assert pack.rss == pytest.approx(math.hypot(0.60, 0.10), rel=1e-12)


def test_one_batch_on_both_sides_is_not_taken_to_cancel():
    pair = [even("inner", 1, "5", "0.03", batch="7"), even("outer", -1, "4", "0.03", batch="7")]
    assert stack(pair).rss == pytest.approx(0.03 * math.sqrt(2), rel=1e-12)
    same_side = [even("inner", 1, "5", "0.03", batch="7"), even("outer", 1, "4", "0.03", batch="7")]
    assert stack(same_side).rss == pytest.approx(0.06, rel=1e-12)


def test_a_reading_takes_the_place_of_its_tolerance():
    drawn = [even("depth", 1, "46", "0.08"), even("plate", -1, "8.65", "0.02")]
    read = [Term.measured("depth", 1, F("45.9"), 0.005), drawn[1]]
    assert stack(read).middle == F("37.25")
    assert stack(read).worst == F("0.02")
    assert stack(read).uncertainty == 0.005
    assert stack(read).deviation == pytest.approx(math.hypot(0.02 / 3, 0.005))


def test_bias_of_one_gauge_adds_over_plates_and_cancels_in_a_difference():
    plates = [
        Term.measured(f"plate {n}", -1, F("1.8"), 0.0, bias=0.0015, gauge="micrometer 2") for n in range(5)
    ]
    assert stack(plates).uncertainty == pytest.approx(0.0075, rel=1e-12)
    depths = [
        Term.measured(name, sign, F(9), 0.0, 0.02, "depth gauge") for name, sign in [("a", 1), ("b", -1)]
    ]
    assert stack(depths).uncertainty == 0
    unknown = [Term.measured(f"plate {n}", -1, F("1.8"), 0.0, bias=0.0015) for n in range(4)]
    assert stack(unknown).uncertainty == pytest.approx(0.003, rel=1e-12)


def test_shared_links_cancel_before_they_are_summed():
    gasket = even("gasket", 1, "0.4", "0.05")
    clearance = [even("shoulder", 1, "46", "0.08"), even("plate", -1, "8.65", "0.02"), gasket]
    gap = [even("recess", 1, "14", "0.2"), even("spacer", -1, "3.9", "0.02"), gasket]
    net = net_terms([(1, clearance), (-1, gap)])
    assert [(term.name, term.coefficient) for term in net] == [
        ("shoulder", 1),
        ("plate", -1),
        ("recess", -1),
        ("spacer", 1),
    ]
    assert stack(net).worst == F("0.32")
    assert stack(net).nominal == stack(clearance).nominal - stack(gap).nominal


def test_shared_links_that_add_count_twice():
    shim = even("shim", 1, "1", "0.01")
    (net,) = net_terms([(1, [shim]), (1, [shim])])
    assert net.coefficient == 2
    assert stack([net]).worst == F("0.02")
    assert stack([net]).rss == pytest.approx(0.02)


def test_one_name_for_two_dimensions_is_refused():
    with pytest.raises(ValueError, match="shim stands for two"):
        net_terms([(1, [even("shim", 1, "1", "0.01")]), (1, [even("shim", 1, "1", "0.02")])])


def test_process_of_known_spread():
    # N(10, 0.4), limits 9 to 11: public risk tests give Cpk 0.8333 and 0.01242 outside.
    process = stack([Term.measured("size", 1, F(10), 0.4)])
    window = Window(F(9), F(11))
    assert process.capability(window) == pytest.approx(0.8333, abs=5e-5)
    assert 1 - process.probability_inside(window) == pytest.approx(0.01242, abs=5e-6)


@pytest.mark.parametrize("count", [2, 5, 16])
def test_equal_tolerances(count):
    found = stack([even("plate", 1, "1", "0.01", count=count)])
    assert float(found.worst) / found.rss == pytest.approx(math.sqrt(count), rel=1e-12)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: stack([]),
        lambda: stack([FIVE[0], FIVE[0]]),
        lambda: stack(FIVE, 0.9),
        lambda: stack(FIVE, sigmas_per_tolerance=0.0),
        lambda: even("plate", 1, "1", "-0.01"),
        lambda: even("plate", 1, "1", "0.01", count=0),
        lambda: Term("plate", F(1), F(1), F(2), F(1)),
        lambda: Term("plate", F(1), F(1), F(0), F(2), is_measured=True),
        lambda: stack([Term.measured("plate", 1, F(1), 0.0)]).capability(Window(F(0), None)),
    ],
)
def test_impossible_chains_are_refused(ask):
    with pytest.raises(ValueError):
        ask()
