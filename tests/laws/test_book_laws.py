"""What must not change a plan, and what a plan must hold to, whatever the book."""

from __future__ import annotations

import json
from functools import cache
from random import Random
from typing import Any

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.plan.act import TakeOff, Turn
from layshaft.plan.assembly import order_assembly
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.state import Condition
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from tests.laws.random_book import Drawn, Wish, book_text, random_book
from tests.laws.walk import Walker, judge_of

FREE = Wish(parts=12, loads=2)
PROVED = Wish(parts=12, loads=1, has_proofs=True)


def plan_of(unit: Unit, *targets: str) -> Plan | None:
    judge = judge_of(unit)
    try:
        return order_teardown(judge.bench, judge.loads, start_state(unit), targets)
    except NoAnswer:
        return None


@cache
def planned(wish: Wish) -> list[tuple[Drawn, Plan]]:
    """Thirty random books that have a plan."""
    found: list[tuple[Drawn, Plan]] = []
    seed = 0
    while len(found) < 30:
        drawn = random_book(seed, wish)
        plan = plan_of(drawn.unit)
        if plan is not None:
            found.append((drawn, plan))
        seed += 1
    return found


def told(plan: Plan) -> list[tuple[Any, ...]]:
    return [(step.kind, step.parts, step.way, step.load, step.release, step.attitude, step.tool) for step in plan.steps]


@pytest.mark.parametrize("number", range(30))
def test_a_book_in_inches_gives_the_same_plan_and_figures(number: int) -> None:
    drawn, plan = planned(FREE)[number]
    inches = load_book(book_text(drawn.seed, FREE, "in"), "inches.yaml").unit("plain")
    other = plan_of(inches)
    assert other is not None
    assert other.cost == plan.cost
    assert told(other) == told(plan)
    for mine, theirs in zip(plan.steps, other.steps, strict=True):
        for one, two in zip(mine.loaded_after, theirs.loaded_after, strict=True):
            assert two.energy == pytest.approx(one.energy, abs=1e-9)
            assert two.greatest_energy == pytest.approx(one.greatest_energy, abs=1e-6)


def shuffled(tree: dict[str, Any], chance: Random) -> dict[str, Any]:
    mixed = dict(tree)
    for key in ("parts", "stops", "loads"):
        entries = list(tree.get(key, {}).items())
        chance.shuffle(entries)
        if entries:
            mixed[key] = dict(entries)
    return mixed


@pytest.mark.parametrize("number", range(30))
def test_the_order_of_entries_in_a_book_changes_no_cost(number: int) -> None:
    drawn, plan = planned(FREE)[number]
    text = json.dumps(shuffled(json.loads(drawn.text), Random(number)))
    other = plan_of(load_book(text, "shuffled.yaml").unit("plain"))
    assert other is not None
    assert other.cost == plan.cost


@pytest.mark.parametrize("number", range(30))
def test_reaching_one_part_is_no_more_work_than_taking_all_apart(number: int) -> None:
    drawn, plan = planned(FREE)[number]
    for target in plan.taken_off:
        reach = plan_of(drawn.unit, target)
        assert reach is not None
        assert target in reach.taken_off
        assert (reach.cost.risk, reach.cost.minutes) <= (plan.cost.risk, plan.cost.minutes)


@pytest.mark.parametrize("number", range(30))
def test_an_assembly_puts_all_back_with_each_check_in_its_place(number: int) -> None:
    drawn, plan = planned(PROVED)[number]
    judge = judge_of(drawn.unit)
    try:
        built = order_assembly(judge.bench, judge.loads, plan.taken_off)
    except NoAnswer:
        return
    assert sorted(built.taken_off) == sorted(plan.taken_off)
    at = {step.parts[0]: number for number, step in enumerate(built.steps) if step.kind == "fit"}
    checks = {step.proof: number for number, step in enumerate(built.steps) if step.kind == "prove"}
    assert set(checks) == set(drawn.unit.proofs)
    for name, proof in drawn.unit.proofs.items():
        assert all(at[part] < checks[name] for part in proof.after if part in at)
        assert all(checks[name] < at[part] for part in proof.before if part in at)


def test_most_assemblies_with_checks_have_an_order() -> None:
    found = 0
    for drawn, plan in planned(PROVED):
        judge = judge_of(drawn.unit)
        try:
            found += bool(order_assembly(judge.bench, judge.loads, plan.taken_off).steps)
        except NoAnswer:
            continue
    assert found >= 15


@pytest.mark.parametrize("seed", range(40))
def test_a_part_nobody_looked_at_lets_nothing_through_that_either_answer_forbids(seed: int) -> None:
    drawn = random_book(seed, Wish(parts=12, loads=1 + seed % 3))
    walker = Walker(drawn.text, drawn.unit, seed)
    for asked in walker.walk(40, 0):
        if not asked.answer.is_yes or not isinstance(asked.act, TakeOff | Turn) or not walker.retainers:
            continue
        part = walker.chance.choice(walker.retainers)
        if asked.state.session is not None or asked.state.condition(part) is not Condition.WHOLE:
            continue
        said = {
            one: walker.judge.may_i(asked.state.with_condition(part, one), asked.act).is_yes
            for one in (Condition.WHOLE, Condition.BROKEN, Condition.UNKNOWN)
        }
        assert said[Condition.UNKNOWN] <= (said[Condition.WHOLE] and said[Condition.BROKEN]), (asked.act, part, said)
