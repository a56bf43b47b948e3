"""Springs of a job that were read longer or stronger than their book allows.

As found they count at what they were read at, in every figure; no plan to press them home is theirs.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from layshaft.book.definition import Job, Reading, SpringData, Unit
from layshaft.book.moment import last_of
from layshaft.book.size import Sizes
from layshaft.book.spring import rate_band
from layshaft.plan.bench import Bench
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.spring_fact import MissingSpringData, SpringFact, spring_fact
from layshaft.quantity import FORCE, LENGTH, RATE, Dimension, QuantityFault, Show, is_over, parse_quantity

FREE_LENGTH = "free length"
LOAD_AT = "load at "
"""What a book calls the readings of a spring that its own data foretell: `free length`, `load at 76.0 mm`."""


def beyond_book(unit: Unit, job: Job, renewed: Collection[str], show: Show) -> dict[str, tuple[Lack, ...]]:
    """For each load what its springs were read at beyond their book; of a renewed one what goes in counts."""
    counting = _counting(reading for reading in job.readings if reading.new == (reading.part in renewed))
    found: dict[str, tuple[Lack, ...]] = {}
    for name, load in unit.loads.items():
        of_load = (reading for reading in counting if reading.part in load.springs)
        lacks = tuple(lack for reading in of_load for lack in _beyond(unit, reading, show))
        if lacks:
            found[name] = lacks
    return found


def _counting(readings: Iterable[Reading]) -> list[Reading]:
    """Of several readings of one thing the last."""
    read: dict[tuple[str | None, str | None, int], list[Reading]] = {}
    for reading in readings:
        read.setdefault((reading.part, reading.reading, reading.piece), []).append(reading)
    return [last for taken in read.values() if (last := last_of(taken)) is not None]


def loads_found(bench: Bench, job: Job, sizes: Sizes) -> Loads:
    """The loads of a unit as found, each spring as it was read, each selective part that was not of any size it has."""
    found = as_read(bench.unit, job)
    return Loads(bench if found is bench.unit else Bench(found), sizes.at_any_size())


def as_read(unit: Unit, job: Job) -> Unit:
    """The unit as found, each spring as long and as strong as it was read, where that is more than its book says.

    All pieces of a part count at the greatest of them. A load read at a length gives the stiffest rate with the
    shortest free length, and is counted from the longest, so that no such spring pushes harder at any length.
    """
    found = dict(unit.parts)
    for reading in _counting(one for one in job.readings if one.part is not None and not one.new):
        data = found[str(reading.part)].spring
        if data is not None and any(_beyond(unit, reading, Show())):
            spring = _as_strong(data, reading.reading or "", reading)
            found[str(reading.part)] = found[str(reading.part)].model_copy(update={"spring": spring})
    return unit if found == unit.parts else unit.model_copy(update={"parts": found})


def _as_strong(data: SpringData, name: str, reading: Reading) -> SpringData:
    rates, free = rate_band(data), data.free_length
    assert rates is not None and free is not None
    most, longest = Fraction(rates.high), free.high
    if name == FREE_LENGTH:
        longest = max(longest, _greatest(reading, LENGTH))
    else:
        length = parse_quantity(name.removeprefix(LOAD_AT), LENGTH)
        force = _greatest(reading, FORCE)
        if free.low > length.high:
            most = max(most, force / (free.low - length.high))
        else:
            longest = max(longest, length.high + force / Fraction(rates.low))
    told = data.rate or parse_quantity("1 N/m", RATE)
    rate = replace(told, low=Fraction(rates.low), nominal=Fraction(rates.nominal), high=most)
    return data.model_copy(update={"rate": rate, "free_length": replace(free, high=longest)})


def _greatest(reading: Reading, dimension: Dimension) -> Fraction:
    return max((figure.high for figure in reading.figures if figure.dimension == dimension), default=Fraction(0))


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
