"""Orders against every state there is, against another library's linear extensions and against a constraint program."""

from __future__ import annotations

from itertools import permutations

import networkx
import pytest

from layshaft.plan.act import Act, Hold, TakeOff, Turn
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.state import Session, State
from layshaft.plan.teardown import order_teardown, start_state
from tests.laws.least_cost import Costs, Program
from tests.laws.random_book import Drawn, Wish, random_book
from tests.laws.walk import acts_of, after, faults, is_bounded, judge_of
from tests.laws.watcher import Scene, Watcher

BARE = Wish(parts=7, loads=0, is_branching=False, has_falls=False, has_attitudes=False, is_flat=True)


def watched(drawn: Drawn) -> Watcher:
    return Watcher(drawn.text, {"size": "small"})


@pytest.mark.parametrize("seed", range(24))
def test_in_every_state_that_can_be_reached_the_same_acts_are_allowed(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=5 + seed % 4, loads=seed % 3))
    watcher, judge = watched(drawn), judge_of(drawn.unit)
    costs = Costs(watcher)
    waiting = [Scene(attitude=drawn.unit.starts)]
    seen = set(waiting)
    while waiting:
        scene = waiting.pop()
        state = State(judge.bench.mask(scene.off), scene.attitude, Session(*scene.held) if scene.held else None)
        for act in costs.acts(scene):
            is_allowed = not faults(watcher, scene, act)
            answer = judge.may_i(state, act)
            assert answer.is_yes == is_allowed or is_bounded(state, answer), (scene, act)
            then = after(watcher, scene, act)
            if is_allowed and then not in seen:
                seen.add(then)
                waiting.append(then)


@pytest.mark.parametrize("seed", range(60))
def test_without_springs_a_planned_order_costs_the_least_over_all_states(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=4 + seed % 6, loads=0))
    assert_least(drawn)


@pytest.mark.parametrize("seed", range(60))
def test_with_springs_on_one_retainer_each_a_planned_order_costs_the_least_over_all_states(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=6 + seed % 3, loads=1 + seed % 2, is_simple=True))
    assert_least(drawn)


def assert_least(drawn: Drawn) -> None:
    least = Costs(watched(drawn)).least()
    judge = judge_of(drawn.unit)
    if least is None:
        with pytest.raises(NoAnswer):
            order_teardown(judge.bench, judge.loads, start_state(drawn.unit))
        return
    plan = order_teardown(judge.bench, judge.loads, start_state(drawn.unit))
    assert plan.is_proved
    assert tuple(plan.cost) == tuple(plan.bound) == least


@pytest.mark.parametrize("seed", range(60))
def test_with_any_springs_no_planned_order_costs_less_than_the_least_over_all_states(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=8, loads=1 + seed % 2))
    judge = judge_of(drawn.unit)
    try:
        plan = order_teardown(judge.bench, judge.loads, start_state(drawn.unit))
    except NoAnswer:
        return
    least = Costs(watched(drawn)).least()
    assert least is not None
    assert tuple(plan.cost) >= least


@pytest.mark.parametrize("seed", range(20))
def test_without_alternatives_the_legal_orders_are_the_linear_extensions(seed: int) -> None:
    drawn = random_book(seed, BARE)
    judge = judge_of(drawn.unit)
    graph = networkx.DiGraph()
    parts = judge.bench.movable_in_book_order
    graph.add_nodes_from(parts)
    for part, ways in watched(drawn).ways.items():
        for way in ways:
            graph.add_edges_from((need, part) for key in ("held by", "behind") for need in way.get(key, ()))
    expected = {tuple(order) for order in networkx.all_topological_sorts(graph)}
    assert {order for order in permutations(parts) if is_legal(judge, order)} == expected


def is_legal(judge, order: tuple[str, ...]) -> bool:
    state = start_state(judge.bench.unit)
    for part in order:
        act: Act = TakeOff(part)
        if not judge.may_i(state, act).is_yes:
            return False
        state = judge.after(state, act)
    return True


LARGER = [(1, 20, 0), (2, 24, 1), (3, 24, 2), (4, 30, 0), (5, 22, 2), (6, 26, 3), (7, 34, 1), (9, 40, 0)]


@pytest.mark.parametrize(("seed", "parts", "loads"), LARGER)
def test_a_constraint_program_finds_no_cheaper_order_of_a_larger_book(seed: int, parts: int, loads: int) -> None:
    kinds = {"has_falls": False, "is_flat": True, "is_simple": True, "is_branching": False}
    drawn = random_book(seed, Wish(parts=parts, loads=loads, **kinds))
    judge = judge_of(drawn.unit)
    plan = order_teardown(judge.bench, judge.loads, start_state(drawn.unit))
    assert plan.is_proved
    changes = sum(isinstance(act, Turn | Hold) for step in plan.steps for act in acts_of(step))
    runs = changes * 2 + plan.cost.tools + 1
    least, is_proved = Program(watched(drawn), runs).least()
    assert least == tuple(plan.cost)[: len(least)]
    assert is_proved
