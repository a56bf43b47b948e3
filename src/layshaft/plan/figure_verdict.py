"""One figure against its limit: reuse, rework, renew or measure again, and why, in a sentence."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from layshaft.book.definition import Part, ReadingPlan
from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, Conformity, judge_conformity
from layshaft.gauging.window import is_inside
from layshaft.plan.figure import Figure, Finding, places_to_come
from layshaft.plan.free_figure import in_own_units
from layshaft.plan.judgement import FigureJudgement, PartVerdict
from layshaft.plan.telling import METRIC, Telling
from layshaft.quantity import Limit


def judge_figure(
    part: Part, figure: Figure, waiting: Finding | None = None, telling: Telling = METRIC
) -> FigureJudgement:
    """Hold one figure of a part against the book's limit."""
    plan = part.readings[figure.reading]
    limit = limit_of(plan, figure.is_new)
    where = f" at {figure.place}" if figure.place else ""
    told = f"{figure.reading} {_figure(plan, figure, telling)}{where}"
    typed = in_own_units(figure.typed, telling)
    limit_told = None if limit is None else telling.limit(limit)
    if waiting is not None:
        why = in_own_units(waiting.why.rstrip("."), telling)
        why = why.removeprefix(typed).lstrip() if why.startswith(typed) else f"waits: {why}"
        return _said(figure, limit_told, None, "measure again", f"{figure.reading} {typed} {why}", is_waiting=True)
    if figure.missing and (limit is None or _is_no_range_yet(plan, figure)):
        sentence = f"{figure.reading} {typed}, and {_places(figure)}"
        return _said(figure, limit_told, None, "measure again", sentence, is_waiting=True)
    if limit is None:
        return _said(figure, None, None, "reuse", f"{told}, which results are worked out from")
    said = None
    inside = is_inside(figure.value, limit)
    if figure.doubt is not None:
        said = judge_conformity(figure.value, limit, figure.doubt)
    is_only_new = plan.reuse is None and not figure.is_new
    verdict, why = _decide(_Held(plan, figure, limit, said, telling), inside, is_only_new)
    if verdict == "measure again" and not figure.place and figure.typed != figure.text:
        told += f" ({typed})"
    is_waiting = verdict == "measure again" and figure.missing > 0
    return _said(figure, limit_told, said, verdict, f"{told}, {why}", inside, is_waiting)


def _is_no_range_yet(plan: ReadingPlan, figure: Figure) -> bool:
    """Whether the book judges by how far places differ, and there is only one of them."""
    return plan.decides == "range" and len(figure.places) < 2


def limit_of(plan: ReadingPlan, is_new: bool) -> Limit | None:
    """The limit that a figure of a reading is held against."""
    if is_new:
        return plan.new or plan.reuse
    if plan.reuse is None and plan.from_ is not None:
        # A distance without a limit of its own is judged by the results it enters.
        return None
    return plan.reuse or plan.new


def _figure(plan: ReadingPlan, figure: Figure, telling: Telling) -> str:
    known = plan.new or plan.reuse
    return figure.text if known is None else telling.typed(figure.text, figure.value, known.dimension)


@dataclass(frozen=True, slots=True)
class _Held:
    """A figure held against its limit, ready to be told."""

    plan: ReadingPlan
    figure: Figure
    limit: Limit
    said: Conformity | None
    telling: Telling

    @property
    def beside(self) -> str:
        """Where the figure lies."""
        return self.telling.beside(self.figure.value, self.limit)

    @property
    def band(self) -> str:
        """The gauge, and how wrong it can be."""
        return in_own_units(self.figure.band, self.telling)


def _decide(held: _Held, inside: bool, is_only_new: bool) -> tuple[PartVerdict, str]:
    said = held.said
    if not inside:
        return _outside(held, is_only_new)
    if held.figure.missing:
        return "measure again", f"{held.beside}, and {_places(held.figure)}"
    if said is not None and not said.is_sure:
        return (
            "measure again",
            f"{held.beside}, {_percent(said.probability)} sure {held.band}, less than "
            f"{100 * DEFAULT_CONFIDENCE:g} %; read it again with a gauge that errs less, or renew",
        )
    unsure = "; no gauge is known, so how sure that is cannot be said" if said is None else ""
    return "reuse", f"{held.beside}{unsure}"


def _outside(held: _Held, is_only_new: bool) -> tuple[PartVerdict, str]:
    said, plan, limit = held.said, held.plan, held.telling.limit(held.limit)
    odds = f", {_percent(1 - said.probability)} sure {held.band}" if said is not None else ""
    if held.figure.is_new:
        return "ask", f"{held.beside}: a new part outside its limit of {limit}; do not fit it"
    if is_only_new:
        return "ask", f"outside what a new one has, {limit}, and the book gives no limit for a used one"
    if plan.rework is not None:
        down_to = f" to {held.telling.limit(plan.rework.down_to)}" if plan.rework.down_to is not None else ""
        how = in_own_units(plan.rework.how.rstrip("."), held.telling)
        return "rework", f"{held.beside}{odds}: {how}{down_to}, then measure again"
    return "renew", f"{held.beside}{odds}"


def _places(figure: Figure) -> str:
    return places_to_come(figure.missing)


def _percent(probability: float) -> str:
    """A probability that is never rounded up, to certainty or to what is asked of it."""
    if probability >= 0.9995:
        return "over 99.9 %"
    return "under 0.1 %" if probability < 0.001 else f"{floor(1000 * probability) / 10:.1f} %"


def _said(
    figure: Figure,
    limit: str | None,
    said: Conformity | None,
    verdict: PartVerdict,
    sentence: str,
    inside: bool | None = None,
    is_waiting: bool = False,
) -> FigureJudgement:
    return FigureJudgement(
        part=figure.part,
        reading=figure.reading,
        piece=figure.piece,
        is_new=figure.is_new,
        value=figure.value,
        text=figure.text,
        place=figure.place,
        limit=limit,
        is_inside=inside,
        probability=None if said is None else said.probability,
        gauge=figure.gauge,
        verdict=verdict,
        sentence=sentence,
        is_waiting=is_waiting,
        missing=figure.missing,
    )
