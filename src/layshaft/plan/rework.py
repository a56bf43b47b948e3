"""Reworks that a job tells were done, and what was read before them: a face that was cut has no old depth any more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from layshaft.book.definition import Job, Look, LookPlan, Part, Unit
from layshaft.book.moment import is_before, later_of
from layshaft.gauging.window import is_inside
from layshaft.plan.figure import Figure
from layshaft.plan.figure_verdict import limit_of
from layshaft.plan.source import Sources

Placed = tuple[int, Figure]
"""A figure with its place in the order that the job's figures are written in."""


@dataclass(frozen=True, slots=True)
class Reworked:
    """A rework of one piece that was done: what told so, and what has to be read again after it."""

    part: str
    piece: int
    kind: Literal["reading", "look"]
    name: str
    how: str
    time: Fraction | None
    """Hands-on time [s]; nothing where the book does not say."""
    was: str
    """The figure or the grade before it."""
    since: str | None
    """When that was told."""
    at: str | None
    """When it was first told that the rework is done."""
    place: int | None
    """Which figure told it, in the order that they are written in; nothing where a look did."""
    again: frozenset[str]
    """Readings of the part that those taken before count for no more."""
    moves_faces: bool
    """Whether results that were read through the part before it count no more either."""

    def is_after(self, at: str | None, place: int | None) -> bool:
        """Whether something was written, or may have been, before the rework was done."""
        if is_before(at, self.at):
            return True
        if is_before(self.at, at):
            return False
        if at is not None and " " in at and at == self.at and is_before(self.since, at):
            # Told in one go with what shows that it is done.
            return False
        return place is None or self.place is None or place < self.place


def done_reworks(unit: Unit, job: Job, figures: Sequence[Figure]) -> tuple[Reworked, ...]:
    """Each rework that a later reading inside its limit, or a later look that is good, tells was done."""
    found: list[Reworked] = []
    for name, part in unit.parts.items():
        own = [(at, one) for at, one in enumerate(figures) if one.part == name and not one.is_new]
        for piece in range(part.count):
            read = [one for one in own if one[1].piece == piece and not one[1].is_waiting]
            found += _measured(part, name, piece, read)
            for look, plan in part.looks.items():
                if "rework" in plan.grades.values():
                    found += _looked_at(part, name, piece, look, looks_at(job, name, look, piece), read)
    return tuple(found)


def gone_by(unit: Unit, reworks: Sequence[Reworked], figure: Figure, place: int | None) -> Reworked | None:
    """The rework after which a figure counts no more."""
    if figure.part:
        own = [one for one in reworks if (one.part, one.piece) == (figure.part, figure.piece) and not figure.is_new]
        touching = [one for one in own if figure.reading in one.again]
    else:
        through = Sources(unit).parts(figure.reading) if reworks else frozenset()
        touching = [one for one in reworks if one.moves_faces and one.part in through]
    return next((one for one in touching if one.is_after(figure.at, place)), None)


def _measured(part: Part, name: str, piece: int, read: Sequence[Placed]) -> Iterator[Reworked]:
    for reading, plan in part.readings.items():
        limit = limit_of(plan, False)
        if plan.rework is None or plan.reuse is None or limit is None:
            continue
        own = [one for one in read if one[1].reading == reading and _is_decided(one[1], is_inside(one[1].value, limit))]
        for (_, before), (at, after) in pairwise(own):
            if not is_inside(before.value, limit) and is_inside(after.value, limit):
                yield Reworked(
                    name, piece, "reading", reading, plan.rework.how,
                    None if plan.rework.time is None else Fraction(plan.rework.time.nominal),
                    before.text, before.at, after.at, at, *_again(part, plan.rework.then_read_again),
                )  # fmt: skip


def _is_decided(figure: Figure, inside: bool) -> bool:
    """Whether a figure tells on which side of its limit it is: outside at one place is outside."""
    return not inside or not figure.missing


def _looked_at(
    part: Part, name: str, piece: int, look: str, looks: Sequence[Look], read: Sequence[Placed]
) -> Iterator[Reworked]:
    plan = part.looks[look]
    for at, before in enumerate(looks):
        after = looks[at + 1] if at + 1 < len(looks) else None
        if plan.grades.get(before.grade) != "rework":
            continue
        told = _told_by_reading(part, plan, before, after, read)
        if told is not None:
            yield _of_look(part, name, piece, look, before, told[1].at, told[0])
        elif after is not None and plan.grades.get(after.grade) in ("reuse", "measure again"):
            yield _of_look(part, name, piece, look, before, after.at, None)


def _told_by_reading(
    part: Part, plan: LookPlan, before: Look, after: Look | None, read: Sequence[Placed]
) -> Placed | None:
    """The first reading that the mending asks for which is inside its limit, after one look and before the next."""
    wanted = plan.rework.measure if plan.rework is not None else None
    limit = None if wanted is None else limit_of(part.readings[wanted], False)
    for at, one in read:
        is_since = before.at is not None and one.at is not None and one.at > before.at
        is_past = after is not None and not is_before(one.at, after.at)
        is_good = not one.missing and (limit is None or is_inside(one.value, limit))
        if one.reading == wanted and is_since and not is_past and is_good:
            return at, one
    return None


def _of_look(
    part: Part, name: str, piece: int, look: str, before: Look, at: str | None, place: int | None
) -> Reworked:
    mending = part.looks[look].rework
    time = None if mending is None or mending.time is None else Fraction(mending.time.nominal)
    how = "Mended" if mending is None else mending.how
    again = _again(part, None if mending is None else mending.then_read_again)
    return Reworked(name, piece, "look", look, how, time, before.grade, before.at, at, place, *again)


def looks_at(job: Job, part: str, name: str, piece: int) -> list[Look]:
    """Looks at one piece in the order of their moments, where told, else of their lines."""
    found: list[Look] = []
    latest: str | None = None
    for one in job.looks:
        is_of_it = (one.part, one.look) == (part, name) and (not one.pieces or piece + 1 in one.pieces)
        if is_of_it and not is_before(one.at, latest):
            found.append(one)
            latest = later_of(latest, one.at)
    return found


def _again(part: Part, told: tuple[str, ...] | None) -> tuple[frozenset[str], bool]:
    """Which readings of a part a rework makes void, all where the book does not say; and whether it moves a face."""
    if told is None:
        return frozenset(part.readings), True
    return frozenset(told), any(part.readings[name].from_ is not None for name in told)
