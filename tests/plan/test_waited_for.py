"""Why a step comes where it does, and what is left in the end: only of parts that this plan takes off, and of all."""

from __future__ import annotations

import re

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from tests.paper.two_jobs import BOOKS
from tests.plan.two_rings import judge

TWINPATH = load_book((BOOKS / "twinpath" / "book.yaml").read_bytes(), "twinpath").unit("TP2")
WAITING = re.compile(r"^(\S+) .* waits for it")


def down(unit: Unit, *wanted: str) -> Plan:
    bench = Bench(unit)
    return order_teardown(bench, Loads(bench, Sizes(unit)), start_state(unit), wanted)


@pytest.mark.parametrize("wanted", [(), ("TP-040",), ("TP-062",), ("TP-021",), ("TP-072",)])
def test_only_what_comes_off_is_said_to_wait(wanted: tuple[str, ...]) -> None:
    plan = down(TWINPATH, *wanted)
    told = [match[1] for step in plan.steps for why in step.why if (match := WAITING.match(why))]
    assert told
    assert set(told) <= set(plan.taken_off)


def test_what_stays_on_the_base_is_told_when_all_else_is_off() -> None:
    """As a cup pressed into its case, that only goes with its cone."""
    small = judge().bench.unit
    pressed = small.parts["BX-02"].model_copy(update={"stays_together": "Pressed in; only with its race"})
    unit = small.model_copy(update={"parts": small.parts | {"BX-02": pressed}})
    plan = down(unit)
    assert "BX-02" not in plan.taken_off
    assert plan.stays_together == (("BX-01", "BX-02"),)
    assert not any("BX-02" in why for step in plan.steps for why in step.why)


def test_of_a_few_parts_the_rest_of_the_unit_is_no_list() -> None:
    assert not any(TWINPATH.base in group for group in down(TWINPATH, "TP-021").stays_together)
