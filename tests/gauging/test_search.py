"""Branch and bound, against trying every pick."""

from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging.choice import Bound, Choice, Ground
from layshaft.gauging.search import search_best
from tests.gauging.test_tally import grounds, list_picks


def rate(ground, places):
    """Sort key of a pick, the smaller the better, by the plain definition."""
    totals = [
        bound.constant
        + sum(f * c.figures[p] for f, c, p in zip(bound.factors, ground.choices, places, strict=True))
        for bound in ground.bounds
    ]
    moved = [(b, t) for b, t in zip(ground.bounds, totals, strict=True) if any(b.factors)]
    return (
        -min((bound.score(total) for bound, total in moved), default=0),
        sum(max(0, -bound.score(total)) for bound, total in moved),
        sum(bound.off(total) for bound, total in moved),
        places,
    )


@given(grounds(), st.integers(1, 5))
def test_against_trying_every_pick(ground, keep):
    best = {}
    for places, _, _ in list_picks(ground):
        sizes, rated = ground.sizes(dict(enumerate(places))), rate(ground, places)
        if sizes not in best or rated < best[sizes]:
            best[sizes] = rated
    expected = sorted(best.values())[:keep]
    found = search_best(ground, keep)
    assert found.is_proved
    assert [(hit.negative_score, hit.short, hit.off, hit.places) for hit in found.hits] == expected


def test_cost_decides_among_equals_and_then_the_order_given():
    def drawer(costs, ranks):
        return Ground([Choice((1, 2, 3), (1, 1, 1), costs, ranks, "ring", (None,) * 3)], [])

    assert [hit.places for hit in search_best(drawer((5, 4, 5), (0, 1, 2)), 3).hits] == [(1,), (0,), (2,)]
    assert [hit.places for hit in search_best(drawer((5, 5, 5), (2, 0, 1)), 3).hits] == [(1,), (2,), (0,)]


def test_a_drawer_too_small_for_two_places_serves_none():
    one = Choice((7,), (1,), (0,), (0,), "ring", (1,))
    assert search_best(Ground([one, one], []), 1).hits == ()


def test_an_answer_within_a_small_budget_says_that_it_is_not_proved():
    ring = Choice(tuple(range(10)), (1,) * 10, (0,) * 10, tuple(range(10)), "ring", (None,) * 10)
    other = Choice(tuple(range(10)), (1,) * 10, (0,) * 10, tuple(range(10)), "other", (None,) * 10)
    bound = Bound(0, (1, -1), 5, 9, 1, 14, False)
    assert search_best(Ground([ring, other], [bound]), 3).is_proved
    hasty = search_best(Ground([ring, other], [bound]), 3, budget=15)
    assert hasty.hits
    assert not hasty.is_proved
