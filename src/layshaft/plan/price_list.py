"""Which price holds on a day: that of the newest list not after it that has the part. No price is never nothing."""

from __future__ import annotations

from dataclasses import dataclass

from layshaft.book.definition import Shop
from layshaft.quantity import Money, Quantity


@dataclass(frozen=True, slots=True)
class Offer:
    """What one part or kit costs on a day, where it comes from and how long that takes."""

    code: str
    list_price: Money
    cost: Money
    core: Money | None
    source: str
    lead: Quantity | None
    since: str


def offer_on(shop: Shop, code: str, day: str) -> Offer | None:
    """The offer of a part or kit that holds on a day; of two lists of one day the one written later."""
    newest = None
    for prices in shop.prices:
        if code in prices.parts and prices.from_ <= day and (newest is None or prices.from_ >= newest.from_):
            newest = prices
    if newest is None:
        return None
    price = newest.parts[code]
    return Offer(
        code=code,
        list_price=price.list_,
        cost=price.cost,
        core=price.core if price.core is not None and price.core.amount else None,
        source=price.source or newest.source,
        lead=price.lead or newest.lead,
        since=newest.from_,
    )
