"""Packs, chains and the results that limits are set on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator
from pydantic_core import PydanticCustomError

from layshaft.book.definition.base import (
    AnyLimit,
    AnyQuantity,
    Count,
    Definition,
    Duration,
    Force,
    Length,
    Name,
    Pair,
    PartName,
    Several,
    ShaftName,
    Text,
    refuse_form,
)
from layshaft.book.definition.term import ChainTerm


class PackItem(Definition):
    """One place in a pack: a part (all of its count), or two parts that alternate, the first one outermost."""

    written: ClassVar[Mapping[str, str]] = {"part": ""}

    part: PartName | None = None
    alternate: Pair[PartName] | None = None


def _read_item(value: Any) -> Any:
    if isinstance(value, str):
        return {"part": value}
    if isinstance(value, dict) and set(value) == {"alternate"}:
        pair = value["alternate"]
        if isinstance(pair, (list, tuple)) and len(pair) == 2 and all(isinstance(name, str) for name in pair):
            return {"alternate": pair}
    if isinstance(value, PackItem):
        return value
    raise refuse_form(value, "a part or `alternate: [PART, PART]`")


Item = Annotated[
    PackItem,
    BeforeValidator(_read_item),
    WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "object", "required": ["alternate"]}]}),
]


class Pack(Definition):
    """Plates in their order along the axis; every member has faces `front` and `rear` or as `faces` says."""

    order: Several[Item] = Field(min_length=1)
    faces: Pair[Name] = ("front", "rear")
    lined: Several[PartName] = ()
    turns_with: dict[PartName, ShaftName] = Field(default_factory=dict)
    height: Length | None = None
    measure_under: Force | None = None


class Direct(Definition):
    """How a result can be read straight off the unit."""

    how: Text
    gauge: Name
    places: Count = 1
    decides: Literal["worst", "mean"] = "mean"
    load: Force | None = None
    time: Duration | None = None
    before: Several[PartName] = ()


class Result(Definition):
    """A figure worked out: from a chain, from closed arithmetic over other figures, or by a named mechanics model.

    A chain result is a gap, positive when loose.
    """

    about: Text
    chain: Several[ChainTerm] | None = None
    is_: Text | None = None
    model: Name | None = None
    of: dict[Name, Text] = Field(default_factory=dict)
    limit: AnyLimit | None = None
    target: AnyQuantity | None = None
    drawn: AnyQuantity | None = None
    read: Direct | None = None
    prefer: Literal["low", "high", "middle"] = "middle"
    why: Text | None = None

    @model_validator(mode="after")
    def _one_origin(self) -> Result:
        origins = [name for name, given in (("chain", self.chain), ("is", self.is_), ("model", self.model)) if given]
        if len(origins) != 1:
            raise PydanticCustomError(
                "origin",
                "a result needs exactly one of `chain`, `is`, `model`",
                {"found": " and ".join(origins) or "none of them", "needed": "exactly one of `chain`, `is`, `model`"},
            )
        return self
