"""JSON Schemas of shop files and job files from the definitions themselves, for editors that check while typing."""

from __future__ import annotations

from typing import Any

from layshaft.book.definition import Job, Shop
from layshaft.book.definition.base import Definition
from layshaft.book.reader import VERSION
from layshaft.book.schema import DIALECT, Schema
from layshaft.book.sheet import JOB_KEY, SHOP_KEY

_WORD = ["string", "number", "boolean"]
"""What an editor takes a word for that a file writes without quotes: `true`, `12`."""


def shop_schema() -> Schema:
    """The JSON Schema of a shop file, in the dialect of 2020-12."""
    return _schema("Layshaft shop file", SHOP_KEY, Shop)


def job_schema() -> Schema:
    """The JSON Schema of a job file, in the dialect of 2020-12."""
    return _schema("Layshaft job file", JOB_KEY, Job)


def _schema(title: str, first_key: str, kind: type[Definition]) -> Schema:
    whole: Schema = _written(kind.model_json_schema(by_alias=True))
    version = {"const": VERSION, "description": "what the file is, and its version"}
    return {
        "$schema": DIALECT,
        "title": title,
        "type": "object",
        "properties": {first_key: version, **whole["properties"]},
        "required": [first_key, *whole["required"]],
        "additionalProperties": False,
        "$defs": whole.get("$defs", {}),
    }


def _written(schema: Any) -> Any:
    """A schema as a file is written: nothing is ever left empty, and words need no quotes."""
    if isinstance(schema, list):
        return [_written(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    kept = {key: _written(value) for key, value in schema.items() if key not in ("title", "default")}
    if "properties" in schema:
        # A key of a file may itself be called `title` or `default`.
        kept["properties"] = {name: _written(one) for name, one in schema["properties"].items()}
    kinds = [one for one in kept.pop("anyOf", ()) if one.get("type") != "null"]
    if len(kinds) == 1:
        kept = {**kinds[0], **kept}
    elif kinds:
        kept["anyOf"] = kinds
    if kept.get("type") == "string" and "minLength" in kept:
        kept["type"] = _WORD
    return kept
