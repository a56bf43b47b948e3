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


def unsaid_length(load: str) -> Lack:
    """The lack of everything that would hold a load at a length."""
    return Lack(
        "no length",
        load,
        "the book",
        "no path of stops holds it at a length",
        "its installed length",
        "the stops between its two seats, or for a wound spring its angle",
    )


def coupled(load: str, others: tuple[str, ...]) -> Lack:
    """The lack of figures that are this load's own, where other springs push back on it."""
    names = " and ".join(others)
    return Lack(
        "coupled",
        load,
        "the unit",
        f"the springs of {names} push back on it, so that its force, energy and travel are not its own",
        f"{names} free before this load is let go",
        f"letting {names} go first where the unit allows it, else the maker's procedure",
    )
