"""Counting picks, against trying every pick."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging.choice import Bound, Choice, Ground
from layshaft.gauging.tally import count_picks

STOCK = st.one_of(st.none(), st.integers(1, 2))


@st.composite
def grounds(draw):
    """A few places from one or two drawers, perhaps pools, and bounds over them."""
    choices, stock = [], {"a": draw(STOCK), "b": draw(STOCK)}
    for _ in range(draw(st.integers(1, 3))):
        figures = tuple(sorted(draw(st.sets(st.integers(0, 12), min_size=1, max_size=4))))
        size = len(figures)
        if draw(st.booleans()):
            drawer = draw(st.sampled_from("ab"))
            stocks, ways = (stock[drawer],) * size, (1,) * size
        else:
            drawer, stocks, ways = None, (), tuple(draw(st.integers(1, 5)) for _ in figures)
        choices.append(Choice(figures, ways, (0,) * size, tuple(range(size)), drawer, stocks))
    bounds = []
    for _ in range(draw(st.integers(0, 3))):
        factors = tuple(draw(st.integers(-2, 2)) for _ in choices)
        low, width = draw(st.integers(-20, 20)), draw(st.integers(0, 15))
        high = draw(st.sampled_from([low + width, None]))
        weight, aim = draw(st.integers(1, 3)), draw(st.one_of(st.none(), st.integers(-20, 20)))
        bounds.append(Bound(draw(st.integers(-5, 5)), factors, low, high, weight, aim, draw(st.booleans())))
    return Ground(choices, bounds)


def list_picks(ground):
    """Every pick that the drawers can serve: its places, and whether it is inside singly and across."""
    for places in product(*(range(len(choice.figures)) for choice in ground.choices)):
        taken = dict(enumerate(places))
        if not all(
            ground.is_left(index, place, {other: at for other, at in taken.items() if other < index})
            for index, place in taken.items()
        ):
            continue
        passed = {False: True, True: True}
        for bound in ground.bounds:
            total = bound.constant + sum(
                factor * choice.figures[place]
                for factor, choice, place in zip(bound.factors, ground.choices, places, strict=True)
            )
            passed[bound.is_cross] &= bound.score(total) >= 0
        yield places, passed[False], passed[True]


@given(grounds())
def test_against_trying_every_pick(ground):
    inside, failing, picks = set(), set(), [0, 0]
    for places, is_inside, is_across in list_picks(ground):
        if is_inside:
            sizes, ways = ground.sizes(dict(enumerate(places))), 1
            for choice, place in zip(ground.choices, places, strict=True):
                ways *= choice.ways[place]
            inside.add(sizes)
            picks[0] += ways
            if not is_across:
                failing.add(sizes)
                picks[1] += ways
    found = count_picks(ground)
    assert found is not None
    assert (found.sets_inside, found.sets_failing) == (len(inside), len(failing))
    assert [found.picks_inside, found.picks_failing] == picks


def test_too_many_to_count_is_said():
    size = Choice(tuple(range(10)), (1,) * 10, (0,) * 10, tuple(range(10)), "a", (None,) * 10)
    other = Choice(tuple(range(10)), (1,) * 10, (0,) * 10, tuple(range(10)), "b", (None,) * 10)
    assert count_picks(Ground([size, other], []), budget=5) is None
