"""What is loaded in a unit that is together again: the loads of the closed unit, not those of the one taken down."""

from __future__ import annotations

from functools import cache

import pytest

from layshaft.book.definition import Done
from layshaft.book.definition.job import Proved
from layshaft.paper.sheet import build_sheet
from layshaft.plan.rebuild import Rebuild, rebuild
from layshaft.plan.together import PARTLY
from tests.paper.full_job import FullJob

FULL = FullJob.of("overtop", "OT4")


@cache
def worked() -> Rebuild:
    """Every look and reading, nothing recorded on the bench."""
    return FULL.worked_through(*FULL.built(), *FULL.proofs())


def taken_down(proofs: tuple[Proved, ...]) -> Rebuild:
    """All of it off, with proofs on record."""
    off = (part for step in worked().teardown.steps if step.kind == "take off" for part in step.parts)
    done = tuple(Done.model_validate({"off": part}) for part in off)
    return rebuild(worked().unit, worked().job.model_copy(update={"done": done, "proved": proofs}), worked().shop)


def loads_of(one: Rebuild) -> dict[str, float]:
    return {report.load: report.held.energy.high for report in one.loads}


def test_with_all_proofs_held_the_loads_are_those_of_the_closed_unit() -> None:
    closed = loads_of(worked())
    assert "direct spring" in closed
    down = taken_down(())
    assert "direct spring" not in loads_of(down)
    together = taken_down(worked().job.proved)
    assert set(loads_of(together)) == set(closed)
    lines = build_sheet(together)["loaded"]
    assert any(line.startswith("LOADED: direct spring") for line in lines)
    assert PARTLY not in lines


@pytest.mark.parametrize("count", [1, 3])
def test_with_some_proofs_held_none_is_left_out_and_the_doubt_is_told(count: int) -> None:
    partly = taken_down(worked().job.proved[:count])
    assert set(loads_of(partly)) >= set(loads_of(worked())) | set(loads_of(taken_down(())))
    assert build_sheet(partly)["loaded"][0] == PARTLY


def test_a_proof_that_did_not_hold_tells_of_no_closed_unit() -> None:
    failed = tuple(one.model_copy(update={"outcome": "did not hold"}) for one in worked().job.proved)
    assert "direct spring" not in loads_of(taken_down(failed))
