"""What a fit has to meet: limited results that its choices move, as sums, and those that can only be looked at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from layshaft.book.definition import Result, Unit
from layshaft.book.size import Form, Leaf
from layshaft.gauging import assortment as gauging
from layshaft.gauging import window as gauging_window
from layshaft.plan.drawer import PlatePool, SelectivePlace
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.lacking import lacking
from layshaft.plan.read_size import ReadSizes
from layshaft.plan.reckoning import Reckoner
from layshaft.plan.source import Sources
from layshaft.quantity import LENGTH, Limit, Quantity, parse_expression


@dataclass(slots=True)
class Demands:
    """Results that the choices of one fit move, each in the way it can be dealt with."""

    sure: dict[str, Form] = field(default_factory=dict)
    """Sums in the choices whose other links are known, or can be known no better."""
    hoped: dict[str, Form] = field(default_factory=dict)
    """Limited sums that still wait for a reading: followed as drawn, where another result decides about the choice."""
    guessed: dict[str, Form] = field(default_factory=dict)
    """Those of them that only a reading of the built unit settles: a choice that nothing else decides goes by them."""
    tried: dict[str, Form] = field(default_factory=dict)
    """Those of these that decide about a choice."""
    checked: dict[str, frozenset[str]] = field(default_factory=dict)
    """Limited results that are no sum in the choices, with the parts they come from."""
    waiting: dict[str, tuple[OpenPoint, ...]] = field(default_factory=dict)
    refused: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Limited results of places for which someone chose a size that is nowhere to be had: nothing is chosen by them."""


class Asker:
    """Puts the question: what may be chosen on one side, what has to be met on the other."""

    def __init__(
        self,
        unit: Unit,
        empty: ReadSizes,
        places: Mapping[str, SelectivePlace],
        pools: Mapping[str, PlatePool],
        opened: frozenset[str] | None,
        read_built: frozenset[str] = frozenset(),
    ) -> None:
        self.unit = unit
        self.empty = empty
        self.places = places
        self.pools = pools
        self.by_leaf: dict[Leaf, str] = {one.leaf: one.name for one in places.values()}
        self.by_leaf |= {leaf: one.part for one in pools.values() for leaf in one.leaves}
        self.reckoner = Reckoner(empty)
        self.sources = Sources(unit)
        self.opened = opened
        self.read_built = read_built
        """Results that have been read straight off the built unit, so that no choice can change them any more."""
        self.demands = self._demands()

    def is_touched(self, result: str) -> bool:
        """Whether a result comes from anything that is opened."""
        return self.opened is None or bool(self.sources.parts(result) & self.opened)

    def choices_of(self, result: str) -> tuple[str, ...]:
        """The choices that stand behind a result."""
        parts = self.sources.parts(result)
        named = dict.fromkeys(name for leaf, name in self.by_leaf.items() if leaf.part in parts)
        form = self._form(result)
        if form is None:
            return tuple(named)
        moving = {self.by_leaf[leaf] for leaf in form.terms if leaf in self.by_leaf}
        return tuple(name for name in named if name in moving)

    def _demands(self) -> Demands:
        found = Demands()
        for name, result in self.unit.results.items():
            if not self.is_touched(name) or not self.choices_of(name):
                continue
            form = self._form(name)
            missing = lacking(self.unit, self.empty, name, form)
            is_limited = result.limit is not None
            refused = tuple(one for one in self.choices_of(name) if one in self.places and self.places[one].is_refused)
            if refused:
                found.refused[name] = refused
                continue
            if missing and is_limited:
                found.waiting[name] = missing
            if form is not None and self._is_poolable(form) and _is_comparable(result):
                if not missing:
                    found.sure[name] = form
                elif is_limited and all(one.kind == "result" and one.is_new for one in missing):
                    found.guessed[name] = form
                elif is_limited:
                    found.hoped[name] = form
            elif is_limited:
                found.checked[name] = self.sources.parts(name)
        return found

    def _form(self, name: str) -> Form | None:
        """A result as a sum in the choices: a chain, or arithmetic in which they only add up."""
        form = self.empty.form(name)
        if form is not None:
            return form
        parts = {leaf.part for leaf in self.by_leaf}
        return self.reckoner.result(name).form if self.sources.is_sum_in(name, parts) else None

    def _is_poolable(self, form: Form) -> bool:
        """Whether the pieces of each pool count alike, so that only their sum matters."""
        return all(len({form.terms.get(leaf, 0) for leaf in pool.leaves}) == 1 for pool in self.pools.values())

    # The question.

    def questions(self) -> tuple[gauging.Assortment, ...]:
        """What hangs together asked together; results that wait are among the demands."""
        sure = self.demands.sure
        limited = {name: form for name, form in sure.items() if self.unit.results[name].limit is not None}
        moved = {one for form in limited.values() for one in self._moved_by(form)}
        # Where a trial is the only way, the chain says what to try; what it decides alone is asked for like the rest.
        for name, form in self.demands.guessed.items():
            (self.demands.hoped if self._moved_by(form) <= moved else self.demands.tried)[name] = form
        sure = sure | self.demands.tried
        limited |= self.demands.tried
        moved |= {one for form in self.demands.tried.values() for one in self._moved_by(form)}
        cross = {name: made for name in limited if (made := self._cross(name)) is not None}
        needed = {one for made in cross.values() for one in made.coefficients}
        singles = [
            self._single(name, form)
            for name, form in sure.items()
            if name not in cross and name in limited.keys() | needed
        ]
        singles += [
            self._single(name, form)
            for name, form in self.demands.hoped.items()
            if self._moved_by(form) <= moved
        ]
        places = tuple(self._offer(one, moved) for one in self.places.values() if one.name in moved)
        pools = tuple(one.pool for one in self.pools.values() if one.part in moved)
        if not places and not pools:
            return ()
        return gauging.split_independent(gauging.Assortment(places, pools, tuple(singles), tuple(cross.values())))

    def limits_of(self, choice: str) -> list[str]:
        """The limited results that rest on a choice."""
        results = self.unit.results.items()
        limited = [name for name, result in results if result.limit is not None and self.is_touched(name)]
        return [name for name in limited if choice in self.choices_of(name)]

    def tried_by(self, choice: str) -> tuple[str, ...]:
        """The results that a choice is a trial for: read on the built unit, they say whether it stays."""
        tried = self.demands.tried.items()
        return tuple(name for name, form in tried if choice in self._moved_by(form) and name not in self.read_built)

    def _moved_by(self, form: Form) -> set[str]:
        return {self.by_leaf[leaf] for leaf in form.terms if leaf in self.by_leaf}

    def _offer(self, place: SelectivePlace, asked: Collection[str]) -> gauging.Selective:
        """What may go to a place, without the pieces that someone chose for places that are not asked about."""
        spoken_for = Counter(
            one.fixed for one in self.places.values() if one.drawer == place.drawer and one.name not in asked
        )
        sizes = tuple(
            size if size.stock is None else replace(size, stock=max(0, size.stock - spoken_for[size.value]))
            for size in place.offer.sizes
        )
        return replace(place.offer, sizes=sizes)

    def without_hoped(self, question: gauging.Assortment) -> gauging.Assortment:
        """The same question with only what is sure to be met."""
        results = tuple(one for one in question.results if one.name not in self.demands.hoped)
        return gauging.Assortment(question.selectives, question.pools, results, question.cross_limits)

    def _single(self, name: str, form: Form) -> gauging.Result:
        result = self.unit.results[name]
        coefficients: dict[str, Fraction] = {}
        constant = Fraction(form.constant)
        for leaf, count in form.terms.items():
            if leaf in self.by_leaf:
                coefficients[self.by_leaf[leaf]] = Fraction(count)
            constant += self.reckoner.span_of(leaf).nominal * count
        return gauging.Result(name, constant, coefficients, self._limit(name), aim_of(result))

    def _limit(self, name: str) -> gauging_window.Limit | None:
        """Where the mean of a direct reading has to lie for its worst place to be inside."""
        limit = self.unit.results[name].limit
        least, most = self.empty.apart.get(name, (Fraction(0), Fraction(0)))
        if limit is None or least == most == 0 or name in self.empty.spoilt:
            return limit
        low = None if limit.low is None else limit.low - least
        high = None if limit.high is None else limit.high - most
        if low is not None and high is not None and low > high:
            low = high = (low + high) / 2
        return gauging_window.Window(low, high)

    def _cross(self, name: str) -> gauging.CrossLimit | None:
        """A limit on an expression of several results that are demands themselves."""
        result = self.unit.results[name]
        if result.is_ is None or result.limit is None or name in self.empty.direct:
            return None
        linear = parse_expression(result.is_, self.empty.names).linear()
        if linear is None or len(linear.coefficients) < 2:
            return None
        inner = linear.coefficients
        if any(one not in self.demands.sure or self.unit.results[one].is_ is not None for one in inner):
            return None
        return gauging.CrossLimit(name, dict(inner), result.limit, linear.constant, aim_of(result))


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
