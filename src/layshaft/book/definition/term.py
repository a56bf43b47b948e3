"""The links of a dimension chain, as a rebuilder would say them: `plus OT-048 mouth to groove`, `less pack direct`.

`+` and `-` stand for `plus` and `less` too, but YAML wants a text that starts with `-` in quotes.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag, WithJsonSchema

from layshaft.book.definition.base import (
    Definition,
    Flag,
    Length,
    Name,
    Several,
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
    """A link as written, as the fields of a term."""
    if isinstance(value, Term):
        return value
    if not isinstance(value, str):
        raise refuse_form(value, NEEDED)
    text = " ".join(value.split())
    if named := _NAMED.match(text):
        sign, kind, name = named.groups()
        return {"sign": _SIGNS[sign], "kind": kind, "name": name}
    shape = _SHAPE.match(text)
    if plain := _PLAIN.match(text):
        sign, size, name = plain.groups()
        try:
            return {"sign": _SIGNS[sign], "kind": "size", "size": parse_quantity(size, LENGTH), "name": name}
        except QuantityFault as fault:
            # A part's id may begin with a digit; then no figure ends before the first comma.
            if shape is None or "," in text:
                raise refuse(fault) from None
    if shape is None:
        raise refuse_form(value, NEEDED)
    sign, each, part, from_, to = shape.groups()
    ends = {"part": part, "from": from_, "to": to}
    return {"sign": _SIGNS[sign], "kind": "distance", "each": bool(each), **ends}


ChainTerm = Annotated[Term, BeforeValidator(_read), WithJsonSchema({"type": "string", "description": NEEDED})]


def _kind_of_reach(value: Any) -> str:
    return "(links)" if isinstance(value, (list, tuple)) else "(length)"


Reach = Annotated[
    Annotated[Length, Tag("(length)")] | Annotated[Several[ChainTerm], Field(min_length=1), Tag("(links)")],
    Discriminator(_kind_of_reach),
    WithJsonSchema(
        {
            "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}],
            "description": f"a length, or a list of links, each {NEEDED}",
        }
    ),
]
