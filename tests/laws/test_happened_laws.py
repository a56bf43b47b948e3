"""Whatever happens to a unit, allowed or not, is taken down, and what is not surely held is named."""

from __future__ import annotations

import pytest

from layshaft.plan.act import Act
from layshaft.plan.happened import Event, Seen, Stuck, take_down
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.state import Condition, State
from layshaft.plan.teardown import order_teardown
from tests.laws.random_book import Wish, random_book
from tests.laws.walk import Walker, scene_of
from tests.laws.watcher import Scene

EVENTS = 25


def some_event(walker: Walker) -> Event:
    """An act, allowed or not, or something seen."""
    parts = [name for name in walker.bench.names if name != walker.unit.base]
    kind = walker.chance.random()
    if kind < 0.2:
        conditions = list(Condition) if walker.chance.random() < 0.6 else [Condition.UNKNOWN]
        return Seen(walker.chance.choice(walker.retainers or parts), walker.chance.choice(conditions))
    if kind < 0.25:
        return Stuck(walker.chance.choice(parts), walker.chance.choice(parts))
    act: Act = walker.chance.choice(walker.everything)
    return act


def not_sure(walker: Walker, scene: Scene) -> set[str]:
    """The loads that may be pressed and that nothing surely keeps as short."""
    springs = {part for load in walker.unit.loads.values() for part in load.springs}
    left = {part for part, off in scene.pieces if off} - springs
    surely = walker.watcher.rest(scene, scene.gone | scene.unknown | left)
    found = set()
    for gone in scene.readings():
        for name, one in walker.watcher.rest(scene, gone).items():
            is_slack = not surely[name].is_loaded or surely[name].length > one.length + 1e-7
            if one.is_loaded and is_slack and (scene.held is None or scene.held[0] != name):
                found.add(name)
    return found


@pytest.mark.parametrize("seed", range(60))
def test_whatever_happens_is_taken_down_and_what_is_not_surely_held_is_named(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=6 + seed % 12, loads=1 + seed % 3))
    walker = Walker(drawn.text, drawn.unit, seed)
    state = walker.outset(seed)
    for _ in range(EVENTS):
        event = some_event(walker)
        found = take_down(walker.bench, walker.judge.loads, state, event)
        assert state.detached & ~found.state.detached == 0
        state = found.state
        assert set(found.unknown) == set(walker.bench.parts(walker.bench.unknown(state)))
        if len(found.unknown) <= 6:
            assert_named(walker, state, found.now)


def assert_named(walker: Walker, state: State, now: tuple[str, ...]) -> None:
    for load in not_sure(walker, scene_of(walker.bench, state)):
        assert any(sentence.startswith(f"Stand clear of {load}:") for sentence in now), (state, load, now)


@pytest.mark.parametrize("seed", range(40))
def test_after_whatever_happened_there_is_a_plan_or_a_reason(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=6 + seed % 9, loads=seed % 3))
    walker = Walker(drawn.text, drawn.unit, seed)
    state = walker.outset(seed)
    for _ in range(6):
        state = take_down(walker.bench, walker.judge.loads, state, some_event(walker)).state
        try:
            assert order_teardown(walker.bench, walker.judge.loads, state).steps is not None
        except NoAnswer as refusal:
            assert str(refusal)
