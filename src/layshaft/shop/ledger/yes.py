"""A customer's yes: who said it, to which total, how far it goes; and whether the price still lies within it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from layshaft.plan.price import Price
from layshaft.quantity import Money, QuantityFault
from layshaft.quantity.money import parse_money
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import Line, standing

HOW = ("at the counter", "by telephone", "in writing")
"""How a yes can reach the shop."""
LONGEST_NAME, LONGEST_WORDS = 120, 300


@dataclass(frozen=True, slots=True)
class Yes:
    """One yes on record. A job that was brought in from a file has no total with it."""

    entry: int
    who: str
    how: str
    at: str
    by: str
    total: str
    is_firm: bool
    up_to: str
    seen: int
    words: str


def yeses(lines: Sequence[Line]) -> Iterator[Yes]:
    """Every yes that counts, in the order given."""
    stands = standing(lines)
    for line in lines:
        if line.kind == "accepted" and stands[line.number] == "counts":
            told = {key: str(line.body.get(key, "")) for key in ("who", "how", "total", "words")}
            up_to, seen = str(line.body.get("up to", "")), int(line.body.get("entries", 0))
            is_firm = bool(line.body.get("is firm", True))
            yield Yes(entry=line.number, at=line.at, by=line.by, is_firm=is_firm, up_to=up_to, seen=seen, **told)


def yes_body(price: Price, version: int, who: str, how: str, up_to: str, words: str) -> dict[str, Any]:
    """What goes on record when a customer says yes to a price, worked out from so many entries."""
    if how not in HOW:
        raise Refused("how", f"How did the yes come? {', '.join(HOW).capitalize()}.")
    if len(who) > LONGEST_NAME or len(words) > LONGEST_WORDS:
        told = f"A name takes {LONGEST_NAME} signs, what was said {LONGEST_WORDS}. Write the rest down as a note."
        raise Refused("too long", told)
    bound = _bound(price, up_to)
    return {
        "who": " ".join(who.split()),
        "how": how,
        "total": str(price.total),
        "is firm": price.is_firm,
        **({"up to": str(bound)} if bound is not None else {}),
        "entries": version,
        "words": words.strip(),
    }


def _bound(price: Price, text: str) -> Money | None:
    """How far the shop may go without asking again."""
    if not text.strip():
        return None
    bare = text.strip()
    typed = bare if bare[-1:].isalpha() else f"{bare} {price.total.currency}"
    try:
        bound = parse_money(typed)
    except QuantityFault as fault:
        raise Refused("up to", f"Up to how much? {fault}") from None
    if bound.currency != price.total.currency:
        raise Refused("up to", f"Up to how much, in {price.total.currency}?")
    if bound < price.total:
        raise Refused("up to", f"The price stands at {price.told()} already: a yes up to {bound} is none to it.")
    return bound


def refuse_yes(line: Line) -> None:
    """Refuse a yes without a name, or to a price that something written meanwhile may have changed."""
    if line.kind != "accepted":
        return
    if not str(line.body.get("who", "")).strip():
        raise Refused("who", "Who said yes? A name is missing.")
    if "entries" in line.body and line.body["entries"] != line.number - 1:
        raise Refused("moved on", "Something was written on this job meanwhile. Look at the price again first.")


def within(price: Price, last: Yes | None) -> tuple[bool, str]:
    """Whether the price still lies within the last yes, and a sentence that says so."""
    if last is None:
        return False, "Nobody has said yes to a price on this job yet."
    said = _money(last.total)
    if said is None or said.currency != price.total.currency:
        return False, f"{last.who} said yes, but to what total is not on record. Ask again, and take it down here."
    bound = _money(last.up_to)
    told = f"{last.who} said yes to {'' if last.is_firm else 'at least '}{said}"
    if price.total <= said:
        less = "" if price.total == said else f"; it has come down by {said - price.total} since"
        return True, f"{told}{less}."
    more = price.total - said
    if bound is not None and price.total <= bound:
        return True, f"{told}, and up to {bound}; it has grown by {more} and lies within that."
    limit = f", and up to {bound}" if bound is not None else ""
    return False, f"{told}{limit}. It has grown by {more} since: ask again before work goes on."


def _money(text: str) -> Money | None:
    try:
        return parse_money(text) if text else None
    except QuantityFault:
        return None
