"""Fluid stands as a step before the first proof that needs it, and the covers under its level wait for the drain."""

from __future__ import annotations

from pathlib import Path

import pytest

from layshaft.book import BookFaults, load_book
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.filling import with_fluids
from layshaft.plan.load import Loads
from layshaft.plan.step import Plan, PlannedStep
from layshaft.plan.teardown import order_teardown, start_state

BOOKS = Path(__file__).parents[2] / "books"


def bench_of(name: str, variant: str) -> tuple[Bench, Loads]:
    unit = load_book((BOOKS / name / "book.yaml").read_bytes(), "book.yaml").unit(variant)
    bench = Bench(unit)
    return bench, Loads(bench, Sizes(unit))


def assembly(name: str, variant: str) -> Plan:
    bench, loads = bench_of(name, variant)
    down = order_teardown(bench, loads, start_state(bench.unit))
    return order_assembly(bench, loads, down.taken_off)


@pytest.mark.parametrize(
    ("name", "variant", "fill", "after"),
    [
        ("overtop", "OT4", "Fill in 1.1 L of automatic transmission fluid as the gearbox takes", "A-T2"),
        ("twinpath", "TP2", "Fill in 1.9 L of automatic transmission fluid", "TP-014"),
        ("layline", "iron", "Fill in 2.4 L of gear oil 75W-80 without sulphur that eats bronze", "LL-090"),
    ],
)
def test_a_shipped_unit_is_filled_once_and_before_its_plug_or_the_proof_that_needs_it(
    name: str, variant: str, fill: str, after: str
) -> None:
    steps = assembly(name, variant).steps
    at = [number for number, step in enumerate(steps) if step.what.startswith("Fill in ")]
    assert [steps[number].what for number in at] == [fill]
    assert after in (steps[at[0] + 1].proof, *steps[at[0] + 1].parts)
    assert not steps[at[0]].waits
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))


@pytest.mark.parametrize(("name", "variant", "plug"), [("twinpath", "TP2", "TP-014"), ("layline", "alloy", "LL-090")])
def test_all_that_opens_the_case_is_closed_before_it_is_filled(name: str, variant: str, plug: str) -> None:
    fitted = assembly(name, variant).taken_off
    assert fitted[-1] == plug


@pytest.mark.parametrize(
    ("name", "variant", "plug", "bolts"),
    [
        ("twinpath", "TP2", "TP-014", ("TP-012", "TP-067", "TP-094")),
        ("layline", "iron", "LL-090", ("LL-012", "LL-015")),
    ],
)
def test_it_is_drained_before_a_bolt_of_a_cover_under_its_level_is_undone(
    name: str, variant: str, plug: str, bolts: tuple[str, ...]
) -> None:
    bench, loads = bench_of(name, variant)
    off = order_teardown(bench, loads, start_state(bench.unit)).taken_off
    assert off.index(plug) < min(off.index(bolt) for bolt in bolts)


def test_a_flange_that_its_nut_draws_on_has_the_nut_right_after_and_before_a_proof_turns_the_output() -> None:
    steps = assembly("twinpath", "TP2").steps
    at = {step.parts[0]: number for number, step in enumerate(steps) if step.kind == "fit"}
    assert at["TP-068"] == at["TP-067"] + 1
    assert at["TP-068"] < next(number for number, step in enumerate(steps) if step.proof == "B-T1")


@pytest.mark.parametrize(
    ("name", "variant", "target", "plug"),
    [("twinpath", "TP2", "TP-093", "TP-014"), ("layline", "iron", "LL-014", "LL-090"),
     ("layline", "iron", "LL-011", "LL-090")],
)  # fmt: skip
def test_it_is_drained_before_a_cover_under_its_level_comes_off(
    name: str, variant: str, target: str, plug: str
) -> None:
    bench, loads = bench_of(name, variant)
    off = order_teardown(bench, loads, start_state(bench.unit), [target]).taken_off
    assert plug in off[: off.index(target)]


def test_a_blocker_ring_is_lined_up_before_its_hub_is_pressed_home() -> None:
    steps = assembly("layline", "iron").steps
    told = {step.parts[0]: " ".join(step.notes) for step in steps if step.kind == "fit"}
    assert "Turn the second gear blocker ring till its slots" in told["LL-050-12"]
    assert "Turn the third gear blocker ring till its slots" in told["LL-050-34"]
    for ring in ("LL-052-1", "LL-052-4", "LL-052-5"):
        assert "Turn the ring till its slots are over the struts" in told[ring]


def test_a_fluid_of_parts_that_stay_shut_is_not_filled_in() -> None:
    bench, _ = bench_of("twinpath", "TP2")
    sump = bench.unit.fluids["sump"].model_copy(update={"when_opened": ("TP-011",)})
    unit = bench.unit.model_copy(update={"fluids": {"sump": sump}})
    steps = [PlannedStep(0, "prove", "Pump", proof="B-T3")]
    assert with_fluids(unit, {"TP-093"}, steps) == steps
    assert len(with_fluids(unit, {"TP-011"}, steps)) == 2


def test_a_fluid_names_proofs_of_its_book() -> None:
    text = (BOOKS / "twinpath" / "book.yaml").read_text("utf-8").replace("needed by: [B-T3]", "needed by: [B-T33]")
    with pytest.raises(BookFaults) as caught:
        load_book(text, "book.yaml")
    assert [(one.id, one.sentence) for one in caught.value.report.faults] == [
        ("unknown name", "No proof of this book is called `B-T33`.")
    ]
