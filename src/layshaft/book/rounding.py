"""How closely a drawn figure is told: half a unit of its last written place."""

from __future__ import annotations

import re
from fractions import Fraction

from layshaft.quantity import Quantity

_FIGURE = re.compile(r"[0-9]+(?:[.,]([0-9]+))?")


def half_last_place(drawn: Quantity) -> Fraction:
    """Half a unit of the last place a figure is written to, in the SI; a fraction is told exactly."""
    match = _FIGURE.search(drawn.text)
    if match is None or "/" in drawn.text[: match.end() + 2]:
        return Fraction(0)
    places: int = len(match.group(1) or "")
    return drawn.unit.factor / Fraction(2 * 10**places)


def agrees(drawn: Quantity, computed: Fraction) -> bool:
    """Whether a drawn figure is the computed one, or that one rounded to the places it is written to."""
    return abs(drawn.nominal - computed) <= half_last_place(drawn)
