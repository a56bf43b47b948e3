"""Figures that cannot be so: nothing or less where something has to be, or beyond anything that is ever measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from layshaft.book.check.subject import Subject
from layshaft.book.definition import (
    Alignment,
    ChainDrive,
    Fastening,
    HandLimit,
    Home,
    Load,
    Mesh,
    Pack,
    Part,
    Planetary,
    ReadingPlan,
    Release,
    Selective,
    SpringData,
    SpringTest,
    Step,
    Stop,
    Tool,
    Train,
    Unit,
)
from layshaft.book.definition.base import Definition
from layshaft.book.definition.result import Direct
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.quantity import TIME, Limit, Quantity

Least = Literal["more than nothing", "nothing or more"]

_LEAST: dict[type[Definition], Mapping[str, Least]] = {
    Alignment: {"turn at most": "nothing or more"},
    ChainDrive: {"pitch": "more than nothing", "centre distance": "more than nothing"},
    Direct: {"load": "nothing or more"},
    Fastening: {"torque": "more than nothing", "angle": "nothing or more"},
    HandLimit: {"energy": "more than nothing", "speed": "more than nothing"},
    Home: {"stages": "more than nothing"},
    Load: {"wound": "more than nothing"},
    Mesh: {"normal module": "more than nothing", "centre distance": "more than nothing"},
    Pack: {"height": "more than nothing", "measure under": "nothing or more"},
    Part: {"rating": "more than nothing"},
    Planetary: {
        "transverse module": "more than nothing",
        "normal module": "more than nothing",
        "centre distance": "more than nothing",
    },
    ReadingPlan: {"load": "nothing or more"},
    Release: {
        "over": "more than nothing",
        "most over": "more than nothing",
        "keep from solid": "nothing or more",
        "margin": "nothing or more",
        "thread engaged": "more than nothing",
    },
    Selective: {"sizes": "nothing or more", "size tolerance": "nothing or more"},
    SpringData: {
        "free length": "more than nothing",
        "wire": "more than nothing",
        "mean diameter": "more than nothing",
        "active coils": "more than nothing",
        "total coils": "more than nothing",
        "shear modulus": "more than nothing",
        "rate": "more than nothing",
        "angular rate": "more than nothing",
        "solid length": "more than nothing",
    },
    SpringTest: {"length": "more than nothing", "load": "more than nothing"},
    Step: {"inner": "nothing or more", "outer": "more than nothing"},
    Stop: {"rating": "more than nothing"},
    Tool: {"rating": "more than nothing"},
    Train: {"worst input torque": "more than nothing", "service factor": "more than nothing"},
    Unit: {"mass": "more than nothing"},
}
"""What the figures of each definition have to be at least, their tolerance and all; a part's mass has its own check."""

MOST = Fraction(10**15)
"""No figure of a book is greater than this in the SI, nor smaller than one in as many (own choice)."""


def check_bounds(subject: Subject) -> Iterator[Fault]:
    """Every figure of a unit that is too small to be so, or beyond all measure."""
    yield from _walk(subject.unit, (), None)


def spoilt_by(one: Fault) -> frozenset[str]:
    """What cannot be worked out with such a figure: its whole section, or what a spring pushes."""
    if one.id == "beyond measure" or one.path[0] == "train":
        return frozenset({str(one.path[0])})
    return frozenset({"loads"}) if "spring" in one.path or "wound" in one.path else frozenset()


def _walk(value: Any, path: Path, least: Least | None) -> Iterator[Fault]:
    if isinstance(value, Quantity):
        yield from _figure(path, value.text, (value.low, value.nominal, value.high), _due(value, least))
    elif isinstance(value, Fraction):
        yield from _figure(path, _text(value), (value,), least)
    elif isinstance(value, Limit):
        yield from _figure(path, value.text, [end for end in (value.low, value.high) if end is not None], None)
    elif isinstance(value, Definition):
        told = _LEAST.get(type(value), {})
        for name, key in _fields(type(value)):
            yield from _walk(getattr(value, name), (*path, key), told.get(key))
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _walk(inner, (*path, key), least)
    elif isinstance(value, tuple):
        for at, inner in enumerate(value):
            yield from _walk(inner, (*path, at), least)


@cache
def _fields(kind: type[Definition]) -> tuple[tuple[str, str], ...]:
    return tuple((name, str(field.alias)) for name, field in kind.model_fields.items())


def _due(value: Quantity, least: Least | None) -> Least | None:
    return "nothing or more" if least is None and value.dimension.exponents == TIME.exponents else least


def _text(number: Fraction) -> str:
    return f"{float(number):g}" if abs(number) <= MOST else f"more than {float(MOST):g}"


def _figure(path: Path, text: str, ends: Sequence[Fraction], least: Least | None) -> Iterator[Fault]:
    if any(abs(end) > MOST or (end and abs(end) * MOST < 1) for end in ends):
        yield fault("beyond measure", path=path, found=text)
    elif least is not None and (ends[0] < 0 or (ends[0] == 0 and least == "more than nothing")):
        key = next(str(key) for key in reversed(path) if isinstance(key, str))
        needed = f"{least}, at its low end too" if ends[-1] > 0 else least
        yield fault("too small", path=path, found=text, needed=needed, key=key)
