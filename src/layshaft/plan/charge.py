"""What new and used pieces are charged to the customer: at list, and as a kit wherever that is less for the customer.

How the shop comes by the pieces does not matter here: from the drawer, out of a kit or one by one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Shop, Unit
from layshaft.book.definition.part import sold_name
from layshaft.plan.order_kit import KitUse, choose_kits, price_to_customer, use_kits
from layshaft.plan.order_list import OrderList, in_sizes, kit_offers
from layshaft.plan.order_need import Need
from layshaft.plan.price_list import Offer, offer_on
from layshaft.quantity import Money

LineKind = Literal["part", "kit", "labour", "supplies", "tax"]
TOO_MANY = "There are too many ways to make up this price from kits; single parts are charged."


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a price: so much of something at so much each, rounded once."""

    kind: LineKind
    what: str
    number: Fraction
    each: Money | None
    amount: Money
    note: str = ""
    since: str = ""
    """The day of the list that the price is of, where it is a list price."""


@dataclass(frozen=True)
class Charge:
    """The lines for parts, what has no price, what a charged kit holds beyond the need, what has to be said."""

    lines: tuple[Line, ...]
    missing: tuple[str, ...]
    left: Mapping[str, int]
    notes: tuple[str, ...]


def charge_parts(
    unit: Unit, shop: Shop, day: str, order: OrderList, more: Mapping[str, int] | None = None
) -> Charge:
    """Parts as they are charged on a day; `more` are pieces that go in new beside those of the order."""
    beside = Counter(more or {})
    sized = in_sizes(unit)
    fresh = Counter(order.fresh) + Counter({part: pieces for part, pieces in beside.items() if part not in sized})
    singles = {part: offer_on(shop, part, day) for part in fresh}
    # What lies in the drawer is charged as what is bought.
    offers = [replace(kit, on_hand=0) for kit in kit_offers(unit, shop, day)]
    choice = choose_kits(fresh, offers, singles, price_to_customer)
    kits = use_kits(choice, offers, fresh)
    in_kits, left = Counter[str](), Counter[str]()
    for kit in kits:
        in_kits.update(kit.covers)
        left.update(kit.left)
    found = _Lines(unit, shop, day)
    for kit in kits:
        found.add_kit(kit)
    for need in (*order.needs, *(Need(part, pieces, ()) for part, pieces in beside.items())):
        covered = min(in_kits[need.part], need.pieces) if need.size is None else 0
        in_kits[need.part] -= covered
        alike = (one for one in order.taken if (one.part, one.size) == (need.part, need.size))
        used = sum(one.pieces for one in alike if one.is_reclaimed)
        found.add(need.part, need.pieces - covered, used if need.why else 0)
    notes = [_told(unit, kit, singles) for kit in kits]
    notes += [] if choice.is_all_tried else [TOO_MANY]
    return Charge(tuple(found.lines), tuple(found.missing), left, tuple(notes))


def _told(unit: Unit, kit: KitUse, singles: Mapping[str, Offer | None]) -> str:
    """Why a kit is charged, and what of it does not go in."""
    is_priced = all(singles[part] is not None for part in kit.covers)
    why = "which is less for the customer than its parts one by one" if is_priced else "as a part of it has no price"
    names = (f"{pieces} × {part} {sold_name(unit.parts, part)}" for part, pieces in kit.left.items())
    left = f"; not fitted of what it holds: {', '.join(names)}" if kit.left else ""
    return f"{kit.code} {kit.name} is charged as a kit, {why}{left}."


class _Lines:
    """Lines as they are found, and what no line can be made for."""

    def __init__(self, unit: Unit, shop: Shop, day: str) -> None:
        self.unit, self.shop, self.day = unit, shop, day
        self.lines: list[Line] = []
        self.missing: list[str] = []

    def add_kit(self, kit: KitUse) -> None:
        amount = kit.offer.list_price.rounded_product(kit.pieces)
        what, since = f"{kit.code} {kit.name}", kit.offer.since
        self.lines.append(Line("kit", what, Fraction(kit.pieces), kit.offer.list_price, amount, since=since))

    def add(self, part: str, pieces: int, used: int) -> None:
        """So many pieces of a part that no kit covers, some of them used ones."""
        new = pieces - used
        what = f"{part} {sold_name(self.unit.parts, part)}"
        offer = offer_on(self.shop, part, self.day)
        if offer is None:
            if pieces:
                self.missing.append(f"{what}: {pieces} needed, but no price list has it on {self.day}.")
            return
        if new:
            amount = offer.list_price.rounded_product(new)
            self.lines.append(Line("part", what, Fraction(new), offer.list_price, amount, since=offer.since))
        if used:
            self._add_used(what, used, offer)

    def _add_used(self, what: str, pieces: int, offer: Offer) -> None:
        percent = self.shop.reclaimed_percent
        if percent is None:
            told = f"{what}: {pieces} reclaimed, but the shop file does not say what those are charged at."
            self.missing.append(told)
            return
        each = offer.list_price.rounded_product(percent / 100)
        note = f"reclaimed, measured, at {float(percent):g} % of list"
        self.lines.append(Line("part", what, Fraction(pieces), each, each.rounded_product(pieces), note))
