"""The ground all definitions stand on: strict frozen models, spaced keys, fields that hold a figure with its unit."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Literal, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Strict,
    StringConstraints,
    Tag,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

from layshaft.quantity import (
    ANGLE,
    AREA,
    ENERGY,
    EXPANSION,
    FORCE,
    LENGTH,
    MASS,
    PRESSURE,
    PURE,
    RATE,
    SPEED,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    TORSION_RATE,
    Dimension,
    Limit,
    Money,
    Quantity,
    QuantityFault,
    parse_limit,
    parse_money,
    parse_quantity,
)


def spaced(name: str) -> str:
    """Turn a field name into the key as a book writes it: `held_by` is written `held by`, `from_` is `from`."""
    return name.rstrip("_").replace("_", " ")


class Definition(BaseModel):
    """A frozen record read strictly: no unknown key, no silent change of kind."""

    model_config = ConfigDict(
        alias_generator=spaced,
        populate_by_name=True,
        extra="forbid",
        frozen=True,
        strict=True,
        defer_build=True,
        allow_inf_nan=False,
        arbitrary_types_allowed=True,
    )

    written: ClassVar[Mapping[str, str]] = {}
    """Fields that a book writes under another key than their name, or, with an empty key, as the value itself."""


def shown(value: Any) -> str:
    """What was written, as a message quotes it: a text as it stands, anything else by its kind."""
    if isinstance(value, str):
        return value if len(value) <= 80 else value[:77] + "..."
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, (list, tuple)):
        return "a list"
    return str(value)


def refuse(fault: QuantityFault) -> PydanticCustomError:
    """A figure that cannot be read, told to pydantic with all its data."""
    return PydanticCustomError(
        "quantity",
        "{sentence}",
        {"fault": fault.id, "found": fault.found, "needed": fault.needed, "try": fault.try_, "sentence": str(fault)},
    )


def refuse_form(value: Any, needed: str) -> PydanticCustomError:
    """A value that is not of the form that is due here."""
    return PydanticCustomError("form", "{needed} is needed here", {"found": shown(value), "needed": needed})


def _text_of_figure(value: Any, needed: str) -> str:
    """A figure's text; a plain number given in Python stands for its own text."""
    if isinstance(value, str):
        return value
    if isinstance(value, (int, float, Fraction)) and not isinstance(value, bool):
        return str(value)
    raise refuse_form(value, needed)


def _quantity_of(dimension: Dimension | None, *others: Dimension) -> Any:
    due = " or ".join(one.name for one in (dimension, *others) if one) or "a figure"
    needed = "a number" if dimension == PURE else f"{due} with its unit"

    def read(value: Any) -> Quantity:
        if isinstance(value, Quantity):
            return value
        text = _text_of_figure(value, needed)
        for other in others:
            try:
                return parse_quantity(text, other)
            except QuantityFault:
                continue
        try:
            return parse_quantity(text, dimension)
        except QuantityFault as fault:
            raise refuse(fault) from None

    kind = ["number", "string"] if dimension == PURE else "string"
    return Annotated[Quantity, BeforeValidator(read), WithJsonSchema({"type": kind, "description": needed})]


def _read_difference(value: Any) -> Quantity:
    """A figure that says how far apart two are: in degrees it is a difference, not what a thermometer shows."""
    if isinstance(value, Quantity):
        return value
    text = _text_of_figure(value, "a figure with its unit")
    try:
        read = parse_quantity(text)
        return parse_quantity(text, TEMPERATURE_DIFFERENCE) if read.dimension.is_absolute else read
    except QuantityFault as fault:
        raise refuse(fault) from None


def _limit_of(dimension: Dimension | None) -> Any:
    needed = "a limit, as in `0.10 .. 0.25 mm`, `at least 3420 N`, `at most 0.15 mm`"

    def read(value: Any) -> Limit:
        if isinstance(value, Limit):
            return value
        try:
            return parse_limit(_text_of_figure(value, needed), dimension)
        except QuantityFault as fault:
            raise refuse(fault) from None

    return Annotated[Limit, BeforeValidator(read), WithJsonSchema({"type": "string", "description": needed})]


def _read_number(value: Any) -> Fraction:
    if isinstance(value, Fraction):
        return value
    text = _text_of_figure(value, "a number")
    try:
        read = parse_quantity(text, PURE)
    except QuantityFault as fault:
        raise refuse(fault) from None
    if not read.is_plain:
        raise refuse_form(value, "one number, without a tolerance,")
    return read.nominal


def _read_amount(value: Any) -> Money:
    if isinstance(value, Money):
        return value
    try:
        return parse_money(_text_of_figure(value, "an amount with its currency, as in `12.50 CUR`,"))
    except QuantityFault as fault:
        raise refuse(fault) from None


_DATE = re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")


def is_day(text: str) -> bool:
    """Whether a date as year, month and day is a day that the calendar has."""
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _read_date(value: Any) -> str:
    if isinstance(value, str) and _DATE.fullmatch(value):
        if is_day(value):
            return value
        raise refuse_form(value, "a day that the calendar has")
    raise refuse_form(value, "a date as year, month and day, as in `2026-11-20`,")


Amount = Annotated[
    Money, BeforeValidator(_read_amount), WithJsonSchema({"type": "string", "description": "an amount of money"})
]
Date = Annotated[
    str, BeforeValidator(_read_date), WithJsonSchema({"type": "string", "format": "date", "description": "a day"})
]
Length = _quantity_of(LENGTH)
Area = _quantity_of(AREA)
Force = _quantity_of(FORCE)
Torque = _quantity_of(TORQUE)
TorsionRate = _quantity_of(TORSION_RATE)
Energy = _quantity_of(ENERGY)
Pressure = _quantity_of(PRESSURE)
Mass = _quantity_of(MASS)
Duration = _quantity_of(TIME)
Temperature = _quantity_of(TEMPERATURE)
TemperatureDifference = _quantity_of(TEMPERATURE_DIFFERENCE)
Angle = _quantity_of(ANGLE)
Speed = _quantity_of(SPEED)
SpringRate = _quantity_of(RATE)
Expansion = _quantity_of(EXPANSION)
AnyLimit = _limit_of(None)
LengthLimit = _limit_of(LENGTH)
Number = Annotated[Fraction, BeforeValidator(_read_number), WithJsonSchema({"type": "number"})]
AnyQuantity = _quantity_of(None)
AnyDifference = Annotated[
    Quantity,
    BeforeValidator(_read_difference),
    WithJsonSchema({"type": "string", "description": "a figure with its unit"}),
]
ForceOrMass = _quantity_of(FORCE, MASS)
NumberOrBand = _quantity_of(PURE)

Name = Annotated[str, StringConstraints(min_length=1, max_length=80, strip_whitespace=True)]
Text = Annotated[str, StringConstraints(min_length=1, max_length=2000, strip_whitespace=True)]

Subject = Literal[
    "attitude",
    "axis",
    "coupling",
    "direction",
    "face",
    "load",
    "own face",
    "pack",
    "part",
    "part id",
    "part or face",
    "proof",
    "range",
    "result",
    "shaft",
    "tool",
]


@dataclass(frozen=True)
class Names:
    """Marks a text that names something else in the book; what it names has to be there."""

    subject: Subject


AttitudeName = Annotated[Name, Names("attitude")]
AxisName = Annotated[Name, Names("axis")]
CouplingName = Annotated[Name, Names("coupling")]
Direction = Annotated[Name, Names("direction")]
FaceName = Annotated[Name, Names("face")]
LoadName = Annotated[Name, Names("load")]
OwnFace = Annotated[Name, Names("own face")]
PackName = Annotated[Name, Names("pack")]
PartName = Annotated[Name, Names("part")]
PartOrFace = Annotated[Name, Names("part or face")]
ProofName = Annotated[Name, Names("proof")]
RangeName = Annotated[Name, Names("range")]
ResultName = Annotated[Name, Names("result")]
ShaftName = Annotated[Name, Names("shaft")]
ToolName = Annotated[Name, Names("tool")]

_PART_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")


def _read_part_id(value: Any) -> Any:
    if isinstance(value, str) and not _PART_ID.fullmatch(value):
        raise refuse_form(value, "an id of letters, digits, `.`, `-` and `_`, as in `OT-045`")
    return value


PartId = Annotated[Name, BeforeValidator(_read_part_id), Names("part id")]

_WHOLE = re.compile(r"0|[1-9][0-9]{0,8}")


def _whole_from(least: int) -> Any:
    needed = f"a whole number from {least}, as in `{least + 3}`"

    def read(value: Any) -> int:
        if isinstance(value, str) and _WHOLE.fullmatch(value):
            value = int(value)
        if isinstance(value, int) and not isinstance(value, bool) and value >= least:
            return value
        raise refuse_form(value, needed)

    return Annotated[int, BeforeValidator(read), WithJsonSchema({"type": "integer", "minimum": least})]


Count = _whole_from(1)
Whole = _whole_from(0)


def _read_flag(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    if value in ("true", "false"):
        return bool(value == "true")
    raise refuse_form(value, "`true` or `false`")


Flag = Annotated[bool, BeforeValidator(_read_flag), WithJsonSchema({"type": "boolean"})]

T = TypeVar("T")
Several = Annotated[tuple[T, ...], Strict(False)]
Pair = Annotated[tuple[T, T], Strict(False)]


def _read_one_or_several(value: Any) -> Any:
    return (value,) if isinstance(value, str) else value


OneOrSeveral = Annotated[
    tuple[T, ...],
    Strict(False),
    BeforeValidator(_read_one_or_several),
    WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]

_FIGURE_START = re.compile(r"[-+−]?[.0-9]")


def _read_face_or_length(value: Any) -> Any:
    if isinstance(value, str) and not _FIGURE_START.match(value):
        return value
    if isinstance(value, Quantity):
        return value
    try:
        return parse_quantity(_text_of_figure(value, "a face, or a length with its unit"), LENGTH)
    except QuantityFault as fault:
        raise refuse(fault) from None


def _kind_of_face_or_length(value: Any) -> str:
    return "(length)" if isinstance(value, Quantity) else "(face)"


FaceOrLength = Annotated[
    Annotated[OwnFace, Tag("(face)")] | Annotated[Quantity, Tag("(length)")],
    Discriminator(_kind_of_face_or_length),
    BeforeValidator(_read_face_or_length),
    WithJsonSchema({"type": "string", "description": "a face, or a length with its unit"}),
]
