"""What a unit's definitions have to agree on among themselves, one subject a module."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.definition import Unit
from layshaft.book.fault import Fault


def check_unit(unit: Unit) -> Iterator[Fault]:
    """Every fault and note in the definitions of one variant."""
    yield from ()
