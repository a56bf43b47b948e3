"""The work of reworks: minutes of those that were done and those that are due, and which the book gives no time for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Job, Mending, Rework, Unit
from layshaft.plan.judgement import Judgement
from layshaft.plan.rework import Reworked, looks_at

About = tuple[str, Literal["reading", "look"], str]
"""A part, and which of its readings or looks asked for the rework."""


@dataclass(frozen=True, slots=True)
class ReworkWork:
    """What reworks of a job take."""

    labour: tuple[tuple[str, Fraction], ...]
    """What is billed, with its minutes."""
    untimed: tuple[str, ...]
    """A sentence for each that the book gives no time for."""


def rework_work(
    unit: Unit, job: Job, reworks: tuple[Reworked, ...], judgements: Mapping[str, Judgement]
) -> ReworkWork:
    """The work of every rework that was done, whatever became of the part, and of those that verdicts ask for."""
    pieces: dict[About, int] = {}
    for one in reworks:
        pieces[one.part, one.kind, one.name] = pieces.get((one.part, one.kind, one.name), 0) + 1
    for about in _due(unit, job, reworks, judgements):
        pieces[about] = pieces.get(about, 0) + 1
    labour, untimed = [], []
    for (part, kind, name), number in pieces.items():
        what = f"{part} {unit.parts[part].name}, {name}{f', {number} times' if number > 1 else ''}"
        plan = _plan(unit, part, kind, name)
        if plan is not None and plan.time is not None:
            labour.append((f"Rework of {what}", Fraction(plan.time.nominal) / 60 * number))
        else:
            untimed.append(f"Rework of {what}: the book gives no time for it, and its labour may be added.")
    return ReworkWork(tuple(labour), tuple(untimed))


def _plan(unit: Unit, part: str, kind: Literal["reading", "look"], name: str) -> Rework | Mending | None:
    definition = unit.parts[part]
    return definition.readings[name].rework if kind == "reading" else definition.looks[name].rework


def _due(
    unit: Unit, job: Job, reworks: tuple[Reworked, ...], judgements: Mapping[str, Judgement]
) -> Iterator[About]:
    done = {(one.part, one.name, one.piece, one.since) for one in reworks if one.kind == "look"}
    for part, judged in judgements.items():
        standing = {one.piece - 1 for one in judged.pieces if one.verdict not in ("renew", "reuse")}
        for figure in judged.figures:
            if figure.verdict == "rework" and not figure.is_new and figure.piece in standing:
                yield part, "reading", figure.reading
        for name, plan in unit.parts[part].looks.items():
            for piece in standing:
                for last in looks_at(job, part, name, piece)[-1:]:
                    if plan.grades.get(last.grade) == "rework" and (part, name, piece, last.at) not in done:
                        yield part, "look", name
