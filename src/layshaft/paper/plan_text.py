"""A plan as text for a terminal: one step after the other, with its reason, tool, minutes and cautions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import floor
from textwrap import fill

from layshaft.paper.wording import counted
from layshaft.plan.phrase import at_most_joules
from layshaft.plan.step import Plan, PlannedStep

WIDTH = 100
_MARKS = {"prove": "PROOF", "turn": "TURN"}


def plan_text(plan: Plan, title: str) -> str:
    """The whole plan, its head line first."""
    lines = [title, "=" * min(len(title), WIDTH), ""]
    for step in plan.steps:
        lines += _step_lines(step)
    lines += ["", *_foot(plan)]
    return "\n".join(lines) + "\n"


def _step_lines(step: PlannedStep) -> Iterator[str]:
    mark = "LOAD" if step.load else "READ" if step.reads else _MARKS.get(step.kind, "")
    head = f"{step.number:>3}  {mark + ': ' if mark else ''}{step.what}"
    yield from wrapped(head, 5)
    for caution in step.cautions:
        yield from wrapped(f"     ! {caution}", 7)
    facts = [
        f"tool: {step.tool}" if step.tool else "",
        f"stands {step.attitude}" if step.attitude else "",
        f"{step.minutes:g} min" if step.minutes else "",
        f"waits {step.waits:g} min" if step.waits else "",
        f"carry on {step.support}" if step.support else "",
        f"torque {step.torque}" if step.torque else "",
    ]
    told = "; ".join(fact for fact in facts if fact)
    if told:
        yield from wrapped(f"     {told}", 5)
    if step.along:
        yield from wrapped(f"     takes along: {', '.join(step.along)}", 5)
    if step.way_round:
        yield from wrapped(f"     way round: {step.way_round}", 5)
    yield from wrapped(f"     why: {'; '.join(step.why)}", 5) if step.why else ()
    if step.instead:
        yield from wrapped(f"     otherwise: {step.instead}", 5)
    for note in step.notes:
        yield from wrapped(f"     {note}", 5)
    for loaded in step.loaded_after:
        if step.kind == "take off":
            held = at_most_joules(loaded.greatest_energy)
            yield from wrapped(f"     STILL LOADED: {loaded.load}, at most {held}. Tag it.", 5)


def wrapped(text: str, indent: int) -> Iterable[str]:
    """A text in lines of the page's width, the later ones set in."""
    return fill(text, WIDTH, subsequent_indent=" " * indent, break_on_hyphens=False).split("\n")


def _whole(number: float) -> str:
    """A sum of a book's figures in whole numbers, half upward, whatever its last bits are."""
    return str(floor(round(number, 6) + 0.5))


def _foot(plan: Plan) -> Iterator[str]:
    cost = plan.cost
    proof = "No order does with less." if plan.is_proved else "An order with less is not ruled out."
    yield from wrapped(
        f"{counted(len(plan.steps), 'step', 'steps')}, {_whole(plan.minutes)} minutes of hands; "
        f"{_whole(cost.turns / 1000)} kg turned over in all, {counted(cost.presses, 'press set-up', 'press set-ups')}, "
        f"{counted(cost.tools, 'tool change', 'tool changes')}. {proof} Less is weighed in this rank: risk, what is "
        "turned over, press set-ups, tool changes, minutes.",
        0,
    )
    for group in plan.stays_together:
        yield from wrapped(f"stays together: {', '.join(group)}", 16)
