"""What has to be off before a part may leave: single parts, any of several, all of several."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Discriminator, Field, Strict, Tag, WithJsonSchema

from layshaft.book.definition.base import (
    Definition,
    PartName,
    Several,
    Text,
    refuse_form,
)

NEEDED = "a part, `part: how it holds`, `any of: [..]` or `all of: [..]`"


class NeedPart(Definition):
    """One part that has to be off, and how it holds."""

    written: ClassVar[Mapping[str, str]] = {"part": ""}

    kind: Literal["part"] = "part"
    part: PartName
    how: Text | None = None


class NeedAny(Definition):
    """At least one of these has to be off."""

    written: ClassVar[Mapping[str, str]] = {"items": "any of"}

    kind: Literal["any of"] = "any of"
    items: Several[Need] = Field(min_length=1)


class NeedAll(Definition):
    """Every one of these has to be off."""

    written: ClassVar[Mapping[str, str]] = {"items": "all of"}

    kind: Literal["all of"] = "all of"
    items: Several[Need] = Field(min_length=1)


def _read(value: Any) -> Any:
    """Any way of writing a need as the fields of its kind."""
    if isinstance(value, str):
        return {"kind": "part", "part": value}
    if isinstance(value, dict) and len(value) == 1:
        key, inner = next(iter(value.items()))
        if key in ("any of", "all of"):
            return {"kind": key, "items": inner}
        if isinstance(key, str) and isinstance(inner, str):
            return {"kind": "part", "part": key, "how": inner}
    if isinstance(value, (NeedPart, NeedAny, NeedAll)):
        return value
    raise refuse_form(value, NEEDED)


def _kind_of(value: Any) -> str:
    return f"({value['kind'] if isinstance(value, dict) else value.kind})"


Need = Annotated[
    Annotated[NeedPart, Tag("(part)")] | Annotated[NeedAny, Tag("(any of)")] | Annotated[NeedAll, Tag("(all of)")],
    Discriminator(_kind_of),
    BeforeValidator(_read),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {"type": "object", "maxProperties": 1, "minProperties": 1},
            ],
            "description": NEEDED,
        }
    ),
]


def _one_by_one(value: Any) -> Any:
    if not isinstance(value, dict):
        return value
    return tuple({key: how} for key, how in value.items())


Needs = Annotated[
    tuple[Need, ...],
    Strict(False),
    BeforeValidator(_one_by_one),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "array", "items": {"anyOf": [{"type": "string"}, {"type": "object"}]}},
                {"type": "object"},
            ],
            "description": f"a list, each item {NEEDED}; or a table of `part: how it holds`",
        }
    ),
]

NeedAny.model_rebuild()
NeedAll.model_rebuild()
