"""The derived order on the small book, and what happens when the bench did otherwise."""

from __future__ import annotations

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.act import TakeOff
from layshaft.plan.assembly import Fitted, order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Seen, take_down
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.state import Condition, State
from layshaft.plan.step import PlannedStep
from layshaft.plan.teardown import order_teardown, start_state
from tests.laws.random_book import Wish, random_book
from tests.plan.two_rings import TEXT, judge


@pytest.fixture(scope="module")
def judging() -> Judge:
    return judge()


def kinds(steps: tuple[PlannedStep, ...]) -> list[tuple[str, str]]:
    return [(step.kind, step.parts[0] if step.parts else step.load or "") for step in steps]


def test_rings_come_off_inside_the_press_and_nothing_is_turned(judging: Judge) -> None:
    plan = order_teardown(judging.bench, judging.loads, start_state(judging.bench.unit))
    assert kinds(plan.steps) == [
        ("take off", "BX-07"),
        ("take off", "BX-06"),
        ("hold", "box spring"),
        ("take off", "BX-04"),
        ("take off", "BX-05"),
        ("let off", "box spring"),
        ("take off", "BX-03"),
        ("take off", "BX-02"),
    ]
    assert (plan.cost.turns, plan.cost.presses, plan.cost.tools) == (0, 1, 2)
    assert plan.is_proved


def test_the_press_step_says_what_would_happen_instead(judging: Judge) -> None:
    plan = order_teardown(judging.bench, judging.loads, start_state(judging.bench.unit))
    assert plan.steps[2].instead is not None
    assert plan.steps[2].instead.startswith("BX-04 first: box spring: lets go 9.7 J;")


def test_only_what_is_needed_comes_off_to_reach_a_part(judging: Judge) -> None:
    plan = order_teardown(judging.bench, judging.loads, start_state(judging.bench.unit), ["BX-06"])
    assert plan.taken_off == ("BX-07", "BX-06")


def test_the_base_is_no_target(judging: Judge) -> None:
    with pytest.raises(NoAnswer, match="BX-01 box does not come out by itself"):
        order_teardown(judging.bench, judging.loads, start_state(judging.bench.unit), ["BX-01"])


def test_assembly_presses_home_and_checks_before_the_cover(judging: Judge) -> None:
    down = order_teardown(judging.bench, judging.loads, start_state(judging.bench.unit))
    plan = order_assembly(judging.bench, judging.loads, down.taken_off, {"BX-04": Fitted(new=1, size="2.00 mm")})
    assert [kind for kind, _ in kinds(plan.steps)] == [
        "fit", "fit", "compress", "fit", "fit", "let home", "prove", "fit", "fit",
    ]  # fmt: skip
    outer = next(step for step in plan.steps if step.parts[:1] == ("BX-04",))
    assert outer.what == "BX-04 Outer ring (new, 2.00 mm)"
    assert plan.steps[-1].torque == "M6: 9 N·m, oil"


def test_what_happened_is_taken_down_though_it_was_refused(judging: Judge) -> None:
    state = State(detached=judging.bench.mask(["BX-06", "BX-07"]), attitude="nose up")
    found = take_down(judging.bench, judging.loads, state, TakeOff("BX-04"))
    assert found.state.detached & judging.bench.bit("BX-04")
    assert found.unknown == ("BX-05",)
    assert found.now == (
        "Stand clear of box spring: it may hold 100 J and nobody knows what holds it. Look at BX-05 inner ring from "
        "outside its line. Take it up in the press before anything else.",
    )


def test_looking_settles_what_was_not_known(judging: Judge) -> None:
    state = State(detached=judging.bench.mask(["BX-06", "BX-07"]), attitude="nose up")
    jolted = take_down(judging.bench, judging.loads, state, TakeOff("BX-04")).state
    seen = take_down(judging.bench, judging.loads, jolted, Seen("BX-05", Condition.WHOLE))
    assert seen.unknown == ()
    assert seen.now == ()
    assert [loaded.load for loaded in seen.loaded] == ["box spring"]


def test_after_a_ring_broke_nobody_knows_what_caught_the_spring(judging: Judge) -> None:
    """Seen broken: the cap hangs on what is left of the outer ring, or has jumped to the inner one."""
    start = start_state(judging.bench.unit)
    seen = take_down(judging.bench, judging.loads, start, Seen("BX-04", Condition.BROKEN))
    assert [step.load for step in seen.lets_go] == ["box spring"]
    assert seen.unknown == ("BX-04", "BX-05")
    assert seen.now[0].startswith("Stand clear of box spring")


def test_what_broke_without_a_jump_is_in_doubt_itself_and_nothing_else(judging: Judge) -> None:
    """Nothing hangs on the inner ring yet; broken it may catch the cap all the same once the outer one is off."""
    start = start_state(judging.bench.unit)
    seen = take_down(judging.bench, judging.loads, start, Seen("BX-05", Condition.BROKEN))
    assert seen.unknown == ("BX-05",)
    assert seen.now == ()


def test_from_there_the_plan_goes_on_through_the_press(judging: Judge) -> None:
    state = State(detached=judging.bench.mask(["BX-06", "BX-07"]), attitude="nose up")
    jolted = take_down(judging.bench, judging.loads, state, TakeOff("BX-04")).state
    plan = order_teardown(judging.bench, judging.loads, jolted)
    assert [kind for kind, _ in kinds(plan.steps)] == ["hold", "take off", "let off", "take off", "take off"]


def test_under_load_a_refusal_speaks_for_the_planner_only() -> None:
    """Springs that lean on each other: single moves are allowed here that the planner does not dare to line up."""
    unit = random_book(1, Wish(parts=5, loads=1)).unit
    bench = Bench(unit)
    with pytest.raises(NoAnswer, match=r"^The planner finds no order that it can stand for: .* ask of single moves"):
        order_teardown(bench, Loads(bench, Sizes(unit)), start_state(unit))


ONE_PLATE = (
    ("  BX-03:\n    name: Cap\n",
     "  BX-03B: {name: Second cap, class: cap, mass: 1 kg, faces: {front: 0 mm, seat: 0 mm}}\n"
     "  BX-02B:\n    name: Second spring\n    class: spring\n    mass: 1 kg\n"
     "    spring: {kind: helical, free length: 132.3 ± 1.5 mm, rate: 65.693 N/mm, solid length: 57.75 mm}\n"
     "    ways: [{toward: front, behind: {BX-03: cap}, time: 1 min}]\n"
     "  BX-03:\n    name: Cap\n"),
    ("stops:\n", "stops:\n  second cap on the outer ring:\n"
     "    {a: BX-01 groove, b: BX-03B front, toward: front, at most: [less BX-04 front to rear], by: [BX-04]}\n"),
    ("loads:\n",
     "loads:\n  second spring:\n    springs: [BX-02B]\n    seats: [BX-03B seat, BX-01 seat]\n    releases:\n"
     "      - {kind: press, tool: bridge, pushes: BX-03B front, stands on: BX-01 seat, over: 8 mm, reach: [BX-04],\n"
     "         behind: {BX-06: cover}, attitude: nose up, time: 14 min}\n"),
)  # fmt: skip


def test_two_loads_behind_one_part_are_told_as_that() -> None:
    text = TEXT
    for old, new in ONE_PLATE:
        assert old in text
        text = text.replace(old, new, 1)
    bench = Bench(load_book(text, "two-loads.yaml").unit("plain"))
    with pytest.raises(NoAnswer) as refused:
        order_teardown(bench, Loads(bench, Sizes(bench.unit)), start_state(bench.unit))
    assert str(refused.value).startswith(
        "No order works: second spring and box spring stand behind one part, BX-04 outer ring."
    )
    assert "as one load" in str(refused.value)
    assert "single moves" not in str(refused.value)
