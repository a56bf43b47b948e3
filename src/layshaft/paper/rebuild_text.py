"""A worked-through job as text for a terminal: the verdicts, fits, price and what is open, in sentences."""

from __future__ import annotations

from typing import Any

from layshaft.paper.plan_text import wrapped

Row = dict[str, Any]
NOTHING_LEFT = "No step is left of taking it down, or none that can be planned; what stands first of all says which."


def rebuild_text(sheet: Row) -> str:
    """The sheet's main points: what to do first, then the open ones."""
    lines = [sheet["title"], "=" * len(sheet["title"])]
    lines += _section("First of all", sheet["now"])
    lines += _section("What is loaded now", sheet["loaded"])
    lines += _steps("How it comes apart from here", sheet["teardown"])
    lines += ["", *(line for note in (*sheet["notes"], *sheet["headline"]) for line in wrapped(note, 4))]
    lines += _section("Brought in for", [sheet["job"]["complaint"]] if sheet["job"]["complaint"] else [])
    lines += _section("Found at intake", sheet["intake"]["evidence"])
    lines += _section("Missing at intake", sheet["intake"]["missing"])
    lines += _section("Still open", [point["sentence"] for point in sheet["open"]])
    lines += _section("The fit, and what it gives", [fit["sentence"] for fit in sheet["fits"]])
    lines += _section("Sizes chosen", [_of_part(row) for row in sheet["chosen"]])
    lines += _section("What the drawer lacks", sheet["misses"])
    lines += _section("What else would do", sheet["others"])
    for group in sheet["found"]:
        lines += _section(group["title"], [_found(row) for row in group["rows"]])
    lines += _section("Passages to flush", [_of_part(row) for row in sheet["passages"]])
    lines += _section("To order, at what the shop pays", [f"{_of_part(row)}, {row['cost']}" for row in sheet["orders"]])
    risks = [f"{_of_part(row)}: {row['cost']}" for row in sheet["risks"]]
    lines += _section("Kept against a verdict, and what a comeback over it costs the shop", risks)
    priced = [*sheet["price"]["lines"], sheet["price"]["total"], *sheet["price"]["due"]]
    lines += _section("Price", [f"{what}: {amount}" for what, amount in priced])
    lines += _section("Price notes", sheet["price"]["notes"])
    lines += _section("Handing over", sheet["handover"])
    return "\n".join([*lines, "", *wrapped(sheet["foot"], 0)]) + "\n"


def teardown_text(sheet: Row) -> str:
    """How a job's unit comes apart from the state it is in: what to do first, what is loaded, the steps."""
    lines = [sheet["title"], "=" * len(sheet["title"])]
    lines += _section("First of all", sheet["now"])
    lines += _section("What is loaded now", sheet["loaded"])
    steps = _steps("How it comes apart from here", sheet["teardown"])
    return "\n".join([*lines, *(steps or ["", NOTHING_LEFT]), "", *wrapped(sheet["foot"], 0)]) + "\n"


def _steps(title: str, rows: list[Row]) -> list[str]:
    """Steps, each with its cautions right under its number, so that none reads as the end of the step before."""
    lines = ["", title] if rows else []
    for row in rows:
        mark = f"{row['mark']}: " if row["mark"] else ""
        lines += wrapped(f"  {row['number']:>3}  {mark}{row['what']}", 7)
        lines += [line for caution in row["cautions"] for line in wrapped(f"       ! {caution}", 9)]
        lines += [line for note in row["notes"] for line in wrapped(f"       {note}", 9)]
    return lines


def _found(row: Row) -> str:
    count = f", {row['count']}" if row["count"] else ""
    return f"{row['part']} {row['name']}{count}: {row['reason']}"


def _of_part(row: Row) -> str:
    return f"{row['part']} {row['sentence']}"


def _section(title: str, sentences: list[str]) -> list[str]:
    if not sentences:
        return []
    return ["", title, *(line for sentence in sentences for line in wrapped(f"  {sentence}", 4))]
