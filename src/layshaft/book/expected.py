"""What a reading is asked to be: places, limits, gauge and the figure to expect, and whether a typed one can be it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.book.definition import Part, ReadingPlan, Unit
from layshaft.book.size import Sizes
from layshaft.book.unlike import unlike_advice
from layshaft.quantity import LENGTH, TEMPERATURE, Dimension, Limit, Quantity, Show

SHOW = Show()
NARROW = Fraction(1, 2)
"""A limit wider than this share of its middle tells of a gap, which may well be far from as drawn (own choice)."""
FAR_OF_SIZE = Fraction(2)
"""A size off its drawing by more than this factor is taken for a slip until it is confirmed (own choice)."""
FAR_OF_LIMIT = Fraction(4)
"""The same of what only a limit tells: it wears, and the least slip that is common is ten times (own choice)."""


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
    """About what the figure should be; the one rule by which a file is checked and a figure waits."""
    likely: tuple[Fraction | None, Fraction | None]
    """The least and the greatest size of a figure, without its sign, that is no slip."""
    is_drawn: bool
    """Whether it is expected by a drawing, and not by a limit alone."""
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
    if is_distance:
        drawn = definition.faces[str(plan.to)].nominal - definition.faces[str(plan.from_)].nominal
        sizes = [one.nominal for one in definition.selective.sizes] if definition.selective else [drawn]
        expected: Fraction | None = sum(sizes, Fraction(0)) / len(sizes)
        likely = _near([abs(one) for one in sizes], FAR_OF_SIZE)
    else:
        expected, likely = _by_limit(told)
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
        likely=likely,
        is_drawn=is_distance,
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
    is_sum = drawn.form(name) is not None
    span = drawn.result(name) if result.read is not None and is_sum else None
    expected, likely = _by_limit(result.limit)
    if span is not None and not _is_gap(result.limit):
        expected, likely = span.nominal, _near([abs(span.nominal)], FAR_OF_SIZE)
    elif result.drawn is not None:
        expected, likely = result.drawn.nominal, _near([abs(result.drawn.nominal)], FAR_OF_LIMIT)
    return Asked(
        part="",
        name=name,
        title=f"Result {name}",
        gauge=result.read.gauge if result.read else "",
        places=result.read.places if result.read else 1,
        decides=result.read.decides if result.read else "mean",
        used_limit=result.limit,
        new_limit=result.limit,
        expected=expected,
        likely=likely,
        is_drawn=result.drawn is not None or (span is not None and not _is_gap(result.limit)),
        dimension=told.dimension if told else LENGTH if is_sum else None,
        load=result.read.load if result.read else None,
        least="above zero" if span and span.low > 0 and not _is_gap(result.limit) else "any",
    )


def _is_gap(limit: Limit | None) -> bool:
    """Whether a limit is so wide for its middle that a figure far from it is simply a bad one."""
    return limit is not None and (not limit.middle or limit.width is None or limit.width > abs(limit.middle) * NARROW)


def _near(about: Sequence[Fraction], far: Fraction) -> tuple[Fraction | None, Fraction | None]:
    return min(about) / far, max(about) * far


def _by_limit(limit: Limit | None) -> tuple[Fraction | None, tuple[Fraction | None, Fraction | None]]:
    """About what a limit expects, and what is no slip; one without a low end does not say how small is too small."""
    ends = [] if limit is None else [one for one in (limit.low, limit.high) if one is not None]
    if limit is None or 0 in ends:
        return None, (None, None)
    about = sum(ends, Fraction(0)) / len(ends)
    least, most = _near([abs(about)], FAR_OF_LIMIT)
    return about, (None if limit.low is None else least, most)


def doubt_about(asked: Asked, figure: Quantity) -> SlipDoubt | None:
    """Why a figure cannot be what was meant, if so."""
    if asked.dimension is not None and figure.dimension != asked.dimension:
        again = unlike_advice(figure.dimension, asked.dimension)
        return SlipDoubt(
            "wrong unit",
            f"{figure.text} is {figure.dimension.name} where {asked.dimension.name} is due; {again}.",
            is_certain=True,
        )
    if figure.nominal < 0 and asked.least != "any":
        return SlipDoubt("cannot be", f"{figure.text} is below nothing, which it cannot be; read it again.", True)
    if figure.nominal == 0 and asked.least == "above zero":
        return SlipDoubt("cannot be", f"{figure.text} is nothing, which it cannot be; read it again.", True)
    if not asked.expected or not figure.nominal:
        return None
    ratio = figure.nominal / asked.expected
    if ratio < 0 and asked.is_drawn:
        return SlipDoubt(
            "far from drawn", f"{figure.text} has the other sign than {_told(asked)}; confirm or correct it."
        )
    least, most = asked.likely
    size = abs(figure.nominal)
    if (least is None or size >= least) and (most is None or size <= most):
        return None
    ratio = max(abs(ratio), 1 / abs(ratio))
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
    told = f"about {SHOW.show(asked.expected, asked.dimension)}"
    return f"{told} as drawn" if asked.is_drawn else f"{told}, by its limit"
