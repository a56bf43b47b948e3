"""What the book remarks on groups, on parts that belong together and on tools, put with the step where it helps."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from dataclasses import replace

from layshaft.book.definition import Unit
from layshaft.plan.bench import Bench
from layshaft.plan.step import PlannedStep

_TOGETHER = {"keep together": "Keep together", "mark together": "Mark, they belong together"}


def lifted_as_one(unit: Unit, part: str, along: Container[str]) -> Iterator[str]:
    """How to lift a group whose lead comes out with another of its members."""
    for name, group in unit.groups.items():
        if group.lead == part and group.about and any(member in along for member in group.members):
            yield f"Lifts as one, {name}: {group.about.rstrip('.')}."


def parted(bench: Bench, part: str, before: int) -> Iterator[str]:
    """What to keep or mark as a part comes off that belongs with others, or whose own pieces belong together."""
    after = before | bench.bit(part)
    for one in bench.unit.sets.values():
        if one.rule not in _TOGETHER:
            continue
        apart = bench.joining(one.members)
        if one.members == (part,) or (not before & apart and after & apart):
            words = " ".join(f"{text.rstrip('.')}." for text in (one.order, one.about) if text)
            yield f"{_TOGETHER[one.rule]}: {', '.join(one.members)}. {words}".rstrip()


def with_tools_told(unit: Unit, steps: Iterable[PlannedStep]) -> Iterator[PlannedStep]:
    """The steps, each tool that the book says something of told where it is first taken up."""
    told: set[str] = set()
    for step in steps:
        notes = []
        for name in (step.tool, step.support):
            about = unit.tools[name].about if name in unit.tools else None
            if name is not None and about is not None and name not in told:
                notes.append(f"Tool, {name}: {about.rstrip('.')}.")
                told.add(name)
        yield replace(step, notes=(*step.notes, *notes)) if notes else step
