"""What a unit on the bench looks like now: what is off, what is not known, how it stands, what presses on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum


class Condition(Enum):
    """What is known about a part that holds something."""

    WHOLE = "whole"
    BROKEN = "broken"
    MISSING = "missing"
    UNKNOWN = "not known"
    NOT_FOUND = "missing from under a spring"
    """Not where a spring stands on it, the spring not known to be gone: nobody knows what that stands on instead."""


@dataclass(frozen=True, slots=True)
class Session:
    """A load held by a release way at this moment: which load, and which of its ways."""

    load: str
    release: int


@dataclass(frozen=True, slots=True)
class State:
    """One state of the unit; every change makes a new one."""

    detached: int = 0
    attitude: str = ""
    session: Session | None = None
    partial: tuple[tuple[str, int], ...] = ()
    conditions: tuple[tuple[str, Condition], ...] = ()
    stuck: tuple[tuple[str, str], ...] = ()
    proved_free: frozenset[str] = frozenset()
    broken: tuple[tuple[str, int], ...] = ()
    """How many pieces of a part with several were noticed broken: still in, as far as anyone knows."""

    def condition(self, part: str) -> Condition:
        """What is known about a part; whole when nothing was noticed."""
        return dict(self.conditions).get(part, Condition.WHOLE)

    def off_count(self, part: str) -> int:
        """How many pieces of a part with several pieces are off already."""
        return dict(self.partial).get(part, 0)

    def lost_count(self, part: str) -> int:
        """How many pieces of a part with several pieces are off or broken: none of these surely holds."""
        return self.off_count(part) + dict(self.broken).get(part, 0)

    def with_condition(self, part: str, condition: Condition) -> State:
        """The state with one part's condition said anew."""
        rest = tuple((name, known) for name, known in self.conditions if name != part)
        said = rest if condition is Condition.WHOLE else (*rest, (part, condition))
        return replace(self, conditions=tuple(sorted(said, key=lambda pair: pair[0])))

    def with_partial(self, part: str, off: int) -> State:
        """The state with so many pieces of a part off."""
        rest = tuple((name, count) for name, count in self.partial if name != part)
        said = rest if off == 0 else (*rest, (part, off))
        return replace(self, partial=tuple(sorted(said)))

    def with_broken(self, part: str, pieces: int) -> State:
        """The state with so many pieces of a part noticed broken."""
        rest = tuple((name, count) for name, count in self.broken if name != part)
        said = rest if pieces == 0 else (*rest, (part, pieces))
        return replace(self, broken=tuple(sorted(said)))

    def with_stuck(self, part: str, to: str) -> State:
        """The state with one part stuck to another, so that both move as one."""
        return replace(self, stuck=tuple(sorted({*self.stuck, (part, to)})))
