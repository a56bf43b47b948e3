"""One step of a plan, as page and paper show it, and the plan as a whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from layshaft.plan.loaded import Loaded
from layshaft.plan.sequence import Cost

Kind = Literal["take off", "turn", "hold", "let off", "fit", "compress", "let home", "prepare", "prove"]


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """One step: what is done to what, with what, why now, and what is to be minded.

    A part that is taken off or fitted with a load and its release way named lets that load off, or takes it up, in the
    same motion. `reads` names what is read in a step that is there to read it: a result, a reading of a part, or a
    proof whose figure is written down as found.
    """

    number: int
    kind: Kind
    what: str
    parts: tuple[str, ...] = ()
    way: int | None = None
    toward: str | None = None
    load: str | None = None
    release: int | None = None
    attitude: str = ""
    tool: str | None = None
    support: str | None = None
    minutes: float = 0.0
    waits: float = 0.0
    why: tuple[str, ...] = ()
    instead: str | None = None
    along: tuple[str, ...] = ()
    way_round: str | None = None
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    torque: str | None = None
    proof: str | None = None
    reads: tuple[str, ...] = ()
    loaded_after: tuple[Loaded, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """Steps in an order that works, what they cost, and a cost that no order can be below."""

    steps: tuple[PlannedStep, ...]
    cost: Cost
    bound: Cost
    is_proved: bool
    stays_together: tuple[tuple[str, ...], ...] = ()

    @property
    def minutes(self) -> float:
        """Hands-on minutes of all steps."""
        return sum(step.minutes for step in self.steps)

    @property
    def taken_off(self) -> tuple[str, ...]:
        """The parts that the plan takes off or fits, in order."""
        return tuple(part for step in self.steps if step.kind in ("take off", "fit") for part in step.parts)


def numbered(steps: Iterable[PlannedStep]) -> tuple[PlannedStep, ...]:
    """The steps with their numbers, from 1."""
    return tuple(replace(step, number=number) for number, step in enumerate(steps, 1))
