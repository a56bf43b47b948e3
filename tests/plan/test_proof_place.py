"""When a proof is made: as early as what it needs is in, at the bench, so that a failure strips as little as can be."""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.step import Plan
from tests.paper.two_jobs import BOOKS

VARIANTS = [("twinpath", "TP2"), ("layline", "iron"), ("overtop", "OT6")]


@cache
def built(book: str, variant: str) -> tuple[Unit, Plan]:
    unit = load_book((BOOKS / book / "book.yaml").read_bytes(), book).unit(variant)
    return unit, together(unit)


def together(unit: Unit, *opened: str) -> Plan:
    bench = Bench(unit)
    return order_assembly(bench, Loads(bench, Sizes(unit)), opened or unit.parts)


def places(plan: Plan) -> dict[str, int]:
    """Where each part goes in and each proof is made; plates that are laid by turns go in with one step."""
    found = {}
    for at, step in enumerate(plan.steps):
        found |= dict.fromkeys(step.parts, at) if step.kind == "fit" else {}
        found |= {f"proof {step.proof}": at} if step.proof else {}
    return found


@pytest.mark.parametrize(("book", "variant"), VARIANTS)
def test_nothing_goes_in_between_what_a_proof_needs_and_the_proof(book: str, variant: str) -> None:
    """Only other proofs, a load let home and the fluid it needs come between; one on a stand or the road comes last."""
    unit, plan = built(book, variant)
    at = places(plan)
    checked = 0
    for name, proof in unit.proofs.items():
        if proof.place != "bench" or not proof.after:
            continue
        last = max(at[part] for part in (*proof.after, *(() if proof.before else proof.when_opened)) if part in at)
        between = plan.steps[last + 1 : at[f"proof {name}"]]
        assert at[f"proof {name}"] > last
        others = [step for step in between if step.kind not in ("prove", "let home")]
        assert all(step.what.startswith("Fill in ") for step in others), name
        checked += 1
    assert checked >= 8


@pytest.mark.parametrize(("book", "variant"), VARIANTS)
def test_what_covers_a_proof_goes_in_after_it(book: str, variant: str) -> None:
    unit, plan = built(book, variant)
    at = places(plan)
    for name, proof in unit.proofs.items():
        assert all(at[f"proof {name}"] < at[part] for part in proof.before if part in at), name


def test_a_wrong_shim_costs_the_rear_cover_and_not_the_whole_box() -> None:
    """The main bearing's play can be read once the rear cover is on; all else goes in after it."""
    _, plan = built("layline", "iron")
    at = places(plan)
    assert at["LL-012"] < at["proof main bearing play"] < min(at[one] for one in ("LL-020", "LL-080", "LL-014"))
    (told,) = (step for step in plan.steps if step.proof == "main bearing play")
    assert told.why == ("what it needs is in: if it fails, nothing that comes later has to come off again",)


def test_no_shaft_is_turned_before_it_stands_in_its_bearings_and_no_fluid_goes_into_an_open_case() -> None:
    at = places(built("twinpath", "TP2")[1])
    for proof in ("B-T1", "B-T2", "B-T2 high", "B-T3", "B-T4", "B-T5"):
        assert at[f"proof {proof}"] > max(at["TP-092"], at["TP-094"], at["TP-050"])
    assert at["proof B-T3"] > max(at[part] for part in ("TP-014", "TP-023", "TP-066", "TP-096"))
    at = places(built("layline", "iron")[1])
    for proof in ("C-T1", "C-T2", "C-T4", "C-T4 reverse", "C-T5", "C-T6"):
        assert at[f"proof {proof}"] > max(at["LL-015"], at["LL-085"])


def test_elsewhere_than_on_the_bench_a_proof_comes_last() -> None:
    unit, plan = built("layline", "iron")
    assert unit.proofs["C-T6"].place == "test stand"
    assert (plan.steps[-1].proof, plan.steps[-1].why) == ("C-T6", ("everything is in",))


def test_a_proof_waits_for_what_it_is_asked_for() -> None:
    """The cover was never off, so that nothing of `after` goes in: what was opened has to be in all the same."""
    unit, _ = built("twinpath", "TP2")
    early = unit.proofs["B-T5"].model_copy(update={"after": ("TP-010",), "when_opened": ("TP-068",)})
    at = places(together(unit.model_copy(update={"proofs": {"early": early}})))
    assert at["proof early"] == at["TP-068"] + 1
