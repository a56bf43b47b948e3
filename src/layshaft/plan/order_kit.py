"""Whether kits cover a shortage for less money than the parts one by one, counted exactly."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from layshaft.plan.price_list import Offer

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
    """A kit that is used: how many, how many of them from the drawer, and what of its parts the job needs.

    What a kit holds beyond that is not needed; it goes into the drawer.
    """

    code: str
    name: str
    pieces: int
    from_drawer: int
    covers: Mapping[str, int]
    offer: Offer


def use_kits(choice: KitChoice, kits: list[KitOffer], short: Mapping[str, int]) -> tuple[KitUse, ...]:
    """Each kit of a choice with the part of the shortage it covers, in the order of the book."""
    uncovered = dict(short)
    used = []
    for kit in kits:
        number = choice.kits.get(kit.code, 0)
        covers = {part: min(uncovered.get(part, 0), held * number) for part, held in kit.holds.items()}
        covers = {part: pieces for part, pieces in covers.items() if pieces}
        for part, pieces in covers.items():
            uncovered[part] -= pieces
        if number:
            used.append(KitUse(kit.code, kit.name, number, min(number, kit.on_hand), covers, kit.offer))
    return tuple(used)


def choose_kits(short: Mapping[str, int], kits: list[KitOffer], singles: Mapping[str, Offer | None]) -> KitChoice:
    """The cheapest cover of a shortage; kits only where they leave fewer parts without a price, or cost less."""
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
        weight = _weight(taken, left, useful, singles)
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
    taken: Mapping[str, int], left: Mapping[str, int], kits: list[KitOffer], singles: Mapping[str, Offer | None]
) -> tuple[int, Fraction, int]:
    """What is without a price, the money, the number of kits."""
    unpriced = sum(pieces for part, pieces in left.items() if singles[part] is None)
    money = sum((kit.offer.cost.amount * taken.get(kit.code, 0) for kit in kits), Decimal(0))
    for part, pieces in left.items():
        offer = singles[part]
        money += offer.cost.amount * pieces if offer is not None else 0
    return unpriced, Fraction(money), sum(taken.values())
