"""Work under a load, on record: which load is held now, and what asks for a second person's name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from layshaft.shop.ledger.models import Job, Person, Role


def held_after(held: str, kind: str, body: Mapping[str, Any]) -> str:
    """The load that is held by a release way after an entry, or nothing."""
    if kind != "done":
        return held
    if body.get("held"):
        return str(body["held"])
    return "" if body.get("let off") else held


def asks_for_second(job: Job, kind: str, body: Mapping[str, Any], by: Person) -> str:
    """Why an entry needs a countersignature, or nothing: an apprentice's hand under a load, and taking one up."""
    if kind != "done" or by.role != Role.APPRENTICE:
        return ""
    is_under_load = bool(job.held_load) and bool({"off", "partly", "let off"} & body.keys())
    if not (is_under_load or {"held", "zero proved"} & body.keys()):
        return ""
    return "Work under a load by an apprentice wants the name of a rebuilder who watched it."
