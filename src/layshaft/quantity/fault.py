"""What goes wrong with a written figure: one kind of fault, its word ids, and its one sentence."""

from __future__ import annotations

from difflib import get_close_matches
from functools import lru_cache
from heapq import nlargest
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
_FULLY_COMPARED = 12
_LEAST_LIKENESS = 0.5


class QuantityFault(ValueError):
    """A written figure that someone can correct: what was found, what is needed, what to try."""

    def __init__(self, id: FaultId, found: str, needed: str, try_: str, at: int | None = None) -> None:
        super().__init__(id, found, needed, try_, at)
        self.id: FaultId = id
        self.found = _visible(found)
        self.needed = needed
        self.try_ = _visible(try_)
        self.at = at
        """Offset of the fault in the text of an expression, where that is known."""

    def __str__(self) -> str:
        return f"{self.id.capitalize()}: found {self.found}; needed {self.needed}; try {self.try_}."


def quote(text: str) -> str:
    """The text as found, in quotes, cut to a length that a message can hold."""
    shown = text if len(text) <= _SHOWN_LENGTH else text[: _SHOWN_LENGTH - 3] + "..."
    mark = '"' if "'" in shown and '"' not in shown else "'"
    return f"{mark}{_visible(shown)}{mark}"


def _visible(text: str) -> str:
    """The text with control and other unseen characters spelled out, as they could garble a screen."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None where nothing is near."""
    by_folded: dict[str, str] = {}
    for candidate in sorted(known):
        by_folded.setdefault(candidate.casefold(), candidate)
    folded = word.casefold()
    if folded in by_folded:
        return by_folded[folded]
    # A full comparison is dear and a book knows a thousand names: only those that share most letter pairs
    # get one.
    pairs = _letter_pairs(folded)
    likely = nlargest(_FULLY_COMPARED, by_folded, key=lambda name: _overlap(pairs, _letter_pairs(name)))
    matches = get_close_matches(folded, likely, n=_FULLY_COMPARED, cutoff=_LEAST_LIKENESS)
    return next((by_folded[match] for match in matches if _is_near(folded, match)), None)


def _is_near(word: str, other: str) -> bool:
    """Whether one can be meant for the other: a name with other figures in it is mostly another name."""
    if not any(letter.isdigit() for letter in word + other) or other in word or word in other:
        return True
    return edits(word, other) <= max(1, max(len(word), len(other)) // 3)


def edits(word: str, other: str) -> int:
    """How many letters have to be put in, left out or changed, a pair turned round counting once.

    References
    ----------
    V. I. Levenshtein, "Binary codes capable of correcting deletions, insertions, and reversals", Soviet Physics
    Doklady 10 (1966); with F. J. Damerau's turned pairs, Communications of the ACM 7 (1964). From memory.
    """
    before: list[int] = []
    row = list(range(len(other) + 1))
    for at, letter in enumerate(word, 1):
        earlier, before, row = before, row, [at]
        for place, against in enumerate(other, 1):
            least = min(before[place] + 1, row[-1] + 1, before[place - 1] + (letter != against))
            if at > 1 and place > 1 and letter == other[place - 2] and word[at - 2] == against:
                least = min(least, earlier[place - 2] + 1)
            row.append(least)
    return row[-1]


@lru_cache(maxsize=8192)
def _letter_pairs(word: str) -> frozenset[str]:
    padded = f" {word} "
    return frozenset(padded[i : i + 2] for i in range(len(padded) - 1))


def _overlap(one: frozenset[str], other: frozenset[str]) -> float:
    return len(one & other) / (len(one) + len(other))
