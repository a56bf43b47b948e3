"""Figures in free text: what books, shops and jobs say in words, with the reader's own unit first.

`47 N·m` becomes `34.7 lbf·ft (47 N·m)` where a shop works in inches. The figure as written stays behind it, so nothing
is lost by rounding. A figure that has its own unit beside it already is left as it is.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from layshaft.plan.telling import Telling
from layshaft.quantity import ENERGY, LENGTH, TORQUE, Dimension, Direction, Unit, find_unit
from layshaft.quantity.display import INCH_EXTRA_DECIMALS

_METRIC = (
    "kN·m", "N·mm", "N·m", "Nm", "N/mm", "MPa", "kPa", "GPa", "bar", "mm²", "cm²", "mm", "µm", "cm", "kN", "N",
    "kJ", "J", "kg", "g", "m/s", "°C", "K", "L", "ml",
)  # fmt: skip
_INCH = (
    "lbf·ft", "ft·lbf", "lbf·in", "lbf/in", "lbf", "psi", "in²", "in", "thou", "lb", "oz", "ft/s", "°F", "US qt",
    "US fl oz",
)  # fmt: skip
_NUMBER = r"[-−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_BETWEEN = r"(?:\s*(?:\.\.|±|–)\s*|\s+to\s+)"
_MANY = rf"(?P<many>{_NUMBER}(?:, {_NUMBER})+)(?P<and>,? (?:and|or) )"
_SIGNS = {"metric": _METRIC, "inch": _INCH}
_BOUNDS: dict[str, Direction] = {
    "at least": "up",
    "at most": "down",
    "up to": "up",
    "not over": "down",
    "under": "down",
    "below": "down",
    "over": "up",
    "above": "up",
}
_NOMINAL = re.compile(r"\s*(?:socket|wrench|spanner|hex key|drill|tap)(?:e?s)?\b")
"""What is called by its size keeps that: no socket is sold as one of 0.39 in."""


def _pattern(units: tuple[str, ...]) -> re.Pattern[str]:
    signs = "|".join(re.escape(unit) for unit in units)
    return re.compile(
        rf"(?<![\w.,/])(?:{_MANY}|(?P<first>{_NUMBER})(?P<between>{_BETWEEN}))?"
        rf"(?P<last>{_NUMBER})[ \u00a0]?(?P<unit>{signs})(?![\w·/²³])"
    )


_FOREIGN = {system: _pattern(_SIGNS["inch" if system == "metric" else "metric"]) for system in _SIGNS}
_OWN_BEHIND = {
    system: re.compile(rf"(?:{'|'.join(re.escape(unit) for unit in units)})\s*$") for system, units in _SIGNS.items()
}


def in_own_units(text: str, telling: Telling) -> str:
    """A text with every figure of the other system told in the shop's first, the written one in brackets."""
    return _FOREIGN[telling.system].sub(lambda found: _told(found, text, telling), text)


def _told(found: re.Match[str], text: str, telling: Telling) -> str:
    if _stands_beside(text, found, telling) or _is_a_word(found) or _NOMINAL.match(text, found.end()):
        return found[0]
    unit = find_unit(found["unit"])
    dimension = ENERGY if unit.dimension == TORQUE and found["unit"] == "ft·lbf" else unit.dimension
    before = text[: found.start()].rstrip().lower()
    direction: Direction = next((side for words, side in _BOUNDS.items() if before.endswith(words)), "nearest")
    if before.endswith("about") and dimension != LENGTH:
        telling = replace(telling, digits=max(2, len(found["last"].replace(".", "").lstrip("0"))))
    last = _shown(found["last"], unit, dimension, telling, direction)
    if found["many"] is not None:
        many = (_shown(one, unit, dimension, telling, direction) for one in found["many"].split(", "))
        return f"{', '.join(one.rpartition(' ')[0] for one in many)}{found['and']}{last} ({found[0]})"
    if found["first"] is None:
        return f"{last} ({found[0]})"
    is_band = "±" in found["between"]
    first = _shown(found["first"], unit, dimension, telling, "nearest" if is_band else "up")
    last = _shown(found["last"], unit, dimension, telling, "up" if is_band else "down")
    return f"{first.rpartition(' ')[0] or first}{found['between']}{last} ({found[0]})"


def _shown(number: str, unit: Unit, dimension: Dimension, telling: Telling, direction: Direction) -> str:
    value = unit.to_si(Fraction(number.replace("−", "-")), dimension)
    if dimension == LENGTH and telling.system == "inch":
        # A tenth of a millimetre is told in thousandths of an inch: no length gets finer than it was written.
        finest = len(number.partition(".")[2]) + 2
        telling = replace(telling, decimals=min(telling.decimals, finest - INCH_EXTRA_DECIMALS))
    return telling.show(value, dimension, direction)


def _stands_beside(text: str, found: re.Match[str], telling: Telling) -> bool:
    """Whether the figure stands in brackets right behind one in the shop's own unit, or right before such brackets."""
    opened = text.rfind("(", 0, found.start())
    is_in_brackets = opened >= 0 and ")" not in text[opened : found.start()]
    if is_in_brackets and _OWN_BEHIND[telling.system].search(text[:opened]):
        return True
    behind = re.match(r"\s*\(([^()]*)\)", text[found.end() :])
    return behind is not None and _OWN_BEHIND[telling.system].search(behind[1]) is not None


def _is_a_word(found: re.Match[str]) -> bool:
    """Whether `in` behind a whole number is more likely the word."""
    return found["unit"] == "in" and "." not in found["last"]
