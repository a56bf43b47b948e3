"""No allowed act and no planned order lets a spring go or a part fall: watched by code apart from the planner."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from layshaft.plan.act import Turn
from layshaft.plan.assembly import order_assembly
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.state import State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown
from tests.laws.random_book import Wish, random_book
from tests.laws.walk import Asked, Walker, acts_of, after, faults, is_bounded, scene_of
from tests.laws.watcher import Scene, jumps

CHUNKS = 20
MOVES = 5000
"""Allowed acts in each chunk: 100,000 in all."""
REFUSED_LOOKED_AT = 8
ORDERS = 72


def wish(seed: int) -> Wish:
    return Wish(parts=4 + seed * 7 % 50, loads=seed % 5, has_options=seed % 4 == 0)


def asked_in(chunk: int) -> Iterator[tuple[Walker, Asked]]:
    """What is asked on the walks of one chunk, until there were enough allowed acts."""
    moves, seed = 0, chunk * 1000
    while moves < MOVES:
        drawn = random_book(seed, wish(seed))
        walker = Walker(drawn.text, drawn.unit, seed)
        for number in range(15):
            for asked in walker.walk(200, number):
                moves += asked.answer.is_yes
                yield walker, asked
        seed += 1


def told(asked: Asked) -> str:
    return f"{asked.act} in {asked.state}: {[reason.sentence for reason in asked.answer.reasons]}"


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_no_allowed_act_lets_go_and_no_refused_one_was_harmless(chunk: int) -> None:
    refused = 0
    for walker, asked in asked_in(chunk):
        if asked.answer.is_yes:
            found = faults(walker.watcher, asked.scene, asked.act)
            assert not found, (told(asked), found)
            continue
        refused += 1
        if refused % REFUSED_LOOKED_AT == 0:
            assert faults(walker.watcher, asked.scene, asked.act) or is_bounded(asked.state, asked.answer), told(asked)


@pytest.mark.parametrize("seed", range(0, 120, 3))
def test_the_figures_of_a_refusal_are_true(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=14, loads=1 + seed % 4))
    walker = Walker(drawn.text, drawn.unit, seed)
    for number in range(4):
        for asked in walker.walk(40, number):
            then = after(walker.watcher, asked.scene, asked.act)
            for step in asked.answer.lets_go:
                mine = [jump for jump in jumps(walker.watcher, asked.scene, then) if jump.load == step.load]
                assert any(abs(jump.energy - step.energy) < 1e-5 for jump in mine), (told(asked), step, mine)
                assert max(jump.energy for jump in mine) <= step.greatest_energy + 1e-5, (told(asked), step, mine)


@pytest.mark.parametrize("seed", range(0, 40, 2))
def test_the_watchers_energies_lie_where_linear_programs_put_them(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=16, loads=4))
    walker = Walker(drawn.text, drawn.unit, seed)
    for number in range(3):
        for asked in walker.walk(60, number):
            for gone in asked.scene.readings():
                walker.watcher.rest(asked.scene, gone)
    for (low, high), mine in walker.watcher.sample(23):
        assert low - 1e-5 <= mine <= high + 1e-5


@cache
def planned(seed: int, number: int) -> tuple[Walker, State, Plan | None]:
    drawn = random_book(seed, Wish(parts=4 + seed * 5 % 29, loads=seed % 5, has_options=seed % 4 == 0))
    walker = Walker(drawn.text, drawn.unit, seed)
    state = [walker.outset(one) for one in range(number + 1)][-1]
    try:
        return walker, state, order_teardown(walker.bench, walker.judge.loads, state)
    except NoAnswer:
        return walker, state, None


def played(walker: Walker, scene: Scene, plan: Plan) -> Scene:
    """The scene at the end of a plan, every step of which the watcher allows."""
    for step in plan.steps:
        acts = acts_of(step)
        assert acts
        for act in acts:
            found = faults(walker.watcher, scene, act)
            assert not found, (step.number, act, found)
            scene = after(walker.watcher, scene, act)
        if step.kind == "take off":
            told = {loaded.load for loaded in step.loaded_after}
            assert lifted_loaded(walker, scene, step.parts[0]) <= told, (step.number, act)
    return scene


def lifted_loaded(walker: Walker, scene: Scene, part: str) -> set[str]:
    """The loads that are pressed inside what has just been lifted out with a part: a bundle that can bite."""
    found = set()
    for gone in scene.readings():
        for name, one in walker.watcher.rest(scene, gone).items():
            roots = {walker.watcher.root(scene.off, spring) for spring in walker.unit.loads[name].springs}
            if one.is_loaded and roots == {part}:
                found.add(name)
    return found


@pytest.mark.parametrize("seed", range(ORDERS))
def test_every_planned_teardown_is_allowed_step_by_step_and_leaves_nothing_loaded(seed: int) -> None:
    for number in range(3):
        walker, state, plan = planned(seed, number)
        if plan is None:
            continue
        scene = played(walker, scene_of(walker.bench, state), plan)
        left = {part for part in walker.bench.movable_in_book_order if part not in scene.off | scene.missing}
        assert all(walker.unit.parts[part].stays_together for part in left)
        inside = {part for part in walker.bench.names if walker.watcher.root(scene.off, part) != part}
        for gone in scene.readings():
            loaded = {name for name, one in walker.watcher.rest(scene, gone).items() if one.is_loaded}
            assert all(inside.issuperset(walker.unit.loads[name].springs) for name in loaded)


def test_most_books_have_a_plan() -> None:
    assert sum(planned(seed, 0)[2] is not None for seed in range(ORDERS)) > ORDERS / 3


@pytest.mark.parametrize("seed", range(0, ORDERS, 2))
def test_every_planned_assembly_run_backwards_is_allowed_and_puts_all_back(seed: int) -> None:
    walker, _, plan = planned(seed, 0)
    if plan is None:
        return
    try:
        built = order_assembly(walker.bench, walker.judge.loads, plan.taken_off)
    except NoAnswer:
        return
    scene = Scene(attitude=walker.unit.starts)
    steps = [step for step in built.steps if step.kind not in ("prove", "prepare")]
    for at in reversed(range(len(steps))):
        step = steps[at]
        acts = acts_of(step)
        if step.kind == "turn":
            acts = (Turn(step.what.removeprefix("Turn the unit from ").split(" to ")[0]),)
        for act in acts:
            found = faults(walker.watcher, scene, act)
            assert not found, (step.number, act, found)
            scene = after(walker.watcher, scene, act)
    assert scene.off == frozenset(plan.taken_off)
