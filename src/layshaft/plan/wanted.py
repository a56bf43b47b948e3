"""Looks and readings that are still wanted, what they take, and which of them tells most."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Literal

from layshaft.book.definition import Failure, Look, LookPlan, Part, ReadingPlan, Unit
from layshaft.plan.condition_verdict import NoticedState
from layshaft.plan.figure_verdict import judge_figure
from layshaft.plan.judgement import FigureJudgement, Judgement, OpenPoint
from layshaft.plan.measured import Measured
from layshaft.plan.phrase import in_runs, with_load

LOOK_MINUTES = 1.0
PLACE_MINUTES = 0.5
"""Minutes for a look, and for one place of a reading, where the book says nothing (common practice, no source)."""


def wanted_look(
    part: Part, name: str, look: str, pieces: Sequence[int], failures: Iterable[Failure] = ()
) -> OpenPoint:
    """A look that nobody has taken yet, with how the part is known to fail."""
    plan = part.looks[look]
    sentence = f"Look at {name} {part.name}, {look} ({plan.how}){_of(part, pieces)}."
    return _point(name, "look", look, pieces, " ".join((sentence, *_cues(failures))), plan)


def _point(
    name: str,
    kind: Literal["look", "reading", "choice"],
    of: str,
    pieces: Iterable[int],
    sentence: str,
    plan: LookPlan | ReadingPlan | None = None,
) -> OpenPoint:
    """What is wanted of pieces of one part, counted from 0, and decides about it; how and how long by a book's plan."""
    return OpenPoint(
        part=name,
        kind=kind,
        name=of,
        pieces=tuple(piece + 1 for piece in pieces),
        how=plan.how if plan is not None else "",
        gauge=None,
        minutes=float(plan.time.nominal) / 60 if plan is not None and plan.time else LOOK_MINUTES,
        sentence=sentence,
        decides=(name,),
    )


def _cues(failures: Iterable[Failure]) -> Iterator[str]:
    """How a failure shows itself, and where to look for more of it."""
    for one in failures:
        further = f" Look for: {one.look_for.rstrip('.')}." if one.look_for else ""
        yield f"Known failure: {one.found.rstrip('.')}.{further}"


def wanted_state(part: Part, name: str, unknown: NoticedState) -> OpenPoint:
    """Whether a part is whole, where all that was noticed of it is that this is not known."""
    words = f" ({unknown.words.rstrip('.')})" if unknown.words else ""
    sentence = f"Say whether {name} {part.name} is whole, broken or missing; it was noticed as not known{words}."
    return _point(name, "look", "state", unknown.among(part.count), sentence)


def wanted_word(part: Part, name: str, disagreed: str, pieces: Sequence[int]) -> OpenPoint:
    """Whether a part is renewed or kept, where one person chose this and another that."""
    sentence = f"Say whether {name} {part.name} is renewed or kept: {disagreed}."
    return _point(name, "choice", "renew or keep", pieces, sentence)


def wanted_mending(
    part: Part, name: str, about: tuple[Literal["look", "reading"], str], pieces: Sequence[int], what: str
) -> OpenPoint:
    """Something to be mended, and looked at or measured again, before the part goes in."""
    kind, of = about
    plan = part.looks[of] if kind == "look" else part.readings[of]
    return _point(name, kind, of, pieces, f"Rework {name} {part.name}{_of(part, pieces)}: {what}.", plan)


def wanted_reading(
    part: Part,
    name: str,
    reading: str,
    pieces: Sequence[int],
    known: Iterable[FigureJudgement] = (),
    is_again: bool = False,
) -> OpenPoint:
    """A reading that nobody has taken yet, or that has to be taken again."""
    plan = part.readings[reading]
    again = [one for one in known if one.reading == reading and one.piece in pieces and not one.is_new]
    each = float(plan.time.nominal) / 60 if plan.time else PLACE_MINUTES * plan.places
    return OpenPoint(
        part=name,
        kind="reading",
        name=reading,
        pieces=tuple(piece + 1 for piece in pieces),
        how=plan.how,
        gauge=plan.gauge,
        minutes=each * len(pieces),
        sentence=f"Measure {_told_by_manner(part, name, reading, pieces, again, is_again)}.",
        decides=(name,),
    )


def _told_by_manner(
    part: Part, name: str, reading: str, pieces: Sequence[int], again: Iterable[FigureJudgement], is_again: bool
) -> str:
    """What is to be measured: pieces of which it is for the first time, then those again, by what was short then."""
    plan = part.readings[reading]
    known = {one.piece: one for one in again}
    manners: dict[tuple[bool, str], list[int]] = {}
    for piece in pieces:
        manner = _short_of(plan, known[piece]) if piece in known else ""
        manners.setdefault((is_again or piece in known, manner), []).append(piece)
    what = f"{name} {part.name}, {reading} ({with_load(plan.how, plan.load)})"
    told: list[str] = []
    for (is_read, manner), some in sorted(manners.items(), key=lambda one: one[0]):
        words = ("again" if is_read else "", "" if told else what, manner)
        told.append(f"{' '.join(word for word in words if word)}{_of(part, some)}")
    return "; ".join(told)


def _short_of(plan: ReadingPlan, known: FigureJudgement) -> str:
    """What a figure that is to be read again was short of: places, or a gauge that errs less."""
    if known.missing:
        return f"at all {plan.places} places"
    is_unsure = known.probability is not None and known.is_inside
    return f"with a gauge that errs less than {known.gauge}" if is_unsure else ""


def _of(part: Part, pieces: Sequence[int]) -> str:
    if part.count == 1 or len(pieces) == part.count:
        return "" if part.count == 1 else f", all {part.count}"
    return f", {'piece' if len(pieces) == 1 else 'pieces'} {in_runs(piece + 1 for piece in pieces)}"


def is_look_settled(part: Part, name: str, piece: int, look: Look, measured: Measured) -> bool:
    """Whether a look that asked for measuring has been answered: every reading taken since, and each sure inside."""
    plans = [reading for reading, plan in part.readings.items() if not plan.optional]
    for reading in plans:
        figure = measured.figure(name, reading, piece)
        if figure is None or look.at is None or figure.at is None or figure.at <= look.at:
            return False
        if judge_figure(part, figure, measured.waiting(figure)).verdict != "reuse":
            return False
    return bool(plans)


def is_mended(part: Part, name: str, piece: int, look: Look, reading: str | None, measured: Measured) -> bool:
    """Whether what a look asked to be mended has been measured since, and is sure inside."""
    figure = None if reading is None else measured.figure(name, reading, piece)
    if figure is None or look.at is None or figure.at is None or figure.at <= look.at:
        return False
    return judge_figure(part, figure, measured.waiting(figure)).verdict == "reuse"


def next_most_telling(
    judgements: Mapping[str, Judgement],
    unit: Unit | None = None,
    further: Iterable[OpenPoint] = (),
    limit: int | None = None,
) -> tuple[OpenPoint, ...]:
    """Open points, the most telling first: by how much hangs on each, for the minutes it takes.

    With the unit a part that others are served in or belong with counts for all of them; `further` are points that
    results or fits wait for.
    """
    points = merged([*(one for judged in judgements.values() for one in judged.open), *further])
    ranked = sorted(points, key=lambda one: (-_weight(one, unit) / max(one.minutes, 0.1), one.part, one.name))
    return tuple(ranked[:limit])


def merged(points: Iterable[OpenPoint]) -> tuple[OpenPoint, ...]:
    """Points with each look and reading once, deciding all that any of its mentions decides."""
    found: dict[tuple[str, str, str], OpenPoint] = {}
    for point in points:
        key = (point.part, point.kind, point.name)
        known = found.get(key)
        if known is None:
            found[key] = point
        else:
            pieces = tuple(sorted({*known.pieces, *point.pieces}))
            decides = tuple(dict.fromkeys((*known.decides, *point.decides)))
            found[key] = replace(known, pieces=pieces, decides=decides)
    return tuple(found.values())


def _weight(point: OpenPoint, unit: Unit | None) -> float:
    weight = float(len(point.decides))
    if unit is not None and point.part in unit.parts:
        weight += sum(point.part in one.members and one.rule == "renew together" for one in unit.sets.values())
        weight += unit.parts[point.part].served_in is not None
    return weight
