"""Lines of a drawer or a price list: `PART`, or `PART where CONDITION` where what is bought differs by variant."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from layshaft.book.book import Book
from layshaft.book.definition import Shop, Unit
from layshaft.book.definition.part import sold_id, sold_ids
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.option import read_condition
from layshaft.quantity import LENGTH, parse_quantity

Line = TypeVar("Line")

KEY = "[key]"
"""What ends a path that leads to a key rather than to what stands behind it."""


def split_line(name: str) -> tuple[str, str | None] | None:
    """The part or kit and the condition a line is named by, or nothing where one of them is empty."""
    part, where, condition = f"{name} ".partition(" where ")
    if not where:
        return name, None
    return (part, condition.strip()) if part and condition.strip() else None


def _tables(shop: Shop) -> Iterator[tuple[Path, Iterable[str]]]:
    yield ("drawer",), shop.drawer
    for at, prices in enumerate(shop.prices):
        yield ("prices", at, "parts"), prices.parts


def line_faults(shop: Shop) -> Iterator[Fault]:
    """Each line whose name cannot be read."""
    for path, names in _tables(shop):
        for name in names:
            if split_line(name) is None:
                yield fault("line name", path=(*path, name), found=name)


def strange_line_faults(shop: Shop, books: Iterable[Book]) -> Iterator[Fault]:
    """A note on each line that is of none of the books at hand."""
    known = {name: None for book in books for unit in book.units.values() for name in _names(unit)}
    for path, names in _tables(shop):
        for name in names:
            split = split_line(name)
            if split is not None and split[0] not in known:
                near = nearest_try(split[0], known)
                yield fault("in no book", path=(*path, name, KEY), found=split[0], try_=near)


def book_line_faults(shop: Shop, book: Book) -> Iterator[Fault]:
    """Each line of this book's parts that its variants cannot tell apart, and each that sells what is not sold."""
    for path, names in _tables(shop):
        for part, lines in _lines_of(names, book).items():
            yield from _condition_faults(part, lines, book, path)
    units = list(book.units.values())
    for path, names in _tables(shop):
        for name in names:
            yield from _sold_faults(name, units, (*path, name))
    for name, stock in shop.drawer.items():
        yield from _size_faults(name, tuple(stock.sizes), stock.count, units)


def _names(unit: Unit) -> tuple[str, ...]:
    """Everything a line can be named by: what is sold, single places of it, and kits."""
    return (*sold_ids(unit.parts), *unit.parts, *unit.kits)


def _lines_of(names: Iterable[str], book: Book) -> dict[str, list[tuple[str, str | None]]]:
    known = {name for unit in book.units.values() for name in _names(unit)}
    found: dict[str, list[tuple[str, str | None]]] = {}
    for name in names:
        split = split_line(name)
        if split is not None and split[0] in known:
            found.setdefault(split[0], []).append((name, split[1]))
    return found


def _condition_faults(part: str, lines: list[tuple[str, str | None]], book: Book, path: Path) -> Iterator[Fault]:
    sound: list[str] = []
    for name, condition in lines:
        read = read_condition(condition, book.options) if condition is not None else None
        if isinstance(read, Fault):
            yield replace(read, path=(*path, name, KEY))
        else:
            sound.append(name)
    for variant in book.variants:
        matching = [name for name in sound if _holds(name, book, variant)]
        if len(matching) > 1:
            yield fault(
                "lines overlap", path=(*path, matching[1], KEY), found=listed(matching), part=part, variant=variant
            )
            return


def _holds(name: str, book: Book, variant: str) -> bool:
    split = split_line(name)
    if split is None or split[1] is None:
        return split is not None
    condition = read_condition(split[1], book.options)
    return not isinstance(condition, Fault) and condition.holds(book.variants[variant].answers)


def _sold_faults(name: str, units: list[Unit], path: Path) -> Iterator[Fault]:
    split = split_line(name)
    if split is None:
        return
    known = [unit for unit in units if split[0] in _names(unit)]
    for id, found_in in (("not sold", _comes_in), ("sold by another id", _sold_as)):
        found = {found_in(unit, split[0]) for unit in known}
        if found and None not in found:
            yield fault(id, path=(*path, KEY), found=listed(sorted(str(one) for one in found)), part=split[0])


def _comes_in(unit: Unit, name: str) -> str | None:
    """What a line's part comes in, or nothing where it is sold."""
    served = {part.served_in for one, part in unit.parts.items() if sold_id(unit.parts, one) == name}
    return next(iter(served)) if len(served) == 1 else None


def _sold_as(unit: Unit, name: str) -> str | None:
    """The id that a line's part is sold by, or nothing where it is the line's own."""
    return unit.parts[name].sold_as if name in unit.parts and name not in sold_ids(unit.parts) else None


def _size_faults(name: str, sizes: tuple[str, ...], count: int | None, units: list[Unit]) -> Iterator[Fault]:
    split = split_line(name)
    if split is None:
        return
    parts = [part for unit in units for name, part in unit.parts.items() if sold_id(unit.parts, name) == split[0]]
    sold = {size.nominal: size.text for part in parts if part.selective for size in part.selective.sizes}
    if not sold:
        return
    if count:
        yield fault("unsized", path=("drawer", name, KEY), found=str(count), part=split[0])
    for size in sizes:
        if parse_quantity(size, LENGTH).nominal not in sold:
            yield fault(
                "size not sold",
                path=("drawer", name, "sizes", size),
                found=size,
                needed=listed(sold.values()),
                part=split[0],
            )


def narrow_shop(shop: Shop, book: Book, variant: str) -> Shop:
    """The shop as one variant sees it: every line of its drawer and prices named by a part or a kit alone."""
    unit = book.unit(variant)
    known = set(_names(unit))

    def narrowed(lines: Mapping[str, Line]) -> dict[str, Line]:
        kept: dict[str, Line] = {}
        for name, line in lines.items():
            split = split_line(name)
            if split is not None and split[0] in known and _holds(name, book, variant):
                kept[split[0]] = line
        return kept

    prices = tuple(one.model_copy(update={"parts": narrowed(one.parts)}) for one in shop.prices)
    return shop.model_copy(update={"drawer": narrowed(shop.drawer), "prices": prices})
