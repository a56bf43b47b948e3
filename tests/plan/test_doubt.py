"""What may hold and may not: broken parts, springs that broke, and retainers of which few pieces are left.

The box: 8 screws hold a cover on a spring of 40 N/mm, 100 mm free, at 60 mm: half of 40 times 40 squared is 32 J.
"""

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.act import TakeOff, TakePieces
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Seen, take_down
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State

BOOK = """\
layshaft book: 1
id: screwed-box
name: Spring box with a screwed cover
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: BX-01
starts: nose up
attitudes: [nose up]
axes: {main: {start: front, end: rear, start is up: nose up}}
tools: {bridge: {rating: 20 kN}, key: {}}
parts:
  BX-01: {name: Box, class: case, mass: 5 kg, faces: {rim: 0 mm, floor: 60 mm}}
  BX-02:
    name: Cover
    class: cover
    mass: 0.5 kg
    faces: {front: -5 mm, rear: 0 mm}
    ways: [{toward: front, held by: {BX-03: screws}, time: 1 min}]
  BX-03: {name: Cover screw, class: fastener, count: 8, mass: 0.01 kg, ways: [{toward: front, tool: key, time: 4 min}]}
  BX-04:
    name: Spring
    class: spring
    mass: 0.2 kg
    ways: [{toward: front, behind: [BX-02], time: 1 min}]
    spring: {kind: helical, rate: 40 N/mm, free length: 100 mm, solid length: 30 mm}
stops:
  screwed: {a: BX-01 rim, b: BX-02 rear, toward: front, at most: 0 mm, by: [BX-03], rated count: 4}
loads:
  spring:
    springs: [BX-04]
    seats: [BX-02 rear, BX-01 floor]
    could leave: [BX-02]
    releases:
      - {kind: press, tool: bridge, pushes: BX-02, stands on: BX-01, over: 1 mm, reach: [BX-03], time: 2 min}
"""

UNIT = load_book(BOOK, "screwed-box.yaml").unit("standard")
BENCH = Bench(UNIT)
LOADS = Loads(BENCH, Sizes(UNIT))
JUDGE = Judge(BENCH, LOADS)
START = State(attitude="nose up")


@pytest.mark.parametrize("part", ["BX-01", "BX-03", "BX-04"])
def test_what_was_found_broken_may_push_and_hold_all_the_same(part: str) -> None:
    state = take_down(BENCH, LOADS, START, Seen(part, Condition.BROKEN)).state
    now = LOADS.could_be_loaded(state)["spring"]
    assert now.is_loaded
    assert now.energy == pytest.approx(0.5 * 40e3 * 0.040**2)
    assert not LOADS.surely_held(state)["spring"].is_loaded
    assert not JUDGE.may_i(state, TakeOff("BX-03")).is_yes


@pytest.mark.parametrize(("off", "is_sure"), [(1, True), (4, True), (5, False), (7, False)])
def test_screws_that_are_left_may_hold_and_as_many_as_are_rated_do(off: int, is_sure: bool) -> None:
    state = START.with_partial("BX-03", off)
    assert LOADS.could_be_loaded(state)["spring"].is_loaded
    assert LOADS.surely_held(state)["spring"].is_loaded is is_sure
    assert not JUDGE.may_i(state, TakeOff("BX-03")).is_yes


def test_the_last_of_the_screws_that_are_enough_may_not_be_taken_out() -> None:
    assert JUDGE.may_i(START, TakePieces("BX-03", 4)).is_yes
    assert not JUDGE.may_i(START, TakePieces("BX-03", 5)).is_yes


def test_what_is_missing_holds_nothing() -> None:
    assert not LOADS.could_be_loaded(START.with_condition("BX-03", Condition.MISSING))["spring"].is_loaded
