"""What to buy for a job: its needs, what the drawer covers, kits where they are cheaper, sources, days and cores.

Nothing that is not sold is ever in it. What has no price, no lead time or no size yet is an open point, never nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Shop, Unit
from layshaft.book.definition.part import sold_id, sold_ids, sold_name
from layshaft.plan.fit import Fit
from layshaft.plan.judgement import UNSETTLED, Judgement
from layshaft.plan.order_kit import KitOffer, KitUse, choose_kits, use_kits
from layshaft.plan.order_need import Need, add_up, needs_by_place
from layshaft.plan.price_list import Offer, offer_on
from layshaft.quantity import LENGTH, Money, Quantity, Show, parse_quantity

SHOW = Show()


@dataclass(frozen=True, slots=True)
class Taken:
    """Pieces that the drawer has: new ones, or used ones kept with their figures."""

    part: str
    name: str
    pieces: int
    is_reclaimed: bool
    size: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Bought:
    """One line to a source: so many of a part or a kit."""

    code: str
    name: str
    pieces: int
    offer: Offer
    size: Fraction | None = None

    @property
    def cost(self) -> Money:
        """What the shop pays for the line, without core deposits."""
        return self.offer.cost * self.pieces


@dataclass(frozen=True, slots=True)
class Undecided:
    """What would be needed if an open verdict goes against a part, and what it waits for."""

    part: str
    name: str
    pieces: int
    waits_for: str
    in_drawer: int
    offer: Offer | None


@dataclass(frozen=True, slots=True)
class Core:
    """A deposit that comes back with the old part; it is neither income nor cost."""

    code: str
    name: str
    pieces: int
    each: Money

    @property
    def deposit(self) -> Money:
        """The deposit of the line."""
        return self.each * self.pieces


OpenKind = Literal["no price", "no lead time", "no size", "too many kits"]


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """What somebody has to find out before the list is whole."""

    kind: OpenKind
    part: str
    pieces: int
    sentence: str


@dataclass(frozen=True)
class OrderList:
    """The whole list, each part of it in the order of the book."""

    needs: tuple[Need, ...]
    taken: tuple[Taken, ...]
    kits: tuple[KitUse, ...]
    bought: tuple[Bought, ...]
    undecided: tuple[Undecided, ...]
    cores: tuple[Core, ...]
    fresh: Mapping[str, int]
    """Pieces that go in new, of what comes in one size: wherever they come from, a kit may hold them."""
    open: tuple[OpenPoint, ...]

    def by_source(self) -> dict[str, tuple[Bought, ...]]:
        """The lines to each source, sources by name."""
        sources = sorted({line.offer.source for line in self.bought})
        return {source: tuple(line for line in self.bought if line.offer.source == source) for source in sources}

    @property
    def lead(self) -> Quantity | None:
        """How long the slowest line takes; nothing where nothing is bought or no line tells."""
        leads = [line.offer.lead for line in self.bought if line.offer.lead is not None]
        return max(leads, key=lambda lead: lead.nominal, default=None)

    @property
    def waits_for(self) -> tuple[str, ...]:
        """The lines that take longest: they set the day."""
        lead = self.lead
        if lead is None:
            return ()
        return tuple(line.code for line in self.bought if line.offer.lead and line.offer.lead.nominal == lead.nominal)


def order_list(
    unit: Unit,
    shop: Shop,
    day: str,
    renew: Mapping[str, int],
    *,
    sizes: Mapping[str, Fraction] | None = None,
    used: Collection[str] = (),
    reclaimed: Mapping[str, int] | None = None,
    undecided: Mapping[str, str] | None = None,
    opened: Collection[str] | None = None,
) -> OrderList:
    """What to take and what to buy; `shop` as this variant sees it (`narrow_shop`).

    `renew` says how many pieces of which part are renewed, `sizes` which size a selective part is to be bought or
    taken in (`PART 1`, `PART 2` where there are several), `used` at which of these places a used one from the drawer
    goes in, `reclaimed` how many pieces of other parts are met by such, `undecided` what an open verdict waits for,
    `opened` which parts the job reaches. All of these go by part, the list by what is sold.
    """
    places = needs_by_place(unit, renew, sizes, opened)
    needs = add_up(unit, places)
    from_drawer: dict[tuple[str, Fraction | None], int] = {
        (part, None): pieces for part, pieces in _by_sold(unit, reclaimed or {}).items()
    }
    from_drawer |= Counter((sold_id(unit.parts, place.split(" ")[0]), (sizes or {})[place]) for place in used)
    stock = _Stock(unit, shop, needs, from_drawer)
    singles = {part: offer_on(shop, part, day) for part, _ in stock.short}
    # A kit's parts come in one size; a part of several sizes is bought by itself.
    plain = {part: pieces for (part, size), pieces in stock.short.items() if size is None}
    offers = kit_offers(unit, shop, day)
    choice = choose_kits(plain, offers, singles)
    kits = use_kits(choice, offers, stock.fresh)
    if kits:
        # What comes in a kit is fitted before what lies loose in the drawer.
        stock = _Stock(unit, shop, needs, from_drawer, kits)
    bought, open_points = _buy(unit, day, stock, kits, singles)
    if not choice.is_all_tried:
        sentence = "There are too many ways to make up this order from kits; it is made up of single parts."
        open_points.append(OpenPoint("too many kits", "", 0, sentence))
    return OrderList(
        needs=needs,
        taken=tuple(stock.taken),
        kits=kits,
        bought=tuple(bought),
        undecided=_undecided(unit, shop, day, places, undecided or {}),
        cores=_cores(unit, shop, day, needs, stock, kits),
        fresh=stock.fresh,
        open=(*stock.open, *open_points),
    )


def order_fitted(
    unit: Unit,
    shop: Shop,
    day: str,
    judgements: Mapping[str, Judgement],
    fit: Fit,
    opened: Collection[str] | None = None,
) -> OrderList:
    """The order list that verdicts and fit come to; where one of the unit's own pieces goes in, none is bought."""
    own = Counter(place.split(" ")[0] for place in fit.own)
    renew = {part: min(one.renew_count, unit.parts[part].count - own[part]) for part, one in judgements.items()}
    return order_list(
        unit,
        shop,
        day,
        {part: pieces for part, pieces in renew.items() if pieces},
        sizes={place: size for place, size in fit.sizes.items() if place not in fit.own},
        used=fit.used,
        reclaimed={part: len(plates) for part, plates in fit.pieces.items()},
        undecided={part: _waits_for(one) for part, one in judgements.items() if one.is_undecided},
        opened=opened,
    )


def _waits_for(judgement: Judgement) -> str:
    """The look or reading that would settle it; the reason of the verdict where the book asks for nothing more."""
    if judgement.open:
        return judgement.open[0].sentence
    undecided = (one.reason for one in judgement.pieces if one.is_undecided)
    return judgement.reason if judgement.verdict in UNSETTLED else next(undecided, judgement.reason)


def _by_sold(unit: Unit, pieces: Mapping[str, int]) -> Counter[str]:
    """Pieces of parts, added up by what they are sold as."""
    added = Counter[str]()
    for part, number in pieces.items():
        added[sold_id(unit.parts, part)] += number
    return added


Reclaimed = Mapping[tuple[str, Fraction | None], int]
"""How many used pieces the drawer gives of what is sold, in which size."""


class _Stock:
    """Needs met one after the other: by used pieces, from kits that are used anyway, from the drawer."""

    def __init__(
        self, unit: Unit, shop: Shop, needs: Iterable[Need], reclaimed: Reclaimed, kits: Iterable[KitUse] = ()
    ) -> None:
        self.unit = unit
        self.shop = shop
        self.reclaimed = reclaimed
        self.in_kits = sum((Counter(kit.covers) for kit in kits), Counter[str]())
        self.fresh: dict[str, int] = {}
        self.taken: list[Taken] = []
        self.short: dict[tuple[str, Fraction | None], int] = {}
        self.open: list[OpenPoint] = []
        self.in_sizes = in_sizes(unit)
        for need in needs:
            self._meet(need)

    def _meet(self, need: Need) -> None:
        name = sold_name(self.unit.parts, need.part)
        used = min(self.reclaimed.get((need.part, need.size), 0), need.pieces)
        if used:
            self.taken.append(Taken(need.part, name, used, is_reclaimed=True, size=need.size))
        left = need.pieces - used
        if need.part in self.in_sizes and need.size is None and left:
            sentence = f"{need.part} {name}: which size is not chosen yet, so none can be taken or bought."
            self.open.append(OpenPoint("no size", need.part, left, sentence))
            return
        if need.size is None and left:
            self.fresh[need.part] = left
            left -= self.in_kits[need.part]
        new = min(left, self._on_hand(need))
        if new:
            self.taken.append(Taken(need.part, name, new, is_reclaimed=False, size=need.size))
        if left > new:
            self.short[need.part, need.size] = left - new

    def _on_hand(self, need: Need) -> int:
        stock = self.shop.drawer.get(need.part)
        if stock is None:
            return 0
        if need.size is None:
            return stock.count or 0
        return sum(number for size, number in stock.sizes.items() if parse_quantity(size, LENGTH).nominal == need.size)


def in_sizes(unit: Unit) -> set[str]:
    """What is sold in several sizes: it is in no kit."""
    return {sold_id(unit.parts, name) for name, part in unit.parts.items() if part.selective is not None}


def kit_offers(unit: Unit, shop: Shop, day: str) -> list[KitOffer]:
    """Every kit of the book that has a price on a day."""
    offers = []
    for code, kit in unit.kits.items():
        offer = offer_on(shop, code, day)
        if offer is not None:
            stock = shop.drawer.get(code)
            offers.append(KitOffer(code, kit.name, _by_sold(unit, kit.holds), offer, stock.pieces if stock else 0))
    return offers


def _buy(
    unit: Unit, day: str, stock: _Stock, kits: tuple[KitUse, ...], singles: Mapping[str, Offer | None]
) -> tuple[list[Bought], list[OpenPoint]]:
    bought = [
        Bought(kit.code, kit.name, kit.pieces - kit.from_drawer, kit.offer)
        for kit in kits
        if kit.pieces > kit.from_drawer
    ]
    found: list[OpenPoint] = []
    for (part, size), pieces in stock.short.items():
        offer, name = singles[part], sold_name(unit.parts, part)
        if offer is not None:
            bought.append(Bought(part, name, pieces, offer, size))
        else:
            told = f" in {SHOW.show_exact(size, LENGTH)}" if size is not None else ""
            sentence = f"{part} {name}: {pieces} to buy{told}, but no price list has it on {day}. Ask for a price."
            found.append(OpenPoint("no price", part, pieces, sentence))
    for line in bought:
        if line.offer.lead is None:
            sentence = f"{line.code} {line.name}: {line.offer.source} does not say how long it takes. Ask for a day."
            found.append(OpenPoint("no lead time", line.code, line.pieces, sentence))
    return bought, found


def _undecided(
    unit: Unit, shop: Shop, day: str, places: tuple[Need, ...], waiting: Mapping[str, str]
) -> tuple[Undecided, ...]:
    """What open verdicts could still ask for beyond the needs of each place, in the order of the book."""
    sure = Counter[str]()
    for need in places:
        sure[need.part] += need.pieces
    reasons: dict[str, str] = {}
    pieces: dict[str, int] = {}
    for part, waits_for in waiting.items():
        for need in needs_by_place(unit, {part: unit.parts[part].count}, opened=()):
            reasons.setdefault(sold_id(unit.parts, need.part), waits_for)
            pieces[need.part] = max(pieces.get(need.part, 0), need.pieces)
    more = _by_sold(unit, {part: number - sure[part] for part, number in pieces.items() if number > sure[part]})
    needed = _by_sold(unit, sure)
    found = []
    for sold in sold_ids(unit.parts):
        if more[sold]:
            stock = shop.drawer.get(sold)
            on_hand = max(0, (stock.pieces if stock else 0) - needed[sold])
            name = sold_name(unit.parts, sold)
            found.append(Undecided(sold, name, more[sold], reasons[sold], on_hand, offer_on(shop, sold, day)))
    return tuple(found)


def _cores(
    unit: Unit, shop: Shop, day: str, needs: tuple[Need, ...], stock: _Stock, kits: tuple[KitUse, ...]
) -> tuple[Core, ...]:
    """A deposit for each new piece that is fitted: whoever sold it, to the shop or now, wants the old one back."""
    cores = []
    for need in needs:
        offer = offer_on(shop, need.part, day)
        alike = (one for one in stock.taken if (one.part, one.size) == (need.part, need.size))
        pieces = need.pieces - sum(one.pieces for one in alike if one.is_reclaimed)
        if need.size is None:
            pieces -= sum(kit.covers.get(need.part, 0) for kit in kits)
        if offer is not None and offer.core is not None and pieces:
            cores.append(Core(need.part, sold_name(unit.parts, need.part), pieces, offer.core))
    cores += [Core(kit.code, kit.name, kit.pieces, kit.offer.core) for kit in kits if kit.offer.core is not None]
    return tuple(cores)
