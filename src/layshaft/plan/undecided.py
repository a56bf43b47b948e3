"""Verdicts that no look and no reading settles: each stays open until somebody chooses, and says who is asked what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from layshaft.book.definition import Unit
from layshaft.plan.judgement import Judgement, OpenPoint, PieceJudgement
from layshaft.plan.phrase import in_runs
from layshaft.plan.wanted import LOOK_MINUTES

_ANSWER = "write the answer as a choice of the job, `renew` or `keep`, with who decided and why"


def with_questions(unit: Unit, judgements: Mapping[str, Judgement]) -> dict[str, Judgement]:
    """The verdicts, each that is not settled with a point that is open as long as it is not."""
    found = {}
    for part, one in judgements.items():
        points = tuple(_questions(unit, one, judgements))
        found[part] = replace(one, open=(*one.open, *points), is_open=True) if points else one
    return found


def _questions(unit: Unit, one: Judgement, judgements: Mapping[str, Judgement]) -> Iterator[OpenPoint]:
    title = f"{one.part} {unit.parts[one.part].name}"
    refused = dict.fromkeys(figure.sentence for figure in one.figures if figure.is_new and figure.verdict == "ask")
    for sentence in refused:
        yield _point(one, "new part", (), f"Take another new {title}, and measure it: {sentence}.", is_new=True)
    if not one.is_undecided or _is_settled_elsewhere(one, judgements):
        return
    asked = [piece for piece in one.pieces if piece.verdict == "ask"]
    if one.verdict == "ask" or asked:
        if not any(point.kind == "choice" for point in one.open):
            yield _point(one, "renew or keep", _numbers(asked), _asked(unit, one, asked, title))
    elif not one.open:
        waiting = [piece for piece in one.pieces if piece.is_undecided]
        told = f"{_told(unit, one, waiting)}; look at it and measure it again, with the moment written beside"
        yield _point(one, "renew or keep", _numbers(waiting), f"{title} is not settled: {told}, or {_ANSWER}.")


def _is_settled_elsewhere(one: Judgement, judgements: Mapping[str, Judgement]) -> bool:
    """Whether it only follows another part that is itself not settled, and is settled with that one."""
    followed = judgements.get(one.carried_from or "")
    return followed is not None and followed.is_undecided


def _asked(unit: Unit, one: Judgement, asked: list[PieceJudgement], title: str) -> str:
    told = _told(unit, one, asked)
    return (
        f"Ask the customer, or whoever answers for the unit, about {title}{_of(unit, one, asked)}: {told}. "
        f"Is it renewed or kept? {_ANSWER[:1].upper()}{_ANSWER[1:]}."
    )


def _told(unit: Unit, one: Judgement, pieces: list[PieceJudgement]) -> str:
    """What the verdict rests on, without the name that it stands beside."""
    told = "; ".join(dict.fromkeys(piece.reason for piece in pieces)) or one.reason
    return told.removeprefix(f"{unit.parts[one.part].name}: ").rstrip(".")


def _of(unit: Unit, one: Judgement, pieces: list[PieceJudgement]) -> str:
    count = unit.parts[one.part].count
    if count == 1 or len(pieces) in (0, count):
        return ""
    return f", {'piece' if len(pieces) == 1 else 'pieces'} {in_runs(piece.piece for piece in pieces)}"


def _numbers(pieces: list[PieceJudgement]) -> tuple[int, ...]:
    return tuple(piece.piece for piece in pieces)


def _point(one: Judgement, name: str, pieces: tuple[int, ...], sentence: str, is_new: bool = False) -> OpenPoint:
    return OpenPoint(
        part=one.part,
        kind="choice",
        name=name,
        pieces=pieces,
        how="",
        gauge=None,
        minutes=LOOK_MINUTES,
        sentence=sentence,
        decides=(one.part,),
        is_new=is_new,
    )
