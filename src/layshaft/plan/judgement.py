"""What is said about a part: its verdict, the pieces and figures behind it, and what is still open."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

PartVerdict = Literal["reuse", "rework", "measure again", "ask", "renew", "open"]
"""As a book's verdicts, and `open` where a look or a reading is missing: never a pass."""

SEVERITY: dict[str, int] = {"reuse": 0, "open": 1, "rework": 2, "measure again": 3, "ask": 4, "renew": 5}
"""The worst piece decides about a part, the worst figure about a piece; what is found bad outranks what is missing."""
UNSETTLED: tuple[PartVerdict, ...] = ("open", "measure again", "ask")
"""Verdicts that a look, a reading or an answer can still turn into any other."""


@dataclass(frozen=True, slots=True)
class FigureJudgement:
    """One figure against its limit."""

    part: str
    reading: str
    piece: int
    is_new: bool
    value: Fraction
    text: str
    place: str
    limit: str | None
    is_inside: bool | None
    probability: float | None
    """That the true figure is inside, where the gauge is known."""
    gauge: str | None
    verdict: PartVerdict
    sentence: str
    is_waiting: bool = False
    """Whether it decides nothing yet: it cannot be what was meant, or places are missing."""
    missing: int = 0
    """Places still to be measured."""


@dataclass(frozen=True, slots=True)
class PieceJudgement:
    """One piece of a part; pieces count from 1."""

    piece: int
    verdict: PartVerdict
    reason: str
    is_undecided: bool = False
    """Whether something is missing, or waits, that can still make it worse."""


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A look or a reading that is still wanted, or wanted again."""

    part: str
    kind: Literal["look", "reading", "result", "choice"]
    name: str
    pieces: tuple[int, ...]
    """Pieces it is wanted of, from 1; empty for a result."""
    how: str
    gauge: str | None
    minutes: float
    sentence: str
    decides: tuple[str, ...] = ()
    """What hangs on it: parts and results."""
    is_new: bool = False
    """Whether the part that goes in is meant: typed with `new: true`."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict on a part, with its reason in a sentence."""

    part: str
    verdict: PartVerdict
    reason: str
    figures: tuple[FigureJudgement, ...] = ()
    pieces: tuple[PieceJudgement, ...] = ()
    renew_count: int = 0
    is_open: bool = False
    open: tuple[OpenPoint, ...] = ()
    carried_from: str | None = None
    """The part whose verdict this one follows."""
    bought_as: str | None = None
    """The assembly that has to be bought where this part is not sold."""
    kept_by: str | None = None
    """Who keeps it, where someone chose to."""
    overrules: tuple[str, ...] = ()
    """The verdicts that a choice to keep it, or pieces of it, sets aside."""
    replaced_by: str | None = None
    """The size that goes in instead of a part that could be used again, once the fit is known."""
    words: tuple[str, ...] = ()
    """Everything that speaks for a verdict other than reuse, most telling first."""

    @property
    def is_undecided(self) -> bool:
        """Whether it, or a piece of it beside those that are condemned, can still come out worse than it stands."""
        return self.verdict in UNSETTLED or any(one.is_undecided for one in self.pieces)

    @property
    def is_used_again(self) -> bool:
        """Whether the part itself goes in again."""
        return self.verdict == "reuse" and self.replaced_by is None

    @property
    def renewed_pieces(self) -> frozenset[int]:
        """Pieces to be renewed, counted from 0."""
        return frozenset(one.piece - 1 for one in self.pieces if one.verdict == "renew")
