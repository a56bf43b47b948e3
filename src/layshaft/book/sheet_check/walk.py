"""Walking a definition: every figure in it with the path that leads to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from layshaft.book.definition.base import Definition
from layshaft.book.fault import Path
from layshaft.quantity import Money, Quantity


def figures(value: Any, path: Path = ()) -> Iterator[tuple[Path, Money | Quantity]]:
    """Each amount of money and each quantity at or under a place, in the order of the definition."""
    if isinstance(value, Money | Quantity):
        yield path, value
    elif isinstance(value, Definition):
        for name, field in type(value).model_fields.items():
            yield from figures(getattr(value, name), (*path, str(field.alias)))
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from figures(inner, (*path, key))
    elif isinstance(value, tuple):
        for at, inner in enumerate(value):
            yield from figures(inner, (*path, at))
