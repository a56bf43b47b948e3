"""What is loaded in a unit that is together again, or on its way there: what came off tells nothing of it any more."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.definition import Job, Unit
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.load_report import LoadReport, load_report
from layshaft.plan.press_text import Teller
from layshaft.plan.proof_outcome import failed_proofs, last_records
from layshaft.plan.state import State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import start_state

PARTLY = (
    "It is being put together: proofs are on record, and which of these loads are up by now is not. Take each for "
    "loaded, as told here of the unit once it is whole."
)


def proofs_made(unit: Unit, job: Job, assembly: Plan) -> tuple[int, int]:
    """How many of the proofs that this work asks for count, and how many there are."""
    due = {step.proof for step in assembly.steps if step.proof}
    failed = {one.proof for one in failed_proofs(unit, job)}
    return len(due & last_records(job).keys() - failed), len(due)


def loads_now(
    bench: Bench, loads: Loads, built: Loads, state: State, made: tuple[int, int]
) -> tuple[tuple[LoadReport, ...], bool]:
    """The loads as things stand, and whether it is not known which of them are up by now.

    By what came off while no proof counts; of the closed unit once all do, and those that no record ends beside them.
    """
    found = load_report(bench, loads, state)
    count, of = made
    whole = start_state(bench.unit)
    if not count or state == whole:
        return found, False
    closed = load_report(bench, built, whole)
    told = {one.load for one in closed}
    left = () if count == of else tuple(one for one in found if one.load not in told)
    return (*closed, *left), count < of


def loads_told(teller: Teller, reports: tuple[LoadReport, ...], is_partly: bool) -> Iterator[str]:
    """The loads, line by line."""
    if is_partly and reports:
        yield PARTLY
    yield from teller.report(reports)
