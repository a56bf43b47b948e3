"""The fit: which selective parts and used plates bring every result inside its limit, all at once.

Sizes and plates come from a drawer that is handed in, so that several jobs can be asked of one drawer.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import combinations

from layshaft.book.definition import Job, Result, Shop, Stock, Unit
from layshaft.book.size import Form, Leaf, Span
from layshaft.gauging import assortment as gauging
from layshaft.gauging.pick import Pick, Selection
from layshaft.gauging.selection import choose_jointly
from layshaft.plan.drawer import PlatePool, SelectivePlace, Taken, plate_pools, selective_places
from layshaft.plan.fit_text import chosen_sentences, miss_sentences
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.lacking import lacking
from layshaft.plan.measured import Measured
from layshaft.plan.read_size import ReadSizes
from layshaft.plan.reckoning import Reckoner
from layshaft.plan.result import ResultValue, result_value
from layshaft.plan.wanted import merged
from layshaft.quantity import LENGTH, Limit, Quantity, parse_expression


@dataclass(frozen=True, slots=True)
class FitChoice:
    """One set of sizes and plates that would do, and what it gives."""

    sizes: Mapping[str, Fraction]
    pieces: Mapping[str, tuple[int, ...]]
    """Which plates of a pool, counted from 1 as the drawer lists them."""
    values: Mapping[str, Fraction]
    tightest: str | None


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
    """Of these the unit's own part stays."""
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
    unchosen: tuple[str, ...]
    failing: tuple[str, ...]
    """Limited results that are outside all the same, once everything is chosen."""
    sets_inside: int | None
    """How many sets of sizes meet every single limit, and how many of those can fail one across results."""
    sets_failing: int | None
    built: ReadSizes = field(repr=False, compare=False)

    @property
    def miss(self) -> FitMiss | None:
        """The first question that nothing in the drawer answers."""
        return self.misses[0] if self.misses else None

    @property
    def reclaimed(self) -> dict[str, int]:
        """How many used plates of each part the drawer gives."""
        return {part: len(places) for part, places in self.pieces.items()}


def choose_fit(
    unit: Unit,
    job: Job | Measured,
    shop: Shop,
    judgements: Mapping[str, Judgement],
    drawer: Mapping[str, Stock] | None = None,
) -> Fit:
    """Choose selective parts and used plates jointly for every limited result whose links are all measured."""
    measured = job if isinstance(job, Measured) else Measured(unit, job, shop)
    return _Fitter(unit, measured, judgements, shop.drawer if drawer is None else drawer).fitted()


class _Fitter:
    """Sets up the question, asks it, and tells the answer."""

    def __init__(
        self, unit: Unit, measured: Measured, judgements: Mapping[str, Judgement], drawer: Mapping[str, Stock]
    ) -> None:
        self.unit = unit
        self.measured = measured
        self.judgements = judgements
        self.places = {one.name: one for one in selective_places(unit, measured, judgements, drawer)}
        self.pools = {one.part: one for one in plate_pools(unit, measured, judgements, drawer)}
        self.by_leaf: dict[Leaf, str] = {one.leaf: one.name for one in self.places.values()}
        self.by_leaf |= {leaf: one.part for one in self.pools.values() for leaf in one.leaves}
        nothing: dict[Leaf, Taken] = {leaf: (Span.exactly(Fraction(0)), None) for leaf in self.by_leaf}
        self.empty = measured.sizes(judgements, nothing)
        self.waiting: dict[str, tuple[OpenPoint, ...]] = {}

    def fitted(self) -> Fit:
        """The whole answer."""
        demands = self._demands()
        questions = self._questions(demands)
        answers = [(one, choose_jointly(one)) for one in questions]
        sizes: dict[str, Fraction] = {}
        pieces: dict[str, tuple[int, ...]] = {}
        to_buy: dict[str, Fraction] = {}
        misses: list[FitMiss] = []
        nearest: list[Pick] = []
        for question, answer in answers:
            pick = answer.best
            if pick is None:
                pick = fewest_bought(question)
                misses.append(self._miss(question, answer, pick))
                if pick is None and answer.miss is not None and answer.miss.pick is not None:
                    nearest.append(answer.miss.pick)
            if pick is not None:
                sizes |= pick.sizes
                pieces |= self._numbers(pick)
                to_buy |= self._to_buy(question, pick)
        # What does not do is not chosen, but the figures are those that it would give.
        tried = {name: size for pick in nearest for name, size in pick.sizes.items()}
        plates = {part: numbers for pick in nearest for part, numbers in self._numbers(pick).items()}
        sizes |= {name: one.fixed for name, one in self.places.items() if one.fixed is not None}
        built = self.measured.sizes(self.judgements, self._taken(sizes | tried, pieces | plates))
        return self._told(answers, sizes, pieces, to_buy, misses, built)

    # The question.

    def _demands(self) -> dict[str, Form]:
        """Limited results that a choice moves; those that still wait for a reading are set apart."""
        found: dict[str, Form] = {}
        for name, result in self.unit.results.items():
            form = self.empty.form(name)
            if form is None or not any(leaf in self.by_leaf for leaf in form.terms):
                continue
            missing = lacking(self.unit, self.empty, name)
            if missing:
                if result.limit is not None:
                    self.waiting[name] = missing
            elif self._is_poolable(form) and _is_comparable(result):
                found[name] = form
        return found

    def _is_poolable(self, form: Form) -> bool:
        """Whether the pieces of each pool count alike, so that only their sum matters."""
        return all(len({form.terms.get(leaf, 0) for leaf in pool.leaves}) == 1 for pool in self.pools.values())

    def _questions(self, demands: Mapping[str, Form]) -> tuple[gauging.Assortment, ...]:
        limited = {name: form for name, form in demands.items() if self.unit.results[name].limit is not None}
        moved = {self.by_leaf[leaf] for form in limited.values() for leaf in form.terms if leaf in self.by_leaf}
        cross = {name: made for name in limited if (made := self._cross(name, demands)) is not None}
        needed = {one for made in cross.values() for one in made.coefficients}
        singles = [
            self._single(name, form)
            for name, form in demands.items()
            if name not in cross and name in limited.keys() | needed
        ]
        places = tuple(one.offer for one in self.places.values() if one.name in moved)
        pools = tuple(one.pool for one in self.pools.values() if one.part in moved)
        if not places and not pools:
            return ()
        return gauging.split_independent(gauging.Assortment(places, pools, tuple(singles), tuple(cross.values())))

    def _single(self, name: str, form: Form) -> gauging.Result:
        result = self.unit.results[name]
        coefficients: dict[str, Fraction] = {}
        for leaf, count in form.terms.items():
            if leaf in self.by_leaf:
                coefficients[self.by_leaf[leaf]] = Fraction(count)
        return gauging.Result(name, self.empty.nominal(form), coefficients, result.limit, aim_of(result))

    def _cross(self, name: str, demands: Mapping[str, Form]) -> gauging.CrossLimit | None:
        """A limit on an expression of several results that are demands themselves."""
        result = self.unit.results[name]
        if result.is_ is None or result.limit is None or name in self.empty.direct:
            return None
        linear = parse_expression(result.is_, self.empty.names).linear()
        if linear is None or len(linear.coefficients) < 2:
            return None
        inner = linear.coefficients
        if any(one not in demands or self.unit.results[one].is_ is not None for one in inner):
            return None
        return gauging.CrossLimit(name, dict(inner), result.limit, linear.constant, aim_of(result))

    # The answer.

    def _to_buy(self, question: gauging.Assortment, pick: Pick) -> dict[str, Fraction]:
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

    def _miss(self, question: gauging.Assortment, answer: Selection, pick: Pick | None) -> FitMiss:
        miss = answer.miss
        if miss is None:
            return FitMiss(None, (), {}, {})
        return FitMiss(
            nearest=None if miss.pick is None else self._choice(miss.pick),
            failures=tuple(FitFailure(one.name, one.value, one.by) for one in miss.failures),
            needed={one.selective: (one.low, one.high) for one in miss.needed},
            to_buy={} if pick is None else self._to_buy(question, pick),
        )

    def _choice(self, pick: Pick) -> FitChoice:
        return FitChoice(dict(pick.sizes), self._numbers(pick), dict(pick.values), pick.tightest)

    def _numbers(self, pick: Pick) -> dict[str, tuple[int, ...]]:
        """The plates of a pick by their place in the drawer's list."""
        return {part: tuple(self.pools[part].numbers[at] for at in places) for part, places in pick.pieces.items()}

    def _told(
        self,
        answers: Iterable[tuple[gauging.Assortment, Selection]],
        sizes: dict[str, Fraction],
        pieces: dict[str, tuple[int, ...]],
        to_buy: dict[str, Fraction],
        misses: list[FitMiss],
        built: ReadSizes,
    ) -> Fit:
        answers = tuple(answers)
        reckoner = Reckoner(built)
        limited = [name for name, result in self.unit.results.items() if result.limit is not None]
        values = {name: result_value(self.unit, reckoner, name) for name in limited}
        fitted = [one.name for question, _ in answers for one in question.demands if one.name in values]
        failing = tuple(name for name, one in values.items() if one.verdict == "outside")
        own = tuple(name for name, size in sizes.items() if size in self.places[name].own)
        counts = [answer.count for _, answer in answers]
        return Fit(
            sizes=sizes,
            own=own,
            pieces=pieces,
            figures={part: self.pools[part].figures(numbers) for part, numbers in pieces.items()},
            values=values,
            others=tuple(self._choice(pick) for _, answer in answers for pick in answer.others),
            spares=_spares(answer for _, answer in answers),
            misses=tuple(misses),
            to_buy=to_buy,
            sentences=(
                *chosen_sentences(self.unit, sizes, own, pieces, to_buy, values, fitted),
                *(told for miss in misses for told in miss_sentences(self.unit, miss.failures, miss.to_buy)),
                *(values[name].sentence for name in failing if name not in fitted),
            ),
            is_proved=all(answer.is_proved for _, answer in answers),
            probability=_all_inside(values, fitted) if sizes or pieces else None,
            waiting=merged(point for points in self.waiting.values() for point in points),
            unchosen=tuple(name for name in self.places if name not in sizes),
            failing=failing,
            sets_inside=_sum(None if one is None else one.sets_inside for one in counts),
            sets_failing=_sum(None if one is None else one.sets_failing for one in counts),
            built=built,
        )

    def _taken(self, sizes: Mapping[str, Fraction], pieces: Mapping[str, tuple[int, ...]]) -> dict[Leaf, Taken]:
        """What stands in the chains once all is chosen."""
        taken: dict[Leaf, Taken] = {}
        for name, size in sizes.items():
            place: SelectivePlace = self.places[name]
            taken[place.leaf] = place.taken(size)
        for part, places in pieces.items():
            pool: PlatePool = self.pools[part]
            for leaf, figure in zip(pool.leaves, pool.figures(places), strict=True):
                taken[leaf] = (Span.exactly(figure), None)
        return taken


def _spares(answers: Iterable[Selection]) -> tuple[FitSpare, ...]:
    return tuple(
        FitSpare(one.selective, one.size, one.stock, one.is_picked, dict(one.values), one.failing)
        for answer in answers
        for one in answer.spares
    )


def fewest_bought(question: gauging.Assortment) -> Pick | None:
    """The best pick that meets every limit with as few places as can be filled from outside the drawer."""
    names = [one.name for one in question.selectives]
    for number in range(1, len(names) + 1):
        picks = []
        for bought in combinations(names, number):
            best = choose_jointly(_stocked(question, frozenset(bought)), keep=1).best
            if best is not None:
                picks.append(best)
        if picks:
            return max(picks, key=lambda one: one.smallest_distance or Fraction(0))
    return None


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


def _is_comparable(result: Result) -> bool:
    """Whether room within a limit can be told as a share: a force with one end only has no width of its own."""
    limit: Limit | None = result.limit
    return limit is None or limit.dimension.exponents == LENGTH.exponents or limit.width is not None


def aim_of(result: Result) -> Fraction | None:
    """Where a result should be nearest to, apart from the middle of its limit."""
    target: Quantity | None = result.target
    limit: Limit | None = result.limit
    if target is not None:
        return target.nominal
    if limit is None or result.prefer == "middle":
        return None
    return limit.low if result.prefer == "low" else limit.high


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
