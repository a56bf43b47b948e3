"""A shop: its people, presses, gauges, drawer and dated prices; the second kind of file, in the same grammar."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from layshaft.book.definition.base import (
    Amount,
    AnyDifference,
    Area,
    Count,
    Date,
    Definition,
    Duration,
    Flag,
    Force,
    Length,
    Mass,
    Name,
    Number,
    Pressure,
    Several,
    Temperature,
    TemperatureDifference,
    Text,
    Whole,
    refuse,
    refuse_form,
)
from layshaft.book.definition.hold import HandLimit
from layshaft.quantity import LENGTH, QuantityFault, parse_quantity


def _read_size_text(value: Any) -> str:
    if not isinstance(value, str):
        raise refuse_form(value, "a size with its unit, as in `5.5 mm`,")
    try:
        size = parse_quantity(value, LENGTH)
    except QuantityFault as fault:
        raise refuse(fault) from None
    if not size.is_plain:
        raise refuse_form(value, "one size, as in `5.5 mm`,")
    return value


SizeText = Annotated[
    str, BeforeValidator(_read_size_text), WithJsonSchema({"type": "string", "description": "a length"})
]
"""A length as a key: the text as written, which is known to be a length."""

Role = Literal["owner", "rebuilder", "apprentice", "counter"]


class Person(Definition):
    """Someone of the shop."""

    name: Text
    role: Role


class PressGauge(Definition):
    """The pressure gauge of a press: its range, its step, and how wrong it can be."""

    range_: Pressure
    step: Pressure | None = None
    u95: Pressure | None = None


class Press(Definition):
    """A press: what its ram gives and what its frame takes; the maker's rating comes first."""

    ram_area: Area
    rating: Force
    return_force: Force
    stroke: Length
    daylight: Length
    gauge: PressGauge | None = None
    about: Text | None = None


class Gauge(Definition):
    """One gauge of the shop: its class, how wrong it can be (95 %), its step, when it was last held to a standard."""

    class_: Name
    u95: AnyDifference | None = None
    u95_percent: Number | None = None
    step: AnyDifference | None = None
    calibrated: Date | None = None
    due: Date | None = None
    about: Text | None = None


class Stock(Definition):
    """What the drawer holds of one part: new ones counted, or counted by size; used ones with their figures."""

    count: Whole | None = None
    sizes: dict[SizeText, Count] = Field(default_factory=dict)
    measured: Several[Length] = ()

    @property
    def pieces(self) -> int:
        """How many new ones there are, of whatever size."""
        counted: int = (self.count or 0) + sum(self.sizes.values())
        return counted


class PartPrice(Definition):
    """What one part costs: list, what the shop pays, core deposit, and how long it takes to come."""

    list_: Amount
    cost: Amount
    core: Amount | None = None
    lead: Duration | None = None
    source: Name | None = None


class PriceList(Definition):
    """Prices that hold from a date on, until a newer list has the part; keyed by part or kit, as the drawer is."""

    from_: Date
    source: Name
    lead: Duration | None = None
    parts: dict[Name, PartPrice] = Field(default_factory=dict)


class Supplies(Definition):
    """What is charged for shop supplies: a percentage of labour, at most so much."""

    percent_of_labour: Number
    at_most: Amount | None = None


class Tax(Definition):
    """The tax charged, in percent, and on what."""

    percent: Number
    on: Literal["parts", "parts and labour"] = "parts and labour"


class Warranty(Definition):
    """What the shop promises, in its own words."""

    months: Whole
    words: Text


class Shop(Definition):
    """A shop; a key of its drawer or prices is `PART`, or `PART where CONDITION` where a variant's part differs.

    `reclaimed percent` is what a used, measured piece from the drawer is charged at, of the list price.
    """

    id: Name
    name: Text
    invented: Flag = False
    revision: Whole
    dated: Date
    currency: Name
    labour_rate: Amount
    supplies: Supplies | None = None
    tax: Tax | None = None
    reclaimed_percent: Number | None = None
    warranty: Warranty | None = None
    units: Literal["metric", "inch"] = "metric"
    paper: Literal["a4", "letter"] = "a4"
    reference_temperature: Temperature | None = None
    temperature_band: TemperatureDifference | None = None
    hand_cover: HandLimit | None = None
    heavy: Mass | None = None
    people: dict[Name, Person] = Field(default_factory=dict)
    presses: dict[Name, Press] = Field(default_factory=dict)
    gauges: dict[Name, Gauge] = Field(default_factory=dict)
    drawer: dict[Name, Stock] = Field(default_factory=dict)
    prices: Several[PriceList] = ()
    comeback_cost: Amount | None = None
