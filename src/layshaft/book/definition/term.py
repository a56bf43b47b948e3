"""The links of a dimension chain, as a rebuilder would say them: `plus OT-048 mouth to groove`, `less pack direct`.

`+` and `-` stand for `plus` and `less` too, but YAML wants a text that starts with `-` in quotes.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, WithJsonSchema

from layshaft.book.definition.base import (
    Definition,
    Flag,
    Length,
    Name,
    refuse,
    refuse_form,
)
from layshaft.quantity import LENGTH, Quantity, QuantityFault, parse_quantity

_SHAPE = re.compile(r"^(plus|less|[+-])\s+(?:(each)\s+)?(\S+)\s+(.+?)\s+to\s+(.+)$")
_NAMED = re.compile(r"^(plus|less|[+-])\s+(pack|result)\s+(.+)$")
_PLAIN = re.compile(r"^(plus|less|[+-])\s+([.\d][^,]*?)(?:,\s*(.+))?$")
NEEDED = (
    "`plus PART face to face`, `plus each PART face to face`, `less pack NAME`, `less result NAME` "
    "or `plus 0.40 ± 0.05 mm, what it is`"
)
_KINDS: dict[str, Literal["pack", "result"]] = {"pack": "pack", "result": "result"}
_SIGNS: dict[str, Literal[1, -1]] = {"+": 1, "plus": 1, "-": -1, "less": -1}


class Term(Definition):
    """One signed link: a distance between two faces (times the count if `each`), a pack, a result or a plain size."""

    sign: Literal[1, -1]
    kind: Literal["distance", "pack", "result", "size"]
    part: Name | None = None
    from_: Name | None = None
    to: Name | None = None
    each: Flag = False
    name: Name | None = None
    size: Quantity | None = None


def _read(value: Any) -> Any:
    if isinstance(value, Term):
        return value
    if not isinstance(value, str):
        raise refuse_form(value, NEEDED)
    text = " ".join(value.split())
    if named := _NAMED.match(text):
        sign, kind, name = named.groups()
        return Term(sign=_SIGNS[sign], kind=_KINDS[kind], name=name.strip())
    if plain := _PLAIN.match(text):
        return _plain(text, *plain.groups())
    if shape := _SHAPE.match(text):
        sign, each, part, from_, to = shape.groups()
        return Term(sign=_SIGNS[sign], kind="distance", part=part, from_=from_, to=to, each=bool(each))
    raise refuse_form(value, NEEDED)


def _plain(text: str, sign: str, size: str, name: str | None) -> Term:
    try:
        quantity = parse_quantity(size, LENGTH)
    except QuantityFault as fault:
        raise refuse(fault) from None
    return Term(sign=_SIGNS[sign], kind="size", size=quantity, name=name)


ChainTerm = Annotated[Term, BeforeValidator(_read), WithJsonSchema({"type": "string", "description": NEEDED})]


def _read_reach(value: Any) -> Any:
    if isinstance(value, (list, tuple)):
        return tuple(_read(item) for item in value)
    return value


Reach = Annotated[
    Length | tuple[Term, ...],
    BeforeValidator(_read_reach),
    WithJsonSchema(
        {
            "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}],
            "description": f"a length, or a list of links, each {NEEDED}",
        }
    ),
]
