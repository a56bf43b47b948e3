"""Springs between stops at rest, by shortest paths, by non-negative least squares and by linear programs."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf
from typing import Any

import numpy as np
from scipy.optimize import linprog, nnls


class Paths:
    """Shortest ways of stops between bodies."""

    def __init__(self, arcs: list[tuple[str, str, float]]) -> None:
        self.bodies = sorted({body for a, b, _ in arcs for body in (a, b)})
        at = {body: number for number, body in enumerate(self.bodies)}
        self.at = at
        many = len(at)
        far = np.full((many, many), inf)
        np.fill_diagonal(far, 0.0)
        for a, b, room in arcs:
            far[at[a], at[b]] = min(far[at[a], at[b]], room)
        for middle in range(many):
            far = np.minimum(far, far[:, middle, None] + far[None, middle, :])
        self.far = far

    def between(self, a: str, b: str) -> float:
        if a not in self.at or b not in self.at:
            return 0.0 if a == b else inf
        return float(self.far[self.at[a], self.at[b]])

    def is_possible(self) -> bool:
        return not len(self.far) or float(np.min(np.diag(self.far))) > -1e-9


def settle(arcs: list[Any], coils: list[Any], base: str) -> dict[str, float]:
    """How far apart the seats of each load come to rest."""
    paths = Paths(arcs)
    want = [min(free, paths.between(a, b) + offset) for _, a, b, offset, _, free, *_ in coils]
    asked = [(b, a, offset - long) for (_, a, b, offset, *_), long in zip(coils, want, strict=True)]
    if Paths([*arcs, *asked]).is_possible():
        return _seats_apart((coil[0], long) for coil, long in zip(coils, want, strict=True))
    return balance(arcs, coils, base)


def balance(arcs: list[Any], coils: list[Any], base: str) -> dict[str, float]:
    """Springs that act on each other: least energy by non-negative least squares, in millimetres.

    C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, Prentice-Hall 1974, chapter 23, least-distance
    programming (from memory). A thousand-millionth of a spring holds loose bodies near their drawn places.
    """
    bodies = sorted({body for a, b, *_ in [*arcs, *(coil[1:3] for coil in coils)] for body in (a, b)} - {base})
    at = {body: number for number, body in enumerate(bodies)}
    many = len(bodies) + len(coils)
    weight = np.array([1e-4] * len(bodies) + [(coil[4] / 1000) ** 0.5 for coil in coils])
    rows, least = [], []
    for a, b, room in arcs:
        row = np.zeros(many)
        _add(row, at, a, 1.0)
        _add(row, at, b, -1.0)
        rows.append(row)
        least.append(-room * 1000)
    for number, (_, a, b, offset, _, free, *_) in enumerate(coils):
        row = np.zeros(many)
        _add(row, at, b, 1.0)
        _add(row, at, a, -1.0)
        row[len(bodies) + number] = 1.0
        rows.append(row)
        least.append((free - offset) * 1000)
        push = np.zeros(many)
        push[len(bodies) + number] = 1.0
        rows.append(push)
        least.append(0.0)
    scaled = np.array(rows) / weight
    goal = np.append(np.zeros(many), 1.0)
    solution, _ = nnls(np.vstack([scaled.T, np.array(least)]), goal, maxiter=200 * many)
    residual = np.vstack([scaled.T, np.array(least)]) @ solution - goal
    found = -residual[:many] / residual[many] / weight
    return _seats_apart((coil[0], coil[5] - float(found[len(bodies) + at]) / 1000) for at, coil in enumerate(coils))


def _seats_apart(lengths: Iterable[tuple[str, float]]) -> dict[str, float]:
    """How far apart a load's seats are: as its longest spring, for a shorter one beside it lies loose between them."""
    apart: dict[str, float] = {}
    for load, long in lengths:
        apart[load] = max(long, apart.get(load, 0.0))
    return apart


def _add(row: Any, at: dict[str, int], body: str, value: float) -> None:
    if body in at:
        row[at[body]] += value


def least_energy(arcs: list[Any], coils: list[Any], base: str) -> tuple[float, float]:
    """The least energy [J] of springs between stops, from below and above, by linear programs and cutting planes."""
    bodies = sorted({body for a, b, *_ in [*arcs, *(coil[1:3] for coil in coils)] for body in (a, b)} - {base})
    at = {body: number for number, body in enumerate(bodies)}
    many, springs = len(bodies), len(coils)
    rows, most = [], []
    for a, b, room in arcs:
        row = np.zeros(many + 2 * springs)
        _add(row, at, b, 1.0)
        _add(row, at, a, -1.0)
        rows.append(row)
        most.append(room * 1000)
    for number, (_, a, b, offset, _, free, *_) in enumerate(coils):
        row = np.zeros(many + 2 * springs)
        _add(row, at, a, 1.0)
        _add(row, at, b, -1.0)
        row[many + number] = -1.0
        rows.append(row)
        most.append((offset - free) * 1000)
    price = np.append(np.zeros(many + springs), np.ones(springs))
    bounds = [(-1e4, 1e4)] * many + [(0.0, 1e4)] * (2 * springs)
    bounds[many + springs :] = [(0.0, None)] * springs
    above = inf
    for _ in range(200):
        answer = linprog(price, np.array(rows), np.array(most), bounds=bounds, method="highs")
        assert answer.status == 0, answer.message
        squeezed = answer.x[many : many + springs]
        rates = np.array([coil[4] / 1000 for coil in coils])
        above = min(above, float(0.5 * np.sum(rates * squeezed**2)))
        if above - answer.fun < 1e-3:
            break
        for number in range(springs):
            row = np.zeros(many + 2 * springs)
            row[many + number] = rates[number] * squeezed[number]
            row[many + springs + number] = -1.0
            rows.append(row)
            most.append(0.5 * rates[number] * squeezed[number] ** 2)
    return answer.fun / 1000, above / 1000
