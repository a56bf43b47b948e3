"""The ground all definitions stand on: strict frozen models, spaced keys, and fields that hold a quantity with its unit."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, StringConstraints, WithJsonSchema
from pydantic_core import PydanticCustomError

from layshaft.quantity import (
    ANGLE,
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
    TIME,
    TORQUE,
    Dimension,
    Limit,
    Quantity,
    QuantityFault,
    parse_limit,
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
        allow_inf_nan=False,
        arbitrary_types_allowed=True,
    )


def _refuse(fault: QuantityFault) -> PydanticCustomError:
    return PydanticCustomError(
        "quantity",
        "{sentence}",
        {"fault": fault.id, "found": fault.found, "needed": fault.needed, "try": fault.try_, "sentence": str(fault)},
    )


def _quantity_of(dimension: Dimension) -> Any:
    def read(value: Any) -> Quantity:
        if isinstance(value, Quantity):
            return value
        if not isinstance(value, str):
            value = str(value)
        try:
            return parse_quantity(value, dimension)
        except QuantityFault as fault:
            raise _refuse(fault) from None

    return Annotated[
        Quantity,
        BeforeValidator(read),
        WithJsonSchema({"type": "string", "description": f"{dimension.name} with its unit, as in `4.2 ± 0.05 mm`"}),
    ]


def _limit_of(dimension: Dimension | None) -> Any:
    def read(value: Any) -> Limit:
        if isinstance(value, Limit):
            return value
        try:
            return parse_limit(str(value), dimension)
        except QuantityFault as fault:
            raise _refuse(fault) from None

    return Annotated[
        Limit,
        BeforeValidator(read),
        WithJsonSchema({"type": "string", "description": "`0.10 .. 0.25 mm`, `at least 3420 N`, `at most 0.15 mm`"}),
    ]


def _read_number(value: Any) -> Fraction:
    if isinstance(value, Fraction):
        return value
    if isinstance(value, bool):
        raise PydanticCustomError("number", "a number is needed here", {"found": str(value), "needed": "a number"})
    try:
        quantity = parse_quantity(str(value), PURE)
    except QuantityFault as fault:
        raise _refuse(fault) from None
    return quantity.nominal


Length = _quantity_of(LENGTH)
Force = _quantity_of(FORCE)
Torque = _quantity_of(TORQUE)
Energy = _quantity_of(ENERGY)
Pressure = _quantity_of(PRESSURE)
Mass = _quantity_of(MASS)
Duration = _quantity_of(TIME)
Temperature = _quantity_of(TEMPERATURE)
Angle = _quantity_of(ANGLE)
Speed = _quantity_of(SPEED)
SpringRate = _quantity_of(RATE)
Expansion = _quantity_of(EXPANSION)
AnyLimit = _limit_of(None)
LengthLimit = _limit_of(LENGTH)
Number = Annotated[Fraction, BeforeValidator(_read_number), WithJsonSchema({"type": "number"})]


def _read_any(value: Any) -> Quantity:
    if isinstance(value, Quantity):
        return value
    try:
        return parse_quantity(str(value))
    except QuantityFault as fault:
        raise _refuse(fault) from None


AnyQuantity = Annotated[Quantity, BeforeValidator(_read_any), WithJsonSchema({"type": "string"})]

Name = Annotated[str, StringConstraints(min_length=1, max_length=80, strip_whitespace=True)]
Text = Annotated[str, StringConstraints(min_length=1, max_length=2000, strip_whitespace=True)]
Count = Annotated[int, WithJsonSchema({"type": "integer", "minimum": 1})]
