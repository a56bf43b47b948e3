"""Written quantities that are refused: what the message says, and the traps that other readers fall into."""

from typing import Any

import pytest

from layshaft.quantity import (
    FORCE,
    FRACTION,
    LENGTH,
    PURE,
    TEMPERATURE,
    TIME,
    Dimension,
    QuantityFault,
    parse_quantity,
)


def fault_of(text: Any, dimension: Dimension | None = None) -> QuantityFault:
    with pytest.raises(QuantityFault) as caught:
        parse_quantity(text, dimension)
    return caught.value


@pytest.mark.parametrize(
    "text",
    ["12:30", "yes", "NO", "true", "null", "~", "1_0", "1_0 mm", "nan mm", "inf mm", ".inf", "0x1A mm"],
)
def test_words_that_other_readers_take_for_numbers_are_refused(text: str) -> None:
    assert fault_of(text, LENGTH).id in ("not a number", "unknown unit")


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("", LENGTH, "Empty: found nothing; needed a length; try 0.875 in or 22.2 mm."),
        ("  ", FORCE, "Empty: found nothing; needed a force; try a figure in N or lbf."),
        ("", PURE, "Empty: found nothing; needed a plain number; try 0.12 or 5 %."),
        (
            "0.875",
            LENGTH,
            "Missing unit: found '0.875' without a unit; needed a length with its unit in the text; "
            "try writing mm or in behind the figure.",
        ),
        (
            "4.2 mm ± 0.05",
            LENGTH,
            "Missing unit: found the last figure of '4.2 mm ± 0.05' without a unit; "
            "needed a length with its unit in the text; try writing mm or in behind the figure.",
        ),
        (
            "5 MM",
            LENGTH,
            "Unknown unit: found '5 MM' with the unit 'MM'; needed a unit from the closed list, "
            "upper and lower case as the SI writes it; try 5 mm.",
        ),
        (
            "20 ton",
            FORCE,
            "Ambiguous unit: found '20 ton' with the unit 'ton', and long, short and metric tons differ; "
            "needed a unit with one meaning; try kN, lbf or kg.",
        ),
        (
            "600 lb",
            FORCE,
            ("Wrong dimension: found '600 lb', which is a mass; needed a force; try a figure in lbf."),
        ),
        (
            "5 mm",
            FORCE,
            ("Wrong dimension: found '5 mm', which is a length; needed a force; try a figure in N or lbf."),
        ),
        (
            "3 deg",
            PURE,
            (
                "Wrong dimension: found '3 deg', which is an angle; needed a plain number; "
                "try a bare figure or one in %."
            ),
        ),
        (
            "1 mm .. 2 N",
            None,
            "Wrong dimension: found '1 mm .. 2 N' with a length and a force; needed units of one kind; "
            "try the same unit for both.",
        ),
        (
            "20 °C .. 300 K",
            None,
            "Wrong dimension: found '20 °C .. 300 K' with a temperature and a temperature difference; "
            "needed units of one kind; try the same unit for both.",
        ),
        (
            "1,250 mm",
            LENGTH,
            "Ambiguous comma: found '1,250', where the comma may mark a decimal or a thousand; "
            "needed a number with one meaning; try 1.250 or 1250.",
        ),
        (
            "1,234.5 mm",
            LENGTH,
            (
                "Mixed marks: found '1,234.5' with both a comma and a point; "
                "needed one decimal mark and no other; try 1234.5."
            ),
        ),
        (
            "0,10 .. 0.25 mm",
            LENGTH,
            "Mixed marks: found '0,10 .. 0.25 mm' with both a decimal comma and a decimal point; "
            "needed one decimal mark throughout; try 0.10 .. 0.25 mm.",
        ),
        ("yes", LENGTH, "Not a number: found 'yes'; needed a number in digits; try 0.875, 7/8 or 1 1/2."),
        (
            "12:30",
            TIME,
            ("Not a number: found '12:30'; needed one figure and its unit; try 0.875 in or 4.2 ± 0.05 mm."),
        ),
        (
            "0.10-0.25 mm",
            LENGTH,
            "Not a number: found '0.10-0.25 mm'; needed one figure and its unit; "
            "try two dots for a range, as in 0.10 .. 0.25 mm.",
        ),
        ("± 5 mm", LENGTH, "Not a number: found '± 5 mm'; needed a figure on both sides; try 4.2 ± 0.05 mm."),
        (
            "1e400 mm",
            LENGTH,
            (
                "Number out of bounds: found '1e400'; needed an exponent between -30 and 30; "
                "try a larger or smaller unit."
            ),
        ),
        (
            "0.25 .. 0.10 mm",
            LENGTH,
            ("Range reversed: found '0.25 .. 0.10 mm'; needed the lower end first; try the ends swapped."),
        ),
        (
            "1 .. 2 .. 3 mm",
            LENGTH,
            ("Not a tolerance: found '1 .. 2 .. 3 mm'; needed two ends of a range; try 0.10 .. 0.25 mm."),
        ),
        (
            "1 ± 2 ± 3 mm",
            LENGTH,
            ("Not a tolerance: found '1 ± 2 ± 3 mm'; needed one ± and one tolerance; try 4.2 ± 0.05 mm."),
        ),
        (
            "4 ± -0.1 mm",
            LENGTH,
            ("Not a tolerance: found '4 ± -0.1 mm'; needed a tolerance without a sign; try 4.2 ± 0.05 mm."),
        ),
        (
            "40 +0.1 mm",
            LENGTH,
            ("Not a tolerance: found '40 +0.1 mm'; needed an upper and a lower deviation; try 40 +0.10 -0 mm."),
        ),
        (
            "40 +0.1 +0.1 mm",
            LENGTH,
            ("Not a tolerance: found '40 +0.1 +0.1 mm'; needed two deviations that differ; try 40 +0.10 -0 mm."),
        ),
        (
            "80 °C ± 5 %",
            TEMPERATURE,
            "Not a tolerance: found '80 °C ± 5 %'; "
            "needed a tolerance in degrees, as a temperature has no natural zero; "
            "try 80 ± 4 °C.",
        ),
        (
            "5 ± 2 %",
            FRACTION,
            "Ambiguous percent: found '5 ± 2 %', where the tolerance "
            "may be one of the value or one in points; "
            "needed two ends of a range; try 3 .. 7 % or 4.9 .. 5.1, whichever is meant.",
        ),
        (
            "1/3 % ± 2 %",
            FRACTION,
            "Ambiguous percent: found '1/3 % ± 2 %', where the tolerance "
            "may be one of the value or one in points; "
            "needed two ends of a range; try 3 .. 7 %.",
        ),
        (
            "-5 K",
            TEMPERATURE,
            "Below absolute zero: found '-5 K'; needed a temperature of -273.15 °C or more; try 20 °C or 68 °F.",
        ),
        (
            "-300 °C",
            TEMPERATURE,
            ("Below absolute zero: found '-300 °C'; needed a temperature of -273.15 °C or more; try 20 °C or 68 °F."),
        ),
        (
            "5 ± 10 K",
            TEMPERATURE,
            ("Below absolute zero: found '5 ± 10 K'; needed a temperature of -273.15 °C or more; try 20 °C or 68 °F."),
        ),
        (
            "a\x00b",
            LENGTH,
            "Not a number: found 'a\\x00b'; needed a number in digits; try 0.875, 7/8 or 1 1/2.",
        ),
    ],
)
def test_refusal_says_what_was_found_and_what_to_try(text: str, dimension: Dimension | None, message: str) -> None:
    assert str(fault_of(text, dimension)) == message


def test_long_text_is_refused_and_cut_in_the_message() -> None:
    assert str(fault_of("1" * 121, LENGTH)) == (
        f"Too long: found '{'1' * 57}...' of 121 characters; needed at most 120 characters; "
        "try the figure and its unit alone."
    )
    assert parse_quantity("1" * 117 + " mm", LENGTH).si > 0


@pytest.mark.parametrize("value", [0.875, 3, None, True, ["1 mm"], b"1 mm"])
def test_what_is_no_text_is_refused(value: Any) -> None:
    assert fault_of(value).id == "not text"
