"""Loads that go slack with the very move that takes a part off: a plug on its own thread, a pin under a hand.

Such a load is not taken up, worked on and let off one after the other: turning the thread, or easing the part off, is
the letting off. A plan tells it as one step, which carries the cautions of all three.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from layshaft.book.definition import Unit
from layshaft.plan.step import PlannedStep

_OFF = {
    "own thread": "turn it out evenly; that lets {load} off",
    "by hand under cover": "ease it off by hand, under cover; that lets {load} off",
}
_ON = {
    "own thread": "turn it in evenly; that takes up {load}",
    "by hand under cover": "hold it down by hand, under cover, against {load}",
}


def in_one_motion(unit: Unit, steps: Sequence[PlannedStep]) -> list[PlannedStep]:
    """The steps with each take-up, single part and let-off of such a load told as one; numbers stay as they were."""
    told: list[PlannedStep] = []
    at = 0
    while at < len(steps):
        three = tuple(steps[at : at + 3])
        joined = _joined(unit, three)
        told.append(joined or steps[at])
        at += 3 if joined else 1
    return told


def _joined(unit: Unit, steps: tuple[PlannedStep, ...]) -> PlannedStep | None:
    kinds = tuple(step.kind for step in steps)
    first = steps[0]
    if kinds not in (("hold", "take off", "let off"), ("compress", "fit", "let home")):
        return None
    assert first.load is not None and first.release is not None
    kind = unit.loads[first.load].releases[first.release].kind
    words = (_OFF if first.kind == "hold" else _ON).get(kind)
    if words is None:
        return None
    _, moved, last = steps
    return replace(
        moved,
        what=f"{moved.what}: {words.format(load=first.load)}",
        load=first.load,
        release=first.release,
        minutes=sum(step.minutes for step in steps),
        why=(*moved.why, *(first.why if first.kind == "hold" else ())),
        notes=tuple(dict.fromkeys((*moved.notes, *_own_notes(first, last)))),
        cautions=tuple(dict.fromkeys(caution for step in (first, moved, last) for caution in step.cautions)),
        loaded_after=(*moved.loaded_after, *last.loaded_after),
    )


def _own_notes(first: PlannedStep, last: PlannedStep) -> Iterator[str]:
    """What the outer two had to say that is still so of one motion."""
    yield from first.notes
    if last.kind == "let off" and last.loaded_after:
        yield f"It is not free then. {' '.join(last.notes)}"
    elif last.kind == "let home":
        yield from (note for note in last.notes if note.startswith("Record: "))
