"""Which of several entries about one thing counts: that of the later moment where told, else the later line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol, TypeVar


class Dated(Protocol):
    """An entry that may say when it was made."""

    @property
    def at(self) -> str | None:
        """A day, `2026-11-20`, or a moment of it, `2026-11-20 14:05`."""


Entry = TypeVar("Entry", bound=Dated)


def is_before(moment: str | None, other: str | None) -> bool:
    """Whether a moment is surely before another: a day without a time is before no moment of the same day."""
    if moment is None or other is None:
        return False
    return moment[:10] < other[:10] or (moment[:10] == other[:10] and " " in moment and " " in other and moment < other)


def later_of(moment: str | None, other: str | None) -> str | None:
    """The later of two moments; the first where neither is surely before the other."""
    return other if moment is None or is_before(moment, other) else moment


def last_of(entries: Iterable[Entry]) -> Entry | None:
    """The entry that counts, of those about one thing in the order of their lines; nothing where there is none."""
    found: Entry | None = None
    latest: str | None = None
    for entry in entries:
        if not is_before(entry.at, latest):
            found = entry
            latest = later_of(latest, entry.at)
    return found
