"""Which of several ways to fill the places is taken: by what lies inside for certain, then by what has to be bought.

Every way is judged by the same rule, whatever the drawer holds, so that a fuller drawer never makes a build worse, nor
as good a build dearer: it only makes sizes cheaper to take.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from layshaft.gauging import assortment as gauging
from layshaft.gauging.pick import Pick
from layshaft.gauging.question import Question

KEPT = 8
"""How many ways with what is on hand are held against each other, and told."""
MOST_BOUGHT = 3
"""At so many places at once sizes to be bought are tried for a surer result; more only where fewer do not do at all."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How limited results stand with one way: how many are outside, and how many others are not sure to be inside."""

    outside: int
    unsure: int

    @property
    def is_settled(self) -> bool:
        """Whether all are inside for certain."""
        return not self.outside and not self.unsure


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to fill the places, with what it leaves to be bought."""

    pick: Pick
    standing: Standing
    to_buy: Mapping[str, Fraction]
    cost: Fraction

    @property
    def rank(self) -> tuple[int, int, int, Fraction]:
        """Smallest is best; equals stand by their room within the limits, as the search gave them."""
        return self.standing.outside, self.standing.unsure, len(self.to_buy), self.cost


@dataclass(frozen=True, slots=True)
class Field:
    """All ways that were held against each other for one question, best first."""

    candidates: tuple[Candidate, ...]

    @property
    def best(self) -> Candidate | None:
        """The way that is taken."""
        return self.candidates[0] if self.candidates else None

    @property
    def on_hand(self) -> tuple[Candidate, ...]:
        """Those for which nothing has to be bought."""
        return tuple(one for one in self.candidates if not one.to_buy)


Judge = Callable[[Pick], Standing]
Key = tuple[tuple[str, object], ...]


def compare(
    question: gauging.Assortment, sure: gauging.Assortment, judge: Judge, costs: Mapping[str, Fraction], keep: int
) -> Field:
    """Hold what is on hand against what could be bought; `question` asks for results too that only wait."""
    asked = (question, sure) if len(question.results) > len(sure.results) else (sure,)

    def made(picks: Iterable[Pick]) -> list[Candidate]:
        return [_candidate(sure, pick, judge, costs) for pick in _unlike(picks)]

    found = made(pick for one in asked for pick in _picks(one, keep))
    if not any(one.standing.is_settled for one in found):
        names = [one.name for one in sure.selectives]
        for number in range(1, len(names) + 1):
            if number > MOST_BOUGHT and found:
                break
            picks = []
            for bought in combinations(names, number):
                for one in asked:
                    picks += _picks(_stocked(one, frozenset(bought)), 1)
            picks.sort(key=lambda pick: -(pick.smallest_distance or Fraction(0)))
            found += made(picks)
            if any(one.standing.is_settled for one in found):
                break
    known: dict[Key, Candidate] = {}
    for candidate in found:
        known.setdefault(_key(candidate.pick), candidate)
    return Field(tuple(sorted(known.values(), key=lambda one: one.rank)))


def _picks(question: gauging.Assortment, keep: int) -> list[Pick]:
    asked = Question(question)
    return [pick for hit in asked.best(keep).hits if (pick := asked.describe(hit)).is_inside]


def _unlike(picks: Iterable[Pick]) -> list[Pick]:
    """Each set of sizes and plates once, where it first comes."""
    known: dict[Key, Pick] = {}
    for pick in picks:
        known.setdefault(_key(pick), pick)
    return list(known.values())


def _key(pick: Pick) -> Key:
    return (*pick.sizes.items(), *pick.pieces.items())


def _candidate(question: gauging.Assortment, pick: Pick, judge: Judge, costs: Mapping[str, Fraction]) -> Candidate:
    bought = to_buy(question, pick)
    return Candidate(pick, judge(pick), bought, sum((costs.get(name, Fraction(0)) for name in bought), Fraction(0)))


def to_buy(question: gauging.Assortment, pick: Pick) -> dict[str, Fraction]:
    """Sizes of a pick that are not on hand."""
    left = {(one.drawer or one.name, size.value): size.stock for one in question.selectives for size in one.sizes}
    found: dict[str, Fraction] = {}
    for one in question.selectives:
        size = pick.sizes[one.name]
        key = (one.drawer or one.name, size)
        stock = left[key]
        if stock is None:
            continue
        if stock < 1:
            found[one.name] = size
        left[key] = stock - 1
    return found


def _stocked(question: gauging.Assortment, names: frozenset[str]) -> gauging.Assortment:
    """The question with every listed size on hand at some places."""
    drawers = {one.drawer or one.name for one in question.selectives if one.name in names}
    selectives = tuple(
        replace(one, sizes=tuple(replace(size, stock=None) for size in one.sizes))
        if (one.drawer or one.name) in drawers
        else one
        for one in question.selectives
    )
    return gauging.Assortment(selectives, question.pools, question.results, question.cross_limits)
