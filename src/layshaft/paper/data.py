"""Any result of the plan room as plain data that JSON can hold, every figure with its unit in the text."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from typing import Any

from pydantic import BaseModel

from layshaft.quantity import Limit, Money, Quantity


def plain(value: Any) -> Any:
    """A value as plain data: records become tables, quantities their text, numbers stay numbers."""
    match value:
        case None | bool() | int() | str():
            return value
        case float():
            return value if math.isfinite(value) else None
        case Fraction() | Decimal():
            return float(value)
        case Quantity() | Limit():
            return value.text
        case Money():
            return str(value)
        case Enum():
            return value.value
        case BaseModel():
            return {key: plain(item) for key, item in _filled(value).items()}
        case Mapping():
            return {_key(key): plain(item) for key, item in value.items()}
        case _ if is_dataclass(value):
            return {field.name: plain(getattr(value, field.name)) for field in fields(value) if field.repr}
        case tuple() | list() | set() | frozenset():
            items = sorted(value) if isinstance(value, set | frozenset) else value
            return [plain(item) for item in items]
    raise TypeError(f"{type(value).__name__} has no plain form")


def _filled(model: BaseModel) -> dict[str, Any]:
    named = {str(field.alias): getattr(model, name) for name, field in type(model).model_fields.items()}
    return {key: value for key, value in named.items() if value not in (None, (), {})}


def _key(key: Any) -> str:
    return " ".join(str(part) for part in key) if isinstance(key, tuple) else str(key)
