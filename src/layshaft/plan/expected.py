"""What a reading is asked to be: places, limits, gauge and the figure to expect, and whether a typed one can be it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Part, ReadingPlan, Unit
from layshaft.book.size import Sizes
from layshaft.quantity import LENGTH, TEMPERATURE, Dimension, Limit, Quantity, Show

SHOW = Show()
NARROW = Fraction(1, 2)
"""A range of new parts wider than this share of its middle tells no figure to expect (own choice)."""
FAR = Fraction(2)
"""A figure off by more than this factor is taken for a slip until it is confirmed (own choice)."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the book asks of one reading, or of a result that is read directly (then `part` is empty)."""

    part: str
    name: str
    title: str
    gauge: str
    places: int
    decides: str
    used_limit: Limit | None
    new_limit: Limit | None
    expected: Fraction | None
    dimension: Dimension | None
    load: Quantity | None
    least: Literal["above zero", "zero", "any"] = "any"
    """What the figure has to be: a size that is drawn, or that a limit starts above nothing, cannot be zero."""


@dataclass(frozen=True, slots=True)
class SlipDoubt:
    """Why a typed figure cannot be what was meant."""

    kind: Literal["ten times off", "wrong unit", "far from drawn", "cannot be"]
    sentence: str
    is_certain: bool = False
    """Whether to confirm it makes it no likelier."""


def asked_of_reading(unit: Unit, part: str, name: str) -> Asked | None:
    """What the book asks of a part's reading, or nothing where it has none of that name."""
    definition = unit.parts.get(part)
    plan = definition.readings.get(name) if definition else None
    if definition is None or plan is None:
        return None
    is_distance = plan.from_ is not None and plan.to is not None
    told = plan.new or plan.reuse
    expected = None
    if is_distance and definition.selective is None:
        expected = definition.faces[str(plan.to)].nominal - definition.faces[str(plan.from_)].nominal
    elif is_distance and definition.selective is not None:
        sizes = [one.nominal for one in definition.selective.sizes]
        expected = sum(sizes, Fraction(0)) / len(sizes)
    elif plan.new is not None and plan.new.middle and plan.new.width is not None:
        expected = plan.new.middle if plan.new.width <= abs(plan.new.middle) * NARROW else None
    return Asked(
        part=part,
        name=name,
        title=f"{part} {definition.name}, {name}",
        gauge=plan.gauge,
        places=plan.places,
        decides=plan.decides,
        used_limit=plan.reuse or (None if is_distance else plan.new),
        new_limit=plan.new or plan.reuse,
        expected=expected,
        dimension=LENGTH if is_distance else told.dimension if told else None,
        load=plan.load,
        least=_least(definition, plan),
    )


def _least(definition: Part, plan: ReadingPlan) -> Literal["above zero", "zero", "any"]:
    """The least that a reading can come to, by its faces as drawn and by what its limits start at."""
    if plan.from_ is not None and plan.to is not None:
        start, end = definition.faces[plan.from_], definition.faces[plan.to]
        if end.low > start.high:
            return "above zero"
    told = [one for one in (plan.new, plan.reuse) if one is not None and one.dimension != TEMPERATURE]
    lows = [one.low for one in told if one.low is not None]
    if any(low > 0 for low in lows):
        return "above zero"
    return "zero" if lows and not any(low < 0 for low in lows) else "any"


def asked_of_result(unit: Unit, drawn: Sizes, name: str) -> Asked | None:
    """What the book asks of a result that is read straight off the unit."""
    result = unit.results.get(name)
    if result is None:
        return None
    told = result.limit or result.drawn or result.target
    span = drawn.result(name) if result.read is not None and drawn.form(name) is not None else None
    return Asked(
        part="",
        name=name,
        title=f"Result {name}",
        gauge=result.read.gauge if result.read else "",
        places=result.read.places if result.read else 1,
        decides=result.read.decides if result.read else "mean",
        used_limit=result.limit,
        new_limit=result.limit,
        expected=span.nominal if span and not _is_gap(result.limit) else None,
        dimension=LENGTH if result.chain is not None else told.dimension if told else None,
        load=result.read.load if result.read else None,
        least="above zero" if span and span.low > 0 and not _is_gap(result.limit) else "any",
    )


def _is_gap(limit: Limit | None) -> bool:
    """Whether a limit is so wide for its middle that a figure far from it is simply a bad one."""
    return limit is not None and (not limit.middle or limit.width is None or limit.width > abs(limit.middle) * NARROW)


def doubt_about(asked: Asked, figure: Quantity) -> SlipDoubt | None:
    """Why a figure cannot be what was meant, if so."""
    if asked.dimension is not None and figure.dimension.exponents != asked.dimension.exponents:
        return SlipDoubt(
            "wrong unit",
            f"{figure.text} is {figure.dimension.name} where {asked.dimension.name} is due; type it again.",
            is_certain=True,
        )
    if figure.nominal < 0 and asked.least != "any":
        return SlipDoubt("cannot be", f"{figure.text} is below nothing, which it cannot be; read it again.", True)
    if figure.nominal == 0 and asked.least == "above zero":
        return SlipDoubt("cannot be", f"{figure.text} is nothing, which it cannot be; read it again.", True)
    if not asked.expected or not figure.nominal:
        return None
    ratio = figure.nominal / asked.expected
    if ratio < 0:
        return SlipDoubt(
            "far from drawn", f"{figure.text} has the other sign than {_told(asked)}; confirm or correct it."
        )
    ratio = max(ratio, 1 / ratio)
    if ratio <= FAR:
        return None
    if Fraction(20) <= ratio <= Fraction(32):
        return SlipDoubt(
            "wrong unit", f"{figure.text} against {_told(asked)}: inch and millimetre taken for each other? Correct it."
        )
    if any(power * Fraction(7, 10) <= ratio <= power * Fraction(13, 10) for power in (10, 100, 1000)):
        return SlipDoubt(
            "ten times off",
            f"{figure.text} against {_told(asked)}: the decimal point has slipped. Correct or confirm it.",
        )
    return SlipDoubt(
        "far from drawn", f"{figure.text} is far from {_told(asked)}; correct it, or confirm that it is so."
    )


def _told(asked: Asked) -> str:
    if asked.expected is None or asked.dimension is None:
        return "what is expected"
    return f"about {SHOW.show(asked.expected, asked.dimension)} as drawn"
