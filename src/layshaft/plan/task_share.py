"""What of a book's labour on the whole unit falls to a job for some parts of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction
from math import ceil

from layshaft.book.definition import Part, Unit
from layshaft.book.definition.work import Task
from layshaft.plan.wanted import LOOK_MINUTES, PLACE_MINUTES


def task_minutes(unit: Unit, task: Task, opened: Collection[str] | None) -> Fraction:
    """Minutes of a task: where it is shared, by the share of what is opened, to the minute above; else all."""
    whole = Fraction(task.hands.nominal) / 60
    share = None if opened is None else _share_of(unit, task, opened)
    return whole if share is None else min(whole, Fraction(ceil(whole * share)))


def _share_of(unit: Unit, task: Task, opened: Collection[str]) -> Fraction | None:
    if task.by_parts:
        return _share(dict.fromkeys(unit.parts, Fraction(1)), opened)
    if task.stage == "inspect":
        return _inspected(unit, opened)
    return _chosen(unit, opened) if task.stage == "fit" else None


def _inspected(unit: Unit, opened: Collection[str]) -> Fraction:
    """The share of looks and readings, by the time that they take, that parts which are opened have."""
    times = {name: sum(_times(part), Fraction(0)) for name, part in unit.parts.items()}
    return _share(times, opened)


def _times(part: Part) -> Iterator[Fraction]:
    for look in part.looks.values():
        yield Fraction(look.time.nominal) / 60 if look.time is not None else Fraction(LOOK_MINUTES)
    for reading in part.readings.values():
        each = Fraction(PLACE_MINUTES) * reading.places
        yield (Fraction(reading.time.nominal) / 60 if reading.time is not None else each) * part.count


def _chosen(unit: Unit, opened: Collection[str]) -> Fraction:
    """The share of the selective parts that are opened."""
    return _share({name: Fraction(1) for name, part in unit.parts.items() if part.selective is not None}, opened)


def _share(weights: dict[str, Fraction], opened: Collection[str]) -> Fraction:
    total = sum(weights.values())
    return sum((weights[name] for name in weights if name in opened), Fraction(0)) / total if total else Fraction(1)
