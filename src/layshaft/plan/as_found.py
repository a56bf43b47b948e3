"""What can be read only while a unit is still together, as steps before the part comes off that it is read on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from layshaft.book.definition import Job, Unit
from layshaft.plan.phrase import listed
from layshaft.plan.step import Plan, PlannedStep, numbered
from layshaft.plan.telling import lowered


@dataclass(frozen=True, slots=True)
class _Due:
    """One thing to read, how and with what, and the parts that all have to be on while it is read."""

    reads: tuple[str, ...]
    what: str
    gauge: str | None
    before: tuple[str, ...]


def with_readings(unit: Unit, steps: Sequence[PlannedStep], is_there: frozenset[str]) -> list[PlannedStep]:
    """Steps of taking down with each reading in time; `is_there` are the parts that are on at the start.

    Nothing is read of a unit that is held under load: that reading stands before the load is taken up.
    """
    due: dict[int, list[PlannedStep]] = {}
    for one in _dues(unit):
        at = _place(steps, one) if is_there.issuperset(one.before) else None
        if at is not None:
            due.setdefault(at[0], []).append(_step(unit, one, at[1]))
    told: list[PlannedStep] = []
    for number, step in enumerate(steps):
        told += [*due.get(number, ()), step]
    return told


def unread(plan: Plan, job: Job) -> Plan:
    """A plan without the readings that the job has already."""
    had: set[tuple[str, ...]] = {("result", one.result) for one in job.readings if one.result and not one.new}
    had |= {("reading", one.part, one.reading) for one in job.readings if one.part and one.reading and not one.new}
    steps = [step for step in plan.steps if step.reads not in had]
    return plan if len(steps) == len(plan.steps) else replace(plan, steps=numbered(steps))


def _dues(unit: Unit) -> Iterator[_Due]:
    for name, result in unit.results.items():
        if result.read is not None and result.read.before:
            how = f"Read {name} as found: {result.read.how}"
            yield _Due(("result", name), how, result.read.gauge, result.read.before)
    for part, definition in unit.parts.items():
        for name, reading in definition.readings.items():
            if reading.before:
                how = f"Read {name} of {part} {lowered(definition.name)} as found: {reading.how}"
                yield _Due(("reading", part, name), how, reading.gauge, reading.before)
    for name, proof in unit.proofs.items():
        if proof.as_found_before:
            how = f"Write down {lowered(proof.name)} as found: {lowered(proof.how)}"
            yield _Due(("proof", name), how, proof.gauge, proof.as_found_before)


def _place(steps: Sequence[PlannedStep], one: _Due) -> tuple[int, str] | None:
    """Before which step it is read, and which of its parts comes off first; nowhere if none does, or only held."""
    held: int | None = None
    is_held = any(step.kind in ("hold", "let off") for step in steps) and _starts_held(steps)
    for number, step in enumerate(steps):
        if step.kind == "hold":
            held = number
        off = next((part for part in step.parts if part in one.before), None) if step.kind == "take off" else None
        if off is not None:
            return None if is_held else (number if held is None else held, off)
        if step.kind == "let off":
            held, is_held = None, False
    return None


def _starts_held(steps: Sequence[PlannedStep]) -> bool:
    return next(step.kind for step in steps if step.kind in ("hold", "let off")) == "let off"


def _step(unit: Unit, one: _Due, first: str) -> PlannedStep:
    part = unit.parts[first]
    others = [name for name in one.before if name != first]
    beside = f", with {listed(others)} still on as well" if others else ""
    comes = "comes" if part.count == 1 else "come"
    why = f"the book asks for it before {first} {lowered(part.name)} {comes} off{beside}"
    return PlannedStep(0, "prepare", one.what, reads=one.reads, tool=one.gauge, why=(why,))
