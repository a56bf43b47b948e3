"""Parts that go in again against a verdict: who decided so, and what a comeback over one costs the shop."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from layshaft.plan.judgement import Judgement
from layshaft.plan.rebuild import Rebuild

Row = dict[str, Any]


def kept_lines(it: Rebuild, verdicts: Iterable[Judgement]) -> list[str]:
    """What stands on the first page: each such part, and which verdict was overruled."""
    lines = []
    for one in verdicts:
        if _is_kept(it, one):
            name = it.unit.parts[one.part].name
            lines.append(f"Kept against a verdict: {one.part} {name}; {one.reason.removeprefix(f'{name}: ')}")
    return lines


def risk_rows(it: Rebuild, verdicts: Iterable[Judgement]) -> list[Row]:
    """What a comeback over each of them costs the shop, by the book or the shop: for its own eyes, and not set."""
    rows = []
    for one in verdicts:
        part = it.unit.parts[one.part]
        cost = part.comeback_cost or it.shop.comeback_cost
        if cost is not None and _is_kept(it, one):
            rows.append({"part": one.part, "sentence": part.name, "cost": str(cost)})
    return rows


def _is_kept(it: Rebuild, one: Judgement) -> bool:
    return bool(one.overrules) and one.renew_count < it.unit.parts[one.part].count
