"""Verdicts: what every part's looks, readings, state and people's choices come to, part by part and piece by piece."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Literal

from layshaft.book.definition import Choice, Failure, Job, Look, Part, Shop, Unit
from layshaft.book.moment import last_of
from layshaft.plan.carry import carry_verdicts
from layshaft.plan.condition_verdict import noticed_of, unknown_of
from layshaft.plan.figure_verdict import judge_figure
from layshaft.plan.judgement import (
    SEVERITY,
    UNSETTLED,
    FigureJudgement,
    Judgement,
    OpenPoint,
    PartVerdict,
    PieceJudgement,
)
from layshaft.plan.load_path import load_path
from layshaft.plan.measured import Measured
from layshaft.plan.nearness import nearness
from layshaft.plan.phrase import in_runs
from layshaft.plan.telling import Telling, telling_of
from layshaft.plan.undecided import with_questions
from layshaft.plan.wanted import (
    is_look_settled,
    is_mended,
    wanted_look,
    wanted_mending,
    wanted_reading,
    wanted_state,
    wanted_word,
)


def judge(
    unit: Unit, job: Job, shop: Shop, opened: frozenset[str] | None = None, measured: Measured | None = None
) -> dict[str, Judgement]:
    """Every part's verdict; with `opened` only of those parts, and of any that something was noticed about."""
    taken = measured or Measured(unit, job, shop)
    asked = {part for part in unit.parts if opened is None or part in opened} | set(_noticed(job))
    holding = load_path(unit) if any(choice.keep for choice in job.choices) else {}
    own = {part: _PartJudge(unit, job, taken, part, holding.get(part)).judged() for part in unit.parts if part in asked}
    return with_questions(unit, carry_verdicts(unit, own))


def which_pieces(count: int, pieces: Iterable[PieceJudgement]) -> str:
    """`2 of 8 (pieces 3, 6)`: which pieces of a part are renewed, where not all of them are."""
    numbers = [one.piece for one in pieces if one.verdict == "renew"]
    if not numbers or len(numbers) == count:
        return ""
    return f"{len(numbers)} of {count} ({'piece' if len(numbers) == 1 else 'pieces'} {in_runs(numbers)})"


def _noticed(job: Job) -> Iterable[str]:
    """Every part that something was noticed about which is not plainly good."""
    named = [one.part for one in job.intake.noticed] + [done.seen for done in job.done if done.seen is not None]
    for part in dict.fromkeys(named):
        if any(one.state in ("broken", "missing") for one in noticed_of(job, part)) or unknown_of(job, part):
            yield part


@dataclass(frozen=True, slots=True)
class _Ground:
    """One thing that speaks about a piece."""

    verdict: PartVerdict
    sentence: str
    is_fixed: bool = False
    """Whether no choice can set it aside: broken, missing, always renewed, a figure that still waits."""
    about: tuple[Literal["look", "reading"], str] | None = None
    """The look or the reading that it comes from."""


@dataclass
class _PartJudge:
    """Gathers what speaks about each piece of one part."""

    unit: Unit
    job: Job
    measured: Measured
    name: str
    holds: str | None = None
    """What the part is to a load, where one hangs on it: nobody keeps such a part against a verdict."""
    grounds: list[list[_Ground]] = field(default_factory=list)
    figures: list[FigureJudgement] = field(default_factory=list)
    wanted: list[OpenPoint] = field(default_factory=list)

    is_unknown: bool = False
    """Whether it is not known if the part is whole."""
    disagreed: str = ""
    """Who chose to renew it and who to keep it, where both stand."""
    overruled: list[str] = field(default_factory=list)
    """What spoke against pieces that someone chose to keep."""

    @property
    def part(self) -> Part:
        """The part's definition."""
        return self.unit.parts[self.name]

    @property
    def telling(self) -> Telling:
        """How the shop tells figures."""
        return telling_of(self.measured.shop)

    def judged(self) -> Judgement:
        """The part's own verdict, before anything is carried over from other parts."""
        self.grounds = [[] for _ in range(self.part.count)]
        self._take_state()
        if self.part.renew == "always":
            self._add(range(self.part.count), _Ground("renew", "always renewed", True))
        self._take_looks()
        self._take_readings()
        kept_by = self._take_choice()
        return self._closed(kept_by)

    def _add(self, pieces: Iterable[int], ground: _Ground) -> None:
        for piece in pieces:
            if 0 <= piece < self.part.count:
                self.grounds[piece].append(ground)

    def _take_state(self) -> None:
        for one in noticed_of(self.job, self.name):
            if one.state in ("broken", "missing"):
                self._add(one.among(self.part.count), _Ground("renew", one.told, True))
        unknown = unknown_of(self.job, self.name)
        if unknown is not None and not self._is_seen_since():
            self._add(unknown.among(self.part.count), _Ground("open", unknown.told))
            self.is_unknown = True

    def _is_seen_since(self) -> bool:
        """Whether looks that the book asks for have been taken of every piece: then its state is known by them."""
        plans = [name for name, plan in self.part.looks.items() if not plan.optional]
        pieces = range(self.part.count)
        return bool(plans) and all(self._last_look(name, piece) is not None for name in plans for piece in pieces)

    def _take_looks(self) -> None:
        for name, plan in self.part.looks.items():
            for piece in range(self.part.count):
                look = self._last_look(name, piece)
                if look is None:
                    if not plan.optional:
                        self.grounds[piece].append(_Ground("open", f"{name}: not looked at yet"))
                    continue
                self.grounds[piece].append(self._of_look(name, look, piece))

    def _of_look(self, name: str, look: Look, piece: int) -> _Ground:
        ground = self._of_grade(name, look, piece)
        *_, written_last = self._looks(name, piece)
        if written_last is look:
            return ground
        of_day = f" of {look.at}" if look.at else ""
        told = f"the look{of_day}, not {written_last.grade} of {written_last.at}, which is written after it"
        return replace(ground, sentence=f"{ground.sentence} ({told})")

    def _of_grade(self, name: str, look: Look, piece: int) -> _Ground:
        plan = self.part.looks[name]
        verdict = plan.grades.get(look.grade)
        if verdict is None:
            return _Ground("ask", f"{name}: {look.grade}, which the book does not grade")
        if verdict == "measure again" and is_look_settled(self.part, self.name, piece, look, self.measured):
            return _Ground("reuse", f"{name}: {look.grade}, and measured since")
        words = f" ({look.words})" if look.words and verdict != "reuse" else ""
        if verdict == "rework":
            return self._of_mending(name, look, piece, words)
        return _Ground(verdict, f"{name}: {look.grade}{words}")

    def _of_mending(self, name: str, look: Look, piece: int, words: str) -> _Ground:
        """What a look asks to be mended, and how; settled by the reading that the mending asks for."""
        plan = self.part.looks[name].rework
        what = "mend it, then look at it again"
        if plan is not None:
            if is_mended(self.part, self.name, piece, look, plan.measure, self.measured):
                return _Ground("reuse", f"{name}: {look.grade}, mended and measured since")
            after = f"measure its {plan.measure}" if plan.measure else "look at it again"
            what = f"{plan.how.rstrip('.')}, then {after}"
        return _Ground("rework", f"{name}: {look.grade}{words}; {what}", about=("look", name))

    def _last_look(self, name: str, piece: int) -> Look | None:
        return last_of(self._looks(name, piece))

    def _looks(self, name: str, piece: int) -> Iterator[Look]:
        for look in self.job.looks:
            if look.part == self.name and look.look == name and (not look.pieces or piece + 1 in look.pieces):
                yield look

    def _take_readings(self) -> None:
        for name in self.part.readings:
            for piece in range(self.part.count):
                for is_new in (False, True):
                    figure = self.measured.figure(self.name, name, piece, is_new)
                    if figure is not None:
                        said = judge_figure(self.part, figure, self.measured.waiting(figure), self.telling)
                        self.figures.append(said)
                        if not is_new:
                            self._add([piece], _Ground(said.verdict, said.sentence, said.is_waiting, ("reading", name)))
                    elif not is_new and not self.part.readings[name].optional:
                        gone = self.measured.gone.get((self.name, name, piece, False))
                        since = "yet" if gone is None else f"since it was reworked ({gone.name})"
                        self._add([piece], _Ground("open", f"{name}: not measured {since}"))

    def _take_choice(self) -> str | None:
        renew, keep = self._choices()
        if renew is not None and keep is not None:
            self._take_both(renew, keep)
            return None
        if renew is not None:
            told = f"{self._by(renew)} chose to renew it{_why(renew)}"
            self._add(range(self.part.count), _Ground("renew", told, True))
        return None if keep is None else self._take_kept(keep)

    def _take_kept(self, choice: Choice) -> str | None:
        by, why = self._by(choice), _why(choice)
        for piece, grounds in enumerate(self.grounds):
            against = [one for one in grounds if one.verdict != "reuse"]
            if against and self.holds is not None:
                worst = max(against, key=lambda one: SEVERITY[one.verdict])
                told = f"{by} chose to keep it{why}, which is refused: it is {self.holds}"
                grounds.append(_Ground(worst.verdict, told))
            elif all(not one.is_fixed and one.verdict != "open" for one in against):
                self.grounds[piece] = [_Ground("reuse", f"{by} chose to keep it{why}; {_overruled(against)}")]
                self.overruled += [_overruled(against)] if against else []
            else:
                fixed = next(one for one in against if one.is_fixed or one.verdict == "open")
                grounds.append(_Ground(fixed.verdict, f"{by} chose to keep it, which this does not allow"))
        is_refused = self.holds is not None and any(one.verdict != "reuse" for piece in self.grounds for one in piece)
        return None if is_refused else choice.by

    def _take_both(self, renew: Choice, keep: Choice) -> None:
        """One renews it and another keeps it: neither is set aside in silence, and someone has to say which."""
        told = f"{self._by(renew)} chose to renew it{_why(renew)}; {self._by(keep)} chose to keep it{_why(keep)}"
        self.disagreed = told
        for grounds in self.grounds:
            verdict: PartVerdict = "renew" if any(one.verdict == "renew" for one in grounds) else "ask"
            grounds.append(_Ground(verdict, told, True))

    def _by(self, choice: Choice) -> str:
        person = self.measured.shop.people.get(choice.by)
        return person.name if person is not None else choice.by

    def _choices(self) -> tuple[Choice | None, Choice | None]:
        """Who chose to renew the part and who to keep it; the last word of each person counts."""
        last = {one.by: one for one in self.job.choices if self.name in (one.renew, one.keep)}
        renew = [one for one in last.values() if one.renew is not None]
        keep = [one for one in last.values() if one.keep is not None]
        return (renew[-1] if renew else None), (keep[-1] if keep else None)

    def _closed(self, kept_by: str | None) -> Judgement:
        pieces = tuple(self._piece(at, grounds) for at, grounds in enumerate(self.grounds))
        worst = max(pieces, key=self._weight)
        wanted = self._wanted(pieces)
        renewed = sum(one.verdict == "renew" for one in pieces)
        verdict = worst.verdict
        return Judgement(
            part=self.name,
            verdict=verdict,
            reason=self._reason(pieces, worst, renewed),
            figures=tuple(self.figures),
            pieces=pieces,
            renew_count=renewed,
            is_open=bool(wanted) or any(one.is_undecided for one in pieces),
            open=wanted,
            kept_by=kept_by,
            overrules=tuple(dict.fromkeys(self.overruled)),
            words=tuple(
                dict.fromkeys(one.sentence for piece in self.grounds for one in piece if one.verdict != "reuse")
            ),
        )

    def _weight(self, piece: PieceJudgement) -> tuple[int, bool, float]:
        """What makes a piece decide: its verdict, a verdict overruled about it, how near its limit it is."""
        is_overruled = any(one in piece.reason for one in self.overruled)
        own = [one for one in self.figures if one.piece == piece.piece - 1 and not one.is_new]
        near = min((nearness(self.part, one) for one in own), default=math.inf)
        return SEVERITY[piece.verdict], is_overruled, -near

    def _piece(self, at: int, grounds: list[_Ground]) -> PieceJudgement:
        if not grounds:
            return PieceJudgement(at + 1, "reuse", "the book asks for no look and no reading of it")
        verdict = max((one.verdict for one in grounds), key=lambda one: SEVERITY[one])
        is_undecided = any(one.verdict in UNSETTLED for one in grounds) and verdict != "renew"
        told = [one.sentence for one in grounds if one.verdict == verdict]
        if is_undecided:
            # What is found bad is said beside what is missing or waits, and the other way round.
            beside = ("rework", *(UNSETTLED if verdict == "rework" else ()))
            told += [one.sentence for one in grounds if one.verdict in beside and one.verdict != verdict]
        return PieceJudgement(at + 1, verdict, "; ".join(told), is_undecided)

    def _reason(self, pieces: tuple[PieceJudgement, ...], worst: PieceJudgement, renewed: int) -> str:
        text = worst.reason
        which = which_pieces(self.part.count, pieces) if worst.verdict == "renew" else ""
        if which:
            text = f"{which}: {text}"
        elif self.part.count > 1 and len({one.reason for one in pieces}) > 1:
            is_near = worst.verdict == "reuse" and not self.overruled
            said = "is nearest its limit" if is_near else "decides"
            text = f"of {self.part.count}, piece {worst.piece} {said}: {text}"
        return f"{self.part.name}: {text}."

    def _wanted(self, pieces: tuple[PieceJudgement, ...]) -> tuple[OpenPoint, ...]:
        """Looks and readings that could still change the verdict of a piece."""
        undecided = [one.piece - 1 for one in pieces if one.is_undecided]
        found: list[OpenPoint] = []
        unknown = unknown_of(self.job, self.name) if self.is_unknown else None
        if unknown is not None and any(piece in undecided for piece in unknown.among(self.part.count)):
            found.append(wanted_state(self.part, self.name, unknown))
        if self.disagreed and undecided:
            found.append(wanted_word(self.part, self.name, self.disagreed, undecided))
        for name, plan in self.part.looks.items():
            missing = [piece for piece in undecided if self._last_look(name, piece) is None]
            if missing and not plan.optional:
                found.append(wanted_look(self.part, self.name, name, missing, self._failures if not found else ()))
        for name, reading in self.part.readings.items():
            missing = [piece for piece in undecided if self._is_wanted(name, piece, reading.optional)]
            if missing:
                gone = any((self.name, name, piece, False) in self.measured.gone for piece in missing)
                found.append(wanted_reading(self.part, self.name, name, missing, self.figures, gone))
        return (*found, *self._mendings(pieces))

    @property
    def _failures(self) -> tuple[Failure, ...]:
        return tuple(one for one in self.unit.failures.values() if one.part == self.name)

    def _mendings(self, pieces: tuple[PieceJudgement, ...]) -> Iterable[OpenPoint]:
        """What has to be mended before pieces may go in again."""
        found: dict[_Ground, list[int]] = {}
        for piece in pieces:
            for ground in self.grounds[piece.piece - 1] if piece.verdict != "renew" else ():
                if ground.verdict == "rework" and ground.about is not None:
                    found.setdefault(ground, []).append(piece.piece - 1)
        for ground, numbers in found.items():
            if ground.about is not None:
                yield wanted_mending(self.part, self.name, ground.about, numbers, ground.sentence)

    def _is_wanted(self, name: str, piece: int, is_optional: bool) -> bool:
        said = [one for one in self.figures if (one.reading, one.piece, one.is_new) == (name, piece, False)]
        return said[0].verdict == "measure again" if said else not is_optional


def _why(choice: Choice) -> str:
    return f": {choice.why.rstrip('.')}" if choice.why else ""


_OVERRULED = {
    "renew": "to renew it",
    "rework": "to rework it",
    "measure again": "to measure it again",
    "ask": "to ask about it",
}


def _overruled(against: list[_Ground]) -> str:
    """Which verdict a choice to keep a piece overrules, and what that verdict was for."""
    if not against:
        return "no verdict speaks against it"
    worst = max(against, key=lambda one: SEVERITY[one.verdict])
    told = "; ".join(one.sentence for one in against)
    return f"this overrules the verdict {_OVERRULED[worst.verdict]} ({told})"
