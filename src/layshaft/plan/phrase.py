"""Words that several plans share: how a load is taken up, and figures of force and energy as a bench talks of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from layshaft.book.definition import Release
from layshaft.plan.loaded import Loaded
from layshaft.quantity import ENERGY, FORCE, Quantity, Show

_UP = Show()
_HOW = {
    "press": "in the press",
    "spring compressor": "with the spring compressor",
    "long screws": "with long screws",
    "own thread": "on its own thread",
    "by hand under cover": "by hand, under cover",
}


def how(release: Release) -> str:
    """How a load is taken up: `in the press`."""
    return _HOW[release.kind]


def any_way(releases: Iterable[Release]) -> str:
    """Every way to take a load up, or the words that the book gives none."""
    ways = dict.fromkeys(how(release) for release in releases)
    return " or ".join(ways)


def joules(energy: float) -> str:
    """An energy in words, finer where it is small."""
    if energy < 0.1:
        return "under 0.1 J"
    return f"{energy:.1f} J" if energy < 20 else f"{energy:.0f} J"


def at_most_joules(energy: float) -> str:
    """An energy that is a bound, rounded up; behind `at most`."""
    tenths = max(1, math.ceil(round(energy * 10, 6)))
    return f"{tenths / 10:.1f} J" if energy < 20 else f"{math.ceil(round(energy, 6))} J"


def pushes(loaded: Loaded) -> str:
    """How hard a load pushes and what it holds, for one spring and several; rounded up, as in its plan."""
    energy = f"holding {_UP.show(loaded.energy, ENERGY, 'up')}"
    if loaded.greatest_energy >= 0.1:
        energy += f", at most {_UP.show(loaded.greatest_energy, ENERGY, 'up')}"
    if not loaded.force:
        return f"{loaded.load}, {energy}"
    return f"{loaded.load}, pushing with {_UP.show(loaded.force, FORCE, 'up')} and {energy}"


def listed(words: Sequence[str]) -> str:
    """Words in a row: `a, b and c`."""
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else "".join(words)


def in_runs(numbers: Iterable[int]) -> str:
    """Numbers with those in a row told by their ends: `1, 3 to 5`."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = (f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
    return ", ".join(told)


def with_load(how: str, load: Quantity | None) -> str:
    """How something is read, with the load that it is read under where the words do not name it already."""
    return how if load is None or f"under {load}" in how else f"{how}, under {load}"
