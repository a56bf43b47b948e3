"""What stands against a press plan: which figure is missing or too small, whose it is, and what to do instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Owner = Literal["the book", "the shop", "the unit"]


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that stands against a plan, with its place, what was found, what is needed and what to try."""

    id: str
    where: str
    whose: Owner
    found: str
    needed: str
    try_: str

    @property
    def sentence(self) -> str:
        """All of it in one line."""
        return f"{self.where}: {self.found}. Needed: {self.needed}. Try: {self.try_}."
