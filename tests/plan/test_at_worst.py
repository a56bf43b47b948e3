"""What a banner tells is a bound: sizes along the path at their worst, by hand for the box with two rings."""

from __future__ import annotations

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.act import TakeOff
from layshaft.plan.at_worst import at_worst
from layshaft.plan.bench import Bench
from layshaft.plan.happened import take_down
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.state import Session, State
from tests.plan.two_rings import TEXT

LOOSE = TEXT.replace("groove: 22.0 mm", "groove: 22.0 ± 0.5 mm")
UP = State(attitude="nose up")


def loads() -> Loads:
    bench = Bench(load_book(LOOSE, "loose.yaml").unit("plain"))
    return Loads(bench, Sizes(bench.unit))


def test_the_groove_at_its_worst_makes_the_spring_half_a_millimetre_shorter() -> None:
    """E = k (L0 - L)^2 / 2 with k = 65.693 N/mm, L0 = 133.8 mm, L = 75.5 mm (own arithmetic: 111.64 J, 3829.9 N)."""
    held = loads()
    told = at_worst(Lengths(held), UP, held.evaluate(UP)["box spring"])
    assert told.greatest_energy == pytest.approx(65_693 * 0.0583**2 / 2, rel=1e-9)
    assert told.greatest_force == pytest.approx(65_693 * 0.0583, rel=1e-9)
    assert told.energy == pytest.approx(65_693 * 0.0563**2 / 2, rel=1e-9)


def test_a_load_that_is_held_now_is_told_as_it_is() -> None:
    held = loads()
    state = State(attitude="nose up", session=Session("box spring", 0))
    loaded = held.evaluate(state)["box spring"]
    assert at_worst(Lengths(held), state, loaded) == loaded


def test_what_is_taken_down_tells_the_bound() -> None:
    held = loads()
    state = State(detached=held.bench.mask(["BX-06", "BX-07"]), attitude="nose up")
    found = take_down(held.bench, held, state, TakeOff("BX-04"))
    assert [one.greatest_energy for one in found.loaded] == pytest.approx([65_693 * 0.0556**2 / 2], rel=1e-9)
