"""Pressing a load home at assembly: from free to pressed, splines and shafts found on the way, rings seen, let off.

The riskiest states of a job. The force grows from nothing at the free length; the moment the splines find each other
the part under the ram drops at once, a step of the load and a pinch.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Literal

from layshaft.book.definition import HandLimit, Release
from layshaft.book.definition.shop import Press
from layshaft.plan.bench import Bench
from layshaft.plan.held import Held, free_band
from layshaft.plan.load import Loads
from layshaft.plan.phrase import listed
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.spring_fact import Band, SpringFact
from layshaft.quantity import LENGTH, QuantityFault, Show, parse_quantity

HomeKind = Literal["free", "align", "find splines", "at installed length", "pressed", "seat", "let off", "record"]
_LENGTH = re.compile(r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)? ?(?:mm|in)\b")


@dataclass(frozen=True, slots=True)
class HomeStage:
    """One state of pressing home: what is done, how the load is held then, and what to mind."""

    kind: HomeKind
    what: str
    held: Held
    part: str | None = None
    drop: float | None = None
    """How far a part drops when its splines find each other [m], where the book says."""
    load_step: float | None = None
    """By how much the spring's force can jump with that drop at most [N]."""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HomePlan:
    """Pressing one load home; every figure of the release way holds, and the stages come in their order."""

    release_plan: PressPlan
    stages: tuple[HomeStage, ...]


def plan_home(
    bench: Bench,
    loads: Loads,
    load: str,
    release: int,
    presses: Mapping[str, Press],
    show: Show | None = None,
    hand: HandLimit | None = None,
) -> HomePlan | Refusal:
    """How a load is pressed home by one of its release ways, or why this cannot be said."""
    plan = plan_press(bench, loads, load, release, presses, show=show, hand=hand)
    if isinstance(plan, Refusal):
        return plan
    return HomePlan(plan, tuple(_stages(bench, plan)))


def _stages(bench: Bench, plan: PressPlan) -> Iterator[HomeStage]:
    definition = bench.unit.loads[plan.load]
    release = definition.releases[plan.release]
    zero = Band(0.0, 0.0, 0.0)
    is_wound = definition.seats is None
    free = Held(zero if is_wound else free_band(plan.taken.shares[0].facts), zero, zero)
    # The closed state of the plan: a load set up on the bench is held longer than it is in the whole unit.
    closed = plan.stages[0].held
    names = (plan.load, *plan.taken.others)
    yield HomeStage("free", f"{listed(names)} {'is' if len(names) == 1 else 'are'} free: nothing pushes yet", free)
    for alignment in bench.unit.alignments.values():
        if alignment.while_load in names:
            tool = (f"with {alignment.tool}",) if alignment.tool else ()
            notes = (*tool, f"proved by: {alignment.proved_by}")
            yield HomeStage("align", f"{', '.join(alignment.parts)}: {alignment.how}", free, None, None, None, notes)
    if release.home is not None:
        for text in release.home.splines:
            yield _splines(text, plan.taken.facts, closed)
    as_closed = "is wound" if is_wound else "is as short"
    yield HomeStage("at installed length", f"{plan.load} {as_closed} as in the closed unit", closed)
    if release.over is not None and not is_wound:
        yield HomeStage("pressed", "pressed far enough for the retainers to go in", plan.pressed)
    for part in reversed(release.reach):
        yield _seat(bench, part, plan.pressed if release.over is not None and not is_wound else closed)
    if not is_wound:
        yield from _let_off(release, plan, closed)
    if release.home is not None and release.home.depth is not None:
        yield HomeStage("record", release.home.depth, closed)


def _splines(text: str, facts: tuple[SpringFact, ...], closed: Held) -> HomeStage:
    """Splines may be found anywhere on the way home; the load is then at most what it is at the installed length."""
    drop = drop_in(text)
    step = sum(fact.rate.high for fact in facts) * drop if drop is not None else None
    notes = ("Hands away: it drops at once.", "The load at that moment is at most that of the installed length.")
    return HomeStage("find splines", text, closed, None, drop, step, notes)


def drop_in(text: str) -> float | None:
    """The greatest length that a text about splines names [m]: how far the part may drop."""
    lengths = []
    for match in _LENGTH.finditer(text):
        try:
            lengths.append(parse_quantity(match.group(), LENGTH).si_high)
        except QuantityFault:
            continue
    return max(lengths, default=None)


def _seat(bench: Bench, part: str, held: Held) -> HomeStage:
    definition = bench.unit.parts[part]
    fit = definition.ways[0].fit if definition.ways else None
    fit_note = fit.note if fit is not None else None
    notes = (definition.way_round, fit_note or "seen fully home before anything is let off")
    return HomeStage("seat", f"{part} {definition.name}", held, part, None, None, tuple(note for note in notes if note))


def _let_off(release: Release, plan: PressPlan, closed: Held) -> Iterator[HomeStage]:
    """By the book's stages from the pressed length; the last one ends where the retainers have taken the load over."""
    whole = closed.length.nominal - plan.pressed.length.nominal
    if whole <= 0 or whole == inf:
        return
    given = sorted(stage.si for stage in release.home.stages) if release.home is not None else []
    for stage in (stage for stage in given if stage < whole - 1e-9):
        by = Band(plan.over.low - stage, plan.over.nominal - stage, plan.over.high - stage)
        yield HomeStage("let off", "let off a little; look at every retainer again", plan.taken.pressed(by))
    yield HomeStage("let off", "let off until the retainers hold it; the release way is loose", closed)

