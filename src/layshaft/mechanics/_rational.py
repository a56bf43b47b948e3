"""Linear equations in exact fractions: what they settle, what they leave open, whether they clash."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, TypeVar

Unknown = TypeVar("Unknown", bound=Hashable)


@dataclass(frozen=True)
class Equation(Generic[Unknown]):
    """The sum of coefficients times unknowns equals `constant`."""

    coefficients: Mapping[Unknown, Fraction]
    constant: Fraction = Fraction(0)


@dataclass(frozen=True)
class Solution(Generic[Unknown]):
    """Values that the equations settle, none for an unknown they leave open."""

    values: Mapping[Unknown, Fraction | None]
    is_consistent: bool


def _reduced(
    equations: Iterable[Equation[Unknown]], unknowns: Sequence[Unknown]
) -> list[tuple[Unknown | None, dict[Unknown, Fraction], Fraction]]:
    """Rows of the reduced echelon form: pivot, other coefficients, constant; no pivot where none is left."""
    rows = [({u: c for u, c in e.coefficients.items() if c}, e.constant) for e in equations]
    done: list[tuple[Unknown | None, dict[Unknown, Fraction], Fraction]] = []
    for unknown in unknowns:
        at = next((i for i, (row, _) in enumerate(rows) if unknown in row), None)
        if at is None:
            continue
        row, constant = rows.pop(at)
        lead = row.pop(unknown)
        row, constant = {u: c / lead for u, c in row.items()}, constant / lead
        rows = [_without(other, k, unknown, row, constant) for other, k in rows]
        done = [(p, *_without(other, k, unknown, row, constant)) for p, other, k in done]
        done.append((unknown, row, constant))
    return done + [(None, row, constant) for row, constant in rows]


def _without(
    row: dict[Unknown, Fraction],
    constant: Fraction,
    unknown: Unknown,
    pivot: dict[Unknown, Fraction],
    value: Fraction,
) -> tuple[dict[Unknown, Fraction], Fraction]:
    """A row after the unknown has been put in terms of the others by the pivot row."""
    factor = row.get(unknown)
    if factor is None:
        return row, constant
    merged = {u: c for u, c in row.items() if u != unknown}
    for u, c in pivot.items():
        merged[u] = merged.get(u, Fraction(0)) - factor * c
    return {u: c for u, c in merged.items() if c}, constant - factor * value


def solve(equations: Iterable[Equation[Unknown]], unknowns: Sequence[Unknown]) -> Solution[Unknown]:
    """Solve the equations exactly for all that they settle."""
    values: dict[Unknown, Fraction | None] = dict.fromkeys(unknowns)
    is_consistent = True
    for pivot, row, constant in _reduced(equations, unknowns):
        if pivot is None:
            is_consistent = is_consistent and not constant
        elif not row:
            values[pivot] = constant
    return Solution(values, is_consistent)
