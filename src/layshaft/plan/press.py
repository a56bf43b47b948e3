"""The press plan of a load: what it takes to hold it, let it out and be sure of it, or what is missing for that.

`plan_press` answers for every release way: press, spring compressor, long screws, own thread, by hand under cover.
Figures stand as bands; what is compared with a rating or a limit is the greatest figure, with room the least.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Literal

from layshaft.book.definition import HandLimit, Load, Release
from layshaft.book.definition.shop import Press
from layshaft.book.length import MARGIN
from layshaft.mechanics import cut
from layshaft.plan.act import TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.freeing import freeing_sets
from layshaft.plan.held import (
    Held,
    Leaving,
    drafted_note,
    free_band,
    held_at,
    lightest_leaving,
    most_let_go,
    solid_band,
)
from layshaft.plan.lack import Lack, coupled, unsaid_length
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.press_check import Claim, check_claim
from layshaft.plan.ram import RamFit, RamTask, fit_rams
from layshaft.plan.reaction import Reaction, ready_state, trace
from layshaft.plan.spring_fact import Band, MissingSpringData, SpringFact
from layshaft.plan.state import State
from layshaft.quantity import Show

KEEP_FROM_SOLID = 0.002
"""Left before the coils touch where the book does not say [m] (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Failing:
    """What a load would do if its release way gave in: let go so much at most [J]; how it is held then, if at all."""

    energy: float
    still: Held | None


@dataclass(frozen=True, slots=True)
class Stage:
    """One state of a release: how the load is held, what holds it, and what it would do if the release way failed.

    `speed` [m/s] is what the lightest body that could leave cannot pass. `without` is nothing where there is no
    release way to fail.
    """

    kind: Literal["closed", "held", "off", "let off", "free"]
    part: str | None
    held: Held
    held_by: tuple[str, ...]
    speed: float
    without: Failing | None = None


@dataclass(frozen=True, slots=True)
class PressPlan:
    """One way to let a load go, worked out: figures as bands, states in order, where the force goes, which press."""

    load: str
    release: int
    kind: str
    tool: str | None
    installed: Held
    pressed: Held
    travel: Band
    """From pressed to the longest free length and the margin beyond it [m], or rad when wound."""
    left_before_solid: Band | None
    over: Band
    most_over: float
    """What the unit allows to press beyond installed at most [m]."""
    greatest: Held
    """The load at that most: what ratings are held against."""
    leaving: Leaving
    speed: float
    stages: tuple[Stage, ...]
    freeing: cut.Cuts
    reach: tuple[tuple[str, str | None], ...]
    """What has to stay reachable while the load is held, with the tool that takes it off."""
    reaction: Reaction | None
    rams: tuple[RamFit, ...]
    notes: tuple[str, ...]

    @property
    def ram(self) -> RamFit | None:
        """The press of this shop that the plan takes."""
        return self.rams[0] if self.rams else None


@dataclass(frozen=True, slots=True)
class Refusal:
    """No plan, and why: every lack with whose it is and what to do instead; what could be worked out stands by it."""

    load: str
    release: int
    lacks: tuple[Lack, ...]
    installed: Held | None = None
    pressed: Held | None = None
    rams: tuple[RamFit, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """Every lack in one line."""
        return tuple(lack.sentence for lack in self.lacks)


def plan_press(
    bench: Bench,
    loads: Loads,
    load: str,
    release: int,
    presses: Mapping[str, Press] | None,
    state: State | None = None,
    show: Show | None = None,
    hand: HandLimit | None = None,
) -> PressPlan | Refusal:
    """How a load is let go by one of its release ways, or everything that stands against saying so.

    Without `presses` no press is judged: that is for a book alone, and the plan then has none.
    `hand` is what the shop lets a hand under a cover let go; the book's own limits hold beside it.
    """
    start = state or State(attitude=bench.unit.starts)
    planner = _Planner(bench, loads, load, release, presses, show or Show(), start, Lengths(loads), hand)
    try:
        return planner.plan()
    except MissingSpringData as missing:
        needed = "the data of every spring of the unit, since a load not known cannot be planned round"
        lack = Lack(
            "spring data",
            missing.part,
            "the book",
            f"{missing.lacks} is not given",
            needed,
            "a load at a length from the maker or a spring tester, and the free length",
        )
        return Refusal(load, release, (lack,))


@dataclass(slots=True)
class _Planner:
    bench: Bench
    loads: Loads
    load: str
    at: int
    presses: Mapping[str, Press] | None
    show: Show
    state: State
    lengths: Lengths
    hand: HandLimit | None

    @property
    def definition(self) -> Load:
        return self.bench.unit.loads[self.load]

    @property
    def release(self) -> Release:
        return self.definition.releases[self.at]

    @property
    def facts(self) -> tuple[SpringFact, ...]:
        return self.loads.springs[self.load]

    def plan(self) -> PressPlan | Refusal:
        """The plan or the refusal."""
        if self.at >= len(self.definition.releases):
            lack = Lack(
                "no release way",
                self.load,
                "the book",
                "no such release way is given",
                "a press, compressor, screws or a cover that holds it",
                "stop here and ask the maker",
            )
            return Refusal(self.load, self.at, (lack,))
        self.state = ready_state(self.bench, self.load, self.release, self.state)
        length = self.lengths.installed(self.load)
        if length.nominal == inf:
            return Refusal(self.load, self.at, (unsaid_length(self.load),))
        installed = held_at(self.facts, length)
        others = self._leans_on()
        if others:
            return Refusal(self.load, self.at, (coupled(self.load, others),), installed)
        if self.definition.seats is None:
            return self._wound(installed)
        return self._pressed(installed)

    def _leans_on(self) -> tuple[str, ...]:
        """The loads whose springs push back on this one on its way to free."""
        found = self.loads.holding_paths(self.state, self.load, self.bench.gone(self.state))
        return tuple(sorted({name for path in found for name in path.leans_on} - {self.load}))

    def _wound(self, installed: Held) -> PressPlan | Refusal:
        """A wound spring: nothing is pressed, its whole angle is let out."""
        angle = installed.length
        claim = Claim(self.release, installed, installed, angle, None, None, self._leaving, hand=self.hand)
        lacks = tuple(check_claim(self.bench.unit, self.load, claim, self.show))
        if lacks:
            return Refusal(self.load, self.at, lacks, installed, None)
        return self._built(installed, installed, installed, angle, None, Band(0.0, 0.0, 0.0), 0.0, None, ())

    def _pressed(self, installed: Held) -> PressPlan | Refusal:
        release = self.release
        over = Band(release.over.si_low, release.over.si, release.over.si_high) if release.over else Band(0.0, 0.0, 0.0)
        pressed = held_at(self.facts, _shorter(installed.length, over))
        margin = release.margin.si_high if release.margin is not None else float(MARGIN)
        travel = self._travel(pressed.length, margin)
        solid = solid_band(self.bench.unit, self.definition, self.facts)
        left = _left(pressed.length, solid) if solid is not None else None
        reaction = self._reaction(pressed.length)
        most = self._most_over(installed.length, solid, reaction if isinstance(reaction, Reaction) else None)
        ends = (over.low, max(over.nominal, most), max(over.high, most))
        greatest = held_at(self.facts, _shorter(installed.length, Band(*ends)))
        claim = Claim(
            release, pressed, greatest, travel, left, reaction, self._leaving, over, most, self._keep, self.hand
        )
        lacks = list(check_claim(self.bench.unit, self.load, claim, self.show))
        rams: tuple[RamFit, ...] = ()
        if release.kind == "press" and self.presses is not None:
            height = reaction.height if isinstance(reaction, Reaction) else None
            task = RamTask(pressed.force, greatest.force.high, travel.high, height)
            rams = fit_rams(self.presses, task, self.show)
            lacks += self._no_ram(rams)
        if lacks or isinstance(reaction, Lack):
            return Refusal(self.load, self.at, tuple(lacks), installed, pressed, rams)
        return self._built(installed, pressed, greatest, travel, left, over, most, reaction, rams)

    def _built(
        self,
        installed: Held,
        pressed: Held,
        greatest: Held,
        travel: Band,
        left: Band | None,
        over: Band,
        most: float,
        reaction: Reaction | None,
        rams: tuple[RamFit, ...],
    ) -> PressPlan:
        release = self.release
        reach = tuple((part, _tool(self.bench, part)) for part in release.reach)
        return PressPlan(
            self.load,
            self.at,
            release.kind,
            release.tool,
            installed,
            pressed,
            travel,
            left,
            over,
            most,
            greatest,
            self._leaving,
            self._leaving.speed(greatest.energy.high),
            tuple(self._stages(pressed)),
            freeing_sets(self.bench, self.loads, self.state, self.load),
            reach,
            reaction,
            rams,
            drafted_note(self.bench, self.load),
        )

    @property
    def _leaving(self) -> Leaving:
        return lightest_leaving(self.bench.unit, self.definition)

    @property
    def _keep(self) -> float:
        keep = self.release.keep_from_solid
        return keep.si_high if keep is not None else KEEP_FROM_SOLID

    def _travel(self, pressed: Band, margin: float) -> Band:
        """To the longest free length and the margin: from the longest, the drawn and the shortest pressed length."""
        free = self.loads.longest_free(self.load)
        return Band(*(max(0.0, free - end) + margin for end in (pressed.high, pressed.nominal, pressed.low)))

    def _reaction(self, pressed: Band) -> Reaction | Lack | None:
        release = self.release
        is_said = release.pushes is not None and release.stands_on is not None
        if release.kind == "press" or (release.kind == "spring compressor" and is_said):
            return trace(self.loads, self.load, release, self.state, pressed.nominal)
        return None

    def _most_over(self, installed: Band, solid: Band | None, reaction: Reaction | None) -> float:
        """How far beyond installed it may be pressed: what the book allows, short of solid and of hard contact."""
        release = self.release
        most = release.most_over or release.over
        bounds = [most.si_high if most is not None else 0.0]
        if solid is not None:
            bounds.append(installed.low - solid.high - self._keep)
        if reaction is not None:
            bounds.append(installed.nominal - reaction.shortest)
        return max(0.0, min(bounds))

    def _no_ram(self, rams: tuple[RamFit, ...]) -> Iterator[Lack]:
        if not rams:
            yield Lack(
                "no press",
                "presses",
                "the shop",
                "the shop file has no press",
                "ram area, rating, return force, stroke and daylight of one",
                "writing them into the shop file from its plate, or the work given to a shop with a press",
            )
        elif not rams[0].fits:
            for fit in rams:
                yield Lack(
                    "press too small",
                    fit.press,
                    "the shop",
                    "; ".join(fit.faults),
                    "a press inside whose own figures this load stays",
                    "another press, or another release way of the book",
                )

    def _stages(self, pressed: Held) -> Iterator[Stage]:
        state, held_by = self.state, self._held_by(self.state)
        yield self._stage("closed", None, self._held_in(state), held_by)
        is_held = self.definition.seats is not None and self.release.over is not None
        if is_held:
            yield self._stage("held", None, pressed, held_by, self._failing(pressed, state))
        judge = Judge(self.bench, self.loads)
        for part in self.release.reach:
            if state.detached & self.bench.bit(part):
                continue
            state = judge.after(state, TakeOff(part))
            failing = self._failing(pressed, state) if is_held else None
            yield self._stage("off", part, pressed, self._held_by(state), failing)
        yield self._last(state)

    def _held_by(self, state: State) -> tuple[str, ...]:
        return self.loads.could_be_loaded(state)[self.load].held_by

    def _held_in(self, state: State) -> Held:
        return held_at(self.facts, self.lengths.in_state(self.load, state))

    def _last(self, state: State) -> Stage:
        if self.definition.seats is not None and self.loads.could_be_loaded(state)[self.load].is_loaded:
            return self._stage("let off", None, self._held_in(state), self._held_by(state))
        zero = Band(0.0, 0.0, 0.0)
        free = zero if self.definition.seats is None else free_band(self.facts)
        return Stage("free", None, Held(free, zero, zero), (), 0.0)

    def _failing(self, pressed: Held, state: State) -> Failing:
        """What the load would do if its release way gave in at this moment."""
        if not self.loads.could_be_loaded(state)[self.load].is_loaded:
            return Failing(most_let_go(self.facts, pressed.length, None), None)
        still = self._held_in(state)
        return Failing(most_let_go(self.facts, pressed.length, still.length), still)

    def _stage(
        self,
        kind: Literal["closed", "held", "off", "let off", "free"],
        part: str | None,
        held: Held,
        held_by: tuple[str, ...],
        without: Failing | None = None,
    ) -> Stage:
        return Stage(kind, part, held, held_by, self._leaving.speed(held.energy.high), without)


def _shorter(length: Band, by: Band) -> Band:
    return Band(length.low - by.high, length.nominal - by.nominal, length.high - by.low)


def _left(pressed: Band, solid: Band) -> Band:
    """What is left before the coils touch: from the shortest and the greatest solid length, and as drawn."""
    return Band(pressed.low - solid.high, pressed.nominal - solid.nominal, pressed.high - solid.low)


def _tool(bench: Bench, part: str) -> str | None:
    ways = bench.unit.parts[part].ways
    return ways[0].tool if ways else None
