"""What can be read only while the unit is together stands in the teardown before the part that ends it comes off."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from layshaft.book import BookFaults, load_book
from layshaft.book.definition import Job, Unit
from layshaft.book.size import Sizes
from layshaft.paper.plan_text import plan_text
from layshaft.paper.sheet import build_sheet, build_teardown
from layshaft.plan.as_found import unread
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.state import State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import parse_quantity
from tests.paper.two_jobs import INCH_JOB, INCH_SHOP, worked_through

BOOKS = Path(__file__).parents[2] / "books"


def taken_down(name: str, variant: str, *off: str) -> Plan:
    bench, state = bench_of(name, variant)
    state = replace(state, detached=bench.mask(off))
    return order_teardown(bench, Loads(bench, Sizes(bench.unit)), state)


def bench_of(name: str, variant: str) -> tuple[Bench, State]:
    unit: Unit = load_book((BOOKS / name / "book.yaml").read_bytes(), "book.yaml").unit(variant)
    return Bench(unit), start_state(unit)


@pytest.mark.parametrize(
    ("name", "variant", "reads", "parts"),
    [
        ("overtop", "OT4", ("result", "groove depth"), ("OT-054", "OT-080")),
        ("overtop", "OT4", ("result", "thrust seat to groove"), ("OT-054",)),
        ("overtop", "OT6", ("result", "hub recess"), ("OT-042", "OT-043")),
        ("overtop", "OT4", ("proof", "face to shaft depth"), ("OT-042", "OT-043", "OT-054")),
        ("twinpath", "TP2", ("result", "input end play"), ("TP-022", "TP-020", "TP-030")),
        ("twinpath", "TP2", ("result", "rear output end play"), ("TP-094", "TP-093")),
        ("twinpath", "TP2", ("result", "front clutch clearance"), ("TP-076",)),
        ("twinpath", "TP2", ("reading", "TP-062", "slack"), ("TP-061", "TP-062")),
        ("layline", "iron", ("result", "input end play"), ("LL-015", "LL-014")),
        ("layline", "alloy", ("result", "main bearing play"), ("LL-012", "LL-011")),
        ("layline", "iron", ("result", "third gear float"), ("LL-055-34", "LL-043")),
    ],
)
def test_it_is_read_once_and_before_any_of_them_comes_off_under_no_load(
    name: str, variant: str, reads: tuple[str, ...], parts: tuple[str, ...]
) -> None:
    steps = taken_down(name, variant).steps
    (at,) = (number for number, step in enumerate(steps) if step.reads == reads)
    off = [number for number, step in enumerate(steps) if step.kind == "take off" and {*parts}.intersection(step.parts)]
    assert at < min(off)
    held = [step.kind for step in steps[:at] if step.kind in ("hold", "let off")]
    assert held[-1:] in ([], ["let off"])


def test_one_that_comes_too_late_or_is_on_record_is_not_asked_for() -> None:
    plan = taken_down("layline", "iron")
    assert plan.steps[1].reads == ("result", "main bearing play")
    begun = taken_down("layline", "iron", "LL-090", "LL-012")
    assert all(step.reads != ("result", "main bearing play") for step in begun.steps)
    figure = parse_quantity("0.06 mm")
    job = Job.model_validate({**_BARE, "readings": [{"result": "main bearing play", "figures": [figure]}]})
    left = unread(plan, job)
    assert len(left.steps) == len(plan.steps) - 1
    assert [step.number for step in left.steps] == list(range(1, len(plan.steps)))
    new = [{"result": "main bearing play", "figures": [figure], "new": True}]
    assert unread(plan, Job.model_validate({**_BARE, "readings": new})) is plan


_BARE = {
    "id": "T-1",
    "book": {"id": "layline", "revision": 1},
    "shop": {"id": "kettle-lane", "revision": 1},
    "variant": "iron",
    "opened": "2026-11-01",
    "today": "2026-11-02",
}


def test_terminal_and_sheet_mark_it() -> None:
    told = plan_text(taken_down("twinpath", "TP2"), "Twinpath")
    assert "READ: Read rear output end play as found: dial on the shaft end, pushed and pulled" in told
    assert "why: the book asks for it before TP-094 rear retainer bolt M8x25 come off" in told
    begun = worked_through("layline", INCH_JOB + "done:\n  - {off: LL-090}\n", INCH_SHOP)
    for steps in (build_teardown(begun)["teardown"], build_sheet(begun)["teardown"]):
        assert (steps[0]["mark"], steps[0]["what"]) == (
            "READ",
            "Read main bearing play as found: dial on the flange, pushed and pulled",
        )


def test_only_parts_of_its_book_are_named() -> None:
    text = (BOOKS / "layline" / "book.yaml").read_text("utf-8").replace("before: [LL-015]}", "before: [LL-915]}")
    with pytest.raises(BookFaults) as caught:
        load_book(text, "book.yaml")
    assert [one.found for one in caught.value.report.faults] == ["LL-915"]
