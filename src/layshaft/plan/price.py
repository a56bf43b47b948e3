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
from layshaft.plan.charge import Charge, Line, LineKind, charge_parts
from layshaft.plan.order_list import Core, OrderList, Undecided
from layshaft.quantity import Money


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
    notes: tuple[str, ...] = ()
    """What has to be said about the lines: kits that are charged as such."""
    paid_by: Literal["customer", "shop"] = "customer"

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

    @property
    def due(self) -> Money:
        """What the customer owes of the total: nothing where the shop pays, and the lines stand for the record."""
        return self.total if self.paid_by == "customer" else Money.total((), self.total.currency)

    def told(self) -> str:
        """The total in words."""
        return str(self.total) if self.is_firm else f"at least {self.total}"


def price_job(
    unit: Unit,
    shop: Shop,
    day: str,
    order: OrderList,
    labour: Iterable[tuple[str, Fraction]],
    paid_by: Literal["customer", "shop"] = "customer",
    untimed: tuple[str, ...] = (),
) -> Price:
    """The price of a job on a day: what it needs, and what work takes how many minutes; `shop` as for `order_list`.

    `untimed` says which work nobody knows the minutes of: the total is told as `at least`.
    """
    charged = charge_parts(unit, shop, day, order)
    parts, missing = charged.lines, charged.missing
    work = [_labour_line(shop, what, minutes) for what, minutes in labour]
    lines = _with_supplies_and_tax(shop, [*parts, *work])
    return Price(
        day=day,
        lines=lines,
        cores=order.cores,
        total=_total(shop, lines),
        open=(*missing, *untimed, *(_undecided_sentence(one, charged) for one in order.undecided)),
        if_renewed=None if missing or untimed else _if_renewed(unit, shop, day, order, work),
        notes=charged.notes,
        paid_by=paid_by,
    )


def _total(shop: Shop, lines: Iterable[Line]) -> Money:
    return Money.total((line.amount for line in lines), shop.currency)


def _with_supplies_and_tax(shop: Shop, lines: list[Line]) -> tuple[Line, ...]:
    lines = [*lines, *_supplies_line(shop, [line for line in lines if line.kind == "labour"])]
    return (*lines, *_tax_line(shop, lines))


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


def _if_renewed(unit: Unit, shop: Shop, day: str, order: OrderList, work: list[Line]) -> Money | None:
    if not order.undecided or any(one.offer is None for one in order.undecided):
        return None
    charged = charge_parts(unit, shop, day, order, {one.part: one.pieces for one in order.undecided})
    return _total(shop, _with_supplies_and_tax(shop, [*charged.lines, *work]))


def _undecided_sentence(one: Undecided, charged: Charge) -> str:
    money = f"{one.offer.list_price} each" if one.offer is not None else "no price known"
    if charged.left.get(one.part, 0) >= one.pieces:
        money = "in a kit that is charged already"
    # A reason begins with the part's name, which stands in front of it already.
    why = one.waits_for.removeprefix(f"{one.name}: ").rstrip(".")
    return f"{one.part} {one.name} may be added ({money}): {why}."
