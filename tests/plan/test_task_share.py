"""Labour for a job on some parts: inspecting and choosing by their share, the rest whole."""

from __future__ import annotations

from fractions import Fraction

from layshaft.book.definition.work import Task
from layshaft.plan.task_share import task_minutes
from tests.paper.two_jobs import untouched


def task(stage: str) -> Task:
    return Task.model_validate({"what": "Some work", "stage": stage, "hands": "54 min"})


def test_all_of_it_for_a_whole_unit() -> None:
    unit = untouched().unit
    assert task_minutes(unit, task("inspect"), None) == 54
    assert task_minutes(unit, task("inspect"), frozenset(unit.parts)) == 54
    assert task_minutes(unit, task("fit"), frozenset(unit.parts)) == 54


def test_papers_and_washing_do_not_shrink() -> None:
    assert task_minutes(untouched().unit, task("clean"), frozenset()) == 54


def test_washing_goes_by_kinds_of_part_where_the_book_says_so() -> None:
    """To the whole minute above, counted here from the book's own list; the shipped books say so of their wash."""
    unit = untouched().unit
    washing = unit.tasks["wash"]
    assert (washing.stage, washing.by_parts) == ("clean", True)
    whole = Fraction(washing.hands.nominal) / 60
    some = frozenset(list(unit.parts)[:7])
    minutes = task_minutes(unit, washing, some)
    assert minutes - 1 < whole * 7 / len(unit.parts) <= minutes < whole
    assert task_minutes(unit, washing, frozenset(unit.parts)) == task_minutes(unit, washing, None) == whole


def test_choosing_goes_by_how_many_selective_parts_there_are() -> None:
    """To the whole minute above, counted here from the book's own list."""
    unit = untouched().unit
    selective = [name for name, part in unit.parts.items() if part.selective is not None]
    minutes = task_minutes(unit, task("fit"), frozenset(selective[:1]))
    assert minutes - 1 < Fraction(54, len(selective)) <= minutes
    assert task_minutes(unit, task("fit"), frozenset()) == 0


def test_inspecting_goes_by_the_time_of_looks_and_readings() -> None:
    unit = untouched().unit
    plain = frozenset(name for name, part in unit.parts.items() if not part.looks and not part.readings)
    assert task_minutes(unit, task("inspect"), plain) == 0
    one = task_minutes(unit, task("inspect"), frozenset({"LL-034"}))
    assert 0 < one < 54
