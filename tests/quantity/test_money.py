"""Money: exact, one currency, rounded once and half away from zero."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from layshaft.quantity import Money, QuantityFault, parse_money


def cur(amount: str) -> Money:
    return Money(Decimal(amount), "CUR")


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("12.50 CUR", "12.50"),
        ("12 CUR", "12.00"),
        ("12,5 CUR", "12.5"),
        ("0.0375 CUR", "0.0375"),
        ("-5.00 CUR", "-5.00"),
        ("+5.00CUR", "5.00"),
        (" 98.00  CUR ", "98.00"),
        ("1234,567 CUR", "1234.567"),
        ("0,125 CUR", "0.125"),
    ],
)
def test_amount_is_exact(text: str, amount: str) -> None:
    money = parse_money(text)
    assert money == cur(amount)
    assert money.amount == Decimal(amount)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "Empty: found nothing; needed an amount and its currency; try 12.50 CUR."),
        (
            "12.50",
            ("Not an amount: found '12.50'; needed an amount and the three letters of its currency; try 12.50 CUR."),
        ),
        (
            "CUR 12.50",
            (
                "Not an amount: found 'CUR 12.50'; "
                "needed an amount and the three letters of its currency; try 12.50 CUR."
            ),
        ),
        (
            "$12.50",
            ("Not an amount: found '$12.50'; needed an amount and the three letters of its currency; try 12.50 CUR."),
        ),
        (
            "1e3 CUR",
            ("Not an amount: found '1e3 CUR'; needed an amount and the three letters of its currency; try 12.50 CUR."),
        ),
        (
            "1_0 CUR",
            ("Not an amount: found '1_0 CUR'; needed an amount and the three letters of its currency; try 12.50 CUR."),
        ),
        (
            "nan CUR",
            ("Not an amount: found 'nan CUR'; needed an amount and the three letters of its currency; try 12.50 CUR."),
        ),
        ("12.50 cur", "Not an amount: found '12.50 cur'; needed the currency in capitals; try 12.50 CUR."),
        (
            "1,250 CUR",
            "Ambiguous comma: found '1,250 CUR', where the comma may mark a decimal or a thousand; "
            "needed an amount with one meaning; try 1.250 or 1250.",
        ),
        (
            "123,456 CUR",
            "Ambiguous comma: found '123,456 CUR', where the comma may mark a decimal or a thousand; "
            "needed an amount with one meaning; try 123.456 or 123456.",
        ),
        (
            "1,250.00 CUR",
            (
                "Mixed marks: found '1,250.00 CUR' with both a comma and a point; "
                "needed one decimal mark and no other; try 1250.00 CUR."
            ),
        ),
        (
            "1234567890123 CUR",
            "Number out of bounds: found '1234567890123 CUR'; "
            "needed at most 12 digits before the mark and 6 behind it; try 12.50 CUR.",
        ),
    ],
)
def test_refusal(text: str, message: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_money(text)
    assert str(caught.value) == message


@pytest.mark.parametrize("value", [12.5, Decimal("12.5"), None])
def test_what_is_no_text_is_refused(value: Any) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_money(value)
    assert caught.value.id == "not text"


def test_a_tenth_and_two_tenths_are_three_tenths() -> None:
    assert cur("0.1") + cur("0.2") == cur("0.3")
    assert cur("0.3") - cur("0.1") == cur("0.2")
    assert -cur("0.3") == cur("-0.3")


def test_sum_of_nothing_is_zero_of_its_currency() -> None:
    assert Money.total([], "CUR") == cur("0")
    assert Money.total([cur("1.10"), cur("2.20"), cur("3.30")], "CUR") == cur("6.60")


@pytest.mark.parametrize(
    ("amount", "factor", "product"),
    [
        ("12.50", 3, "37.50"),
        ("19.99", Fraction(1, 8), "2.49875"),
        ("100.00", Decimal("0.0825"), "8.25"),
        ("98.00", -2, "-196"),
    ],
)
def test_product_is_exact(amount: str, factor: int | Decimal | Fraction, product: str) -> None:
    assert cur(amount) * factor == cur(product)
    assert factor * cur(amount) == cur(product)


def test_product_that_never_ends_is_refused_and_can_be_rounded() -> None:
    rate = cur("98.00")
    with pytest.raises(QuantityFault) as caught:
        rate * Fraction(7, 60)
    assert str(caught.value) == (
        "No exact amount: found 98.00 CUR times 7/60, which never ends in decimals; "
        "needed a product that ends; "
        "try rounding it where the line is made, by rounded_product."
    )
    assert rate.rounded_product(Fraction(7, 60)) == cur("11.43")


@pytest.mark.parametrize(
    ("amount", "rounded"),
    # Halves away from zero, as a till does it; banker's rounding would give 0.12, -0.12 and 2.66.
    [
        ("0.125", "0.13"),
        ("-0.125", "-0.13"),
        ("2.665", "2.67"),
        ("0.1249", "0.12"),
        ("7", "7.00"),
        ("0.005", "0.01"),
    ],
)
def test_halves_go_away_from_zero(amount: str, rounded: str) -> None:
    assert str(cur(amount).rounded()) == f"{rounded} CUR"
    assert cur(amount).rounded_product(1) == cur(rounded)


def test_exact_product_has_no_more_decimals_than_it_needs() -> None:
    assert [str(cur("0.0375") * 3), str(cur("12.50") * 2), str(cur("8") * Fraction(1, 8))] == [
        "0.1125 CUR",
        "25.00 CUR",
        "1.00 CUR",
    ]


def test_currencies_are_not_mixed() -> None:
    other = Money(Decimal("1.00"), "TOK")
    for work in (
        lambda: cur("1.00") + other,
        lambda: cur("1.00") - other,
        lambda: cur("1.00") < other,
        lambda: cur("1.00") >= other,
        lambda: Money.total([other], "CUR"),
    ):
        with pytest.raises(QuantityFault) as caught:
            work()
        assert caught.value.id == "mixed currencies"
    assert cur("1.00") != other


def test_amounts_are_ordered() -> None:
    assert cur("1.00") < cur("1.10") <= cur("1.1")
    assert max(cur("3"), cur("20"), cur("1")) == cur("20")


def test_amount_is_shown_with_two_decimals_or_as_many_as_it_has() -> None:
    assert [str(cur(a)) for a in ("12", "12.5", "0.0375", "-3")] == [
        "12.00 CUR",
        "12.50 CUR",
        "0.0375 CUR",
        "-3.00 CUR",
    ]
