"""What is expected of a figure, and when one looks like a slip: checked here, and waiting in a job, by the one rule."""

import pytest

from layshaft.book.sheet import load_job
from layshaft.book.sheet_check import check_job
from layshaft.plan.measured import Measured
from layshaft.plan.verdict import judge
from tests.plan.gap_box import JOB, shop, unit

EVEN = "looks:\n  - {part: GB-06, look: flanks, grade: even}\n  - {part: GB-07, look: bore, grade: clean}\n"
CLEARANCE = "{{part: GB-06, reading: side clearance, figures: [{0}, {0}, {0}], gauge: feeler 1{1}}}"
LENGTH = "{{part: GB-02, reading: length, figures: [{0}], gauge: micrometer 1{1}}}"
SHIM = "{{part: GB-03, reading: thickness, figures: [{0}], gauge: micrometer 1{1}}}"

FIGURES = [
    # Side clearance 0.15 .. 0.50 mm new, 0.70 mm worn: an inch, a decimal place either way, and what is truly worn.
    (CLEARANCE, "0.30 in", True),
    (CLEARANCE, "3.0 mm", True),
    (CLEARANCE, "0.03 mm", True),
    (CLEARANCE, "0.30 mm", False),
    (CLEARANCE, "0.95 mm", False),
    # A length of 30 mm: no wear takes half of it.
    (LENGTH, "30.0 in", True),
    (LENGTH, "3.0 mm", True),
    (LENGTH, "12.0 mm", True),
    (LENGTH, "29.8 mm", False),
    (LENGTH, "-30.0 mm", True),
    # Sizes of 0.90 to 1.20 mm are listed.
    (SHIM, "0.10 mm", True),
    (SHIM, "2.30 mm", False),
]


def noted(reading: str) -> bool:
    """Whether a check of the job notes a slip."""
    sheet = load_job(f"{JOB}readings:\n  - {reading}\n", "job.yaml")
    return bool({one.id for one in check_job(sheet, unit(), shop()).found} & {"far from drawn", "cannot be"})


def waiting(reading: str) -> bool:
    """Whether the figure waits when the job is worked through."""
    job = load_job(f"{JOB}readings:\n  - {reading}\n{EVEN}", "job.yaml").content
    measured = Measured(unit(), job, shop())
    said = [one for judged in judge(unit(), job, shop(), None, measured).values() for one in judged.figures]
    assert all(one.is_waiting == bool(measured.findings) for one in said)
    return any(one.is_waiting for one in measured.figures.values())


@pytest.mark.parametrize(("reading", "figure", "is_slip"), FIGURES)
def test_what_is_noted_waits_and_what_waits_is_noted(reading, figure, is_slip):
    typed = reading.format(figure, "")
    assert (noted(typed), waiting(typed)) == (is_slip, is_slip)


@pytest.mark.parametrize(("reading", "figure", "is_slip"), FIGURES)
def test_what_is_confirmed_is_neither_unless_it_cannot_be(reading, figure, is_slip):
    typed = reading.format(figure, ", confirmed: true")
    assert noted(typed) == waiting(typed) == figure.startswith("-")
