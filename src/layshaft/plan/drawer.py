"""What there is to choose from for a unit: sizes in a drawer, a part's own size, used plates with their figures."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from layshaft.book.definition import Choice, Stock, Unit
from layshaft.book.sheet_check.selective import AS_SHOWN
from layshaft.book.size import Leaf, Span
from layshaft.gauging.assortment import Pool, Selective, Size
from layshaft.gauging.window import is_inside
from layshaft.plan.figure import Figure
from layshaft.plan.judgement import Judgement
from layshaft.plan.measured import Measured, doubt_of
from layshaft.plan.read_size import Doubt
from layshaft.quantity import LENGTH, Quantity, parse_quantity

COVERAGE = 2.0
"""So many standard uncertainties either way a reading may err, near 95 of 100 times (JCGM 100:2008, 6.3.3)."""
Taken = tuple[Span, Doubt | None]


@dataclass(frozen=True, slots=True)
class OwnPiece:
    """One piece that the unit came in with and that may go in again: it can lie in one place only."""

    part: str
    piece: int
    place: str
    size: Fraction
    doubt: Doubt | None


@dataclass(frozen=True, slots=True)
class SelectivePlace:
    """A place for one selective part: the leaf its size sets, and what may go there."""

    name: str
    part: str
    piece: int
    leaf: Leaf
    offer: Selective
    own: tuple[OwnPiece, ...]
    """The unit's own pieces, as read, that may go here: also those of other places of one sold part."""
    stock: Mapping[Fraction, int]
    """What the drawer holds new by size."""
    used: Mapping[Fraction, int]
    """Used pieces that it holds, by their figure."""
    tolerance: Fraction
    choice: Choice | None = None
    """Who has chosen its size, whatever it gives."""
    new: tuple[Fraction, Taken] | None = None
    """The size of the piece that goes in, and its own figure, where someone has measured it already."""
    read_new: Figure | None = None
    """That reading, whatever size it is of."""

    @property
    def drawer(self) -> str:
        """What places take from together have one name."""
        return self.offer.drawer or self.name

    @property
    def own_sizes(self) -> frozenset[Fraction]:
        """The sizes of the unit's own pieces."""
        return frozenset(one.size for one in self.own)

    @property
    def fixed(self) -> Fraction | None:
        """The size that someone has chosen, where there is a piece of it or one can be bought."""
        return None if self.choice is None or self.is_refused else self.offer.sizes[0].value

    @property
    def is_refused(self) -> bool:
        """Whether someone has chosen a size of which there is no piece for this place, nor one to be bought."""
        return self.choice is not None and not self.offer.sizes

    def taken(self, size: Fraction, own: OwnPiece | None, is_used: bool = False) -> Taken:
        """What stands in the chain once a size is chosen, and with it one of the unit's own pieces or another."""
        if own is not None:
            return Span.exactly(size), own.doubt
        if self.new is not None and self.new[0] == size:
            return self.new[1]
        if is_used:
            return Span.exactly(size), None
        return Span(size - self.tolerance, size, size + self.tolerance), None


@dataclass(frozen=True, slots=True)
class PlatePool:
    """Used plates of the drawer for the pieces of a part that are renewed."""

    part: str
    leaves: tuple[Leaf, ...]
    pool: Pool
    numbers: tuple[int, ...]
    """Where each piece of the pool stands in the drawer's list, from 1."""

    def figures(self, numbers: Iterable[int]) -> tuple[Fraction, ...]:
        """The figures of plates by their number."""
        return tuple(self.pool.pieces[self.numbers.index(number)] for number in numbers)


def selective_places(
    unit: Unit, measured: Measured, judgements: Mapping[str, Judgement], drawer: Mapping[str, Stock]
) -> tuple[SelectivePlace, ...]:
    """Every place of a selective part, with its sizes and how many of each are on hand."""
    selectives = [part for part, definition in unit.parts.items() if definition.selective is not None]
    alike = {
        part: [other for other in selectives if sold_id(unit, other) == sold_id(unit, part)] for part in selectives
    }
    found = []
    for part in selectives:
        # Places of one sold part take from one drawer, and from each other what the unit itself has.
        own = tuple(one for other in alike[part] for one in _own_pieces(measured, judgements, other))
        sold = {size for other in alike[part] for size in _listed(unit, other)}
        is_shared = unit.parts[part].count > 1 or len(alike[part]) > 1
        held = drawer.get(sold_id(unit, part))
        used = _used_in_drawer(unit, alike[part], held)
        found += list(_places(measured, part, own, sold, (_in_drawer(held), used), is_shared))
    return _without_refused(found)


def _places(
    measured: Measured,
    part: str,
    own: tuple[OwnPiece, ...],
    sold: set[Fraction],
    held: tuple[Counter[Fraction], Counter[Fraction]],
    is_shared: bool,
) -> Iterator[SelectivePlace]:
    unit = measured.unit
    definition = unit.parts[part]
    selective = definition.selective
    assert selective is not None
    choice = _choice(measured, part)
    listed = _listed(unit, part)
    stock, used = held
    # A part that is there and fits comes before one that has to be taken from the drawer.
    wanted = [*(one.size for one in own), *used, *listed]
    if choice is not None and choice.size is not None:
        figures = [*(one.size for one in own), *used]
        wanted = [_meant(choice.size.nominal, figures, sold | stock.keys())]
    on_hand = Counter(one.size for one in own) + stock + used
    sizes = tuple(Size(size, on_hand[size], is_sold=size in sold) for size in dict.fromkeys(wanted))
    tolerance = selective.size_tolerance.nominal if selective.size_tolerance else Fraction(0)
    for piece in range(definition.count):
        name = place_name(unit, part, piece)
        leaf = Leaf(part, selective.from_, selective.to, piece)
        offer = Selective(name, sizes, sold_id(unit, part) if is_shared else None)
        read = _read_new(measured, part, piece)
        new = None if read is None else _new_piece(read, (*used, *listed), selective.size_tolerance)
        yield SelectivePlace(name, part, piece, leaf, offer, own, stock, used, tolerance, choice, new, read)


def _without_refused(places: Iterable[SelectivePlace]) -> tuple[SelectivePlace, ...]:
    """Nothing goes to a place for which someone chose a size of which no piece is left, nor sold."""
    left: dict[tuple[str, Fraction], int] = {}
    found = []
    for one in places:
        size = one.offer.sizes[0] if one.fixed is not None else None
        if size is not None and not size.is_sold:
            key = (one.drawer, size.value)
            left.setdefault(key, size.stock or 0)
            left[key] -= 1
            if left[key] < 0:
                one = replace(one, offer=replace(one.offer, sizes=()))
        found.append(one)
    return tuple(found)


def place_name(unit: Unit, part: str, piece: int) -> str:
    """What one place of a selective part is called."""
    return part if unit.parts[part].count == 1 else f"{part} {piece + 1}"


def sold_id(unit: Unit, part: str) -> str:
    """What a part is kept and bought as."""
    return unit.parts[part].sold_as or part


def _size_reading(unit: Unit, part: str) -> str | None:
    """The reading of a selective part that is its size."""
    definition = unit.parts[part]
    selective = definition.selective
    ends = (selective.from_, selective.to) if selective else ()
    return next((name for name, plan in definition.readings.items() if (plan.from_, plan.to) == ends), None)


def _own_pieces(measured: Measured, judgements: Mapping[str, Judgement], part: str) -> Iterator[OwnPiece]:
    """The unit's own pieces that may be used again, with their sizes."""
    judged = judgements.get(part)
    reading = _size_reading(measured.unit, part)
    if judged is None or judged.verdict != "reuse" or reading is None:
        return
    for piece in range(measured.unit.parts[part].count):
        figure = measured.used(part, reading, piece)
        if figure is not None:
            place = place_name(measured.unit, part, piece)
            yield OwnPiece(part, piece, place, figure.size, doubt_of(figure))


def _read_new(measured: Measured, part: str, piece: int) -> Figure | None:
    """What was read of the piece that goes in, where someone has measured it."""
    reading = _size_reading(measured.unit, part)
    figure = None if reading is None else measured.used(part, reading, piece, is_new=True)
    return None if figure is None or figure.missing else figure


def _new_piece(
    figure: Figure, sizes: Iterable[Fraction], tolerance: Quantity | None
) -> tuple[Fraction, Taken] | None:
    """The size that the piece that goes in is of by its reading, and its own figure; nothing where it is of none.

    It is of the size that it is nearest to, and of none where it is off that by more than the tolerance and what the
    reading may err; where no tolerance is said, where it is as near to another.
    """
    nearest, *others = sorted(set(sizes), key=lambda size: abs(size - figure.size))
    off, doubt = abs(nearest - figure.size), doubt_of(figure)
    errs = 0.0 if doubt is None else COVERAGE * math.hypot(doubt.own, doubt.bias)
    if tolerance is not None:
        is_of_it = off <= tolerance.nominal + Fraction(errs)
    else:
        is_of_it = not others or off < abs(others[0] - figure.size)
    return (nearest, (Span.exactly(figure.size), doubt)) if is_of_it else None


def _choice(measured: Measured, part: str) -> Choice | None:
    """The last choice of a size for a part, if someone has made one."""
    chosen = [one for one in measured.job.choices if one.fit == part and one.size is not None]
    return chosen[-1] if chosen else None


def _listed(unit: Unit, part: str) -> tuple[Fraction, ...]:
    selective = unit.parts[part].selective
    return tuple(size.nominal for size in selective.sizes) if selective else ()


def _meant(size: Fraction, read: Iterable[Fraction], others: Collection[Fraction]) -> Fraction:
    """The size that someone chose; that of a piece that was read, the unit's own or used, as a sheet shows it."""
    near = [one for one in read if abs(one - size) <= AS_SHOWN]
    return size if size in others or not near else min(near, key=lambda one: abs(one - size))


def _in_drawer(stock: Stock | None) -> Counter[Fraction]:
    on_hand = Counter[Fraction]()
    for text, count in (stock.sizes if stock else {}).items():
        on_hand[parse_quantity(text, LENGTH).nominal] += count
    return on_hand


def _used_in_drawer(unit: Unit, alike: Iterable[str], stock: Stock | None) -> Counter[Fraction]:
    """Used pieces that may go in at any place of one sold part: inside the limits of each, none if always renewed."""
    parts = [(unit.parts[part], _size_reading(unit, part)) for part in alike]
    if stock is None or any(part.renew == "always" for part, _ in parts):
        return Counter()
    plans = [part.readings[reading] for part, reading in parts if reading is not None]
    limits = [limit for plan in plans if (limit := plan.reuse or plan.new) is not None]
    return Counter(one.nominal for one in stock.measured if all(is_inside(one.nominal, limit) for limit in limits))


def plate_pools(
    unit: Unit, measured: Measured, judgements: Mapping[str, Judgement], drawer: Mapping[str, Stock]
) -> tuple[PlatePool, ...]:
    """Pools of used plates, where the drawer has enough of them inside the limit and no new ones were read."""
    found = []
    for part, definition in unit.parts.items():
        judged, stock = judgements.get(part), drawer.get(sold_id(unit, part))
        if judged is None or stock is None or not stock.measured or definition.selective is not None:
            continue
        if definition.renew == "always":
            continue
        names = [name for name, plan in definition.readings.items() if plan.from_ is not None and plan.to is not None]
        pieces = sorted(judged.renewed_pieces)
        if not pieces or not names or any(measured.used(part, names[0], piece, True) for piece in pieces):
            continue
        plan = definition.readings[names[0]]
        limit = plan.reuse or plan.new
        good = [
            (number, one.nominal)
            for number, one in enumerate(stock.measured, 1)
            if limit is None or is_inside(one.nominal, limit)
        ]
        if len(good) >= len(pieces):
            leaves = tuple(Leaf(part, str(plan.from_), str(plan.to), piece) for piece in pieces)
            numbers, figures = tuple(number for number, _ in good), tuple(figure for _, figure in good)
            found.append(PlatePool(part, leaves, Pool(part, figures, len(pieces)), numbers))
    return tuple(found)
