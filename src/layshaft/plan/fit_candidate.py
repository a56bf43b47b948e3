"""Which of several ways to fill the places is taken: by what lies inside for certain, then by what is billed for it.

A piece that is in the unit costs nothing, one from the drawer what it is billed at, as one that is bought; a used one
with its figure what the shop asks for those. Every way is judged by the same rule, whatever the drawer holds: a fuller
one never makes a build worse.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from layshaft.gauging import assortment as gauging
from layshaft.gauging.pick import Pick
from layshaft.gauging.question import Question
from layshaft.plan.drawer import SelectivePlace
from layshaft.plan.fit_source import shortage, sources_of

KEPT = 8
"""How many ways with what is on hand are held against each other, and told."""
MOST_BOUGHT = 3
"""At so many places at once sizes to be bought are tried for a surer result; more only where fewer do not do at all."""
MOST_USED = 3
"""At so many places at once used pieces are tried because they cost less."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How limited results stand with one way: so many outside, not sure to be inside, and outside as far as known."""

    outside: int
    unsure: int
    astray: int = 0
    """Of those that wait for a reading: how many would be outside by the best estimate there is."""
    chance: Fraction = Fraction(1)
    """How likely the least likely of those not sure is inside, to the whole percent: less is no reason to change."""

    @property
    def is_settled(self) -> bool:
        """Whether all are inside for certain."""
        return not self.outside and not self.unsure

    @property
    def is_offered(self) -> bool:
        """Whether every limit holds, that of a waiting result by its best estimate."""
        return not self.outside and not self.astray


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to fill the places, with what it leaves to be bought and what it is billed at."""

    pick: Pick
    standing: Standing
    to_buy: Mapping[str, Fraction]
    replaced: int
    """At how many places another piece goes in than the unit's own."""
    moved: int
    """At how many places a piece of the unit's own goes in that lay in another place of it."""
    cost: Fraction
    """What the pieces that go in are billed at, from the drawer or bought; the unit's own cost nothing."""

    @property
    def rank(self) -> tuple[int, bool, int, Fraction, int, Fraction, int, int, int]:
        """Smallest is best; equals stand by their room within the limits, as the search gave them.

        Of ways that are not surely inside the likeliest goes first, before what it costs.
        """
        said = self.standing
        sure = (said.outside, said.unsure > 0, said.astray, -said.chance, said.unsure)
        return (*sure, self.cost, len(self.to_buy), self.replaced, self.moved)


@dataclass(frozen=True, slots=True)
class Change:
    """Places that are filled anew, and those among them that get a used piece out of the drawer."""

    replaced: tuple[str, ...]
    used: tuple[str, ...] = ()

    @property
    def fresh(self) -> tuple[str, ...]:
        """Those that get a new piece."""
        return tuple(name for name in self.replaced if name not in self.used)


@dataclass(frozen=True, slots=True)
class Stake:
    """What keeping and replacing come to: the places with the unit's own pieces, and what another piece costs."""

    places: Mapping[str, SelectivePlace]
    costs: Mapping[str, Fraction]
    used_share: Fraction = Fraction(1)
    """Which share of that a used piece costs."""

    def cost(self, change: Change) -> Fraction:
        """What other pieces at some places are billed at; one without a price counts as nothing here."""
        fresh = sum((self.costs.get(name, Fraction(0)) for name in change.fresh), Fraction(0))
        return fresh + self.used_share * sum((self.costs.get(name, Fraction(0)) for name in change.used), Fraction(0))


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
    question: gauging.Assortment, sure: gauging.Assortment, judge: Judge, stake: Stake, keep: int
) -> Field:
    """Hold what is in the unit and on hand against what could be bought; `question` asks for results too that wait."""
    asked = (question, sure) if len(question.results) > len(sure.results) else (sure,)
    known: dict[Key, Candidate] = {}

    def consider(picks: Iterable[Pick]) -> None:
        for pick in picks:
            if _key(pick) not in known:
                known[_key(pick)] = _candidate(pick, judge, stake)

    def is_beaten(least: Fraction) -> bool:
        """Whether something that costs no more is settled already."""
        return any(one.standing.is_settled and one.cost <= least for one in known.values())

    consider(pick for one in asked for pick in _picks(one, keep))
    changes = _changes(sure, stake)
    for change in changes:
        if is_beaten(stake.cost(change)):
            break
        consider(pick for one in asked for pick in _picks(_kept(one, stake, change), 1))
    for change in changes:
        for number in range(1, min(len(change.fresh), MOST_BOUGHT) + 1):
            if is_beaten(stake.cost(change)):
                break
            kept = [_kept(one, stake, change) for one in asked]
            consider(_widest(kept, combinations(change.fresh, number)))
    names = [one.name for one in sure.selectives]
    for number in range(1, len(names) + 1):
        if any(one.standing.is_settled for one in known.values()) or (number > MOST_BOUGHT and known):
            break
        consider(_widest(asked, combinations(names, number)))
    return Field(tuple(sorted(known.values(), key=lambda one: one.rank)))


def _changes(question: gauging.Assortment, stake: Stake) -> list[Change]:
    """Which places to fill anew, the cheapest first: all that can have no own piece, and a few of the others."""
    names = [one.name for one in question.selectives]
    needed = frozenset(name for name in names if not stake.places[name].own)
    free = [name for name in names if name not in needed]
    # Some of the others may have too few own pieces between them: so many more are filled anew in any case.
    short = shortage({name: stake.places[name] for name in free})
    changed = [
        tuple(name for name in names if name in needed or name in more)
        for number in range(short, min(len(free), short + MOST_BOUGHT) + 1)
        for more in combinations(free, number)
    ]
    found = [Change(replaced, used) for replaced in changed for used in _used(replaced, stake)]
    return sorted(found, key=lambda one: (stake.cost(one), len(one.replaced)))


def _used(replaced: tuple[str, ...], stake: Stake) -> Iterator[tuple[str, ...]]:
    """Which of some places could get used pieces, a few at once."""
    could = [name for name in replaced if stake.places[name].used]
    for number in range(min(len(could), MOST_USED) + 1):
        yield from combinations(could, number)


def _kept(question: gauging.Assortment, stake: Stake, change: Change) -> gauging.Assortment:
    """The question with the unit's own pieces at all places but some, and used ones at some of these."""
    selectives = []
    for one in question.selectives:
        place = stake.places[one.name]
        if one.name in change.used:
            one = replace(one, sizes=tuple(size for size in one.sizes if size.value in place.used))
        elif one.name not in change.replaced:
            one = replace(one, sizes=tuple(size for size in one.sizes if size.value in place.own_sizes))
        selectives.append(one)
    return gauging.Assortment(tuple(selectives), question.pools, question.results, question.cross_limits)


def _widest(asked: Iterable[gauging.Assortment], bought: Iterable[tuple[str, ...]]) -> list[Pick]:
    """The best way of each question with every listed size on hand at some places, the most room first."""
    questions = list(asked)
    picks = [pick for names in bought for one in questions for pick in _picks(_stocked(one, frozenset(names)), 1)]
    return sorted(picks, key=lambda pick: -(pick.smallest_distance or Fraction(0)))


def _picks(question: gauging.Assortment, keep: int) -> list[Pick]:
    asked = Question(question)
    return [pick for hit in asked.best(keep).hits if (pick := asked.describe(hit)).is_inside]


def _key(pick: Pick) -> Key:
    return (*pick.sizes.items(), *pick.pieces.items())


def _candidate(pick: Pick, judge: Judge, stake: Stake) -> Candidate:
    sources = sources_of(stake.places, pick.sizes)
    replaced = tuple(name for name, one in sources.items() if one.own is None)
    used = tuple(name for name, one in sources.items() if one.kind == "used")
    return Candidate(
        pick,
        judge(pick),
        {name: pick.sizes[name] for name, one in sources.items() if one.kind == "bought"},
        len(replaced),
        sum(one.own is not None and one.own.place != name for name, one in sources.items()),
        stake.cost(Change(replaced, used)),
    )


def _stocked(question: gauging.Assortment, names: frozenset[str]) -> gauging.Assortment:
    """The question with every size that is sold on hand at some places."""
    drawers = {one.drawer or one.name for one in question.selectives if one.name in names}
    selectives = tuple(
        replace(one, sizes=tuple(size.stocked for size in one.sizes))
        if (one.drawer or one.name) in drawers
        else one
        for one in question.selectives
    )
    return gauging.Assortment(selectives, question.pools, question.results, question.cross_limits)
