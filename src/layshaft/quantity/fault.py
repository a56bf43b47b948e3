"""What goes wrong with a written figure: one kind of fault, its word ids, and its one sentence."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, Literal, get_args

if TYPE_CHECKING:
    from collections.abc import Iterable

FaultId = Literal[
    "ambiguous comma",
    "ambiguous percent",
    "ambiguous unit",
    "below absolute zero",
    "division by zero",
    "empty",
    "missing unit",
    "mixed currencies",
    "mixed marks",
    "no exact amount",
    "no value",
    "not a limit",
    "not a number",
    "not a tolerance",
    "not an amount",
    "not an expression",
    "not one figure",
    "not text",
    "number out of bounds",
    "range reversed",
    "several values",
    "too deep",
    "too long",
    "unknown name",
    "unknown unit",
    "wrong dimension",
]

FAULT_IDS: tuple[str, ...] = get_args(FaultId)

_SHOWN_LENGTH = 60


class QuantityFault(ValueError):
    """A written figure that someone can correct: what was found, what is needed, what to try."""

    def __init__(self, id: FaultId, found: str, needed: str, try_: str, at: int | None = None) -> None:
        super().__init__(id, found, needed, try_, at)
        self.id: FaultId = id
        self.found = found
        self.needed = needed
        self.try_ = try_
        self.at = at
        """Offset of the fault in the text of an expression, where that is known."""

    def __str__(self) -> str:
        return f"{self.id.capitalize()}: found {self.found}; needed {self.needed}; try {self.try_}."


def quote(text: str) -> str:
    """The text as found, in quotes, cut to a length a message can hold, control characters spelled out."""
    shown = text if len(text) <= _SHOWN_LENGTH else text[: _SHOWN_LENGTH - 3] + "..."
    return "'" + "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in shown) + "'"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None where nothing is near."""
    by_folded: dict[str, str] = {}
    for candidate in known:
        by_folded.setdefault(candidate.casefold(), candidate)
    matches = get_close_matches(word.casefold(), list(by_folded), n=1, cutoff=0.5)
    return by_folded[matches[0]] if matches else None
