"""Whether kits cover what is needed for less money than the parts one by one, counted exactly.

Whose money is for the caller to say: what is short is bought for the least that the shop pays, and what goes in is
charged at the least that the customer pays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from layshaft.plan.price_list import Offer
from layshaft.quantity import Money

MOST_TRIED = 20_000
"""Kit choices that are tried one by one; beyond, kits are left out, and the order list says so."""


@dataclass(frozen=True, slots=True)
class KitOffer:
    """A kit as it can be had: what it holds, what it costs, how many lie in the drawer."""

    code: str
    name: str
    holds: Mapping[str, int]
    offer: Offer
    on_hand: int = 0


@dataclass(frozen=True, slots=True)
class KitChoice:
    """How many of each kit to use, and what is still to be bought one by one."""

    kits: Mapping[str, int]
    left: Mapping[str, int]
    is_all_tried: bool = True


@dataclass(frozen=True, slots=True)
class KitUse:
    """A kit that is used: how many, how many of them from the drawer, what of its parts the job needs, what not."""

    code: str
    name: str
    pieces: int
    from_drawer: int
    covers: Mapping[str, int]
    left: Mapping[str, int]
    offer: Offer


def cost_to_shop(offer: Offer) -> Money:
    """What the shop pays for one."""
    return offer.cost


def price_to_customer(offer: Offer) -> Money:
    """What the customer pays for one."""
    return offer.list_price


def use_kits(choice: KitChoice, kits: list[KitOffer], needed: Mapping[str, int]) -> tuple[KitUse, ...]:
    """Each kit of a choice with the part of what is needed that it covers, in the order of the book."""
    uncovered = dict(needed)
    used = []
    for kit in kits:
        number = choice.kits.get(kit.code, 0)
        covers = {part: min(uncovered.get(part, 0), held * number) for part, held in kit.holds.items()}
        covers = {part: pieces for part, pieces in covers.items() if pieces}
        for part, pieces in covers.items():
            uncovered[part] -= pieces
        left = {part: held * number - covers.get(part, 0) for part, held in kit.holds.items()}
        left = {part: pieces for part, pieces in left.items() if pieces}
        if number:
            used.append(KitUse(kit.code, kit.name, number, min(number, kit.on_hand), covers, left, kit.offer))
    return tuple(used)


def choose_kits(
    short: Mapping[str, int],
    kits: list[KitOffer],
    singles: Mapping[str, Offer | None],
    money: Callable[[Offer], Money] = cost_to_shop,
) -> KitChoice:
    """The cheapest cover by `money`; kits only where they leave fewer parts without a price, or come to less.

    A kit that lies on hand comes to nothing.
    """
    useful = [kit for kit in kits if any(short.get(part) for part in kit.holds)]
    tries = 1
    for kit in useful:
        tries *= 1 + _most(kit, short)
    if tries > MOST_TRIED:
        return KitChoice({}, dict(short), is_all_tried=False)
    best: tuple[tuple[int, Fraction, int], KitChoice] | None = None
    for taken in _takings(useful, short):
        left = dict(short)
        for kit in useful:
            for part, held in kit.holds.items():
                if part in left:
                    left[part] = max(0, left[part] - held * taken.get(kit.code, 0))
        left = {part: pieces for part, pieces in left.items() if pieces}
        weight = _weight(taken, left, useful, singles, money)
        if best is None or weight < best[0]:
            best = (weight, KitChoice(taken, left))
    return best[1] if best is not None else KitChoice({}, dict(short))


def _most(kit: KitOffer, short: Mapping[str, int]) -> int:
    return max(-(-short.get(part, 0) // held) for part, held in kit.holds.items())


def _takings(kits: list[KitOffer], short: Mapping[str, int]) -> Iterator[dict[str, int]]:
    """Every number of every kit that could be of use, none first."""
    if not kits:
        yield {}
        return
    first, rest = kits[0], kits[1:]
    for number in range(_most(first, short) + 1):
        for taken in _takings(rest, short):
            yield {first.code: number, **taken} if number else taken


def _weight(
    taken: Mapping[str, int],
    left: Mapping[str, int],
    kits: list[KitOffer],
    singles: Mapping[str, Offer | None],
    money: Callable[[Offer], Money],
) -> tuple[int, Fraction, int]:
    """What is without a price, the money, the number of kits."""
    unpriced = sum(pieces for part, pieces in left.items() if singles[part] is None)
    bought = {kit.code: max(0, taken.get(kit.code, 0) - kit.on_hand) for kit in kits}
    total = sum((money(kit.offer).amount * bought[kit.code] for kit in kits), Decimal(0))
    for part, pieces in left.items():
        offer = singles[part]
        total += money(offer).amount * pieces if offer is not None else 0
    return unpriced, Fraction(total), sum(taken.values())
