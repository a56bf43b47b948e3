"""The states of a release in order: closed, held, each retainer off, free; and what each would let go if it gave in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from layshaft.plan.act import TakeOff
from layshaft.plan.held import Held, Leaving, free_band
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.spring_fact import Band
from layshaft.plan.state import State
from layshaft.plan.taken import Taken

StageKind = Literal["closed", "held", "off", "let off", "free"]
ZERO = Band(0.0, 0.0, 0.0)


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

    kind: StageKind
    part: str | None
    held: Held
    held_by: tuple[str, ...]
    speed: float
    without: Failing | None = None


@dataclass(frozen=True, slots=True)
class Pressing:
    """A release way with its figures: what it takes up, how far beyond installed, how held, and what could leave."""

    load: str
    release: int
    taken: Taken
    over: Band
    pressed: Held
    leaving: Leaving


def stages(lengths: Lengths, pressing: Pressing, ready: State) -> Iterator[Stage]:
    """The states from a unit made ready for a release way until its loads are free, or rest on what still holds."""
    yield from _Stager(lengths, pressing).stages(ready)


@dataclass(frozen=True, slots=True)
class _Stager:
    lengths: Lengths
    pressing: Pressing

    @property
    def loads(self) -> Loads:
        return self.lengths.loads

    @property
    def taken(self) -> Taken:
        return self.pressing.taken

    def stages(self, state: State) -> Iterator[Stage]:
        bench = self.loads.bench
        release = bench.unit.loads[self.pressing.load].releases[self.pressing.release]
        yield self._stage("closed", None, self._held_in(state), state)
        is_held = self.taken.is_pressed and release.over is not None
        if is_held:
            yield self._stage("held", None, self.pressing.pressed, state, self._failing(state))
        judge = Judge(bench, self.loads)
        for part in release.reach:
            if state.detached & bench.bit(part):
                continue
            state = judge.after(state, TakeOff(part))
            yield self._stage("off", part, self.pressing.pressed, state, self._failing(state) if is_held else None)
        yield self._last(state)

    def _held_by(self, state: State) -> tuple[str, ...]:
        now = self.loads.could_be_loaded(state)
        return tuple(dict.fromkeys(stop for share in self.taken.shares for stop in now[share.load].held_by))

    def _held_in(self, state: State) -> Held:
        return self.taken.in_state(self.lengths, state)

    def _is_loaded(self, state: State) -> bool:
        now = self.loads.could_be_loaded(state)
        return any(now[share.load].is_loaded for share in self.taken.shares)

    def _last(self, state: State) -> Stage:
        if self.taken.is_pressed and self._is_loaded(state):
            return self._stage("let off", None, self._held_in(state), state)
        free = free_band(self.taken.shares[0].facts) if self.taken.is_pressed else ZERO
        return Stage("free", None, Held(free, ZERO, ZERO), (), 0.0)

    def _failing(self, state: State) -> Failing:
        """What the loads would do if the release way gave in at this moment."""
        over = self.pressing.over
        if not self._is_loaded(state):
            return Failing(self.taken.most_let_go(over, None, state), None)
        return Failing(self.taken.most_let_go(over, self.lengths, state), self._held_in(state))

    def _stage(
        self,
        kind: StageKind,
        part: str | None,
        held: Held,
        state: State,
        without: Failing | None = None,
    ) -> Stage:
        return Stage(kind, part, held, self._held_by(state), self.pressing.leaving.speed(held.energy.high), without)
