"""The JSON Schema for editors: books that are in order keep to it, and what an editor can see is refused."""

import json
import re

import pytest
from ruamel.yaml import YAML

from layshaft.book.grammar import definitions
from layshaft.book.schema import DIALECT, book_schema
from tests.house.tree import ROOT
from tests.stories.story import example

SCHEMA = book_schema()
BOOKS = sorted([*(ROOT / "books").glob("*/book.yaml"), *(ROOT / "tests" / "books").glob("*.yaml")])
KINDS = {"object": dict, "array": list, "string": str, "number": (int, float), "integer": int, "boolean": bool}


def is_kept(value, schema):
    """A reader of the words that the schema uses, by the text of the dialect; any other word stops the test."""
    return all(KEEPS[word](value, told, schema) for word, told in schema.items())


def is_of_kind(value, kinds, _):
    names = kinds if isinstance(kinds, list) else [kinds]
    return any(isinstance(value, KINDS[name]) and (name == "boolean" or not isinstance(value, bool)) for name in names)


def keeps_items(value, told, schema):
    return not isinstance(value, list) or all(is_kept(one, told) for one in value[len(schema.get("prefixItems", [])):])


def keeps_others(value, told, schema):
    if not isinstance(value, dict):
        return True
    others = [one for key, one in value.items() if key not in schema.get("properties", {})]
    return not others if told is False else all(is_kept(one, told) for one in others)


KEEPS = {
    "$ref": lambda value, told, _: is_kept(value, SCHEMA["$defs"][told.removeprefix("#/$defs/")]),
    "$schema": lambda *_: True,
    "$defs": lambda *_: True,
    "title": lambda *_: True,
    "description": lambda *_: True,
    # By the dialect a format is a remark, which a reader need not hold anything against.
    "format": lambda *_: True,
    "type": is_of_kind,
    "const": lambda value, told, _: value == told,
    "enum": lambda value, told, _: value in told,
    "anyOf": lambda value, told, _: any(is_kept(value, one) for one in told),
    "pattern": lambda value, told, _: not isinstance(value, str) or re.search(told, value) is not None,
    "minLength": lambda value, told, _: not isinstance(value, str) or len(value) >= told,
    "maxLength": lambda value, told, _: not isinstance(value, str) or len(value) <= told,
    "minimum": lambda value, told, _: not isinstance(value, int) or value >= told,
    "minItems": lambda value, told, _: not isinstance(value, list) or len(value) >= told,
    "maxItems": lambda value, told, _: not isinstance(value, list) or len(value) <= told,
    "minProperties": lambda value, told, _: not isinstance(value, dict) or len(value) >= told,
    "maxProperties": lambda value, told, _: not isinstance(value, dict) or len(value) <= told,
    "required": lambda value, told, _: not isinstance(value, dict) or all(key in value for key in told),
    "properties": lambda value, told, _: not isinstance(value, dict)
    or all(is_kept(one, told[key]) for key, one in value.items() if key in told),
    "propertyNames": lambda value, told, _: not isinstance(value, dict) or all(is_kept(key, told) for key in value),
    "additionalProperties": keeps_others,
    "items": keeps_items,
    "prefixItems": lambda value, told, _: not isinstance(value, list)
    or all(is_kept(one, kind) for one, kind in zip(value, told, strict=False)),
}


def as_an_editor_reads(text):
    loaded = YAML(typ="safe", pure=True).load(text)
    return json.loads(json.dumps(loaded, default=str))


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_books_keep_to_the_schema(path):
    assert is_kept(as_an_editor_reads(path.read_text(encoding="utf-8")), SCHEMA)


def test_the_manuals_book_keeps_to_the_schema():
    assert is_kept(as_an_editor_reads(example()), SCHEMA)


@pytest.mark.parametrize("old, new", [
    ("    class: cap\n", ""),
    ("    class: cap\n", "    klass: cap\n"),
    ("maker: Tarnwick", "variant: x\nmaker: Tarnwick"),
    ("layshaft book: 1", "layshaft book: 2"),
    ("stage: clean", "stage: cleaning"),
    ("count: {size small: 2, size large: 3}", "count: {size small: two, size large: 3}"),
    ("count: {size small: 2, size large: 3}", "count: 0"),
    ("attitudes: [front up, front down]", "attitudes: front up"),
    ("    rating: 5 kN\n", "    rating:\n"),
    ("seats: [SH-30 seat, SH-50 front]", "seats: [SH-30 seat]"),
])
def test_what_an_editor_can_see_is_refused(old, new):
    text = example()
    assert text.count(old) == 1
    assert not is_kept(as_an_editor_reads(text.replace(old, new)), SCHEMA)


def test_schema_has_every_definition_and_says_its_dialect():
    assert SCHEMA["$schema"] == DIALECT
    assert set(definitions()) - {"Unit"} <= set(SCHEMA["$defs"])
    json.dumps(SCHEMA)
