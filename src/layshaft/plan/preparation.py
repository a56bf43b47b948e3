"""Work that has to start early, as steps: what takes longest by itself starts first."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from layshaft.book.definition import Unit
from layshaft.plan.step import PlannedStep

_UNTIL = {"fitting": "can go in", "measuring": "can be measured"}


def preparations(unit: Unit, parts: Collection[str], before: Literal["fitting", "measuring"]) -> list[PlannedStep]:
    """The preparations of a job that has these parts in hand, each once and for those of its parts."""
    at_hand = (one for one in unit.preparations.values() if any(name in parts for name in one.parts))
    due = [one for one in at_hand if one.before == before]
    due.sort(key=lambda one: -one.elapsed.si)
    return [
        PlannedStep(
            0,
            "prepare",
            one.what,
            parts=(named := tuple(name for name in one.parts if name in parts)),
            minutes=one.hands.si / 60,
            waits=one.elapsed.si / 60,
            why=(f"takes {one.elapsed.si / 60:.0f} minutes by itself before {', '.join(named)} {_UNTIL[before]}",),
            cautions=(one.caution,) if one.caution else (),
        )
        for one in due
    ]
