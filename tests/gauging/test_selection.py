"""Joint choice of selective parts, against trying every pick in plain fractions."""

from fractions import Fraction as F
from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging.assortment import Assortment, CrossLimit, Pool, Result, Selective, Size
from layshaft.gauging.selection import choose_jointly
from layshaft.gauging.window import Window, is_inside

HUNDREDTH = F(1, 100)


def hundredths(low, high):
    return st.integers(low, high).map(lambda whole: whole * HUNDREDTH)


@st.composite
def windows(draw):
    low = draw(hundredths(-60, 60))
    width = draw(st.one_of(hundredths(0, 60), st.none()))
    if width is None:
        return Window(*draw(st.sampled_from([(low, None), (None, low)])))
    return Window(low, low + width)


@st.composite
def assortments(draw):
    selectives = []
    for number in range(draw(st.integers(1, 3))):
        values = draw(st.lists(hundredths(0, 50), min_size=1, max_size=4, unique=True))
        stock, price = st.sampled_from([None, None, 0, 1]), st.integers(0, 2).map(F)
        sizes = tuple(Size(value, draw(stock), draw(price)) for value in values)
        selectives.append(Selective(f"place {number}", sizes))
    pools = []
    if draw(st.booleans()):
        pieces = tuple(draw(st.lists(hundredths(0, 30), max_size=5)))
        pools.append(Pool("plates", pieces, draw(st.integers(1, 3))))
    names = [one.name for one in (*selectives, *pools)]
    factors = st.dictionaries(st.sampled_from(names), st.sampled_from([F(-1), F(1), F(1, 2), F(0)]))
    results = tuple(
        Result(
            f"result {number}",
            draw(hundredths(-50, 50)),
            draw(factors),
            draw(st.one_of(windows(), st.none())),
        )
        for number in range(draw(st.integers(1, 3)))
    )
    crossed = st.dictionaries(st.sampled_from([one.name for one in results]), st.sampled_from([F(-1), F(1)]))
    crosses = tuple(
        CrossLimit(f"across {number}", draw(crossed), draw(windows()))
        for number in range(draw(st.integers(0, 2)))
    )
    return Assortment(tuple(selectives), tuple(pools), results, crosses)


def list_picks(assortment):
    """Every pick: sizes, pieces, figures taken, cost."""
    offered = [[size for size in one.sizes if size.stock != 0] for one in assortment.selectives]
    packs = [list(combinations(range(len(pool.pieces)), pool.count)) for pool in assortment.pools]
    for sizes in product(*offered):
        for picks in product(*packs):
            taken = {one.name: size.value for one, size in zip(assortment.selectives, sizes, strict=True)}
            for pool, pick in zip(assortment.pools, picks, strict=True):
                taken[pool.name] = sum((pool.pieces[place] for place in pick), F(0))
            yield tuple(size.value for size in sizes), taken, sum((size.cost for size in sizes), F(0))


def rate(assortment, taken, cost):
    values = assortment.values(taken)
    moved = [one for one in assortment.demands if one.coefficients]
    off = sum((abs(values[one.name] - one.aim) / one.scale for one in moved if one.aim is not None), F(0))
    distances = [one.distance(values[one.name]) for one in moved]
    return -min(distances, default=F(0)), -sum(min(one, F(0)) for one in distances), off, cost


def is_met(assortment, taken, is_cross=None):
    values = assortment.values(taken)
    return all(
        is_inside(values[one.name], one.limit)
        for one in assortment.demands
        if is_cross is None or one.is_cross == is_cross
    )


@given(assortments())
def test_against_trying_every_pick(assortment):
    picks = list(list_picks(assortment))
    found = choose_jointly(assortment, keep=4)
    assert found.is_proved
    met = [
        (rate(assortment, taken, cost), sizes) for sizes, taken, cost in picks if is_met(assortment, taken)
    ]
    if met:
        assert found.best is not None
        assert found.miss is None
        taken = {**found.best.sizes, **found.best.sums}
        assert found.best.is_inside
        assert rate(assortment, taken, found.best.cost) == min(rated for rated, _ in met)
        best_of = {}
        for rated, sizes in met:
            best_of[sizes] = min(rated, best_of.get(sizes, rated))
        others = [rate(assortment, {**one.sizes, **one.sums}, one.cost) for one in found.others]
        assert others == sorted(best_of.values())[1:4]
    else:
        assert (found.best, found.others) == (None, ())
        assert found.miss is not None
        least = min((rate(assortment, taken, cost) for _, taken, cost in picks), default=None)
        pick = found.miss.pick
        assert (pick and rate(assortment, {**pick.sizes, **pick.sums}, pick.cost)) == least
    single = [(sizes, taken) for sizes, taken, _ in picks if is_met(assortment, taken, is_cross=False)]
    failing = [(sizes, taken) for sizes, taken in single if not is_met(assortment, taken, is_cross=True)]
    assert found.count is not None
    assert (found.count.picks_inside, found.count.picks_failing) == (len(single), len(failing))
    assert found.count.sets_inside == len({sizes for sizes, _ in single})
    assert found.count.sets_failing == len({sizes for sizes, _ in failing})


@given(assortments())
def test_a_miss_says_what_would_mend_it(assortment):
    miss = choose_jointly(assortment).miss
    if miss is None or miss.pick is None:
        return
    assert miss.failures
    for failure in miss.failures:
        limit = next(one.limit for one in assortment.demands if one.name == failure.name)
        end = limit.low if failure.end == "low" else limit.high
        assert abs(failure.value - end) == failure.by > 0
    for selective in assortment.selectives:
        needed = next((one for one in miss.needed if one.selective == selective.name), None)
        for size in [F(whole, 400) for whole in range(0, 400, 7)]:
            would_do = is_met(assortment, {**miss.pick.sizes, **miss.pick.sums, selective.name: size})
            is_needed = (
                needed is not None and needed.low <= size and (needed.high is None or size <= needed.high)
            )
            assert would_do == is_needed
    if miss.if_all_stocked is not None:
        assert miss.if_all_stocked.is_inside
        assert any(
            size.stock == 0 and miss.if_all_stocked.sizes[one.name] == size.value
            for one in assortment.selectives
            for size in one.sizes
        )


def two_places(sizes="3.3 3.6 3.9", stock=None, plates="8.45 8.65"):
    def listed(text, stock=None):
        return tuple(Size(F(word), stock) for word in text.split())

    return Assortment(
        (Selective("spacer", listed(sizes, stock)), Selective("plate", listed(plates))),
        (),
        (
            Result("gap", F("4.6"), {"spacer": F(-1)}, Window(F("0.5"), F("0.9"))),
            Result("clearance", F("12.4"), {"plate": F(-1)}, Window(F("3.5"), F("4.1"))),
        ),
        (CrossLimit("stroke", {"clearance": F(1), "gap": F(-1)}, Window(F("2.75"), None)),),
    )


def test_nearest_miss_names_limit_amount_and_size():
    found = choose_jointly(two_places(sizes="3.3 3.45"))
    assert found.best is None
    assert found.miss is not None
    assert [(one.name, one.end, one.by) for one in found.miss.failures] == [("gap", "high", F("0.25"))]
    assert [(one.selective, one.low, one.high) for one in found.miss.needed] == [
        ("spacer", F("3.7"), F("4.1"))
    ]
    assert found.miss.if_all_stocked is None


def test_an_empty_drawer_says_what_to_buy():
    found = choose_jointly(two_places(stock=0))
    assert found.best is None
    assert found.miss is not None
    assert found.miss.pick is None
    assert found.miss.if_all_stocked is not None
    assert found.miss.if_all_stocked.sizes["spacer"] == F("3.9")
    assert found.spares == ()


def test_two_places_share_one_drawer():
    sizes = (Size(F(1), stock=1), Size(F("1.1"), stock=1))
    places = tuple(Selective(name, sizes, "shims") for name in ("front", "rear"))
    gaps = tuple(
        Result(f"{one.name} gap", F(2), {one.name: F(-1)}, Window(F("0.8"), F("1.2"))) for one in places
    )
    found = choose_jointly(Assortment(places, (), gaps))
    assert found.best is not None
    assert found.best.sizes == {"front": F(1), "rear": F("1.1")}
    assert found.count is not None
    assert found.count.sets_inside == 2


def test_a_figure_exactly_on_a_limit_meets_it():
    ring = Selective("ring", (Size(F("1.3")),))
    gap = Result("gap", F("1.6"), {"ring": F(-1)}, Window(F("0.1"), F("0.3")))
    found = choose_jointly(Assortment((ring,), (), (gap,)))
    assert found.best is not None
    assert (found.best.tightest, found.best.smallest_distance) == ("gap", 0)


def test_cheaper_decides_among_equals():
    ring = Selective("ring", (Size(F("1.1"), cost=F(9)), Size(F("1.3"), cost=F(4))))
    gap = Result("gap", F(2), {"ring": F(-1)}, Window(F("0.6"), F("1.0")))
    found = choose_jointly(Assortment((ring,), (), (gap,)))
    assert found.best is not None
    assert found.best.sizes["ring"] == F("1.3")


def test_a_limit_that_nothing_moves_fails_whatever_is_chosen():
    ring = Selective("ring", (Size(F(1)),))
    gap = Result("gap", F(2), {"ring": F(-1)}, Window(F("0.8"), F("1.2")))
    fixed = Result("spring length", F(70), {}, Window(F(75), F(77)))
    found = choose_jointly(Assortment((ring,), (), (gap, fixed)))
    assert found.best is None
    assert found.miss is not None
    assert [one.name for one in found.miss.failures] == ["spring length"]
    assert found.miss.needed == ()


def test_spares_tell_stock_and_choice():
    found = choose_jointly(two_places(stock=2))
    picked = [(one.selective, one.size, one.stock) for one in found.spares if one.is_picked]
    assert picked == [("spacer", F("3.9"), 2), ("plate", F("8.65"), None)]


def test_nothing_to_keep_is_refused():
    with pytest.raises(ValueError, match="at least one"):
        choose_jointly(two_places(), keep=0)


def test_a_full_bench_is_no_burden():
    # Ten sizes at three places and ten of twenty plates: the search visits few of 185 million picks.
    def place(name, start):
        return Selective(name, tuple(Size(F(start) + F(step, 5)) for step in range(10)))

    plates = Pool("plates", tuple(F(1700 + 7 * n * n % 101, 1000) for n in range(20)), 10)
    one = F(1)
    results = (
        Result("recess", F("-6.1"), {"a": one, "plates": one}, Window(F("15.0"), F("15.4"))),
        Result("gap", F("-10.2"), {"a": one, "plates": one, "b": -one}, Window(F("6.1"), F("6.5"))),
        Result("clearance", F("14.3"), {"c": -one}, Window(F("9.0"), F("9.6"))),
    )
    stroke = CrossLimit("stroke", {"clearance": one, "gap": -one}, Window(F("2.9"), None))
    found = choose_jointly(
        Assortment((place("a", "3"), place("b", "4"), place("c", "4")), (plates,), results, (stroke,))
    )
    assert found.best is not None
    assert found.count is not None
    assert found.count.picks_inside > 10**6


def test_a_search_cut_short_says_so():
    hasty = choose_jointly(two_places(), budget=1)
    assert not hasty.is_proved
    assert choose_jointly(two_places()).is_proved
