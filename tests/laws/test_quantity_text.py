"""Any text at all is either read or refused with a fault: never a bare error, never a guess."""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.quantity import (
    FAULT_IDS,
    FORCE,
    LENGTH,
    PURE,
    TEMPERATURE,
    QuantityFault,
    parse_expression,
    parse_limit,
    parse_money,
    parse_quantity,
    parse_reading,
)

NAMES = ("hub gap", "OT-044 thickness", "x", "min")
PIECES = [
    *[
        "0",
        "1",
        "2",
        "5",
        "12",
        "250",
        "0.5",
        ".5",
        "1,25",
        "1,250",
        "7/8",
        "1e3",
        "1e99",
        "_",
        ".",
        ",",
        "..",
        "…",
        "±",
        "+/-",
        "+",
        "-",
        "−",
        "x",
        "*",
        "/",
        "(",
        ")",
        ":",
        "½",
        "'",
        "٣",
        "nan",
        "inf",
        "yes",
    ],
    *[
        "mm",
        "in",
        "N",
        "°C",
        "K",
        "%",
        "deg",
        "kg",
        "lb",
        "ft-lb",
        "µm/(m·K)",
        "1/K",
        "CUR",
        "min",
        "max",
        "mean",
        "range",
        "abs",
        "preload",
        "at",
        "least",
        "most",
    ],
    *("hub gap", "OT-044 thickness", "\u00a0", "\n", "\x00", '"', ""),
]
PARSERS: dict[str, Callable[[str], Any]] = {
    "quantity": parse_quantity,
    "length": lambda text: parse_quantity(text, LENGTH),
    "temperature": lambda text: parse_quantity(text, TEMPERATURE),
    "number": lambda text: parse_quantity(text, PURE),
    "reading": lambda text: parse_reading(text, FORCE, "inch"),
    "limit": parse_limit,
    "length limit": lambda text: parse_limit(text, LENGTH),
    "money": parse_money,
    "expression": lambda text: parse_expression(text, NAMES),
}
some_text = st.one_of(
    st.text(max_size=40),
    st.lists(st.sampled_from(PIECES), max_size=9).map("".join),
    st.lists(st.sampled_from(PIECES), max_size=9).map(" ".join),
)


@pytest.mark.parametrize("parser", PARSERS)
@settings(max_examples=150)
@given(text=some_text)
def test_text_is_read_or_refused(parser: str, text: str) -> None:
    try:
        PARSERS[parser](text)
    except QuantityFault as fault:
        assert fault.id in FAULT_IDS
        sentence = str(fault)
        assert sentence.endswith(".")
        assert sentence.isprintable()
        assert fault.found and fault.needed and fault.try_


@settings(max_examples=150)
@given(text=some_text)
def test_what_was_read_has_bounds_in_order_and_finite_floats(text: str) -> None:
    try:
        quantity = parse_quantity(text)
    except QuantityFault:
        return
    assert quantity.low <= quantity.nominal <= quantity.high
    assert quantity.si_low <= quantity.si <= quantity.si_high
    assert abs(quantity.si) < float("inf")
    assert re.search("[0-9½]", text)


@given(text=some_text)
def test_expression_that_was_read_is_worked_out_or_refused(text: str) -> None:
    try:
        expression = parse_expression(text, NAMES)
        expression.dimension(dict.fromkeys(NAMES, LENGTH))
        value = expression.value(dict.fromkeys(NAMES, Fraction(3, 7)))
        low, high = expression.interval(dict.fromkeys(NAMES, (Fraction(3, 7), Fraction(3, 7))))
    except QuantityFault:
        return
    assert low <= value <= high


@given(
    digits=st.from_regex(r"\A[0-9]{1,4}\Z"),
    decimals=st.from_regex(r"\A[0-9]{1,5}\Z"),
    unit=st.sampled_from(["mm", "in", "N", "°C", "min"]),
)
def test_decimal_comma_means_the_point_or_is_refused(digits: str, decimals: str, unit: str) -> None:
    with_point = parse_quantity(f"{digits}.{decimals} {unit}")
    try:
        with_comma = parse_quantity(f"{digits},{decimals} {unit}")
    except QuantityFault as fault:
        assert fault.id == "ambiguous comma"
        assert len(decimals) == 3 and len(digits) <= 3 and int(digits) > 0
    else:
        assert with_comma.nominal == with_point.nominal
        assert not (len(decimals) == 3 and len(digits) <= 3 and int(digits) > 0)
