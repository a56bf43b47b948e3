"""Parts that were reworked in this job, as the first page tells them."""

from __future__ import annotations

from layshaft.plan.phrase import in_runs
from layshaft.plan.rebuild import Rebuild


def rework_lines(it: Rebuild) -> list[str]:
    """Each part that was reworked, how, and what it was before; pieces of one part of which it was the same at once."""
    pieces: dict[tuple[str, str, str, str], list[int]] = {}
    for one in it.reworks:
        pieces.setdefault((one.part, one.name, one.was, one.how.rstrip(".")), []).append(one.piece + 1)
    lines = []
    for (part, name, was, how), numbers in pieces.items():
        definition = it.unit.parts[part]
        word = "piece" if len(numbers) == 1 else "pieces"
        which = f", {word} {in_runs(numbers)}" if definition.count > 1 else ""
        lines.append(f"Reworked: {part} {definition.name}{which}, {name} ({was} before): {how}.")
    return lines
