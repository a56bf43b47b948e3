"""What a hand can do to a unit: take a part off, take some of its pieces off, turn, hold a load, let it off."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TakeOff:
    """Take a part off by one of its ways, with all that lies in it."""

    part: str
    way: int = 0


@dataclass(frozen=True, slots=True)
class TakePieces:
    """Take off some pieces of a part that has several; `off` is how many are off then, all told."""

    part: str
    off: int


@dataclass(frozen=True, slots=True)
class Turn:
    """Stand what is left of the unit another way."""

    attitude: str


@dataclass(frozen=True, slots=True)
class Hold:
    """Take up a load by one of its release ways: press, compressor, screws, a hand under cover."""

    load: str
    release: int = 0


@dataclass(frozen=True, slots=True)
class LetOff:
    """Let the held load off, as far as what is left lets it."""


Act = TakeOff | TakePieces | Turn | Hold | LetOff
