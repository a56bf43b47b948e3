"""Used pieces of a selective part that lie in the drawer with their figures; invented book of `test_own_piece`."""

from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.plan.order_list import order_fitted
from layshaft.plan.price import price_job
from tests.plan.test_own_piece import KINDS, LISTED, MM, TWO_PLACES, Case


def rank(sizes, own, used, drawer, low, high):
    """What a pair comes to, worked out apart: outside, on an end, billed, bought; 40 % of 9 is 3.60 for a used one."""
    left, there, kept = dict(drawer), list(own), list(used)
    billed, bought = Fraction(0), 0
    for size in sizes:
        if size in there:
            there.remove(size)
        elif size in kept:
            kept.remove(size)
            billed += Fraction("3.60")
        elif size in LISTED:
            billed += 9
            if left.get(size, 0):
                left[size] -= 1
            else:
                bought += 1
        else:
            return None
    play = 1 - sum(sizes)
    return not low <= play <= high, play in (low, high), billed, bought


@KINDS
@settings(max_examples=40)
@given(
    st.tuples(*[st.sampled_from(["0.302", "0.402", "0.451"])] * 2),
    st.lists(st.sampled_from(["0.31", "0.352", "0.40", "0.44"]), max_size=3),
    st.dictionaries(st.sampled_from(LISTED), st.integers(1, 2)),
    st.integers(0, 40),
)
def test_used_pieces_against_trying_every_pair(tail, own, used, drawer, low):
    own, used = [Fraction(one) for one in own], [Fraction(one) for one in used]
    ends = Fraction(low, 100) + Fraction("0.001"), Fraction(low, 100) + Fraction("0.049")
    case = Case(tail, own, drawer, f"{float(ends[0]):.3f} .. {float(ends[1]):.3f} mm", used=used)
    ranks = {
        pair: found
        for pair in product({*own, *used, *LISTED}, repeat=2)
        if (found := rank(pair, own, used, drawer, *ends)) is not None and not found[0]
    }
    if not ranks:
        assert not case.fit.sizes
        return
    found = rank(case.sizes, own, used, drawer, *ends)
    assert found == min(ranks.values())
    assert len(case.fit.to_buy) == found[3]
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    price = price_job(case.unit, case.shop, "2026-11-02", order, ())
    assert Fraction(price.sum_of("part").amount) == found[2]


def test_a_used_piece_comes_before_a_new_one_and_is_told():
    """0.44 and 0.402 leave 0.158, and the new 0.40 would as well: the used one is 3.60, the new one 9.00."""
    case = Case(TWO_PLACES, ("0.302", "0.402"), {Fraction("0.40"): 1}, "0.15 .. 0.21 mm", used=("0.44",))
    assert case.sizes == [Fraction("0.44"), Fraction("0.402")]
    assert case.fit.used == ("GB-03",)
    assert case.fit.sentences[0] == "GB-03 Shim: 0.44 mm, a used one from the drawer, as measured."
    order = order_fitted(case.unit, case.shop, "2026-11-02", case.judged, case.fit)
    assert [(one.part, one.pieces, one.is_reclaimed, one.size) for one in order.taken] == [
        ("GB-03", 1, True, Fraction("0.44") * MM)
    ]
    assert not order.bought


def test_a_used_piece_can_be_chosen_by_its_figure():
    chosen = "choices: [{fit: GB-03, size: 0.352 mm, by: ferrow}]\n"
    case = Case(TWO_PLACES, ("0.302", "0.402"), {}, "0.10 .. 0.40 mm", chosen, used=("0.352",))
    assert case.sizes == [Fraction("0.352"), Fraction("0.402")]
    assert case.fit.used == ("GB-03",)


def test_a_used_piece_outside_the_limit_of_its_reading_stays_in_the_drawer():
    """0.44 mm is above what the reading allows a shim to go in again with."""
    limited = TWO_PLACES.replace("from: front, to: rear}}", "from: front, to: rear, reuse: at most 0.43 mm}}")
    case = Case(limited, ("0.302", "0.402"), {Fraction("0.40"): 1}, "0.15 .. 0.21 mm", used=("0.44",))
    assert case.sizes == [Fraction("0.40"), Fraction("0.402")]
    assert not case.fit.used
