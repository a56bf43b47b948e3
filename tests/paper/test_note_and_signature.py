"""What the figures are worth, which gauge was due, and who signs: on the sheet and on paper."""

from __future__ import annotations

from dataclasses import replace

import pytest

from layshaft.book.definition import Unit
from layshaft.paper.sheet import build_sheet
from layshaft.plan.rebuild import Rebuild
from tests.paper.full_job import FullJob
from tests.paper.test_pdf import pages, plain
from tests.paper.two_jobs import metric, sheet_of

DRAFTED = ": load data drafted, not yet confirmed by two people on a real unit."
LOADS = ["Fork return", "Detent", "Clutch return"]


def drafts(rebuilt: Rebuild) -> list[str]:
    return [line.removesuffix(DRAFTED) for line in build_sheet(rebuilt)["notes"] if line.endswith(DRAFTED)]


def drafted(**confirmed: tuple[str, ...]) -> FullJob:
    """Twinpath with its loads' data confirmed by these people alone."""
    job = FullJob.of("twinpath", "TP2")
    loads = {
        name: load.model_copy(update={"confirmed_by": confirmed.get(name, ())}) for name, load in job.unit.loads.items()
    }
    unit: Unit = job.unit.model_copy(update={"loads": loads})
    return replace(job, unit=unit)


def test_drafted_load_data_are_told_of_every_load_that_is_let_go() -> None:
    assert sorted(drafts(drafted().worked_through())) == sorted(LOADS)
    assert drafts(FullJob.of("twinpath", "TP2").worked_through()) == [], "as shipped two have confirmed each"


@pytest.mark.parametrize(
    ("wanted", "told"), [("TP-049", ["Detent"]), ("TP-023", []), ("TP-076", ["Clutch return"])]
)
def test_drafted_load_data_are_told_of_no_load_that_stays_as_it_is(wanted: str, told: list[str]) -> None:
    """The seal comes off with every spring left alone, and the drum's ring without touching the shift."""
    assert sorted(drafts(drafted().worked_through(f"wants: [{wanted}]"))) == sorted(told)


def test_data_that_two_have_confirmed_are_no_draft() -> None:
    """One person twice is one."""
    assert "Detent" in drafts(drafted(detent=("A. Ferrow", "a ferrow")).worked_through())
    two = drafted(detent=("A. Ferrow", "J. Maddick"))
    assert sorted(drafts(two.worked_through())) == ["Clutch return", "Fork return"]


@pytest.mark.parametrize(("day", "is_told"), [("2026-11-02", False), ("2026-11-03", False), ("2026-11-04", True)])
def test_a_gauge_that_was_due_is_told_once_with_all_that_it_read(day: str, is_told: bool) -> None:
    """The demo shop's bore gauge is due on 2026-11-03; on that day itself it still may be used."""
    job = FullJob.of("twinpath", "TP2")
    lines = [
        f"  - {{part: {part}, reading: bearing bores, figures: [{bore}], gauge: bore gauge 1, by: maddick, at: {day}}}"
        for part, bore in (("TP-010", "71.995 mm"), ("TP-011", "61.995 mm"))
    ]
    rebuilt = job.worked_through(*lines)
    sentences = [row["sentence"] for row in build_sheet(rebuilt)["open"]]
    told = [one for one in sentences if "was due to be held to a standard" in one]
    assert len(told) == is_told
    for line in told:
        assert "TP-010 Case, front half, bearing bores; TP-011 Case, rear half, bearing bores: bore gauge 1" in line


def test_who_signs_stands_at_the_very_end_of_the_paper() -> None:
    data = sheet_of(metric())
    last = pages(data)[-1]
    signed = last[last.index(plain("Handing over")) :]
    assert data["signatures"] == [
        "built by", "checked by a second person", "received by", "date", "released: yes / no", "signature",
    ]  # fmt: skip
    assert signed.endswith("".join(plain(name) for name in data["signatures"]))


def test_a_proof_that_was_made_stands_on_paper_with_its_figure_its_maker_and_its_day() -> None:
    record = "{proof: input end play, figure: 0.11 mm, outcome: held, by: maddick, at: 2026-11-03, words: Light}"
    data = build_sheet(FullJob.of("twinpath", "TP2").worked_through("proved:", f"  - {record}"))
    text = "".join(pages(data))
    proof = text[text.rindex(plain("Dial on the input shaft's front end, pushed and pulled")) :]
    assert plain("found 0.11 mm held by J. Maddick on 2026-11-03 Light") in proof[:600]
