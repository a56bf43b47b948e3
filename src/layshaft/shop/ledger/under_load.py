"""Work under a load, on record: which load is held now, and what asks for a second person's name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from layshaft.shop.ledger.desk import book_of
from layshaft.shop.ledger.models import Job, Person, Role


def held_after(held: str, kind: str, body: Mapping[str, Any]) -> str:
    """The load that is held by a release way after an entry, or nothing."""
    if kind == "fitted" and body.get("step") in ("compress", "let home"):
        return str(body["load"]) if body["step"] == "compress" else ""
    if kind != "done":
        return held
    if body.get("held"):
        return str(body["held"])
    return "" if body.get("let off") else held


def asks_for_second(job: Job, kind: str, body: Mapping[str, Any], by: Person) -> str:
    """Why an entry needs a countersignature, or nothing: an apprentice's hand under a load, and taking one up."""
    if by.role != Role.APPRENTICE:
        return ""
    if kind in ("fitted", "taken out"):
        return _asks_for_fitting(job, kind, body)
    if kind != "done":
        return ""
    is_under_load = bool(job.held_load) and bool({"off", "partly", "let off"} & body.keys())
    if not (is_under_load or {"held", "zero proved"} & body.keys()):
        return ""
    return "Work under a load by an apprentice wants the name of a rebuilder who watched it."


def _asks_for_fitting(job: Job, kind: str, body: Mapping[str, Any]) -> str:
    """The same for putting together, where a one-way clutch is watched as well."""
    if job.held_load or body.get("load") or (kind == "taken out" and body.get("loads")):
        return "Work under a load by an apprentice wants the name of a rebuilder who watched it."
    parts = book_of(job.book).unit(job.variant).parts
    named = [part for part in body.get("parts", ()) if part in parts]
    if kind == "fitted" and any(parts[part].class_.startswith("one-way") for part in named):
        return "A one-way clutch fitted by an apprentice wants the name of a rebuilder who saw which way round it is."
    return ""
