"""Numbers as written: decimals, inch fractions, the comma."""

from fractions import Fraction

import pytest

from layshaft.quantity import QuantityFault
from layshaft.quantity.number import as_decimal, read_number, spell_out_fractions


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", "12"),
        ("012", "12"),
        ("0.875", "7/8"),
        (".005", "1/200"),
        ("5.", "5"),
        ("-0.5", "-1/2"),
        ("+3", "3"),
        ("7/8", "7/8"),
        ("1 1/2", "3/2"),
        ("1-1/2", "3/2"),
        ("-1 1/2", "-3/2"),
        ("0/5", "0"),
        ("1,25", "5/4"),
        (",5", "1/2"),
        ("0,250", "1/4"),
        ("1,2500", "5/4"),
        ("1234,567", "1234567/1000"),
        ("1.250", "5/4"),
        ("00,250", "1/4"),
        ("11.5e-6", "23/2000000"),
        ("1E3", "1000"),
        ("2e+3", "2000"),
        ("1e-30", "1e-30"),
    ],
)
def test_number_is_exact(text: str, value: str) -> None:
    number = read_number(text)
    assert number.value == Fraction(value)
    assert number.end == len(text)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("1,250", "ambiguous comma"),
        ("12,345", "ambiguous comma"),
        ("999,000 mm", "ambiguous comma"),
        ("1,234,567", "ambiguous comma"),
        ("-1,250", "ambiguous comma"),
        ("1,234.5", "mixed marks"),
        ("1.234,5", "mixed marks"),
        ("1_0", "not a number"),
        ("1.2.3", "not a number"),
        ("nan", "not a number"),
        ("inf", "not a number"),
        ("-inf", "not a number"),
        ("", "not a number"),
        (".", "not a number"),
        (",", "not a number"),
        ("5,", "not a number"),
        ("--5", "not a number"),
        ("1/0", "not a number"),
        ("1 3/2", "not a number"),
        ("1 2/2", "not a number"),
        ("7/8/2", "not a number"),
        ("1.5/2", "not a number"),
        ("٣", "not a number"),
        ("５", "not a number"),
        ("0x10", None),
        ("1e400", "number out of bounds"),
        ("1e-31", "number out of bounds"),
        ("1e99999999999999999999", "number out of bounds"),
    ],
)
def test_anything_else_is_refused(text: str, fault: str | None) -> None:
    if fault is None:
        assert read_number(text).end < len(text)
        return
    try:
        number = read_number(text)
    except QuantityFault as caught:
        assert caught.id == fault
    else:
        assert fault == "not a number"
        assert number.end < len(text)


def test_several_commas_get_the_number_without_them() -> None:
    with pytest.raises(QuantityFault) as caught:
        read_number("1,234,567")
    assert caught.value.try_ == "1234567"


@pytest.mark.parametrize(("text", "spelled"), [("1½", "1 1/2"), ("¾", " 3/4"), ("2 ⅛ in", "2 1/8 in")])
def test_one_sign_fractions_are_spelled_out(text: str, spelled: str) -> None:
    assert spell_out_fractions(text) == spelled


@pytest.mark.parametrize(
    ("value", "written"),
    [("1/8", "0.125"), ("-3/2", "-1.5"), ("7", "7"), ("1/3", None), ("0", "0"), ("-1/200", "-0.005")],
)
def test_decimal_is_written_where_it_ends(value: str, written: str | None) -> None:
    assert as_decimal(Fraction(value)) == written
