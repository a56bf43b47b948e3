"""Fluid that goes in before a proof that needs it, as a step where it has to be in."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.definition import Unit
from layshaft.plan.step import PlannedStep


def with_fluids(unit: Unit, opened: Collection[str], steps: list[PlannedStep]) -> list[PlannedStep]:
    """Steps with each fluid filled in right before the first proof that needs it."""
    due = {
        name: fluid
        for name, fluid in unit.fluids.items()
        if not fluid.when_opened or any(part in opened for part in fluid.when_opened)
    }

    def filled() -> Iterator[PlannedStep]:
        for step in steps:
            for name in [name for name, fluid in due.items() if step.proof in fluid.needed_by]:
                fluid = due.pop(name)
                proof = unit.proofs[step.proof].name if step.proof else ""
                yield PlannedStep(
                    0, "prepare", f"Fill in {fluid.amount} of {fluid.what[:1].lower()}{fluid.what[1:]}",
                    why=(f"{proof} is not proved dry",),
                )
            yield step

    return list(filled())
