"""One pack and one ring, against trying every pick."""

import json
from fractions import Fraction as F
from itertools import combinations, product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.gauging.pack import choose_pack
from layshaft.gauging.window import Window

CASES = json.loads((Path(__file__).parents[1] / "data" / "pack_choice.json").read_text(encoding="utf-8"))[
    "cases"
]


def try_all(plates, count, rings, depth, limit, target):
    """Distances from the target of all picks inside, and the least miss of all picks."""
    clearances = [depth - ring - sum(pick) for pick, ring in product(combinations(plates, count), rings)]
    low = limit.low if limit.low is not None else -(10**9)
    high = limit.high if limit.high is not None else 10**9
    inside = [abs(one - target) for one in clearances if low <= one <= high]
    return inside, min((max(low - one, one - high) for one in clearances), default=None)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_stored_cases(case):
    plates, rings = [F(one) for one in case["plates"]], [F(one) for one in case["rings"]]
    limit = Window(F(case["low"]), F(case["high"]))
    found = choose_pack(plates, case["count"], rings, F(case["depth"]), limit, F(case["target"]))
    assert (found.feasible, found.optimal) == (case["feasible"], case["optimal"])
    inside, _ = try_all(case["plates"], case["count"], case["rings"], case["depth"], limit, case["target"])
    assert len(inside) == found.feasible
    if case["best_deviation"] is None:
        assert found.best is None
        assert found.nearest is not None
        assert found.miss == 3
    else:
        assert found.best is not None
        assert abs(found.best.deviation) == case["best_deviation"]
        picked = sum(plates[place] for place in found.best.plates) + rings[found.best.ring]
        assert found.best.clearance == case["depth"] - picked


END = st.one_of(st.none(), st.integers(-30, 60))


@given(
    st.lists(st.integers(0, 40), min_size=1, max_size=7),
    st.integers(0, 4),
    st.lists(st.integers(0, 60), max_size=4),
    END,
    END,
    st.integers(-20, 60),
)
def test_against_trying_every_pick(plates, count, rings, low, high, target):
    if low is None and high is None:
        low = 0
    if low is not None and high is not None and low > high:
        low, high = high, low
    limit = Window(None if low is None else F(low), None if high is None else F(high))
    depth = F(60)
    found = choose_pack([F(p) for p in plates], count, [F(r) for r in rings], depth, limit, F(target))
    inside, miss = try_all(plates, count, rings, depth, limit, target)
    assert found.feasible == len(inside)
    if inside:
        assert found.best is not None
        assert abs(found.best.deviation) == min(inside)
        assert found.optimal == inside.count(min(inside))
        assert found.nearest is None
    elif miss is None:
        assert found.nearest is None
    else:
        assert found.best is None
        assert found.nearest is not None
        assert found.miss == miss
        assert found.ring_needed is not None
        free = found.nearest.clearance + rings[found.nearest.ring]
        for ring in found.ring_needed:
            assert ring is None or free - ring in (limit.low, limit.high)


def test_too_few_plates_give_no_pick_at_all():
    found = choose_pack([F(1)], 2, [F(1)], F(10), Window(F(0), None), F(1))
    assert (found.best, found.nearest, found.ring_needed) == (None, None, None)
