"""What must hold of readings, verdicts, stacks and choices whatever the figures are."""

from fractions import Fraction as F

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from layshaft.gauging.assortment import Assortment, CrossLimit, Pool, Result, Selective, Size
from layshaft.gauging.conformity import judge_conformity, probability_inside, sure_ends
from layshaft.gauging.decision import Question, chance_settled, reading_value
from layshaft.gauging.pack import choose_pack
from layshaft.gauging.places import decide_places, gather_places
from layshaft.gauging.selection import choose_jointly
from layshaft.gauging.stack import Term, net_terms, stack
from layshaft.gauging.uncertainty import Contribution, combine_uncertainty
from layshaft.gauging.window import Window, is_inside

INCH = F("25.4")
THOUSANDTHS = st.integers(-5000, 5000).map(lambda whole: F(whole, 1000))
DOUBT = st.floats(0.001, 2.0)


@st.composite
def windows(draw):
    low, width = draw(THOUSANDTHS), draw(st.integers(0, 4000).map(lambda whole: F(whole, 1000)))
    return draw(st.sampled_from([Window(low, low + width), Window(low, None), Window(None, low)]))


@st.composite
def terms(draw):
    found = []
    for number in range(draw(st.integers(1, 5))):
        sign, nominal = draw(st.sampled_from([-1, 1])), draw(THOUSANDTHS)
        if draw(st.booleans()):
            reading = Term.measured(f"term {number}", sign, nominal, draw(DOUBT), draw(DOUBT), "gauge 1")
            found.append(reading)
            continue
        minus, plus = (draw(st.integers(0, 300).map(lambda whole: F(whole, 1000))) for _ in range(2))
        batch = draw(st.sampled_from([None, "7"]))
        found.append(
            Term.drawn(f"term {number}", sign, nominal, minus, plus, draw(st.integers(1, 12)), batch)
        )
    return found


@given(THOUSANDTHS, windows(), DOUBT)
def test_probability_and_verdict_go_together(value, window, doubt):
    verdict = judge_conformity(value, window, doubt)
    assert 0 <= verdict.probability <= 1
    assert verdict.is_inside == is_inside(value, window) == (verdict.margin.distance >= 0)
    if window.low is None or window.high is None:
        assert (verdict.probability >= 0.5) == verdict.is_inside


@given(windows(), DOUBT, st.sampled_from(["low", "high"]))
def test_on_an_end_is_inside_and_never_sure_at_any_doubt(window, doubt, end):
    value = getattr(window, end)
    assume(value is not None)
    verdict = judge_conformity(value, window, doubt)
    assert verdict.is_inside
    assert not verdict.is_sure


@given(THOUSANDTHS, windows(), DOUBT, DOUBT)
def test_a_better_gauge_makes_an_inside_reading_surer(value, window, one, other):
    assume(is_inside(value, window))
    better, worse = sorted([one, other])
    assert probability_inside(value, window, better) >= probability_inside(value, window, worse) - 1e-12


@given(THOUSANDTHS, windows(), DOUBT)
def test_inch_and_millimetre_give_one_verdict(value, window, doubt):
    in_inch = Window(*(None if end is None else end / INCH for end in (window.low, window.high)))
    millimetre = judge_conformity(value, window, doubt)
    inch = judge_conformity(value / INCH, in_inch, doubt / 25.4)
    assert inch.is_inside == millimetre.is_inside
    assert inch.probability == pytest.approx(millimetre.probability, abs=1e-12)


@given(windows(), DOUBT)
def test_sure_bands_do_not_overlap(window, doubt):
    ends = sure_ends(window, doubt)
    assert ends.below <= ends.above
    if ends.inside is not None:
        assert ends.inside[0] <= ends.inside[1]
        assert ends.below < ends.inside[0] or window.low is None
        assert ends.inside[1] < ends.above or window.high is None


@given(terms(), st.randoms(use_true_random=False))
def test_order_of_entry_makes_no_difference_to_a_stack(chain, order):
    shuffled = list(chain)
    order.shuffle(shuffled)
    one, other = stack(chain), stack(shuffled)
    assert (one.nominal, one.middle, one.low, one.high) == (
        other.nominal,
        other.middle,
        other.low,
        other.high,
    )
    assert one.deviation == pytest.approx(other.deviation, rel=1e-12)


@given(terms())
def test_odds_lie_within_the_worst_case(chain):
    found = stack(chain)
    assert found.low <= found.middle <= found.high
    assert 0 <= found.rss <= float(found.worst)
    assert found.low <= found.nominal <= found.high


@given(terms())
def test_a_chain_less_itself_is_nothing(chain):
    assert net_terms([(1, chain), (-1, chain)]) == ()
    doubled = net_terms([(1, chain), (1, chain)])
    assert stack(doubled).worst == 2 * stack(chain).worst


@given(terms(), st.integers(0, 4))
def test_measuring_narrows_the_worst_case(chain, which):
    term = chain[which % len(chain)]
    read = [
        Term.measured(one.name, one.coefficient, one.nominal, 0.0) if one is term else one for one in chain
    ]
    assume(term.count == 1)
    assert stack(read).worst <= stack(chain).worst


@given(st.lists(st.tuples(DOUBT, st.floats(-2, 2)), min_size=1, max_size=6))
def test_a_shared_error_is_never_more_than_all_in_line(parts):
    alone = combine_uncertainty(Contribution(u, c) for u, c in parts).uncertainty
    shared = combine_uncertainty(Contribution(u, c, shared="gauge") for u, c in parts).uncertainty
    in_line = sum(u * abs(c) for u, c in parts)
    assert max(alone, shared) <= in_line * (1 + 1e-12)
    if all(c >= 0 for _, c in parts):
        assert shared >= alone * (1 - 1e-12)


@given(st.floats(-3, 3), st.floats(0.05, 2), windows(), st.floats(0.001, 0.999), DOUBT, DOUBT)
def test_more_knowledge_is_never_worth_less(estimate, now, window, share, one, other):
    better, worse = sorted(now * doubt / (1 + doubt) for doubt in (one, other))
    question = Question(estimate, now, window, 1000.0, 1000.0 * share)
    assert 0 <= reading_value(question, worse) <= reading_value(question, better) + 1e-3
    assert 0 <= chance_settled(question, better) <= 1 + 1e-12


@given(st.lists(st.tuples(st.sampled_from("abcd"), THOUSANDTHS), min_size=1, max_size=8), windows())
def test_the_worst_place_passes_only_when_all_do(readings, window):
    places = gather_places(readings)
    worst = decide_places(places, "worst", window)
    assert is_inside(worst.value, window) == all(is_inside(place.mean, window) for place in places)
    assert worst.lowest.mean <= worst.mean <= worst.highest.mean


def question(scale, order):
    """A choice in one unit or another, listed one way or another."""

    def place(name, *sizes):
        listed = [Size(F(size) * scale) for size in sizes]
        return Selective(name, tuple(listed[::order]))

    limit = {
        "recess": Window(F("13.8") * scale, F("14.2") * scale),
        "gap": Window(F("0.5") * scale, F("0.9") * scale),
        "stroke": Window(F("2.75") * scale, None),
    }
    plates = Pool("plates", tuple(F(1700 + 13 * n * n % 61, 1000) * scale for n in range(9)), 5)
    return Assortment(
        (place("plate", "4.7", "5.1", "5.5"), place("spacer", "3.45", "3.6", "3.9")),
        (plates,),
        (
            Result("recess", F(0) * scale, {"plate": F(1), "plates": F(1)}, limit["recess"]),
            Result("gap", F("-9.46") * scale, {"plate": F(1), "plates": F(1), "spacer": F(-1)}, limit["gap"]),
        ),
        (CrossLimit("stroke", {"gap": F(-1)}, limit["stroke"], F("3.5") * scale),),
    )


@pytest.mark.parametrize("order", [1, -1])
def test_unit_and_order_of_entry_make_no_difference_to_a_choice(order):
    found, same = choose_jointly(question(F(1), 1)), choose_jointly(question(1 / INCH, order))
    assert found.best is not None
    assert same.best is not None
    assert {name: size * INCH for name, size in same.best.sizes.items()} == found.best.sizes
    assert same.best.distances == found.best.distances
    assert same.count == found.count


@given(
    st.lists(st.integers(1700, 1850), min_size=3, max_size=8),
    st.lists(st.integers(1500, 2400), min_size=1, max_size=5),
    st.integers(1700, 1850),
)
def test_one_more_plate_never_makes_a_pack_worse(plates, rings, more):
    def deviation(offered):
        found = choose_pack(
            [F(one) for one in offered], 3, [F(one) for one in rings], F(8200), Window(F(0), F(2000)), F(1100)
        )
        return F(10**9) if found.best is None else abs(found.best.deviation)

    assert deviation([*plates, more]) <= deviation(plates)
