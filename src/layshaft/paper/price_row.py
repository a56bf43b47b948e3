"""The price and the order list as they stand on the sheet."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from layshaft.book.definition.part import sold_name
from layshaft.plan.charge import Line
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.telling import Telling
from layshaft.quantity import Money

Row = dict[str, Any]


def price_row(it: Rebuild) -> Row:
    """Lines, total, what the customer pays where the shop pays, and what has to be said of them."""
    price = it.price
    other = (line for line in price.lines if line.kind != "labour")
    parts = [[f"{_number(line.number)}{line.what}{_noted(line)}", str(line.amount)] for line in other]
    labour = [[line.what, str(line.amount)] for line in price.lines if line.kind == "labour"]
    notes = [*price.open, *price.notes, *_opened(it)]
    whose = "Core deposit, the shop's too" if price.paid_by == "shop" else "Core deposit, apart from the total"
    notes += [f"{whose}: {core.name}, {core.deposit}." for core in price.cores]
    if price.if_renewed is not None:
        notes.append(f"Were all that is undecided renewed: {price.if_renewed}{_deposits(it)}.")
    return {
        "lines": [*labour, *parts],
        "total": ["In all", price.told()],
        "due": [["To pay, as the shop pays for this job", str(price.due)]] if price.paid_by == "shop" else [],
        "notes": notes,
    }


def _number(number: Fraction) -> str:
    return f"{number} × " if number.denominator == 1 and number > 1 else ""


def _noted(line: Line) -> str:
    """How a line comes to its amount where that is not its price by so many."""
    return f", {line.note}" if line.note else ""


def _deposits(it: Rebuild) -> str:
    """Core deposits if everything undecided were renewed: they come on top until the old parts are back."""
    undecided = (
        one.offer.core * one.pieces
        for one in it.order.undecided
        if one.offer is not None and one.offer.core is not None
    )
    total = Money.total((it.price.deposits, *undecided), it.price.total.currency)
    return f", and {total} of core deposits until the old parts are back" if total.amount else ""


def order_rows(it: Rebuild, telling: Telling) -> list[Row]:
    """What is ordered; the shop's cost is for its own eyes and stands in a field that is not set."""
    return [
        {
            "part": one.code,
            "sentence": f"{one.pieces} {one.name}"
            + (f", {telling.size(one.size)}" if one.size is not None else "")
            + f", from {one.offer.source}{_beyond_need(it, one.code)}",
            "cost": str(one.cost),
        }
        for one in it.order.bought
    ] + [
        {
            "part": one.part,
            "sentence": f"{one.pieces} {sold_name(it.unit.parts, one.part)}: no price known, not ordered yet",
            "cost": "no price",
        }
        for one in it.order.open
        if one.kind == "no price"
    ]


def _opened(it: Rebuild) -> list[str]:
    """Kits from the drawer that are opened for this job, and what of them goes back there."""
    kits = [kit for kit in it.order.kits if kit.from_drawer]
    return [f"From the drawer: {kit.from_drawer} × {kit.code} {kit.name}{_beyond_need(it, kit.code)}." for kit in kits]


def _beyond_need(it: Rebuild, code: str) -> str:
    """What a kit that is used holds beyond the need."""
    left = (kit.left for kit in it.order.kits if kit.code == code)
    told = [f"{pieces} × {part}" for parts in left for part, pieces in parts.items()]
    return f"; not needed of it, for the drawer: {', '.join(told)}" if told else ""
