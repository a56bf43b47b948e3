"""Putting together, on record: what has been done of the assembly as planned now, what comes next, what is loaded.

The plan is worked out anew whenever something is decided, so a step is known by what it does to what, not by its number
or its words. What is on record and no longer in the plan, or stands in it later than something that waits, is told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property
from typing import Any

from layshaft.plan.judgement import OpenPoint
from layshaft.plan.press import PressPlan
from layshaft.plan.press_text import Teller
from layshaft.plan.proof_outcome import failed_proofs, limit_of
from layshaft.plan.rebuild import fitted
from layshaft.plan.step import PlannedStep
from layshaft.plan.telling import telling_of
from layshaft.shop.ledger.fold import Line, standing
from layshaft.shop.ledger.standing import Standing

KINDS = frozenset({"fitted", "prepared"})
"""The kinds of entry that are moves of putting together; a proof is a `proved`, as in a job file."""
REACHABLE = KINDS | {"proved"}
"""What coming apart again undoes."""
Key = tuple[Any, ...]


def key_of(step: PlannedStep) -> Key:
    """What a step is known by."""
    if step.kind == "prove":
        return ("prove", step.proof)
    turned = step.attitude if step.kind == "turn" else ""
    return (step.kind, step.parts or step.what if step.kind == "prepare" else step.parts, step.load, turned)


def key_in(line: Line) -> Key:
    """What an entry says was done, by the same words."""
    body = line.body
    if line.kind == "proved":
        return ("prove", body["proof"])
    parts = tuple(body.get("parts", ()))
    what = parts or body["what"] if body["step"] == "prepare" else parts
    return (body["step"], what, body.get("load"), body.get("attitude", "") if body["step"] == "turn" else "")


def body_of(step: PlannedStep) -> dict[str, Any]:
    """What a step that was done puts on record."""
    told = {"step": step.kind, "what": step.what, "parts": list(step.parts), "load": step.load}
    told |= {"release": step.release + 1} if step.release is not None else {}
    told |= {"attitude": step.attitude} if step.kind == "turn" else {}
    return {key: value for key, value in told.items() if value not in (None, [])}


def held_by(lines: Iterable[Line]) -> str:
    """The load that is pressed home just now, neither free nor on its retainers."""
    held = ""
    for line in lines:
        if line.kind == "fitted" and line.body.get("step") in ("compress", "let home"):
            held = str(line.body["load"]) if line.body["step"] == "compress" else ""
    return held


@dataclass(frozen=True)
class Putting:
    """How far a job has been put together."""

    stand: Standing
    now: datetime

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """The moves and proofs that count, in the order written."""
        stands = standing(self.stand.desk.lines)
        return tuple(
            line for line in self.stand.desk.lines if line.kind in REACHABLE and stands[line.number] == "counts"
        )

    @cached_property
    def released(self) -> tuple[Line, ...]:
        """The release that counts, if there is one."""
        stands = standing(self.stand.desk.lines)
        lines = self.stand.desk.lines
        return tuple(line for line in lines if line.kind == "released" and stands[line.number] == "counts")

    @property
    def steps(self) -> tuple[PlannedStep, ...]:
        """The plan as it is now."""
        return self.stand.rebuilt.assembly.steps

    @cached_property
    def done(self) -> tuple[bool, ...]:
        """Of each step whether it is on record; a proof that did not hold is to be made again."""
        failed = {one.proof for one in failed_proofs(self.stand.unit, self.stand.desk.content)}
        proofs = {key_in(line) for line in self.lines if line.kind == "proved" and line.body["proof"] not in failed}
        counts = Counter(key_in(line) for line in self.lines if line.kind in KINDS)
        found = []
        for step in self.steps:
            key = key_of(step)
            found.append(key in proofs if step.kind == "prove" else counts[key] > 0)
            counts[key] -= 1
        return tuple(found)

    @cached_property
    def next(self) -> PlannedStep | None:
        """The move that comes now: the first that is not on record; nothing where all are."""
        return next((step for step, is_done in zip(self.steps, self.done, strict=True) if not is_done), None)

    @property
    def left(self) -> int:
        """How many moves and proofs are left."""
        return self.done.count(False)

    @property
    def is_begun(self) -> bool:
        """Whether anything has gone in."""
        return any(line.kind == "fitted" for line in self.lines)

    @cached_property
    def changes(self) -> tuple[str, ...]:
        """How the plan differs from what was done by it."""
        return tuple(self._changes())

    def _changes(self) -> Iterator[str]:
        planned: dict[Key, list[str]] = {}
        for step in self.steps:
            planned.setdefault(key_of(step), []).append(step.what)
        for line in self.lines:
            if line.kind not in KINDS:
                continue
            words = planned.get(key_in(line))
            if not words:
                yield f"On record, and no longer in the plan: {line.body['what']} (entry {line.number})."
            elif line.body["what"] not in words:
                yield f"Entry {line.number} says: {line.body['what']}. The plan now says: {words[0]}."
        if not self.is_begun or self.next is None:
            return
        at = self.steps.index(self.next)
        last = max((n for n, step in enumerate(self.steps) if self.done[n] and step.kind == "fit"), default=-1)
        if at < last and self.next.kind not in ("prepare", "turn"):
            yield (
                f"The plan has this before what is in already, up to: {self.steps[last].what}. See whether it can still"
                " be reached; if not, take it apart again that far, and say so below."
            )

    @cached_property
    def first_taken_down(self) -> str:
        """Why nothing goes in yet, where the unit is not taken down; preparing may start before."""
        left = len([step for step in self.stand.left.steps if step.kind != "prepare"])
        if not left or self.is_begun:
            return ""
        return f"It is not taken down yet: {left} {'move is' if left == 1 else 'moves are'} left on the bench page."

    def against(self, step: PlannedStep) -> tuple[str, ...]:
        """What stands against a step just now; someone may say that it was done all the same."""
        return tuple(dict.fromkeys((*self._soaking(step), *self._unsettled(step))))

    def _soaking(self, step: PlannedStep) -> Iterator[str]:
        begun = {tuple(line.body.get("parts", ())): line for line in self.lines if line.kind == "prepared"}
        for one in self.steps:
            if step.kind != "fit" or one.kind != "prepare" or not one.waits or not set(one.parts) & set(step.parts):
                continue
            line = begun.get(one.parts)
            if line is None:
                yield f"Not begun yet: {one.what}. It takes {one.waits:.0f} minutes."
            elif (ready := _time(line.at, self.now) + timedelta(minutes=one.waits)) > self.now:
                yield f"Not before {ready:%H:%M}: {one.what}, begun at {line.at[11:]}, takes {one.waits:.0f} minutes."

    def _unsettled(self, step: PlannedStep) -> Iterator[str]:
        if step.kind != "fit":
            return
        stand = self.stand
        chosen = fitted(stand.unit, stand.rebuilt.judgements, stand.rebuilt.fit, telling_of(stand.desk.shop))
        for part in step.parts:
            if not chosen[part].is_settled or not chosen[part].is_sized:
                points = [point.sentence for point in stand.rebuilt.open if _is_about(point, part)]
                yield " ".join((f"What goes in for {part} {stand.unit.parts[part].name} is not settled.", *points))

    def plan_told(self, step: PlannedStep) -> tuple[str, ...]:
        """The press plan that a step goes by, or its refusal."""
        if step.kind not in ("compress", "fit", "let home") or step.load is None:
            return ()
        teller = Teller(self.stand.bench, self.stand.show)
        uses = (use for use in self.stand.rebuilt.presses if use.way == (step.load, step.release))
        return tuple(line for use in uses for line in teller.plan(use.plan))

    def has_plan(self, step: PlannedStep) -> bool:
        """Whether there is a plan for a step's load, and no refusal."""
        plans = [use.plan for use in self.stand.rebuilt.presses if use.way == (step.load, step.release)]
        return bool(plans) and all(isinstance(plan, PressPlan) for plan in plans)

    def to_see_seated(self, step: PlannedStep) -> tuple[str, ...]:
        """The retainers that are seen seated all round before a load is let off onto them."""
        if step.kind != "let home" or step.load is None or step.release is None:
            return ()
        return tuple(self.stand.unit.loads[step.load].releases[step.release].reach)

    def to_line_up(self, step: PlannedStep) -> tuple[str, ...]:
        """What has to find its place while a load is pressed home."""
        if step.kind != "compress" or step.load is None or step.release is None:
            return ()
        home = self.stand.unit.loads[step.load].releases[step.release].home
        alignments = self.stand.unit.alignments.values()
        now = (one for one in alignments if one.while_load == step.load)
        lined = (f"{', '.join(one.parts)} in line: {one.proved_by}" for one in now)
        return (*(home.splines if home is not None else ()), *lined)

    def depth_asked(self, step: PlannedStep) -> str:
        """The depth that is recorded as a load goes home, in the book's words."""
        if step.kind != "let home" or step.load is None or step.release is None:
            return ""
        home = self.stand.unit.loads[step.load].releases[step.release].home
        return (home.depth if home is not None else None) or ""

    def wants_figure(self, step: PlannedStep) -> bool:
        """Whether a proof is one of a figure: it has a limit, its own or that of the result it reads."""
        return step.proof is not None and limit_of(self.stand.unit, self.stand.unit.proofs[step.proof]) is not None

    @cached_property
    def loaded(self) -> tuple[str, ...]:
        """The loads that are up by what is on record, and how each is held."""
        found: dict[str, str] = {}
        for line in self.lines:
            load, step = line.body.get("load"), line.body.get("step")
            if not load:
                continue
            if step == "compress":
                found[load] = f"{load} is held by its tool, neither free nor on its retainers."
            else:
                found[load] = f"{load} is loaded, and its retainers hold it."
        return tuple(found.values())

    def back_to(self, entry: int) -> tuple[int, ...]:
        """The entries that coming apart again as far as before one of them undoes: a release with them."""
        undone = [line.number for line in self.lines if line.number >= entry]
        return tuple(sorted((*undone, *(line.number for line in self.released)))) if undone else ()


def _is_about(point: OpenPoint, part: str) -> bool:
    return point.part == part or part in point.decides


def _time(told: str, now: datetime) -> datetime:
    return datetime.strptime(told, "%Y-%m-%d %H:%M").replace(tzinfo=now.tzinfo)
