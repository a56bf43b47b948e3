"""Every result of a unit from a job's readings: value, bounds, odds, and where it lies against its limit."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from layshaft.book.definition import Result, Unit
from layshaft.book.size import Form, Leaf, Span
from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, probability_inside
from layshaft.gauging.stack import Term, stack
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.lacking import lacking
from layshaft.plan.measured import Measured
from layshaft.plan.model import MODELS
from layshaft.plan.read_size import ReadSizes
from layshaft.plan.reckoning import Reckoned, Reckoner
from layshaft.plan.settling import settling
from layshaft.plan.source import Sources
from layshaft.plan.telling import METRIC, Telling, telling_of
from layshaft.quantity import LENGTH, PURE, Dimension, Limit, Quantity, parse_expression

if TYPE_CHECKING:
    from layshaft.plan.fit import Fit

ResultVerdict = Literal["inside", "outside", "not sure", "open"]
Origin = Literal["read", "measured", "part measured", "drawn", "given"]
KNOWN: tuple[Origin, ...] = ("read", "measured", "given")
"""Origins with nothing left in them that a reading could tell."""


@dataclass(frozen=True, slots=True)
class ResultValue:
    """One result; lengths and all else in the SI."""

    name: str
    about: str
    value: Fraction | None
    low: Fraction | None
    high: Fraction | None
    """Worst case of what is not measured."""
    rss: float
    """Half-width by root sum square of what is not measured, every piece by itself."""
    rss_batch: float
    """The same with the pieces of one part all high or all low together."""
    uncertainty: float
    """Standard uncertainty from the gauges."""
    limit: str | None
    margin: Fraction | None
    """From the value to the nearer end of the limit, negative outside."""
    verdict: ResultVerdict | None
    """Nothing where the book sets no limit."""
    probability: float | None
    missing: tuple[OpenPoint, ...]
    origin: Origin
    sentence: str
    dimension: str
    settled_by: tuple[str, ...] = ()
    """What would settle one that is not sure, outside, cannot be said yet or is partly as drawn."""

    @property
    def worst(self) -> tuple[Fraction, Fraction] | None:
        """How far it can go, gauges counted, where something of it is not measured."""
        if self.low is None or self.high is None:
            return None
        gauges = 2 * Fraction(self.uncertainty) if self.low != self.high else Fraction(0)
        return self.low - gauges, self.high + gauges

    @property
    def is_settled(self) -> bool:
        """Whether it is inside its limit with nothing in it that is left to be measured."""
        return self.verdict == "inside" and self.origin in KNOWN


def results(
    unit: Unit,
    measured: Measured,
    fitted: Fit | None = None,
    judgements: Mapping[str, Judgement] | None = None,
) -> dict[str, ResultValue]:
    """Every result: of the unit as found, with verdicts as it will be built, with a fit with the sizes it chose."""
    sizes = fitted.built if fitted is not None else measured.sizes(judgements)
    reckoner = Reckoner(sizes)
    telling = telling_of(measured.shop)
    return {name: result_value(unit, reckoner, name, telling) for name in unit.results}


def result_value(unit: Unit, reckoner: Reckoner, name: str, telling: Telling = METRIC) -> ResultValue:
    """One result, told as a shop tells figures."""
    result = unit.results[name]
    reckoned = reckoner.result(name)
    missing = lacking(unit, reckoner.sizes, name, reckoned.form)
    dimension = _dimension(unit, reckoner, name)
    if reckoned.span is None or reckoned.form is None:
        return _open(name, result, reckoned, missing, dimension, telling)
    odds = _odds(unit, reckoner, reckoned.form)
    off = reckoner.sizes.worst_place(name, reckoned.span.nominal, result.limit)
    span = Span(reckoned.span.low + off, reckoned.span.nominal + off, reckoned.span.high + off)
    probability = None
    verdict: ResultVerdict | None = None
    if result.limit is not None:
        probability = probability_inside(odds.middle + off, result.limit, odds.deviation)
        verdict = _verdict(result.limit, span, missing, probability, reckoner)
    origin = _origin(reckoner, reckoned.form, name)
    limit = None if result.limit is None else telling.limit(result.limit)
    has_settled = verdict is None or (verdict == "inside" and origin in KNOWN)
    is_sure = result.limit is not None and _is_sure_at_worst(result.limit, span, odds.gauges)
    return ResultValue(
        name=name,
        about=result.about,
        value=span.nominal,
        low=span.low,
        high=span.high,
        rss=odds.rss,
        rss_batch=odds.rss_batch,
        uncertainty=odds.uncertainty,
        limit=limit,
        margin=None if result.limit is None else result.limit.distance(span.nominal),
        verdict=verdict,
        probability=probability,
        missing=missing,
        origin=origin,
        sentence=_sentence(name, result.limit, span, verdict, probability, origin, dimension, telling, odds.gauges)
        + _since(unit, reckoner.sizes, name)
        + _rests_on(unit, reckoner.sizes, name),
        dimension=dimension.name,
        settled_by=() if has_settled else settling(unit, reckoner, name, reckoned.form, verdict, missing, is_sure),
    )


def _open(
    name: str,
    result: Result,
    reckoned: Reckoned,
    missing: tuple[OpenPoint, ...],
    dimension: Dimension,
    telling: Telling,
) -> ResultValue:
    lack = reckoned.lack or "what it comes from is not known"
    return ResultValue(
        name, result.about, None, None, None, math.nan, math.nan, math.nan,
        None if result.limit is None else telling.limit(result.limit), None,
        "open" if result.limit is not None else None, None, missing, "drawn", f"{name}: {lack}.", dimension.name,
        tuple(point.sentence for point in missing),
    )  # fmt: skip


# Odds.


@dataclass(frozen=True, slots=True)
class _Odds:
    middle: Fraction
    rss: float
    rss_batch: float
    uncertainty: float
    deviation: float

    @property
    def gauges(self) -> Fraction:
        """How far the gauges can be off, 95 times in 100."""
        return 2 * Fraction(self.uncertainty)


def _odds(unit: Unit, reckoner: Reckoner, form: Form) -> _Odds:
    """Root sum square and uncertainty of a sum of leaves; the wider of batch and single rules the odds."""
    constant = Fraction(form.constant)
    terms = leaf_terms(unit, reckoner, form)
    if not terms:
        return _Odds(constant, 0.0, 0.0, 0.0, 0.0)
    together = stack(terms)
    apart = stack(tuple(_alone(term) for term in terms))
    return _Odds(together.middle + constant, apart.rss, together.rss, together.uncertainty, together.deviation)


def leaf_terms(unit: Unit, reckoner: Reckoner, form: Form) -> tuple[Term, ...]:
    """The leaves of a form as terms of a stack: read ones with their doubt, the rest with their tolerance."""
    found = []
    for leaf, count in form.terms.items():
        span = reckoner.span_of(leaf)
        name = f"{leaf.part}|{leaf.from_}|{leaf.to}|{leaf.piece}"
        doubt = reckoner.doubt_of(leaf)
        if span.low == span.high:
            own, bias = (doubt.own, doubt.bias) if doubt else (0.0, 0.0)
            found.append(Term.measured(name, count, span.nominal, own, bias, (doubt and doubt.gauge) or name))
        else:
            found.append(
                Term(name, Fraction(count), span.nominal, span.low, span.high, batch=_batch(unit, leaf, reckoner))
            )
    return tuple(found)


def _batch(unit: Unit, leaf: Leaf, reckoner: Reckoner) -> str | None:
    is_one_of_many = bool(leaf.part) and unit.parts[leaf.part].count > 1 and not reckoner.is_read(leaf)
    return leaf.part if is_one_of_many else None


def _alone(term: Term) -> Term:
    return Term(
        term.name, term.coefficient, term.nominal, term.low, term.high, term.count, None, term.is_measured,
        term.uncertainty, term.bias, term.gauge,
    )  # fmt: skip


# Against the limit.


def _verdict(
    limit: Limit, span: Span, missing: tuple[OpenPoint, ...], probability: float, reckoner: Reckoner
) -> ResultVerdict:
    if any(_is_of_used(point, reckoner) or _is_read_again(point, reckoner) for point in missing):
        # What the drawing says of a new part says nothing of a worn one.
        return "open"
    if span.low != span.high and missing:
        if limit.contains(span.low) and limit.contains(span.high) and probability >= DEFAULT_CONFIDENCE:
            return "inside"
        below = limit.low is not None and span.high < limit.low
        above = limit.high is not None and span.low > limit.high
        return "outside" if below or above else "open"
    if not limit.contains(span.nominal):
        return "outside"
    return "inside" if probability >= DEFAULT_CONFIDENCE else "not sure"


def _is_sure_at_worst(limit: Limit, span: Span, gauges: Fraction) -> bool:
    """Whether even the worst of what is not measured, and of the gauges 95 times in 100, lies inside."""
    return limit.contains(span.low - gauges) and limit.contains(span.high + gauges)


def _is_of_used(point: OpenPoint, reckoner: Reckoner) -> bool:
    pieces = [(point.part, piece - 1) for piece in point.pieces]
    return point.kind == "reading" and any(piece not in reckoner.sizes.changed for piece in pieces)


def _is_read_again(point: OpenPoint, reckoner: Reckoner) -> bool:
    """Whether a result has been read, and its figure waits."""
    return point.kind == "result" and ("", point.name, 0) in reckoner.sizes.waited


def _origin(reckoner: Reckoner, form: Form, name: str) -> Origin:
    if name in reckoner.sizes.direct and name not in reckoner.sizes.spoilt:
        return "read"
    if not form.terms:
        return "given"
    read = [leaf for leaf in form.terms if reckoner.is_read(leaf)]
    # A listed size that was chosen stands at its tolerance until it is measured, as a drawn one does.
    wide = [leaf for leaf in form.terms if _is_wide(reckoner, leaf)]
    if not wide:
        return "measured" if read else "drawn"
    return "part measured" if read else "drawn"


def _is_wide(reckoner: Reckoner, leaf: Leaf) -> bool:
    span = reckoner.span_of(leaf)
    return span.low != span.high


_ORIGINS: dict[Origin, str] = {
    "read": "read off the unit",
    "measured": "measured",
    "part measured": "part measured, the rest as drawn or listed",
    "drawn": "as drawn, not measured",
    "given": "by the book's own figures, none of which is measured",
}


def _sentence(
    name: str,
    limit: Limit | None,
    span: Span,
    verdict: ResultVerdict | None,
    probability: float | None,
    origin: Origin,
    dimension: Dimension,
    telling: Telling,
    gauges: Fraction,
) -> str:
    told = f"{name} {telling.band(span, dimension, limit, gauges)}, {_ORIGINS[origin]}"
    if limit is not None and limit.is_preload:
        told = told.replace(" preload preload ", " preload ", 1)
    if limit is None or verdict is None:
        return f"{told}."
    if verdict == "open":
        return f"{told}: {telling.limit(limit)} asked, and it cannot be said yet."
    place = telling.against(span.nominal, limit)
    if verdict == "outside":
        return f"{told}: {'outside, ' if 'outside' not in place else ''}{place}."
    if origin == "drawn":
        return f"{told}: would be {place}."
    odds = _odds_told(probability, origin)
    if verdict == "not sure":
        return f"{told}: {place}{odds}, which is less than {100 * DEFAULT_CONFIDENCE:g} %."
    return f"{told}: {place}{odds}."


def _since(unit: Unit, sizes: ReadSizes, name: str) -> str:
    """What was changed since it was read: that the reading counts no more, or on which word of the book it does."""
    changed = sizes.dropped.get(name) or sizes.spoilt.get(name, ())
    if changed:
        return (
            f" Its reading as found counts no more: {_named(unit, changed)} {_are(changed)} changed since. "
            "If it was taken on the built unit, note it as new."
        )
    if name in sizes.reworked:
        return f" Its reading counts no more: {_named(unit, (sizes.reworked[name],))} was reworked since."
    alike = sizes.alike.get(name, ())
    if not alike:
        return ""
    named = _named(unit, alike)
    them = "it" if len(alike) == 1 else "them"
    return (
        f" Read as found, and {named} {_are(alike)} changed since: the book draws {them} without a tolerance, so old "
        "and new count alike."
    )


def _rests_on(unit: Unit, sizes: ReadSizes, name: str) -> str:
    """The readings that a result comes from which were taken with a part that is changed since, and count on."""
    known = {one for one in sizes.direct if one not in sizes.spoilt}
    read = [] if name in known else [one for one in Sources(unit).results(name, known) if sizes.alike.get(one)]
    parts = list(dict.fromkeys(part for one in read for part in sizes.alike[one]))
    if not parts:
        return ""
    old = "it is" if len(parts) == 1 else "they are"
    return (
        f" It rests on {' and '.join(read)}, read as found with the old {_named(unit, parts)}: {old} drawn without a "
        "tolerance, so old and new count alike."
    )


def _named(unit: Unit, parts: Sequence[str]) -> str:
    return " and ".join(f"{part} {unit.parts[part].name}" for part in parts)


def _are(parts: Sequence[str]) -> str:
    return "is" if len(parts) == 1 else "are"


def _odds_told(probability: float | None, origin: Origin) -> str:
    """How likely it is inside; near certainty is told only of what is measured in every link."""
    if probability is None:
        return ""
    if origin == "given" or (probability >= DEFAULT_CONFIDENCE and origin not in KNOWN):
        return ""
    return f", {percent(probability)} likely inside"


def percent(probability: float) -> str:
    """A probability that is never rounded up to certainty, nor up to what it is asked to be."""
    if probability >= 0.9995:
        return "over 99.9 %"
    if probability < 0.001:
        return "under 0.1 %"
    return f"{math.floor(1000 * probability) / 10:.1f} %"


def _dimension(unit: Unit, reckoner: Reckoner, name: str) -> Dimension:
    """The dimension that a result is shown in."""
    result = unit.results[name]
    if result.chain is not None:
        return LENGTH
    told: Limit | Quantity | None = result.limit or result.drawn or result.target
    if told is not None:
        return told.dimension
    if result.model is not None:
        return MODELS[result.model].dimension if result.model in MODELS else PURE
    expression = parse_expression(str(result.is_), reckoner.sizes.names)
    return expression.dimension({one: _named_dimension(unit, reckoner, one) for one in expression.names})


def _named_dimension(unit: Unit, reckoner: Reckoner, name: str) -> Dimension:
    if name in unit.results:
        return _dimension(unit, reckoner, name)
    word, _, rest = name.partition(" ")
    if word in ("pack", "count"):
        return LENGTH if word == "pack" else PURE
    plan = unit.parts[word].readings[rest]
    told: Limit | None = plan.new or plan.reuse
    return told.dimension if told is not None else LENGTH
