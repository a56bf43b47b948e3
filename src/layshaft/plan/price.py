"""What a job costs, in exact decimals: parts, labour, shop supplies, tax; core deposits apart.

Each line is worked out exactly and rounded once to two decimals, half away from zero; sums are of rounded lines, and
tax is one line on such a sum. Where a price is missing or a verdict is open, the total is told as `at least`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Shop, Unit
from layshaft.book.definition.part import sold_name
from layshaft.plan.order_kit import KitUse
from layshaft.plan.order_list import Core, OrderList
from layshaft.plan.price_list import Offer, offer_on
from layshaft.quantity import Money

LineKind = Literal["part", "kit", "labour", "supplies", "tax"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a price: so much of something at so much each, rounded once."""

    kind: LineKind
    what: str
    number: Fraction
    each: Money | None
    amount: Money
    note: str = ""


@dataclass(frozen=True)
class Price:
    """A whole price; `total` is without core deposits, which come back with the old parts."""

    day: str
    lines: tuple[Line, ...]
    cores: tuple[Core, ...]
    total: Money
    open: tuple[str, ...]
    if_renewed: Money | None
    """The total if every open verdict goes against its part; nothing where no verdict is open or a price is missing."""

    @property
    def is_firm(self) -> bool:
        """Whether nothing can be added to the total any more."""
        return not self.open

    @property
    def deposits(self) -> Money:
        """All core deposits: on top of the total, held until the old parts are back."""
        return Money.total((core.deposit for core in self.cores), self.total.currency)

    def sum_of(self, *kinds: LineKind) -> Money:
        """The sum of the lines of some kinds."""
        return Money.total((line.amount for line in self.lines if line.kind in kinds), self.total.currency)

    def told(self) -> str:
        """The total in words."""
        return str(self.total) if self.is_firm else f"at least {self.total}"


def price_job(unit: Unit, shop: Shop, day: str, order: OrderList, labour: Iterable[tuple[str, Fraction]]) -> Price:
    """The price of a job on a day: what it needs, and what work takes how many minutes; `shop` as for `order_list`."""
    currency = shop.currency
    parts, missing = _part_lines(unit, shop, day, order)
    work = [_labour_line(shop, what, minutes) for what, minutes in labour]
    open_points = [*missing]
    open_points += [_undecided_sentence(one.part, one.name, one.waits_for, one.offer) for one in order.undecided]
    lines = [*parts, *work, *_supplies_line(shop, work)]
    lines += _tax_line(shop, lines)
    return Price(
        day=day,
        lines=tuple(lines),
        cores=order.cores,
        total=Money.total((line.amount for line in lines), currency),
        open=tuple(open_points),
        if_renewed=None if missing else _if_renewed(shop, order, parts, work),
    )


def _part_lines(unit: Unit, shop: Shop, day: str, order: OrderList) -> tuple[list[Line], list[str]]:
    """Parts at list price; a kit that is used is charged as a kit where that is less for the customer."""
    lines: list[Line] = []
    missing: list[str] = []
    in_kit: dict[str, int] = {}
    for kit in order.kits:
        line = _kit_line(shop, day, kit)
        if line is not None:
            lines.append(line)
            for part, pieces in kit.covers.items():
                in_kit[part] = in_kit.get(part, 0) + pieces
    for need in order.needs:
        used = sum(one.pieces for one in order.taken if one.part == need.part and one.is_reclaimed)
        used, covered = (used, in_kit.get(need.part, 0)) if need.size is None else (0, 0)
        new = need.pieces - covered - used
        what = f"{need.part} {sold_name(unit.parts, need.part)}"
        offer = offer_on(shop, need.part, day)
        if offer is None and new + used:
            missing.append(f"{what}: {new + used} needed, but no price list has it on {day}.")
            continue
        if offer is not None and new:
            amount = offer.list_price.rounded_product(new)
            lines.append(Line("part", what, Fraction(new), offer.list_price, amount, f"price of {offer.since}"))
        if offer is not None and used:
            reclaimed = _reclaimed_line(shop, what, used, offer)
            if reclaimed is None:
                missing.append(f"{what}: {used} reclaimed, but the shop file does not say what those are charged at.")
            else:
                lines.append(reclaimed)
    return lines, missing


def _kit_line(shop: Shop, day: str, kit: KitUse) -> Line | None:
    singles = [_charged(shop, day, part, pieces) for part, pieces in kit.covers.items()]
    known = [amount for amount in singles if amount is not None]
    amount = kit.offer.list_price.rounded_product(kit.pieces)
    if len(known) == len(singles) and not amount < Money.total(known, shop.currency):
        return None
    what = f"{kit.code} {kit.name}"
    return Line("kit", what, Fraction(kit.pieces), kit.offer.list_price, amount, f"price of {kit.offer.since}")


def _reclaimed_line(shop: Shop, what: str, pieces: int, offer: Offer) -> Line | None:
    percent = shop.reclaimed_percent
    if percent is None:
        return None
    each = offer.list_price.rounded_product(percent / 100)
    note = f"reclaimed, measured, at {float(percent):g} % of list"
    return Line("part", what, Fraction(pieces), each, each.rounded_product(pieces), note)


def _charged(shop: Shop, day: str, part: str, pieces: int) -> Money | None:
    offer = offer_on(shop, part, day)
    return None if offer is None else offer.list_price.rounded_product(pieces)


def _labour_line(shop: Shop, what: str, minutes: Fraction) -> Line:
    if minutes < 0:
        raise ValueError(f"{what} takes {minutes} min: no work takes less than nothing")
    hours = Fraction(minutes) / 60
    return Line("labour", what, hours, shop.labour_rate, shop.labour_rate.rounded_product(hours))


def _supplies_line(shop: Shop, work: Iterable[Line]) -> list[Line]:
    if shop.supplies is None:
        return []
    base = Money.total((line.amount for line in work), shop.currency)
    percent = shop.supplies.percent_of_labour
    amount, note = base.rounded_product(percent / 100), ""
    if shop.supplies.at_most is not None and shop.supplies.at_most < amount:
        amount, note = shop.supplies.at_most.rounded(), f"at most {shop.supplies.at_most}"
    return [Line("supplies", f"Shop supplies, {float(percent):g} % of labour", percent / 100, base, amount, note)]


def _tax_line(shop: Shop, lines: Iterable[Line]) -> list[Line]:
    if shop.tax is None:
        return []
    kinds = ("part", "kit") if shop.tax.on == "parts" else ("part", "kit", "labour", "supplies")
    base = Money.total((line.amount for line in lines if line.kind in kinds), shop.currency)
    share = shop.tax.percent / 100
    on = "parts" if shop.tax.on == "parts" else "parts, labour and supplies"
    return [Line("tax", f"Tax, {float(shop.tax.percent):g} % on {on}", share, base, base.rounded_product(share))]


def _if_renewed(shop: Shop, order: OrderList, parts: list[Line], work: list[Line]) -> Money | None:
    if not order.undecided or any(one.offer is None for one in order.undecided):
        return None
    added = [
        Line(
            "part",
            one.part,
            Fraction(one.pieces),
            one.offer.list_price,
            one.offer.list_price.rounded_product(one.pieces),
        )
        for one in order.undecided
        if one.offer is not None
    ]
    lines = [*parts, *added, *work, *_supplies_line(shop, work)]
    return Money.total((line.amount for line in [*lines, *_tax_line(shop, lines)]), shop.currency)


def _undecided_sentence(part: str, name: str, waits_for: str, offer: Offer | None) -> str:
    money = f"{offer.list_price} each" if offer is not None else "no price known"
    # A reason begins with the part's name, which stands in front of it already.
    why = waits_for.removeprefix(f"{name}: ").rstrip(".")
    return f"{part} {name} may be added ({money}): {why}."
