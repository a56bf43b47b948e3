"""The fit: which selective parts and used plates bring every result inside its limit, all at once.

Sizes and plates come from a drawer that is handed in, so that several jobs can be asked of one drawer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from layshaft.book.definition import Job, Shop, Stock, Unit
from layshaft.book.size import Leaf, Span
from layshaft.gauging import assortment as gauging
from layshaft.gauging.pick import Pick
from layshaft.gauging.selection import choose_jointly, spares_of
from layshaft.plan.drawer import PlatePool, SelectivePlace, Taken, plate_pools, selective_places, sold_id
from layshaft.plan.fit_answer import Answer
from layshaft.plan.fit_candidate import KEPT, Stake, Standing, compare
from layshaft.plan.fit_demand import Asker
from layshaft.plan.fit_settling import not_the_size, settling
from layshaft.plan.fit_source import sources_of
from layshaft.plan.fit_stay import are_shown_inside, shown_words, sizes_to_name, staying_pieces, unmoved_sentences
from layshaft.plan.fit_text import chosen_sentences, miss_sentences, source_words
from layshaft.plan.fit_why import bought_sentences, unchosen_sentences
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.lacking import lacking
from layshaft.plan.measured import Measured
from layshaft.plan.price_list import offer_on
from layshaft.plan.read_size import ReadSizes
from layshaft.plan.reckoning import Reckoner
from layshaft.plan.result import ResultValue, result_value
from layshaft.plan.source import Sources
from layshaft.plan.telling import telling_of
from layshaft.plan.wanted import merged


@dataclass(frozen=True, slots=True)
class FitChoice:
    """One set of sizes and plates that would do, and what it gives."""

    sizes: Mapping[str, Fraction]
    pieces: Mapping[str, tuple[int, ...]]
    """Which plates of a pool, counted from 1 as the drawer lists them."""
    values: Mapping[str, Fraction]
    """What it gives, with limited results that are no sum in it."""
    tightest: str | None
    doubts: Mapping[str, float] = field(default_factory=dict)
    """How likely those limited results are inside that are not sure to be."""
    open: tuple[str, ...] = ()
    """Limited results that wait for a reading: their values are estimates."""


@dataclass(frozen=True, slots=True)
class FitSpare:
    """What one listed size would give, all else as chosen."""

    part: str
    size: Fraction
    stock: int | None
    is_chosen: bool
    values: Mapping[str, Fraction]
    failing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FitFailure:
    """A limit that the nearest choice from the drawer does not meet, and by how much."""

    result: str
    value: Fraction
    by: Fraction


@dataclass(frozen=True, slots=True)
class FitMiss:
    """How near the drawer comes where nothing in it does, and what would."""

    nearest: FitChoice | None
    failures: tuple[FitFailure, ...]
    needed: Mapping[str, tuple[Fraction | None, Fraction | None]]
    """For each place at which one other size alone would do, the least and the greatest such size."""
    to_buy: Mapping[str, Fraction]
    """Listed sizes to be bought that would meet every limit; empty where none would."""


@dataclass(frozen=True, slots=True)
class Fit:
    """The fit of one unit."""

    sizes: Mapping[str, Fraction]
    """The size chosen for each selective part; for a part of several pieces `PART 1`, `PART 2` ..."""
    own: tuple[str, ...]
    """Of these one of the unit's own pieces goes in."""
    used: tuple[str, ...]
    """And of these a used one from the drawer."""
    sources: Mapping[str, str]
    """Where the piece at each place comes from, in words, and who chose its size where somebody did."""
    pieces: Mapping[str, tuple[int, ...]]
    figures: Mapping[str, tuple[Fraction, ...]]
    """The figures of the used plates taken."""
    values: Mapping[str, ResultValue]
    """Every limited result as it will be."""
    others: tuple[FitChoice, ...]
    spares: tuple[FitSpare, ...]
    misses: tuple[FitMiss, ...]
    to_buy: Mapping[str, Fraction]
    sentences: tuple[str, ...]
    is_proved: bool
    probability: float | None
    """At least this likely are all fitted limits met, under gauge error and what stands at its tolerance."""
    waiting: tuple[OpenPoint, ...]
    """What has to be measured before the rest can be chosen."""
    unchosen: Mapping[str, str]
    """Selective parts for which no size is chosen, each with the sentence that says why."""
    undecided: tuple[str, ...]
    """Of these the ones that a limit rests on."""
    failing: tuple[str, ...]
    """Limited results that are outside all the same, once everything is chosen."""
    sets_inside: int | None
    """How many sets of sizes meet every single limit, and how many of those can fail one across results."""
    sets_failing: int | None
    built: ReadSizes = field(repr=False, compare=False)

    @property
    def replaced(self) -> dict[str, Fraction]:
        """The places at which another piece than one of the unit's own goes in, with the sizes of those."""
        return {place: size for place, size in self.sizes.items() if place not in self.own}

    @property
    def miss(self) -> FitMiss | None:
        """The first question that nothing in the drawer answers."""
        return self.misses[0] if self.misses else None

    @property
    def reclaimed(self) -> dict[str, int]:
        """How many used pieces of each part the drawer gives."""
        plates = Counter({part: len(places) for part, places in self.pieces.items()})
        return plates + Counter(name.split(" ")[0] for name in self.used)


def choose_fit(
    unit: Unit,
    job: Job | Measured,
    shop: Shop,
    judgements: Mapping[str, Judgement],
    drawer: Mapping[str, Stock] | None = None,
    opened: frozenset[str] | None = None,
) -> Fit:
    """Choose selective parts and used plates jointly for every limited result whose links are all measured.

    With `opened` only parts among these are chosen, and only results are told that come from one of them.
    """
    measured = job if isinstance(job, Measured) else Measured(unit, job, shop)
    return _Fitter(unit, measured, judgements, shop.drawer if drawer is None else drawer, opened).fitted()


class _Fitter:
    """Sets up the question, asks it, and tells the answer."""

    def __init__(
        self,
        unit: Unit,
        measured: Measured,
        judgements: Mapping[str, Judgement],
        drawer: Mapping[str, Stock],
        opened: frozenset[str] | None,
    ) -> None:
        self.unit = unit
        self.measured = measured
        self.judgements = judgements
        self.telling = telling_of(measured.shop)
        places = selective_places(unit, measured, judgements, drawer)
        pools = plate_pools(unit, measured, judgements, drawer)
        self.places = {one.name: one for one in places if opened is None or one.part in opened}
        self.pools = {one.part: one for one in pools if opened is None or one.part in opened}
        leaves = [one.leaf for one in self.places.values()]
        leaves += [leaf for one in self.pools.values() for leaf in one.leaves]
        self.nothing: dict[Leaf, Taken] = {leaf: (Span.exactly(Fraction(0)), None) for leaf in leaves}
        chosen, sources = {leaf.part for leaf in leaves}, Sources(unit)
        self.read_built = frozenset(
            name for name in unit.results if measured.is_read_built(name) and sources.parts(name) & chosen
        )
        empty = measured.sizes(judgements, self.nothing, self.read_built)
        self.asker = Asker(unit, empty, self.places, self.pools, opened, self.read_built)

    def fitted(self) -> Fit:
        """The whole answer."""
        answers: list[Answer] = []
        sizes: dict[str, Fraction] = {}
        pieces: dict[str, tuple[int, ...]] = {}
        tried: dict[str, Fraction] = {}
        plates: dict[str, tuple[int, ...]] = {}
        for question in self.asker.questions():
            answer = self._answer(question)
            answers.append(answer)
            if answer.pick is not None:
                sizes |= answer.pick.sizes
                pieces |= self._numbers(answer.pick)
            elif answer.miss is not None and answer.miss.pick is not None:
                # What does not do is not chosen, but the figures are those that it would give.
                tried |= answer.miss.pick.sizes
                plates |= self._numbers(answer.miss.pick)
        sizes |= {name: one.fixed for name, one in self.places.items() if one.fixed is not None}
        staying = staying_pieces(self.measured, self.places, self.asker, sizes)
        sizes |= staying
        built = self.measured.sizes(self.judgements, self._taken(sizes | tried, pieces | plates))
        return self._told(answers, sizes, pieces, built, staying)

    def _answer(self, question: gauging.Assortment) -> Answer:
        sure = self.asker.without_hoped(question)
        names = frozenset(sure.choice_names)
        checked = [name for name in self.asker.demands.checked if names.issuperset(self.asker.choices_of(name))]
        looked_at = [one.name for one in question.demands] + checked
        percent = self.measured.shop.reclaimed_percent
        stake = Stake(
            {one.name: self.places[one.name] for one in sure.selectives},
            {one.name: self._cost(one.name) for one in sure.selectives},
            Fraction(1) if percent is None else percent / 100,
        )
        # What is no sum cannot be asked for: more ways are looked at, so that one may be found that does.
        keep = 8 * KEPT if checked else KEPT
        compared = compare(question, sure, lambda pick: self._standing(pick, looked_at), stake, keep)
        return Answer(sure, choose_jointly(sure), compared, tuple(looked_at))

    def _cost(self, place: str) -> Fraction:
        offer = offer_on(self.measured.shop, sold_id(self.unit, self.places[place].part), self.measured.job.today)
        return Fraction(0) if offer is None else Fraction(offer.list_price.amount)

    def _standing(self, pick: Pick, names: Iterable[str]) -> Standing:
        found = self._values(pick, names).values()
        chances = [one.probability or 0.0 for one in found if one.verdict == "not sure"]
        return Standing(
            outside=sum(one.verdict == "outside" for one in found),
            unsure=sum(one.verdict in ("not sure", "open") for one in found),
            astray=sum(one.verdict == "open" and one.margin is not None and one.margin < 0 for one in found),
            chance=Fraction(round(100 * min(chances, default=1.0)), 100),
        )

    def _values(self, pick: Pick, names: Iterable[str]) -> dict[str, ResultValue]:
        """Results as they would be with one pick."""
        return self._values_with(self._taken(pick.sizes, self._numbers(pick)), names)

    def _values_with(self, taken: Mapping[Leaf, Taken], names: Iterable[str]) -> dict[str, ResultValue]:
        reckoner = Reckoner(self.measured.sizes(self.judgements, {**self.nothing, **taken}, self.read_built))
        return {name: self._value(reckoner, name) for name in names}

    def _value(self, reckoner: Reckoner, name: str) -> ResultValue:
        return result_value(self.unit, reckoner, name, self.telling)

    # The answer.

    def _miss(self, answer: Answer) -> FitMiss:
        miss = answer.miss
        if miss is None:
            return FitMiss(None, (), {}, {})
        return FitMiss(
            nearest=None if miss.pick is None else self._choice(miss.pick, answer.looked_at),
            failures=tuple(FitFailure(one.name, one.value, one.by) for one in miss.failures),
            needed={one.selective: (one.low, one.high) for one in miss.needed},
            to_buy=answer.to_buy,
        )

    def _choice(self, pick: Pick, looked_at: tuple[str, ...]) -> FitChoice:
        further = self._values(pick, looked_at)
        return FitChoice(
            dict(pick.sizes),
            self._numbers(pick),
            dict(pick.values) | {name: one.value for name, one in further.items() if one.value is not None},
            pick.tightest,
            {name: one.probability or 0.0 for name, one in further.items() if one.verdict == "not sure"},
            tuple(name for name, one in further.items() if one.verdict == "open"),
        )

    def _numbers(self, pick: Pick) -> dict[str, tuple[int, ...]]:
        """The plates of a pick by their place in the drawer's list."""
        return {part: tuple(self.pools[part].numbers[at] for at in places) for part, places in pick.pieces.items()}

    def _told(
        self,
        answers: list[Answer],
        sizes: dict[str, Fraction],
        pieces: dict[str, tuple[int, ...]],
        built: ReadSizes,
        staying: Collection[str],
    ) -> Fit:
        reckoner = Reckoner(built)
        limited = [name for name, result in self.unit.results.items() if result.limit is not None]
        values = {name: self._value(reckoner, name) for name in limited if self.asker.is_touched(name)}
        fitted = [one.name for answer in answers for one in answer.sure.demands if one.name in values]
        failing = tuple(name for name, one in values.items() if one.verdict == "outside")
        sources = sources_of(self.places, sizes)
        own = tuple(name for name, one in sources.items() if one.own is not None)
        people = self.measured.shop.people
        words = {
            name: source_words(self.places[name], one, people, self.asker.tried_by(name))
            for name, one in sources.items()
        }
        words |= {name: f"{words[name]}, {shown_words(self.asker, name)}" for name in staying}
        misses = tuple(self._miss(one) for one in answers if one.selection.best is None)
        bought = {name: sizes[name] for name, one in sources.items() if one.kind == "bought"}
        left = [name for name in self.places if name not in sizes]
        unchosen = unchosen_sentences(
            self.unit, self.measured.shop, self.asker, left, [one.failures for one in misses]
        )
        unchosen |= dict(unmoved_sentences(self.asker, self.judgements, left))
        counts = [one.selection.count for one in answers]
        known = (*own, *(name for name, one in sources.items() if one.kind == "used"))
        settled_by = not_the_size(self.unit, self.places.values(), sizes, own, self.telling) + settling(
            self.unit,
            self.measured.shop,
            self.places.values(),
            sizes,
            known,
            values,
            lambda place, taken: self._values_with(self._taken(sizes, pieces) | {place.leaf: taken}, values),
        )
        waiting = [point for name in self.asker.demands.waiting for point in self._waiting(built, name)]
        waiting += sizes_to_name(self.asker, left)
        return Fit(
            sizes=sizes,
            own=own,
            used=tuple(name for name, one in sources.items() if one.kind == "used"),
            sources=words,
            pieces=pieces,
            figures={part: self.pools[part].figures(numbers) for part, numbers in pieces.items()},
            values=values,
            others=tuple(
                self._choice(one.pick, answer.looked_at)
                for answer in answers
                if not are_shown_inside(self.measured, answer.looked_at)
                for one in answer.others
            ),
            spares=tuple(spare for one in answers for spare in self._spares(one)),
            misses=misses,
            to_buy=bought,
            sentences=(
                *chosen_sentences(self.unit, sizes, words, pieces, values, fitted, self.telling),
                *(
                    told
                    for miss in misses
                    for told in miss_sentences(self.unit, miss, self.telling)
                ),
                *(told for one in answers for told in self._bought_for(one, values)),
                *(values[name].sentence for name in failing if name not in fitted),
                *(one.sentence for one in settled_by),
                *unchosen.values(),
            ),
            is_proved=all(one.selection.is_proved for one in answers),
            probability=_all_inside(values, fitted) if sizes or pieces else None,
            waiting=merged([*waiting, *(one.point for one in settled_by)]),
            unchosen=unchosen,
            undecided=tuple(name for name in left if self.asker.limits_of(name)),
            failing=failing,
            sets_inside=_sum(None if one is None else one.sets_inside for one in counts),
            sets_failing=_sum(None if one is None else one.sets_failing for one in counts),
            built=built,
        )

    def _waiting(self, built: ReadSizes, name: str) -> list[OpenPoint]:
        """What a result waits for and the built unit, where it was read, does not tell."""
        points = self.asker.demands.waiting[name]
        if not self.read_built:
            return list(points)
        left = {(one.part, one.kind, one.name) for one in lacking(self.unit, built, name)}
        return [one for one in points if (one.part, one.kind, one.name) in left]

    def _spares(self, answer: Answer) -> tuple[FitSpare, ...]:
        pick = answer.pick if answer.pick is not None or answer.miss is None else answer.miss.pick
        spares = () if pick is None else spares_of(answer.sure, pick)
        return tuple(
            FitSpare(one.selective, one.size, one.stock, one.is_picked, dict(one.values), one.failing) for one in spares
        )

    def _bought_for(self, answer: Answer, values: Mapping[str, ResultValue]) -> tuple[str, ...]:
        """Why something is bought although what is on hand would meet the limits."""
        if not answer.to_buy or not answer.compared.on_hand:
            return ()
        instead = answer.compared.on_hand[0].pick
        looked_at = [one for one in values if set(self.asker.choices_of(one)) & set(answer.sure.choice_names)]
        return bought_sentences(instead.sizes, self._values(instead, looked_at), values, self.telling)

    def _taken(self, sizes: Mapping[str, Fraction], pieces: Mapping[str, tuple[int, ...]]) -> dict[Leaf, Taken]:
        """What stands in the chains once all is chosen."""
        taken: dict[Leaf, Taken] = {}
        sources = sources_of(self.places, sizes)
        for name, size in sizes.items():
            place: SelectivePlace = self.places[name]
            taken[place.leaf] = place.taken(size, sources[name].own, sources[name].kind == "used")
        for part, places in pieces.items():
            pool: PlatePool = self.pools[part]
            for leaf, figure in zip(pool.leaves, pool.figures(places), strict=True):
                taken[leaf] = (Span.exactly(figure), None)
        return taken


def _all_inside(values: Mapping[str, ResultValue], names: Iterable[str]) -> float | None:
    """A probability that all are inside that holds however they hang together (G. Boole's inequality)."""
    chances = [values[name].probability for name in names]
    known = [one for one in chances if one is not None]
    if len(known) < len(chances):
        return None
    return max(0.0, 1.0 - sum(1.0 - one for one in known))


def _sum(numbers: Iterable[int | None]) -> int | None:
    found = list(numbers)
    known = [one for one in found if one is not None]
    return sum(known) if len(known) == len(found) and found else None
