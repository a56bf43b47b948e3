"""One load in one state, what it does when the state changes, and what holds it; how to tell the worst of several."""

from __future__ import annotations

from dataclasses import dataclass

LET_GO_ENERGY = 0.05
"""Below this many joules nothing is said to be let go [J]: a small screw dropped from a bench has more (own choice)."""
LET_GO_TRAVEL = 5e-5
"""A spring that opens by less than this has not moved [m]: under what a hand or an eye can tell (own choice)."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """One load in one state."""

    load: str
    is_loaded: bool
    length: float
    force: float
    energy: float
    greatest_force: float
    greatest_energy: float
    held_by: tuple[str, ...]
    """The stops that hold it now."""


@dataclass(frozen=True, slots=True)
class LetGo:
    """What one load does when the state changes."""

    load: str
    energy: float
    greatest_energy: float
    travel: float
    still: Loaded

    @property
    def is_felt(self) -> bool:
        """Whether anything is let go at all."""
        return self.greatest_energy > LET_GO_ENERGY or self.travel > LET_GO_TRAVEL


@dataclass(frozen=True, slots=True)
class Holding:
    """A path that holds a load: the parts that break it, as bits, and the loads whose springs it leans on."""

    breakers: int
    leans_on: frozenset[str]


def is_in_doubt(loaded: Loaded, surely: Loaded) -> bool:
    """Whether a load that may be there hangs, or hangs so short, only on what nobody has looked at."""
    return loaded.is_loaded and (not surely.is_loaded or surely.length > loaded.length)


def rank_of(loaded: Loaded) -> tuple[bool, float]:
    """What sorts loads from free to the one that holds most."""
    return (loaded.is_loaded, loaded.greatest_energy)


def step_between(before: Loaded, after: Loaded) -> LetGo:
    """What a load lets go between two states."""
    travel = 0.0 if not before.is_loaded else max(0.0, after.length - before.length)
    energy = max(0.0, before.energy - after.energy)
    # Greatest energies of springs that act on each other are outer bounds: their difference alone may be too little.
    greatest = max(energy, before.greatest_energy - after.greatest_energy)
    return LetGo(before.load, energy, greatest, travel, after)


def worse_of(one: LetGo, other: LetGo) -> LetGo:
    """The worst of two ways it could be: each figure at its worst, and what is left by the one that lets more go."""
    more = max(one, other, key=lambda step: (step.greatest_energy, step.travel))
    return LetGo(
        one.load,
        max(one.energy, other.energy),
        max(one.greatest_energy, other.greatest_energy),
        max(one.travel, other.travel),
        more.still,
    )
