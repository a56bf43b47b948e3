"""Two springs in a row under one ring: held over each other, let go together, and no press plan of one alone.

Equal springs of 20 N/mm, 100 mm free, in a room of 152 mm (200 - 40 - 4 - 4): each is 76 mm long, so F = 480 N and
E = 20 * 24^2 / 2 = 5.76 J; and by the other way round, one spring of half the rate, 200 mm free, 152 mm long, has
10 * 48^2 / 2 = 11.52 J (own arithmetic, two derivations; springs in series as in Shigley, 10th ed., section 4-1, from
memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from layshaft.book import check_book, load_book
from layshaft.book.size import Sizes
from layshaft.plan.act import Hold, TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.press import Refusal, plan_press
from layshaft.plan.teardown import order_teardown, start_state

TEXT = (Path(__file__).parents[1] / "books" / "two-springs-in-a-row.yaml").read_text(encoding="utf-8")
UNIT = load_book(TEXT, "two-springs-in-a-row.yaml").unit("standard")
BENCH = Bench(UNIT)
LOADS = Loads(BENCH, Sizes(UNIT))
START = start_state(UNIT)


def test_the_book_is_taken_though_no_stop_alone_holds_a_spring() -> None:
    assert check_book(TEXT, "two-springs-in-a-row.yaml").found == ()


@pytest.mark.parametrize("load", ["front", "rear"])
def test_both_share_the_room(load: str) -> None:
    loaded = LOADS.evaluate(START)[load]
    assert loaded.length == pytest.approx(0.076)
    assert loaded.force == pytest.approx(480)
    assert loaded.energy == pytest.approx(5.76)


def test_the_ring_lets_both_go() -> None:
    answer = Judge(BENCH, LOADS).may_i(START, TakeOff("BX-06"))
    assert {step.load for step in answer.lets_go} == {"front", "rear"}
    assert sum(step.energy for step in answer.lets_go) == pytest.approx(11.52)
    assert not answer.is_yes


@pytest.mark.parametrize("load", ["front", "rear"])
def test_pressing_the_cap_holds_both(load: str) -> None:
    judge = Judge(BENCH, LOADS)
    assert judge.may_i(START, Hold(load)).is_yes
    held = judge.after(START, Hold(load))
    assert {name: one.length for name, one in LOADS.evaluate(held).items()} == pytest.approx(
        {"front": 0.074, "rear": 0.074}
    )
    assert judge.may_i(held, TakeOff("BX-06")).is_yes


def test_there_is_an_order_and_one_set_up() -> None:
    plan = order_teardown(BENCH, LOADS, START)
    assert plan.taken_off == ("BX-06", "BX-05", "BX-04", "BX-02", "BX-03")
    assert plan.cost.presses == 1


def test_no_press_plan_is_made_of_one_alone() -> None:
    found = plan_press(BENCH, LOADS, "rear", 0, {})
    assert isinstance(found, Refusal)
    assert "the springs of front push back on it" in found.sentences[0]


def test_by_hand_is_judged_as_if_pressed_solid_for_no_stop_tells_the_length() -> None:
    by_hand = "{kind: by hand under cover, limits: {energy: 10 J, speed: 20 m/s}, reach: [BX-06], time: 1 min}"
    start = TEXT.index("{kind: press", TEXT.index("front: {springs"))
    text = TEXT[:start] + by_hand + TEXT[TEXT.index("}", start) + 1 :]
    told = [one for one in check_book(text, "by-hand.yaml").faults if one.id == "too much for a hand"]
    assert "72.3 J" in told[0].found
