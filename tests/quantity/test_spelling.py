"""Units as people spell them: what is harmless is taken, what is not is refused with the nearest."""

import pytest

from layshaft.quantity import (
    ENERGY,
    FORCE,
    LENGTH,
    PURE,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TORQUE,
    QuantityFault,
    find_unit,
    usual_units,
)


@pytest.mark.parametrize(
    ("spelling", "symbol"),
    [
        ("in", "in"),
        ("IN", "in"),
        ("in.", "in"),
        ("inch", "in"),
        ("Inches", "in"),
        ('"', "in"),
        ("”", "in"),
        ("″", "in"),
        ("thou", "thou"),
        ("mil", "thou"),
        ("um", "µm"),
        ("μm", "µm"),
        ("µm", "µm"),
        ("Nm", "N·m"),
        ("N·m", "N·m"),
        ("N*m", "N·m"),
        ("N m", "N·m"),
        ("N.m", "N·m"),
        ("N-m", "N·m"),
        ("N ⋅ m", "N·m"),
        ("ft-lb", "lbf·ft"),
        ("lb-ft", "lbf·ft"),
        ("lb ft", "lbf·ft"),
        ("ft.-lb.", "lbf·ft"),
        ("FT-LB", "lbf·ft"),
        ("lbf·ft", "lbf·ft"),
        ("ft·lbf", "lbf·ft"),
        ("ft-lbs", "lbf·ft"),
        ("in-lb", "lbf·in"),
        ("lbf.in", "lbf·in"),
        ("N/mm2", "MPa"),
        ("N/mm²", "MPa"),
        ("N/mm^2", "MPa"),
        ("lb/in2", "psi"),
        ("PSI", "psi"),
        ("Bar", "bar"),
        ("mm2", "mm²"),
        ("mm^3", "mm³"),
        ("cc", "ml"),
        ("l", "L"),
        ("mL", "ml"),
        ("lb/in", "lbf/in"),
        ("N / mm", "N/mm"),
        ("°C", "°C"),
        ("degC", "°C"),
        ("deg C", "°C"),
        ("° C", "°C"),
        ("℃", "°C"),
        ("C", "°C"),
        ("ºC", "°C"),
        ("degF", "°F"),
        ("°F", "°F"),
        ("F", "°F"),
        ("°", "deg"),
        ("DEG", "deg"),
        ("rev/min", "rpm"),
        ("RPM", "rpm"),
        ("1/K", "1/K"),
        ("/K", "1/K"),
        ("K^-1", "1/K"),
        ("µm/(m·K)", "ppm/K"),
        ("um/m/K", "ppm/K"),
        ("percent", "%"),
        ("Minutes", "min"),
        ("hr", "hour"),
        ("h", "h"),
        ("lbs", "lb"),
    ],
)
def test_harmless_spelling_is_taken(spelling: str, symbol: str) -> None:
    assert find_unit(spelling).symbol == symbol


@pytest.mark.parametrize(
    ("spelling", "nearest"),
    [
        ("MM", "mm"),
        ("KN", "kN"),
        ("KG", "kg"),
        ("mpa", "MPa"),
        ("Kpa", "kPa"),
        ("n", "N"),
        ("NM", "N·m"),
        ("nm", "N·m"),
        ("mmm", "mm"),
        ("inc", "in"),
        ("pis", "psi"),
        ("lbft", "lbf·ft"),
        ("celsius", "°C"),
    ],
)
def test_other_spelling_is_refused_with_the_nearest(spelling: str, nearest: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        find_unit(spelling)
    assert caught.value.id == "unknown unit"
    assert nearest in caught.value.try_


@pytest.mark.parametrize("spelling", ["ton", "Tons", "'", "''", "qt", "pt", "gal", "hp"])
def test_spelling_with_two_meanings_is_refused(spelling: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        find_unit(spelling)
    assert caught.value.id == "ambiguous unit"


def test_usual_units_follow_the_habit() -> None:
    assert usual_units(LENGTH) == "mm or in"
    assert usual_units(LENGTH, "inch") == "in or mm"
    assert usual_units(FORCE, "metric") == "N or lbf"
    assert usual_units(ENERGY) == "J or lbf·ft"
    assert usual_units(TORQUE) == "N·m or lbf·ft"
    assert usual_units(TEMPERATURE) == "°C or °F"
    assert usual_units(TEMPERATURE_DIFFERENCE) == "K or °F"
    assert usual_units(PURE) == "no unit, or %"
    assert usual_units(LENGTH * FORCE * FORCE) == "m^3·kg^2/s^4"
