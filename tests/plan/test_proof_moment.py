"""A proof counts no more once something among its parts came off, or was found bad, after it was made."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from layshaft.book.definition import Choice, Done, Job, Look, Reading
from layshaft.book.definition.job import Proved
from layshaft.book.sheet import load_job
from layshaft.paper.sheet import build_sheet
from layshaft.plan.proof_moment import ProofMoments
from layshaft.plan.proof_outcome import borne_out, failed_proofs
from layshaft.plan.rebuild import rebuild
from tests.paper.full_job import HEAD, FullJob

BEFORE, AT, AFTER = "2026-11-02 08:00", "2026-11-02 12:00", "2026-11-02 16:00"
CLUTCH, PLAY = 'The proof "Front clutch, count and clearance"', 'The proof "Rear output end play"'
FULL = FullJob.of("twinpath", "TP2")


@cache
def held() -> Job:
    """Nothing but proofs, all held."""
    unit = FULL.unit
    head = HEAD.format(book=unit.id, revision=unit.revision, shop=FULL.shop.revision, variant=unit.variant)
    return load_job(head + "\n".join(FULL.proofs()) + "\n", "job.yaml").content


def proved(at: str | None, **more: Any) -> Job:
    """A job whose proofs all have one moment, with more on record."""
    proofs = tuple(one.model_copy(update={"at": at}) for one in held().proved)
    return held().model_copy(update={"proved": proofs} | {key: tuple(values) for key, values in more.items()})


def failed(job: Job) -> list[str]:
    return [one.sentence for one in failed_proofs(FULL.unit, job)]


def look(grade: str, at: str | None) -> Look:
    return Look.model_validate({"part": "TP-076", "look": "shape and edges", "grade": grade, "at": at})


def off(part: str, at: str | None) -> Done:
    return Done.model_validate({"off": part, "at": at})


def test_a_part_found_bad_after_the_proof() -> None:
    lines = failed(proved(AT, looks=[look("bent", AFTER)]))
    found = f"TP-076 Front clutch drum ring was found bent (shape and edges) on {AFTER}"
    assert f"{CLUTCH} of {AT} counts no more; since then {found}. Prove it again." in lines
    assert any(line.startswith('The proof "Leak"') for line in lines), "it was in the unit, and has to come out"
    assert failed(proved(AT, looks=[look("bent", BEFORE)])) == []


def test_what_stands_outside_of_it_leaves_a_proof_alone() -> None:
    """The ring on the shift rail goes in by itself; nothing of it hangs on the ring in the clutch drum."""
    lines = failed(proved(AT, looks=[look("bent", AFTER)]))
    assert not [line for line in lines if line.startswith('The proof "Spring ring on the rail seated"')]


def test_a_proof_of_the_unit_before_it_was_apart() -> None:
    (line,) = [one for one in failed(proved(AT, done=[off("TP-095", AFTER)])) if one.startswith(PLAY)]
    assert line.endswith(f"since then TP-095 Rear end play shim (selective) came off on {AFTER}. Prove it again.")
    assert failed(proved(AT, done=[off("TP-095", BEFORE)])) == []


def test_an_overtaken_proof_gives_no_figure_and_settles_nothing() -> None:
    assert "rear output end play" in borne_out(FULL.unit, proved(AT))
    late = proved(AT, done=[off("TP-095", AFTER)])
    assert "rear output end play" not in borne_out(FULL.unit, late)
    told = rebuild(FULL.unit, late, FULL.shop)
    assert told.results["rear output end play"].origin != "read"
    sheet = build_sheet(told)
    assert any(one["sentence"].startswith(PLAY) for one in sheet["open"])
    (line,) = [one for one in sheet["headline"] if one.startswith("Proved ")]
    assert line.startswith("Proved too early to count: ") and "Rear output end play" in line
    (row,) = [one for one in sheet["proofs"] if one["name"] == "Rear output end play"]
    assert row["words"].startswith("Counts no more; since then TP-095 ")


def test_it_counts_again_once_it_is_made_again() -> None:
    late = proved(AT, done=[off("TP-095", AFTER)])
    record = {"proof": "rear output end play", "figure": "0.10 mm", "outcome": "held", "at": "2026-11-02 17:00"}
    again = late.model_copy(update={"proved": (*late.proved, Proved.model_validate(record))})
    assert [one for one in failed(late) if one.startswith(PLAY)]
    assert not [one for one in failed(again) if one.startswith(PLAY)]


@pytest.mark.parametrize(
    ("at", "other", "why"),
    [
        (None, BEFORE, "no moment is written"),
        (AT, None, "its moment does not tell"),
        ("2026-11-02", AFTER, "its moment does not tell"),
        (None, None, "no moment is written"),
    ],
)
def test_what_no_moment_tells_is_assumed_and_said(at: str | None, other: str | None, why: str) -> None:
    job = proved(at, done=[off("TP-095", other)])
    assert failed(job) == []
    assert assumed(job) == f"Counted as made after its parts were off and looked at: {why}."


def test_nothing_is_assumed_of_a_unit_that_was_not_taken_apart_on_record() -> None:
    assert assumed(proved(None)) == ""


def assumed(job: Job) -> str:
    record = next(one for one in job.proved if one.proof == "rear output end play")
    return ProofMoments(FULL.unit, job).assumed(FULL.unit.proofs[record.proof], record)


def test_a_part_that_somebody_keeps_overtakes_no_proof() -> None:
    keep = Choice.model_validate({"keep": "TP-076", "by": "maddick", "why": "the bend is a scratch"})
    assert failed(proved(AT, looks=[look("bent", AFTER)], choices=[keep])) == []


def test_the_look_that_counts_is_the_last_one() -> None:
    assert failed(proved(AT, looks=[look("bent", AFTER), look("like new", "2026-11-02 16:10")])) == []


@pytest.mark.parametrize(("figure", "is_out"), [("0.05 mm", False), ("0.12 mm", False), ("0.1201 mm", True)])
def test_a_figure_outside_its_limit_read_after_the_proof(figure: str, is_out: bool) -> None:
    """A pump's side clearance is 0.12 mm at most."""
    read = Reading.model_validate({"part": "TP-085", "reading": "side clearance", "figures": [figure], "at": AFTER})
    lines = failed(proved(AT, readings=[read]))
    assert any(line.startswith('The proof "Pump"') and "side clearance" in line for line in lines) is is_out


def test_a_part_that_was_seen_broken_after_the_proof() -> None:
    seen = Done.model_validate({"seen": "TP-076", "is": "broken", "at": AFTER})
    told = f"TP-076 Front clutch drum ring was found broken on {AFTER}"
    assert any(told in one for one in failed(proved(AT, done=[seen])))
