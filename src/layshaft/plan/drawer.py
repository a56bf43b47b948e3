"""What there is to choose from for a unit: sizes in a drawer, a part's own size, used plates with their figures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Stock, Unit
from layshaft.book.size import Leaf, Span
from layshaft.gauging.assortment import Pool, Selective, Size
from layshaft.gauging.window import is_inside
from layshaft.plan.judgement import Judgement
from layshaft.plan.measured import Measured, doubt_of
from layshaft.plan.read_size import Doubt
from layshaft.quantity import LENGTH, parse_quantity

Taken = tuple[Span, Doubt | None]


@dataclass(frozen=True, slots=True)
class SelectivePlace:
    """A place for one selective part: the leaf its size sets, and what may go there."""

    name: str
    part: str
    piece: int
    leaf: Leaf
    offer: Selective
    own: Mapping[Fraction, Doubt | None]
    """Sizes that the unit's own parts have, as read."""
    tolerance: Fraction
    fixed: Fraction | None = None
    """The size that someone has chosen, whatever it gives."""

    @property
    def is_to_be_bought(self) -> bool:
        """Whether someone has chosen a size that neither the drawer nor the unit has."""
        return self.fixed is not None and all(size.stock == 0 for size in self.offer.sizes)

    def taken(self, size: Fraction) -> Taken:
        """What stands in the chain once a size is chosen."""
        if size in self.own:
            return Span.exactly(size), self.own[size]
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
    found = []
    selectives = [part for part, definition in unit.parts.items() if definition.selective is not None]
    alike = {
        part: [other for other in selectives if sold_id(unit, other) == sold_id(unit, part)] for part in selectives
    }
    for part in selectives:
        definition = unit.parts[part]
        selective = definition.selective
        assert selective is not None
        # Places of one sold part take from one drawer, and from each other what the unit itself has.
        own = [one for other in alike[part] for one in _own_sizes(measured, judgements, other)]
        is_shared = definition.count > 1 or len(alike[part]) > 1
        fixed = _fixed(measured, part)
        offer = _sizes(unit, part, drawer.get(sold_id(unit, part)), own, fixed)
        for piece in range(definition.count):
            name = part if definition.count == 1 else f"{part} {piece + 1}"
            leaf = Leaf(part, selective.from_, selective.to, piece)
            tolerance = selective.size_tolerance.nominal if selective.size_tolerance else Fraction(0)
            place = Selective(name, offer, sold_id(unit, part) if is_shared else None)
            found.append(SelectivePlace(name, part, piece, leaf, place, dict(own), tolerance, fixed))
    return tuple(found)


def sold_id(unit: Unit, part: str) -> str:
    """What a part is kept and bought as."""
    return unit.parts[part].sold_as or part


def _own_sizes(
    measured: Measured, judgements: Mapping[str, Judgement], part: str
) -> list[tuple[Fraction, Doubt | None]]:
    """Sizes of the unit's own pieces that may be used again."""
    judged = judgements.get(part)
    if judged is None or judged.verdict != "reuse":
        return []
    definition = measured.unit.parts[part]
    selective = definition.selective
    ends = (selective.from_, selective.to) if selective else ()
    names = [name for name, plan in definition.readings.items() if (plan.from_, plan.to) == ends]
    figures = [measured.used(part, name, piece) for piece in range(definition.count) for name in names[:1]]
    return [(one.size, doubt_of(one)) for one in figures if one is not None]


def _fixed(measured: Measured, part: str) -> Fraction | None:
    """The size that someone has already chosen, if so."""
    chosen = [one.size.nominal for one in measured.job.choices if one.fit == part and one.size is not None]
    return chosen[-1] if chosen else None


def _sizes(
    unit: Unit, part: str, stock: Stock | None, own: list[tuple[Fraction, Doubt | None]], fixed: Fraction | None
) -> tuple[Size, ...]:
    on_hand: dict[Fraction, int] = {}
    for text, count in (stock.sizes if stock else {}).items():
        size = parse_quantity(text, LENGTH).nominal
        on_hand[size] = on_hand.get(size, 0) + count
    for size, _ in own:
        on_hand[size] = on_hand.get(size, 0) + 1
    if fixed is not None:
        return (Size(fixed, on_hand.get(fixed, 0)),)
    selective = unit.parts[part].selective
    listed = [size.nominal for size in selective.sizes] if selective else []
    # A part that is there and fits comes before one that has to be taken from the drawer.
    wanted = dict.fromkeys([size for size, _ in own] + listed)
    return tuple(Size(size, on_hand.get(size, 0)) for size in wanted)


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
