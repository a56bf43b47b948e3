"""Springs of a job that were read longer or stronger than their book allows: no plan to press them home is theirs."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.definition import Job, Reading, Unit
from layshaft.book.moment import last_of
from layshaft.plan.lack import Lack
from layshaft.plan.spring_fact import MissingSpringData, SpringFact, spring_fact
from layshaft.quantity import FORCE, LENGTH, Dimension, QuantityFault, Show, is_over, parse_quantity

FREE_LENGTH = "free length"
LOAD_AT = "load at "
"""What a book calls the readings of a spring that its own data foretell: `free length`, `load at 76.0 mm`."""


def beyond_book(unit: Unit, job: Job, renewed: Collection[str], show: Show) -> dict[str, tuple[Lack, ...]]:
    """For each load what its springs were read at beyond their book; of a renewed one what goes in counts."""
    read: dict[tuple[str | None, str | None, int], list[Reading]] = {}
    for reading in job.readings:
        if reading.new == (reading.part in renewed):
            read.setdefault((reading.part, reading.reading, reading.piece), []).append(reading)
    counting = [last for taken in read.values() if (last := last_of(taken)) is not None]
    found: dict[str, tuple[Lack, ...]] = {}
    for name, load in unit.loads.items():
        lacks = tuple(
            lack
            for reading in counting
            if reading.part in load.springs
            for lack in _beyond(unit, reading, show)
        )
        if lacks:
            found[name] = lacks
    return found


def _beyond(unit: Unit, reading: Reading, show: Show) -> Iterator[Lack]:
    assert reading.part is not None
    try:
        fact = spring_fact(unit, reading.part)
    except MissingSpringData:
        return
    foretold = _foretold(fact, reading.reading or "")
    if foretold is None:
        return
    most, dimension = foretold
    alike = [figure for figure in reading.figures if figure.dimension == dimension]
    greatest = max(alike, key=lambda figure: figure.high, default=None)
    if greatest is not None and is_over(greatest.high, most):
        yield Lack(
            "spring beyond its book",
            reading.part,
            "the unit",
            f"its {reading.reading} was read at {greatest.text}, and the plan counts on "
            f"{show.show(most, dimension)} at most",
            "a spring within its book's figures, for this one pushes harder than any plan here says",
            "to read it again, and to fit another where it stays so",
        )


def _foretold(fact: SpringFact, reading: str) -> tuple[float, Dimension] | None:
    """The most that one piece can be read at by its book."""
    if fact.is_wound:
        return None
    if reading == FREE_LENGTH:
        return fact.free.high, LENGTH
    if not reading.startswith(LOAD_AT):
        return None
    try:
        length = parse_quantity(reading.removeprefix(LOAD_AT), LENGTH)
    except QuantityFault:
        return None
    return fact.rate.high * (fact.free.high - length.si_low) / fact.count, FORCE
