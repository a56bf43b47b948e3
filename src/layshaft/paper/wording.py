"""The last hand on a sheet's sentences: figures in the shop's units first, one full stop at the end."""

from __future__ import annotations

import re
from typing import Any

from layshaft.plan.free_figure import in_own_units
from layshaft.plan.telling import Telling

NAMES = frozenset({"id", "name", "number", "paper", "part", "pattern", "serial", "title", "variant"})
"""Keys whose texts are names: they stay as they are written."""

_STOPS = re.compile(r"(?<![.\s])\.(?:\s*\.)+(?=\s*$|\s+[A-Z])")


def worded(value: Any, telling: Telling) -> Any:
    """Plain data with every sentence in it in the shop's units."""
    if isinstance(value, str):
        return one_stop(in_own_units(value, telling))
    if isinstance(value, dict):
        return {key: item if key in NAMES else worded(item, telling) for key, item in value.items()}
    if isinstance(value, list):
        return [worded(item, telling) for item in value]
    return value


def one_stop(text: str) -> str:
    """A sentence that was closed twice, closed once; the dots of a range stay."""
    return _STOPS.sub(".", text)


def capital(text: str) -> str:
    """A text that begins a line."""
    return text[:1].upper() + text[1:]


def counted(number: int, one: str, several: str) -> str:
    """A number with the word in the number that it takes."""
    return f"{number} {one if number == 1 else several}"
