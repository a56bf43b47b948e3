"""The closed list of units: nothing in it twice, each the inverse of itself."""

from fractions import Fraction

import pytest

from layshaft.quantity import TEMPERATURE_DIFFERENCE, UNITS, Unit, find_unit
from layshaft.quantity.spelling import plain_form


def test_no_spelling_stands_for_two_units() -> None:
    spellings = [s for unit in UNITS for s in (unit.symbol, *unit.spellings)]
    assert len(spellings) == len(set(spellings))


def test_no_spelling_that_any_case_may_write_hides_another_unit() -> None:
    loose = {s.casefold(): u.symbol for u in UNITS if u.is_any_case for s in (u.symbol, *u.spellings)}
    for unit in UNITS:
        for spelling in (unit.symbol, *unit.spellings):
            folded = spelling.casefold()
            if folded in loose and spelling == folded:
                assert loose[folded] == unit.symbol


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.symbol)
def test_every_spelling_is_found(unit: Unit) -> None:
    for spelling in (unit.symbol, *unit.spellings):
        assert find_unit(spelling) is unit
        assert find_unit(plain_form(spelling)) is unit


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.symbol)
def test_there_and_back_is_exact(unit: Unit) -> None:
    for value in (Fraction(0), Fraction("0.005"), Fraction(7, 8), Fraction(-3)):
        assert unit.from_si(unit.to_si(value)) == value


def test_offset_belongs_to_the_temperature_and_not_to_a_difference() -> None:
    fahrenheit = find_unit("°F")
    assert fahrenheit.to_si(Fraction(68)) == Fraction("293.15")
    assert fahrenheit.to_si(Fraction(9), TEMPERATURE_DIFFERENCE) == 5
    assert fahrenheit.from_si(Fraction(5), TEMPERATURE_DIFFERENCE) == 9
