"""A JSON Schema of unit books from the definitions themselves, so that an editor can complete and check while typing.

An editor's schema cannot know which options a book has: wherever a value is due it also lets a table of conditions
stand. What only the whole book can tell (names that lead nowhere, circles, sums) is left to the check.
"""

from __future__ import annotations

from typing import Any

from layshaft.book.definition import Unit
from layshaft.book.option import CUES, ONLY
from layshaft.book.reader import VERSION

Schema = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_SET_BY_VARIANT = ("variant", "cues")
_CONDITION = {"type": "string", "pattern": "^\\S.* \\S", "description": "OPTION CHOICE [or CHOICE] [and OPTION CHOICE]"}
_CONDITIONS = {"anyOf": [_CONDITION, {"type": "array", "items": _CONDITION, "minItems": 1}]}
_WORD = {"type": ["string", "number", "boolean"]}
_CHOICES = {"type": "array", "items": _WORD, "minItems": 1}


def book_schema() -> Schema:
    """The JSON Schema of a unit book, in the dialect of 2020-12."""
    unit = Unit.model_json_schema(by_alias=True)
    definitions = {name: _with_only(_opened(one)) for name, one in unit.pop("$defs").items()}
    opened = _opened(unit)
    properties: Schema = {"layshaft book": {"const": VERSION, "description": "what the file is, and its version"}}
    for key, one in opened["properties"].items():
        if key not in _SET_BY_VARIANT:
            properties[key] = one
    properties["options"] = {"type": "object", "additionalProperties": _CHOICES}
    properties["variants"] = {
        "type": "object",
        "additionalProperties": {
            "type": "object",
            "properties": {CUES: {"type": "array", "items": {"type": "string"}}},
            "additionalProperties": _WORD,
        },
        "minProperties": 1,
    }
    asked = [key for key in opened["required"] if key not in _SET_BY_VARIANT]
    return {
        "$schema": DIALECT,
        "title": "Layshaft unit book",
        "type": "object",
        "properties": properties,
        "required": ["layshaft book", *asked],
        "additionalProperties": False,
        "$defs": definitions,
    }


def _with_only(schema: Schema) -> Schema:
    """A definition that may stand under a name also takes `only`."""
    if "properties" in schema:
        schema["properties"][ONLY] = _CONDITIONS
    return schema


def _opened(schema: Schema) -> Schema:
    """A schema whose every inner value may be keyed by conditions; nothing may be left empty."""
    opened: Schema = {}
    for key, value in schema.items():
        if key == "properties":
            opened[key] = {name: _keyed(one) for name, one in value.items()}
        elif key in ("additionalProperties", "items") and isinstance(value, dict):
            opened[key] = _keyed(value)
        elif key == "prefixItems":
            opened[key] = [_keyed(one) for one in value]
        elif key == "anyOf":
            kinds = [_opened(one) for one in value if one.get("type") != "null"]
            opened.update(kinds[0] if len(kinds) == 1 else {"anyOf": kinds})
        elif key not in ("title", "default"):
            opened[key] = value
    if opened.get("type") == "string" and "minLength" in opened:
        opened["type"] = _WORD["type"]
    return opened


def _keyed(schema: Schema) -> Schema:
    """A value, or a table of conditions with such a value under each."""
    plain = _opened(schema)
    table = {
        "type": "object",
        "propertyNames": _CONDITION,
        "additionalProperties": plain,
        "minProperties": 1,
    }
    described = {"description": plain["description"]} if "description" in plain else {}
    return {"anyOf": [plain, table], **described}
