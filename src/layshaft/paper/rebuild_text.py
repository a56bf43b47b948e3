"""A worked-through job as text for a terminal: the verdicts, fits, price and what is open, in sentences."""

from __future__ import annotations

from typing import Any

from layshaft.paper.plan_text import wrapped


def rebuild_text(sheet: dict[str, Any]) -> str:
    """The sheet's main points, the open ones first."""
    lines = [sheet["title"], "=" * len(sheet["title"])]
    lines += _section("First of all", sheet["now"])
    lines += ["", *sheet["headline"]]
    lines += _section("Still open", [point["sentence"] for point in sheet["open"]])
    lines += _section("Fits", [f"{fit['sentence']}" for fit in sheet["fits"]])
    lines += _section("Sizes", [f"{row['part']} {row['sentence']}" for row in sheet["chosen"]])
    for group in sheet["found"]:
        rows = [f"{row['part']} {row['name']}: {row['reason']}" for row in group["rows"]]
        lines += _section(group["title"], rows)
    lines += _section("To order", [f"{row['part']} {row['sentence']}" for row in sheet["orders"]])
    priced = [*sheet["price"]["lines"], sheet["price"]["total"]]
    lines += _section("Price", [f"{what}: {amount}" for what, amount in priced])
    lines += _section("Price notes", sheet["price"]["notes"])
    return "\n".join(lines) + "\n"


def _section(title: str, sentences: list[str]) -> list[str]:
    if not sentences:
        return []
    return ["", title, *(line for sentence in sentences for line in wrapped(f"  {sentence}", 4))]
