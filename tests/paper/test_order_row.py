"""The order list on paper: what has no price, what is sold under another name, and the price of the very day."""

from __future__ import annotations

from functools import cache
from typing import Any

from layshaft.paper.rebuild_text import rebuild_text
from layshaft.plan.rebuild import Rebuild
from tests.paper.two_jobs import BOOKS, INCH_JOB, INCH_SHOP, sheet_of, worked_through

FLAT = """\
looks:
  - {part: LL-046-1, look: rollers, grade: flats}
  - {part: LL-046-2, look: rollers, grade: pits}
"""
NAMED = "LL-046 Main gear needle cage"
PRICES = """\
prices:
  - from: 2026-01-01
    source: Dray Street bearings
    lead: 2 days
    parts: {LL-046: {list: 14.00 CUR, cost: 7.00 CUR}}
  - from: 2026-11-02
    source: Tarnwick parts counter
    lead: 1 day
    parts: {LL-046: {list: 15.50 CUR, cost: 7.75 CUR}}
"""


@cache
def needles(prices: str = PRICES, today: str = "2026-11-02") -> Rebuild:
    job = INCH_JOB.replace("today: 2026-11-02", f"today: {today}")
    return worked_through("layline", job + FLAT, INCH_SHOP + prices)


def ordered(rebuilt: Rebuild, part: str = "LL-046") -> list[dict[str, Any]]:
    return [row for row in sheet_of(rebuilt)["orders"] if row["part"] == part]


def test_places_are_ordered_and_charged_by_what_they_are_sold_as() -> None:
    """Two places of one sold cage are one line of two, under the name that their places share."""
    found = needles()
    assert ordered(found) == [
        {
            "part": "LL-046",
            "sentence": "2 Main gear needle cage, from Tarnwick parts counter",
            "cost": "15.50 CUR",
        }
    ]
    assert dict(sheet_of(found)["price"]["lines"])[f"2 × {NAMED}"] == "31.00 CUR"
    assert not [row for row in sheet_of(found)["orders"] if row["part"].startswith("LL-046-")]


def test_what_has_no_price_stands_on_the_order_list_and_makes_the_total_at_least() -> None:
    found = needles(prices="")
    assert ordered(found) == [
        {"part": "LL-046", "sentence": "2 Main gear needle cage: no price known, not ordered yet", "cost": "no price"}
    ]
    sheet = sheet_of(found)
    asked = f"{NAMED}: 2 to buy, but no price list has it on 2026-11-02. Ask for a price."
    assert asked in [row["sentence"] for row in sheet["open"]]
    assert sheet["price"]["total"][1].startswith("at least ")
    assert not [what for what, _ in sheet["price"]["lines"] if "LL-046" in what]
    assert f"{NAMED}: 2 needed, but no price list has it on 2026-11-02." in sheet["price"]["notes"]
    assert "2 Main gear needle cage: no price known, not ordered yet, no price" in " ".join(rebuild_text(sheet).split())


def test_a_list_holds_from_its_very_day_on() -> None:
    """A list of 2026-11-02: on the day before, the one before; on the day itself and after it, the new one."""
    before = PRICES.replace("from: 2026-11-02", "from: 2026-11-03")
    assert [row["cost"] for row in ordered(needles(before))] == ["14.00 CUR"]
    assert [row["cost"] for row in ordered(needles())] == ["15.50 CUR"]
    assert [row["cost"] for row in ordered(needles(today="2026-11-03"))] == ["15.50 CUR"]
    none_yet = PRICES.replace("from: 2026-01-01", "from: 2026-11-03").replace("from: 2026-11-02", "from: 2026-11-04")
    assert [row["cost"] for row in ordered(needles(none_yet))] == ["no price"]


def test_a_deposit_is_asked_of_whoever_pays() -> None:
    """The carrier of the shipped job, renewed, has a deposit of 90.00."""
    job, shop = [(BOOKS / "demo" / f"{kind}.yaml").read_text("utf-8") for kind in ("job", "shop")]
    job = job.replace("choices:\n", "choices:\n  - {renew: OT-054, by: maddick}\n")
    paid = job.replace("\nopened:", "\npaid by: shop\nopened:")
    for text, told in ((job, "Core deposit, apart from the total: "), (paid, "Core deposit, the shop's too: ")):
        notes = sheet_of(worked_through("overtop", text, shop))["price"]["notes"]
        assert [note for note in notes if note.startswith(told)] == [f"{told}Planet carrier assembly, 90.00 CUR."]
