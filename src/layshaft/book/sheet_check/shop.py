"""A shop file by itself: one currency, nothing below nothing, gauges that say how wrong they can be, one list a day."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from layshaft.book.definition import Gauge, Press, Shop, Stock
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.sheet_check.line import line_faults
from layshaft.book.sheet_check.walk import figures
from layshaft.quantity import Money, Quantity

_CURRENCY = re.compile(r"[A-Z]{3}")


def shop_faults(shop: Shop) -> Iterator[Fault]:
    """Everything in a shop file that can be seen without a book."""
    yield from _money_faults(shop)
    yield from _size_faults(shop)
    yield from _percentage_faults(shop)
    for name, press in shop.presses.items():
        yield from _press_faults(press, ("presses", name))
    for name, gauge in shop.gauges.items():
        yield from _gauge_faults(gauge, name, ("gauges", name))
    yield from line_faults(shop)
    for part, stock in shop.drawer.items():
        yield from _stock_faults(stock, part, ("drawer", part))
    yield from _price_faults(shop)


def _money_faults(shop: Shop) -> Iterator[Fault]:
    if not _CURRENCY.fullmatch(shop.currency):
        yield fault("no currency", path=("currency",), found=shop.currency)
        return
    for path, amount in figures(shop):
        if not isinstance(amount, Money):
            continue
        if amount.currency != shop.currency:
            yield fault("currency", path=path, found=str(amount), due=shop.currency)
        if amount.amount < 0:
            yield fault("below nothing", path=path, found=str(amount))


def _size_faults(shop: Shop) -> Iterator[Fault]:
    for path, size in figures(shop):
        if isinstance(size, Quantity) and not size.dimension.is_absolute and size.low < 0:
            yield fault("below nothing", path=path, found=size.text)


def _percentage_faults(shop: Shop) -> Iterator[Fault]:
    told: list[tuple[Path, Fraction]] = []
    if shop.supplies is not None:
        told.append((("supplies", "percent of labour"), shop.supplies.percent_of_labour))
    if shop.tax is not None:
        told.append((("tax", "percent"), shop.tax.percent))
    if shop.reclaimed_percent is not None:
        told.append((("reclaimed percent",), shop.reclaimed_percent))
    told += [
        (("gauges", name, "u95 percent"), gauge.u95_percent)
        for name, gauge in shop.gauges.items()
        if gauge.u95_percent is not None
    ]
    for path, percent in told:
        if not 0 <= percent <= 100:
            yield fault("percentage", path=path, found=f"{float(percent):g}")


def _press_faults(press: Press, path: Path) -> Iterator[Fault]:
    for key, size in (
        ("ram area", press.ram_area),
        ("rating", press.rating),
        ("stroke", press.stroke),
        ("daylight", press.daylight),
    ):
        if size.low == 0:
            yield fault("nothing", path=(*path, key), found=size.text)
    gauge = press.gauge
    if gauge is None:
        return
    if gauge.range_.low == 0:
        yield fault("nothing", path=(*path, "gauge", "range"), found=gauge.range_.text)
    for key, part in (("step", gauge.step), ("u95", gauge.u95)):
        if part is not None and part.nominal > gauge.range_.nominal:
            yield fault("over its range", path=(*path, "gauge", key), found=part.text, range=gauge.range_.text)


def _gauge_faults(gauge: Gauge, name: str, path: Path) -> Iterator[Fault]:
    if gauge.u95 is not None and gauge.u95_percent is not None:
        yield fault("gauge told twice", path=(*path, "u95 percent"), name=name)
    if gauge.u95 is None and gauge.u95_percent is None:
        yield fault("gauge untold", path=path, name=name)
    if gauge.u95 and gauge.step and gauge.u95.dimension.exponents != gauge.step.dimension.exponents:
        yield fault(
            "wrong dimension",
            path=(*path, "step"),
            found=f"{gauge.step}, {gauge.step.dimension.name}",
            needed=f"{gauge.u95.dimension.name}, as its `u95` is",
        )
    if gauge.step is not None and gauge.step.low == 0:
        yield fault("nothing", path=(*path, "step"), found=gauge.step.text)
    if gauge.calibrated and gauge.due and gauge.due < gauge.calibrated:
        yield fault("due before calibrated", path=(*path, "due"), found=gauge.due, name=name)


def _stock_faults(stock: Stock, part: str, path: Path) -> Iterator[Fault]:
    if stock.count is not None and stock.sizes:
        yield fault("counted and sized", path=(*path, "count"), found=str(stock.count))
    if stock.count is None and not stock.sizes and not stock.measured:
        yield fault("nothing counted", path=path, part=part)


def _price_faults(shop: Shop) -> Iterator[Fault]:
    seen: set[tuple[str, str]] = set()
    for at, prices in enumerate(shop.prices):
        if (prices.from_, prices.source) in seen:
            yield fault("listed from twice", path=("prices", at, "from"), found=prices.from_, source=prices.source)
        seen.add((prices.from_, prices.source))
        for part, price in prices.parts.items():
            # Another currency is told above; here there is nothing to compare then.
            if price.cost.currency == price.list_.currency and price.cost > price.list_:
                yield fault(
                    "cost over list", path=("prices", at, "parts", part, "cost"), found=str(price.cost), part=part
                )
