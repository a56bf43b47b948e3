"""Nearest known words, and lists of words, as a message's sentence holds them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from layshaft.quantity import nearest

MOST_LISTED = 8


def nearest_try(word: str, known: Iterable[str]) -> str:
    """What to try for an unknown word: the nearest known one, or nothing."""
    return _nearest_try(word, tuple(known))


@lru_cache(maxsize=4096)
def _nearest_try(word: str, known: tuple[str, ...]) -> str:
    """As above; a word that is wrong once in a file is wrong in every variant, and often more than once."""
    near = nearest(word, known)
    return f"`{near}`, the nearest that is known" if near is not None else ""


def listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence, cut where it gets long."""
    every = list(words)
    shown = ", ".join(f"`{word}`" for word in every[:MOST_LISTED])
    more = len(every) - MOST_LISTED
    return f"{shown} and {more} more" if more > 0 else shown
