"""Fluid that goes in before a proof that needs it, as a step where it has to be in."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.definition import Fluid, Unit
from layshaft.plan.step import PlannedStep
from layshaft.plan.telling import lowered


def with_fluids(unit: Unit, opened: Collection[str], steps: list[PlannedStep]) -> list[PlannedStep]:
    """Steps with each fluid filled in right before the first proof that needs it, or before its plug is tightened."""
    due: dict[int, list[PlannedStep]] = {}
    for fluid in unit.fluids.values():
        if not fluid.when_opened or any(part in opened for part in fluid.when_opened):
            proof = next((at for at, step in enumerate(steps) if step.proof in fluid.needed_by), None)
            if proof is not None:
                plug = _plugged(fluid, steps[:proof])
                at = proof if plug is None else plug
                due.setdefault(at, []).append(_filled(unit, fluid, steps[proof], is_open=plug is not None))

    def filled() -> Iterator[PlannedStep]:
        for at, step in enumerate(steps):
            yield from due.get(at, ())
            yield step

    return list(filled())


def _plugged(fluid: Fluid, steps: list[PlannedStep]) -> int | None:
    """Where the plug that a fluid goes in by is tightened."""
    plugged = (at for at, step in enumerate(steps) if step.kind == "fit" and fluid.through in step.parts)
    return next(plugged, None)


def _filled(unit: Unit, fluid: Fluid, proof: PlannedStep, *, is_open: bool) -> PlannedStep:
    why = [f"{unit.proofs[proof.proof].name} is not proved dry"] if proof.proof else []
    notes = []
    if is_open and fluid.through is not None:
        part = unit.parts[fluid.through]
        why.append(f"its level is seen at the open hole: {fluid.through} {lowered(part.name)} is tightened after it")
        notes += ["What drains by is closed and tight first."] if part.count > 1 else []
    return PlannedStep(
        0,
        "prepare",
        f"Fill in {fluid.amount} of {fluid.what[:1].lower()}{fluid.what[1:]}",
        why=tuple(why),
        notes=tuple(notes),
    )
