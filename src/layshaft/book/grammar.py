"""The keys of every definition in words, read off the definitions: what the manual's tables are held against."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import StringConstraints, WithJsonSchema

from layshaft.book.definition import Need, Term, Unit
from layshaft.book.definition.base import Definition, Names, Subject
from layshaft.book.definition.result import PackItem

SUBJECTS: dict[Subject, str] = {
    "attitude": "an attitude",
    "axis": "an axis",
    "coupling": "a coupling",
    "direction": "an end of its axis, or an opening",
    "face": "`PART face`",
    "load": "a load",
    "own face": "a face of the part",
    "pack": "a pack",
    "part": "a part",
    "part id": "a part id",
    "part or face": "a part, or `PART face`",
    "proof": "a proof",
    "range": "a range",
    "result": "a result",
    "shaft": "a shaft",
    "tool": "a tool",
}
_WORDED = {PackItem: "a part, or `alternate: [PART, PART]`", Term: "a [link](#links)"}
_PLAIN = {"integer": "a whole number from {minimum}", "boolean": "`true` or `false`", "number": "a number"}


@dataclass(frozen=True)
class KeyRow:
    """One key of a definition: how it is written, what it holds, and whether it has to be there."""

    key: str
    holds: str
    is_needed: bool


def definitions(*roots: type[Definition]) -> dict[str, type[Definition]]:
    """Every definition that a file's tables follow, by name, in the order first met; a book's if none is said."""
    found: dict[str, type[Definition]] = {}

    def meet(kind: type[Definition]) -> None:
        if kind.__name__ not in found and kind not in _WORDED:
            found[kind.__name__] = kind
            for hint in get_type_hints(kind, include_extras=True).values():
                for inner in _definitions_in(hint):
                    meet(inner)

    for root in roots or (Unit,):
        meet(root)
    return found


def _definitions_in(hint: Any) -> Iterator[type[Definition]]:
    if hint == Need or hint in _WORDED:
        return
    if isinstance(hint, type) and issubclass(hint, Definition):
        yield hint
    for inner in get_args(hint):
        if not isinstance(inner, str):
            yield from _definitions_in(inner)


def heading(kind: type[Definition]) -> str:
    """A definition's name as the manual's heading has it."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", kind.__name__).lower()


def key_rows(kind: type[Definition]) -> list[KeyRow]:
    """The keys of one definition, in its order."""
    hints = get_type_hints(kind, include_extras=True)
    return [
        KeyRow(str(field.alias), holds(hints[name]), field.is_required()) for name, field in kind.model_fields.items()
    ]


def holds(hint: Any) -> str:
    """What a value of a kind is, in words."""
    if get_origin(hint) is Annotated:
        said = _said_of_annotated(hint)
        if said is not None:
            return said
        return holds(get_args(hint)[0])
    origin, inner = get_origin(hint), [one for one in get_args(hint) if one is not NoneType]
    if hint in _WORDED:
        return _WORDED[hint]
    if origin in (Union, UnionType):
        return ", or ".join(dict.fromkeys(holds(one) for one in inner))
    if origin is Literal:
        return ", ".join(f"`{word}`" for word in inner)
    if origin is tuple:
        return f"list: {holds(inner[0])}" if Ellipsis in inner else f"two: {holds(inner[0])}"
    if origin is dict:
        return f"table: {holds(inner[0])} → {holds(inner[1])}"
    if isinstance(hint, type) and issubclass(hint, Definition):
        return f"[{heading(hint)}](#{heading(hint).replace(' ', '-')})"
    return str(getattr(hint, "__name__", hint))


def _said_of_annotated(hint: Any) -> str | None:
    inner, *marks = get_args(hint)
    if inner in _WORDED:
        return _WORDED[inner]
    for mark in marks:
        if isinstance(mark, Names):
            return SUBJECTS[mark.subject]
    lengths = [mark.max_length or 0 for mark in marks if isinstance(mark, StringConstraints)]
    if lengths:
        return "a name" if max(lengths) <= 80 else "a text"
    for mark in marks:
        if isinstance(mark, WithJsonSchema) and mark.json_schema is not None:
            return _said_of_schema(mark.json_schema, inner)
    return None


def _said_of_schema(schema: dict[str, Any], inner: Any) -> str | None:
    if get_origin(inner) is tuple and "description" not in schema:
        return f"{holds(get_args(inner)[0])}, or a list of them"
    if "description" in schema:
        said = str(schema["description"])
        if said.startswith("a length, or a list of links"):
            return "a length, or a list of [links](#links)"
        if "how it holds" in said:
            return "[needs](#needs)"
        return said.split(", as in")[0].removesuffix(" with its unit")
    template = _PLAIN.get(str(schema.get("type")))
    return template.format(**schema) if template else None
