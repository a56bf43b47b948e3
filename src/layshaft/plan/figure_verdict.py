"""One figure against its limit: reuse, rework, renew or measure again, and why, in a sentence."""

from __future__ import annotations

from layshaft.book.definition import Part, ReadingPlan
from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, Conformity, judge_conformity
from layshaft.gauging.window import is_inside
from layshaft.plan.figure import Figure, Finding
from layshaft.plan.judgement import FigureJudgement, PartVerdict
from layshaft.quantity import Limit


def judge_figure(part: Part, figure: Figure, waiting: Finding | None = None) -> FigureJudgement:
    """Hold one figure of a part against the book's limit."""
    plan = part.readings[figure.reading]
    limit = _limit(plan, figure.is_new)
    where = f" at {figure.place}" if figure.place else ""
    told = f"{figure.reading} {figure.text}{where}"
    if waiting is not None:
        return _said(
            figure, limit, None, "measure again", f"{told} waits: {waiting.sentence.split(': ', 1)[1].rstrip('.')}"
        )
    if limit is None:
        verdict: PartVerdict = "measure again" if figure.missing else "reuse"
        more = f"{told}, and {_places(figure)}" if figure.missing else f"{told}, which results are worked out from"
        return _said(figure, None, None, verdict, more)
    said = None
    inside = is_inside(figure.value, limit)
    if figure.doubt is not None:
        said = judge_conformity(figure.value, limit, figure.doubt)
    is_only_new = plan.reuse is None and not figure.is_new
    verdict, why = _decide(plan, figure, limit, inside, said, is_only_new)
    return _said(figure, limit, said, verdict, f"{told}, {why}", inside)


def _limit(plan: ReadingPlan, is_new: bool) -> Limit | None:
    if is_new:
        return plan.new or plan.reuse
    if plan.reuse is None and plan.from_ is not None:
        # A distance without a limit of its own is judged by the results it enters.
        return None
    return plan.reuse or plan.new


def _decide(
    plan: ReadingPlan, figure: Figure, limit: Limit, inside: bool, said: Conformity | None, is_only_new: bool
) -> tuple[PartVerdict, str]:
    odds = f", inside with {_percent(said.probability)}" if said is not None else ""
    if not inside:
        return _outside(plan, figure, limit, said, is_only_new)
    if figure.missing:
        return "measure again", f"{limit}, and {_places(figure)}"
    if said is not None and not said.is_sure:
        return (
            "measure again",
            f"{limit}{odds} {figure.band}, less than {100 * DEFAULT_CONFIDENCE:g} %; "
            "read it again with a gauge that errs less, or renew",
        )
    end = " exactly" if figure.value in (limit.low, limit.high) else ""
    unsure = "; no gauge is known, so how sure that is cannot be said" if said is None else ""
    return "reuse", f"inside {limit}{end}{unsure}"


def _outside(
    plan: ReadingPlan, figure: Figure, limit: Limit, said: Conformity | None, is_only_new: bool
) -> tuple[PartVerdict, str]:
    odds = f", {_percent(1 - said.probability)} sure {figure.band}" if said is not None else ""
    if figure.is_new:
        return "ask", f"a new part outside {limit}; do not fit it"
    if is_only_new:
        return "ask", f"outside what a new one has, {limit}, and the book gives no limit for a used one"
    if plan.rework is not None:
        down_to = f" to {plan.rework.down_to}" if plan.rework.down_to is not None else ""
        return "rework", f"outside {limit}{odds}: {plan.rework.how.rstrip('.')}{down_to}, then measure again"
    return "renew", f"outside {limit}{odds}"


def _places(figure: Figure) -> str:
    return f"{figure.missing} more {'place is' if figure.missing == 1 else 'places are'} to be measured"


def _percent(probability: float) -> str:
    """A probability that is never rounded up to certainty."""
    if probability >= 0.9995:
        return "over 99.9 %"
    return "under 0.1 %" if probability < 0.0005 else f"{100 * probability:.1f} %"


def _said(
    figure: Figure,
    limit: Limit | None,
    said: Conformity | None,
    verdict: PartVerdict,
    sentence: str,
    inside: bool | None = None,
) -> FigureJudgement:
    return FigureJudgement(
        part=figure.part,
        reading=figure.reading,
        piece=figure.piece,
        is_new=figure.is_new,
        value=figure.value,
        text=figure.text,
        place=figure.place,
        limit=None if limit is None else limit.text,
        is_inside=inside,
        probability=None if said is None else said.probability,
        gauge=figure.gauge,
        verdict=verdict,
        sentence=sentence,
    )
