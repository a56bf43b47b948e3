"""Proofs that did not hold, or gave a figure outside its limit: they block until the same proof holds."""

import pytest

from layshaft.book.sheet import load_job
from layshaft.plan.proof_outcome import failed_proofs
from tests.paper.two_jobs import INCH_JOB, metric

START = INCH_JOB.replace("layline", "overtop").replace("iron", "OT6")


def failed(*records: str) -> list[str]:
    """The sentences on the failed proofs; the hub gap of the shipped book may be 0.50 to 0.90 mm."""
    items = "".join(f"  - {{proof: hub gap, {one}}}\n" for one in records)
    job = load_job(f"{START}proved:\n{items}", "job.yaml").content
    return [one.sentence for one in failed_proofs(metric().unit, job)]


def test_what_did_not_hold_blocks() -> None:
    assert failed("outcome: did not hold, words: It binds.") == [
        'The proof "Hub gap" did not hold (It binds): find why, mend it and prove again.'
    ]


@pytest.mark.parametrize(("figure", "place"), [("0.49 mm", "outside"), ("0.91 mm", "outside")])
@pytest.mark.parametrize("outcome", ["", ", outcome: held"])
def test_a_figure_outside_its_limit_blocks_even_where_it_is_called_held(figure, place, outcome) -> None:
    (said,) = failed(f"figure: {figure}{outcome}")
    assert said.startswith(f'The proof "Hub gap" gave {figure}, {place} 0.50 .. 0.90 mm')
    assert ("though it was recorded as held" in said) == bool(outcome)


@pytest.mark.parametrize("record", ["figure: 0.50 mm", "figure: 0.90 mm, outcome: held", "outcome: held"])
def test_what_held_blocks_nothing(record) -> None:
    assert failed(record) == []


def test_the_last_record_counts() -> None:
    assert failed("outcome: did not hold", "figure: 0.70 mm, outcome: held") == []
    assert len(failed("figure: 0.70 mm, outcome: held", "outcome: did not hold")) == 1


def test_of_two_dated_records_the_later_moment_counts() -> None:
    bad, good = "outcome: did not hold, at: 2026-11-12", "figure: 0.70 mm, outcome: held, at: 2026-11-11"
    assert len(failed(bad, good)) == len(failed(good, bad)) == 1
