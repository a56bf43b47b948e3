"""What has to be off before a part may leave: single parts, any of several, all of several."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from layshaft.book.definition.base import Definition, Name, Text


class NeedPart(Definition):
    """One part that has to be off, and how it holds."""

    kind: Literal["part"] = "part"
    part: Name
    how: Text | None = None


class NeedAny(Definition):
    """At least one of these has to be off."""

    kind: Literal["any of"] = "any of"
    items: tuple[Need, ...] = Field(min_length=1)


class NeedAll(Definition):
    """Every one of these has to be off."""

    kind: Literal["all of"] = "all of"
    items: tuple[Need, ...] = Field(min_length=1)


def _read(value: Any) -> Any:
    if isinstance(value, str):
        return NeedPart(part=value)
    if isinstance(value, dict) and len(value) == 1:
        key, inner = next(iter(value.items()))
        if key in ("any of", "all of"):
            if not isinstance(inner, (list, tuple)) or not inner:
                raise PydanticCustomError(
                    "need", "`{key}` needs a list of parts", {"key": key, "found": str(inner), "needed": "a list of parts"}
                )
            items = tuple(_read(item) for item in inner)
            return NeedAny(items=items) if key == "any of" else NeedAll(items=items)
        if isinstance(key, str) and isinstance(inner, str):
            return NeedPart(part=key, how=inner)
    if isinstance(value, (NeedPart, NeedAny, NeedAll)):
        return value
    raise PydanticCustomError(
        "need",
        "a part, `part: how it holds`, `any of: [..]` or `all of: [..]` is needed here",
        {"found": str(value)[:80], "needed": "a part, `part: how it holds`, `any of: [..]` or `all of: [..]`"},
    )


Need = Annotated[
    NeedPart | NeedAny | NeedAll,
    BeforeValidator(_read),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {"type": "object", "maxProperties": 1, "minProperties": 1},
            ],
            "description": "a part, `part: how it holds`, `any of: [..]` or `all of: [..]`",
        }
    ),
]

NeedAny.model_rebuild()
NeedAll.model_rebuild()
