"""What was to be said of a reading is past once its part is renewed, unless something rests on that reading."""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.book.definition import Choice, Job, Reading
from layshaft.plan.rebuild import Rebuild, rebuild
from tests.paper.full_job import FullJob

RENEW = Choice.model_validate({"renew": "OT-094", "by": "maddick", "why": "it costs little"})


@cache
def worked() -> Rebuild:
    return FullJob.of("overtop", "OT4").worked_through()


def told(figure: str, *choices: Choice) -> list[str]:
    """What is said of the tail bush, read a day after its gauge was due, with others of that gauge left out."""
    read = {"part": "OT-094", "reading": "bore", "figures": [figure] * 2, "gauge": "bore gauge 1", "at": "2026-11-04"}
    job: Job = worked().job.model_copy(
        update={
            "today": "2026-11-05",
            "readings": (*worked().job.readings, Reading.model_validate(read)),
            "choices": choices,
        }
    )
    return [one for one in rebuild(worked().unit, job, worked().shop).findings if one.startswith("OT-094 ")]


def test_a_gauge_that_was_due_is_told_of_a_part_that_goes_in_again() -> None:
    (line,) = told("41.050 mm")
    assert "was due to be held to a standard" in line


def test_nobody_checks_again_what_is_renewed_by_choice() -> None:
    assert told("41.050 mm", RENEW) == []


@pytest.mark.parametrize("choices", [(), (RENEW,)])
def test_a_reading_that_condemns_its_part_is_still_doubted(choices: tuple[Choice, ...]) -> None:
    assert told("41.200 mm", *choices)
