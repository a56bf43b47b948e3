"""What has to line up: told where the load that goes home meanwhile is taken up, else where the later part goes in."""

from __future__ import annotations

from collections.abc import Container

from layshaft.book.definition import Alignment, Unit
from layshaft.plan.bench import Bench


def lined_up_under(unit: Unit, load: str) -> tuple[str, ...]:
    """What has to line up while a load goes home."""
    return tuple(_told(one) for one in unit.alignments.values() if one.while_load == load)


def lined_up_with(bench: Bench, part: str, detached: int, loads: Container[str | None]) -> tuple[str, ...]:
    """What has to line up as a part goes in and with it the last of what is named comes together.

    `detached` is what is still out after that; `loads` go home on their own steps, and are told there.
    """
    before = detached | bench.bit(part)
    return tuple(
        _told(one)
        for one in bench.unit.alignments.values()
        if one.while_load not in loads
        and not _is_together(bench, one, before)
        and _is_together(bench, one, detached)
    )


def _is_together(bench: Bench, alignment: Alignment, detached: int) -> bool:
    return not detached & bench.joining(alignment.parts)


def _told(alignment: Alignment) -> str:
    tool = f" Tool: {alignment.tool}." if alignment.tool else ""
    turn = f" It may have to turn by up to {alignment.turn_at_most}." if alignment.turn_at_most else ""
    return f"{alignment.how.rstrip('.')}.{tool}{turn} Proved by: {alignment.proved_by.rstrip('.')}."
