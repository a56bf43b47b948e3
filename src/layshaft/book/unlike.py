"""A figure of another dimension than is due; a temperature read off and a difference of two are not each other."""

from __future__ import annotations

from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.quantity import Dimension

DIFFERENCE = "the difference itself in K: one of 1 °C is 1 K, one of 9 °F is 5 K"
READ_OFF = "what the thermometer shows, in °C or °F"


def unlike(path: Path, found: str, dimension: Dimension, due: Dimension, why: str = "") -> Fault | None:
    """The fault of a figure, told as `found`, that is of another dimension than the due one; `why` that is due."""
    if dimension == due:
        return None
    is_mixed_up = dimension.exponents == due.exponents
    advice = "" if not is_mixed_up else READ_OFF if due.is_absolute else DIFFERENCE
    needed = f"{due.name}, {why}" if why else due.name
    return fault("wrong dimension", path=path, found=f"{found}, {dimension.name}", needed=needed, try_=advice)


def unlike_advice(dimension: Dimension, due: Dimension) -> str:
    """How to type a figure anew that is of another dimension than the due one."""
    if dimension.exponents != due.exponents:
        return "type it again"
    return f"type {READ_OFF if due.is_absolute else DIFFERENCE}"
