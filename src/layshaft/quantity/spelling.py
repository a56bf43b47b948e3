"""From a unit as someone spells it to the one unit it can mean, or a refusal that names the nearest."""

from __future__ import annotations

import re
from functools import lru_cache

from layshaft.quantity.dimension import Dimension
from layshaft.quantity.fault import QuantityFault, nearest, quote
from layshaft.quantity.unit import UNITS, System, Unit

_AMBIGUOUS = {
    "ton": ("kN, lbf or kg", "long, short and metric tons differ"),
    "tons": ("kN, lbf or kg", "long, short and metric tons differ"),
    "'": ("ft for feet, deg for an angle", "the mark stands for feet and for minutes of arc"),
    "''": ('in, or the mark "', "two single marks stand for inches and for seconds of arc"),
    "qt": ("L or ml", "US and imperial quarts differ"),
    "quart": ("L or ml", "US and imperial quarts differ"),
    "quarts": ("L or ml", "US and imperial quarts differ"),
    "pt": ("L or ml", "US and imperial pints differ"),
    "gal": ("L or ml", "US and imperial gallons differ"),
    "hp": ("kW", "mechanical and metric horsepower differ"),
}

_CHARACTERS = str.maketrans(
    {
        "⋅": "·", "∙": "·", "•": "·", "*": "·", "×": "·",
        "μ": "µ", "º": "°", "˚": "°", "″": '"', "”": '"', "“": '"', "′": "'", "’": "'",
        "℃": "°C", "℉": "°F", "²": "2", "³": "3",
    }
)  # fmt: skip
_JOINT = re.compile(r"(?<=[A-Za-z])(?:\.[- ]| ?[-.] ?)(?=[A-Za-z])")
_SPACE_ABOUT = re.compile(r" ?([·/()]) ?|(°) (?=[CF])")
_RAISED = re.compile(r"(?<=[a-z])\^?([23])(?![0-9])")

_EXACT: dict[str, Unit] = {s: unit for unit in UNITS for s in (unit.symbol, *unit.spellings)}
_FOLDED: dict[str, Unit] = {
    s.casefold(): unit for unit in UNITS if unit.is_any_case for s in (unit.symbol, *unit.spellings)
}


def plain_form(spelling: str) -> str:
    """The spelling with one mark for each meaning: raised dot for a product, ² and ³ for powers."""
    text = " ".join(spelling.translate(_CHARACTERS).split())
    text = _SPACE_ABOUT.sub(r"\1\2", _JOINT.sub("·", text)).removesuffix(".")
    return _RAISED.sub(lambda m: "²" if m[1] == "2" else "³", text)


@lru_cache(maxsize=1024)
def find_unit(spelling: str) -> Unit:
    """The unit meant by a spelling, or a fault with the nearest known one."""
    form = plain_form(spelling)
    for candidate in (form, form.replace(" ", "·")):
        unit = _EXACT.get(candidate) or _FOLDED.get(candidate.casefold())
        if unit is not None:
            return unit
    ambiguous = _AMBIGUOUS.get(form.casefold())
    if ambiguous is not None:
        units, why = ambiguous
        found = f"the unit {quote(spelling)}, and {why}"
        raise QuantityFault("ambiguous unit", found, "a unit with one meaning", units)
    raise QuantityFault(
        "unknown unit",
        f"the unit {quote(spelling)}",
        "a unit from the closed list, upper and lower case as the SI writes it",
        _nearest_symbol(form),
    )


@lru_cache(maxsize=1024)
def _nearest_symbol(form: str) -> str:
    near = nearest(form, _EXACT)
    return _EXACT[near].symbol if near else "mm, in, N, lbf, N·m, lbf·ft, MPa, psi, kg, min or °C"


def usual_units(dimension: Dimension, habit: System | None = None) -> str:
    """The first units of a dimension in words for a message, as in `mm or in`."""
    if dimension.is_pure:
        return "no unit, or %"
    fitting = [unit for unit in UNITS if unit.fits(dimension)]
    fitting.sort(key=lambda unit: unit.dimension.label != dimension.label)
    firsts = [next((u.symbol for u in fitting if u.system == system), None) for system in ("metric", "inch")]
    if habit == "inch":
        firsts.reverse()
    names = [name for name in firsts if name]
    return " or ".join(names) if names else dimension.base_symbol
