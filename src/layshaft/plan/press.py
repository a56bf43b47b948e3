"""The press plan of a load: what it takes to hold it, let it out and be sure of it, or what is missing for that.

`plan_press` answers for every release way: press, spring compressor, long screws, own thread, by hand under cover.
Figures stand as bands; what is compared with a rating or a limit is the greatest figure, with room the least.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf

from layshaft.book.definition import HandLimit, Load, Release
from layshaft.book.definition.shop import Press
from layshaft.book.length import MARGIN, keep_from_solid
from layshaft.mechanics import cut
from layshaft.plan.bench import Bench
from layshaft.plan.freeing import freeing_sets
from layshaft.plan.held import Held, Leaving, drafted_note, lightest_leaving, solid_band
from layshaft.plan.lack import Lack, coupled, unsaid_length
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.press_check import Claim, check_claim
from layshaft.plan.press_stage import ZERO, Pressing, Stage, stages
from layshaft.plan.ram import RamFit, RamTask, fit_rams
from layshaft.plan.reaction import Reaction, ready_state, together, trace
from layshaft.plan.spring_fact import Band, MissingSpringData
from layshaft.plan.state import State
from layshaft.plan.strictest import strictest
from layshaft.plan.taken import Taken, beside, taken_up
from layshaft.quantity import Show

SAME = 5e-5
"""Lengths told as one differ by less [m]: under what a rule or an eye can tell (own choice)."""


@dataclass(frozen=True, slots=True)
class PressPlan:
    """One way to let a load go, worked out: figures as bands, states in order, where the force goes, which press.

    Where other loads are taken up with it, force and energy are those of all together, and lengths its own.
    """

    load: str
    release: int
    kind: str
    tool: str | None
    taken: Taken
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

    @property
    def hangs_apart(self) -> bool:
        """Whether a load that is taken up hangs at another length than in the whole unit."""
        return abs(self.stages[0].held.length.nominal - self.installed.length.nominal) >= SAME


@dataclass(frozen=True, slots=True)
class Refusal:
    """No plan, and why: every lack with whose it is and what to do instead; what could be worked out stands by it."""

    load: str
    release: int
    lacks: tuple[Lack, ...]
    installed: Held | None = None
    pressed: Held | None = None
    rams: tuple[RamFit, ...] = ()
    others: tuple[str, ...] = ()
    """The other loads that the release way would take up."""

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
    beside: tuple[str, ...] = ()
    """The other loads that the release way takes up."""

    @property
    def definition(self) -> Load:
        return self.bench.unit.loads[self.load]

    @property
    def release(self) -> Release:
        others = (self.bench.unit.loads[name] for name in self.beside)
        return strictest(self.definition.releases[self.at], others)

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
        alone = taken_up(self.lengths, self.load, ())
        found = beside(self.loads, self.load, self.at, self.state)
        if found.otherwise:
            return Refusal(self.load, self.at, (coupled(self.load, found.otherwise),), alone.installed())
        if self.definition.seats is None:
            return self._wound(alone)
        self.beside = found.alike
        return self._pressed(taken_up(self.lengths, self.load, found.alike))

    def _wound(self, taken: Taken) -> PressPlan | Refusal:
        """A wound spring: nothing is pressed, its whole angle is let out."""
        installed = taken.installed()
        angle = installed.length
        leaving = self._leaving(taken)
        claim = Claim(self.release, installed, installed, angle, None, None, leaving, hand=self.hand)
        lacks = tuple(check_claim(self.bench.unit, self.load, claim, self.show))
        if lacks:
            return Refusal(self.load, self.at, lacks, installed, None)
        return self._built(taken, installed, installed, angle, None, ZERO, 0.0, None, ())

    def _pressed(self, taken: Taken) -> PressPlan | Refusal:
        release = self.release
        installed = taken.installed()
        over = Band(release.over.si_low, release.over.si, release.over.si_high) if release.over else ZERO
        pressed = taken.pressed(over)
        margin = release.margin.si_high if release.margin is not None else float(MARGIN)
        travel = taken.travel(over, margin)
        solid = self._solid(taken)
        reaction = self._reaction(taken, over)
        most = self._most_over(taken, solid, reaction if isinstance(reaction, Reaction) else None)
        ends = (over.low, max(over.nominal, most), max(over.high, most))
        greatest = taken.pressed(Band(*ends))
        left = _least_left(taken, over, solid)
        leaving = self._leaving(taken)
        claim = Claim(release, pressed, greatest, travel, left, reaction, leaving, over, most, self._keep, self.hand)
        lacks = list(check_claim(self.bench.unit, self.load, claim, self.show))
        rams: tuple[RamFit, ...] = ()
        if release.kind == "press" and self.presses is not None:
            height = reaction.height if isinstance(reaction, Reaction) else None
            task = RamTask(pressed.force, greatest.force.high, travel.high, height)
            rams = fit_rams(self.presses, task, self.show)
            lacks += self._no_ram(rams)
        if lacks or isinstance(reaction, Lack):
            return Refusal(self.load, self.at, tuple(lacks), installed, pressed, rams, taken.others)
        return self._built(taken, pressed, greatest, travel, left, over, most, reaction, rams)

    def _built(
        self,
        taken: Taken,
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
        leaving = self._leaving(taken)
        return PressPlan(
            self.load,
            self.at,
            release.kind,
            release.tool,
            taken,
            taken.installed(),
            pressed,
            travel,
            left,
            over,
            most,
            greatest,
            leaving,
            leaving.speed(greatest.energy.high),
            tuple(stages(self.lengths, Pressing(self.load, self.at, taken, over, pressed, leaving), self.state)),
            freeing_sets(self.bench, self.loads, self.state, self.load),
            reach,
            reaction,
            rams,
            tuple(note for share in taken.shares for note in drafted_note(self.bench, share.load)),
        )

    def _leaving(self, taken: Taken) -> Leaving:
        unit = self.bench.unit
        each = (lightest_leaving(unit, unit.loads[share.load]) for share in taken.shares)
        return min(each, key=lambda leaving: leaving.mass)

    @property
    def _keep(self) -> float:
        return float(keep_from_solid(self.release))

    def _solid(self, taken: Taken) -> tuple[Band | None, ...]:
        unit = self.bench.unit
        return tuple(solid_band(unit, unit.loads[share.load], share.facts) for share in taken.shares)

    def _reaction(self, taken: Taken, over: Band) -> Reaction | Lack | None:
        """Where the force goes: of every load that is taken up the way through its own spring."""
        release = self.release
        is_said = release.pushes is not None and release.stands_on is not None
        if release.kind != "press" and not (release.kind == "spring compressor" and is_said):
            return None
        ways = [
            trace(self.loads, share.load, release, self.state, share.shorter(over).nominal) for share in taken.shares
        ]
        return together(ways)

    def _most_over(self, taken: Taken, solid: tuple[Band | None, ...], reaction: Reaction | None) -> float:
        """How far beyond installed it may be pressed: what the book allows, short of solid and of hard contact."""
        release = self.release
        most = release.most_over or release.over
        bounds = [most.si_high if most is not None else 0.0]
        for share, touching in zip(taken.shares, solid, strict=True):
            if touching is not None:
                bounds.append(share.installed.low - touching.high - self._keep)
        if reaction is not None:
            bounds.append(taken.shares[0].installed.nominal - reaction.shortest)
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


def _least_left(taken: Taken, over: Band, solid: tuple[Band | None, ...]) -> Band | None:
    """What is left before any coils touch: from the shortest and the greatest solid length, and as drawn."""
    left = []
    for share, touching in zip(taken.shares, solid, strict=True):
        if touching is None:
            return None
        pressed = share.shorter(over)
        ends = (pressed.low - touching.high, pressed.nominal - touching.nominal, pressed.high - touching.low)
        left.append(Band(*ends))
    return min(left, key=lambda band: band.low)


def _tool(bench: Bench, part: str) -> str | None:
    ways = bench.unit.parts[part].ways
    return ways[0].tool if ways else None
