"""Limits: both ends are inside, a preload is a negative gap, a lone figure is none."""

from fractions import Fraction
from typing import Any

import pytest

from layshaft.quantity import FORCE, LENGTH, TEMPERATURE, TORQUE, Dimension, Limit, QuantityFault, parse_limit

MM = Fraction(1, 1000)


def millimetres(value: Fraction | None) -> Fraction | None:
    return None if value is None else value / MM


@pytest.mark.parametrize(
    ("text", "low", "high", "is_preload"),
    [
        ("0.10 .. 0.25 mm", "0.10", "0.25", False),
        ("4.2 ± 0.05 mm", "4.15", "4.25", False),
        ("40 +0.10 -0 mm", "40", "40.1", False),
        ("0.2 .. 0.2 mm", "0.2", "0.2", False),
        ("0.2 … 0.3 mm", "0.2", "0.3", False),
        ("at least 0.10 mm", "0.10", None, False),
        ("At  most 0.15 mm", None, "0.15", False),
        ("at most .006 in", None, "0.1524", False),
        ("-0.08 .. 0.02 mm", "-0.08", "0.02", False),
        ("preload 0.02 .. 0.08 mm", "-0.08", "-0.02", True),
        ("Preload 0.05 ± 0.03 mm", "-0.08", "-0.02", True),
        ("preload at least 0.02 mm", None, "-0.02", True),
        ("preload at most 0.08 mm", "-0.08", "0", True),
        ("preload 0 .. 0.08 mm", "-0.08", "0", True),
    ],
)
def test_limit_on_a_length(text: str, low: str | None, high: str | None, is_preload: bool) -> None:
    limit = parse_limit(text, LENGTH)
    assert millimetres(limit.low) == (None if low is None else Fraction(low))
    assert millimetres(limit.high) == (None if high is None else Fraction(high))
    assert limit.is_preload is is_preload
    assert limit.dimension == LENGTH
    assert limit.text == str(limit) == text


def test_other_dimensions() -> None:
    assert parse_limit("at least 3420 N", FORCE).low == 3420
    assert parse_limit("3420 N .. 4 kN").high == 4000
    assert parse_limit("at least 20 °C", TEMPERATURE).low == Fraction("293.15")
    assert parse_limit("at least 1.2").dimension.name == "a plain number"
    assert parse_limit("at most 5 N·m", TORQUE).dimension.name == "a torque"


def test_figure_exactly_on_an_end_is_inside() -> None:
    limit = parse_limit("0.010 .. 0.020 in")
    assert limit.contains(Fraction("0.000254"))
    assert limit.contains(Fraction("0.000508"))
    assert not limit.contains(Fraction("0.000253999999"))
    assert not limit.contains(Fraction("0.000508000001"))


@pytest.mark.parametrize(
    ("text", "middle", "width"),
    [
        ("0.10 .. 0.25 mm", "0.175", "0.15"),
        ("preload 0.02 .. 0.08 mm", "-0.05", "0.06"),
        ("at least 1 mm", None, None),
    ],
)
def test_middle_and_width(text: str, middle: str | None, width: str | None) -> None:
    limit = parse_limit(text)
    assert millimetres(limit.middle) == (None if middle is None else Fraction(middle))
    assert millimetres(limit.width) == (None if width is None else Fraction(width))


@pytest.mark.parametrize(
    ("text", "value", "distance"),
    [
        ("0.10 .. 0.25 mm", "0.12", "0.02"),
        ("0.10 .. 0.25 mm", "0.24", "0.01"),
        ("0.10 .. 0.25 mm", "0.10", "0"),
        ("0.10 .. 0.25 mm", "0.07", "-0.03"),
        ("0.10 .. 0.25 mm", "0.30", "-0.05"),
        ("at least 0.10 mm", "5", "4.9"),
        ("at most 0.10 mm", "5", "-4.9"),
    ],
)
def test_distance_is_signed(text: str, value: str, distance: str) -> None:
    limit = parse_limit(text)
    assert limit.distance(Fraction(value) * MM) == Fraction(distance) * MM


_FORMS = "0.10 .. 0.25 mm, at least 3420 N, at most 0.15 mm or preload 0.02 .. 0.08 mm"


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("", LENGTH, "Empty: found nothing; needed a length; try 0.875 in or 22.2 mm."),
        ("at least", LENGTH, "Empty: found nothing; needed a length; try 0.875 in or 22.2 mm."),
        ("preload", LENGTH, "Empty: found nothing; needed a length; try 0.875 in or 22.2 mm."),
        (
            "4 mm",
            LENGTH,
            (f"Not a limit: found '4 mm', one figure; needed two ends, or at least, or at most; try {_FORMS}."),
        ),
        (
            "max 4 mm",
            LENGTH,
            (f"Not a limit: found 'max 4 mm'; needed two ends, or at least, or at most; try {_FORMS}."),
        ),
        (
            "<= 4 mm",
            LENGTH,
            (f"Not a limit: found '<= 4 mm'; needed two ends, or at least, or at most; try {_FORMS}."),
        ),
        (
            "≥4 mm",
            LENGTH,
            f"Not a limit: found '≥4 mm'; needed two ends, or at least, or at most; try {_FORMS}.",
        ),
        (
            "at least 4 ± 1 mm",
            LENGTH,
            (f"Not a limit: found 'at least 4 ± 1 mm'; needed one figure behind at least or at most; try {_FORMS}."),
        ),
        (
            "preload -0.08 .. -0.02 mm",
            LENGTH,
            (
                "Not a limit: found 'preload -0.08 .. -0.02 mm'; "
                "needed a preload as a positive length; try preload 0.02 .. 0.08 mm."
            ),
        ),
        (
            "preload 1 .. 2 N·m",
            TORQUE,
            "Wrong dimension: found 'preload 1 .. 2 N·m' where a torque is due; "
            "needed the word preload for lengths only, as a gap that is negative; "
            "try the limit without the word.",
        ),
        (
            "preload 1 .. 2 N·m",
            None,
            ("Wrong dimension: found '1 .. 2 N·m', which is a torque; needed a length; try a figure in mm or in."),
        ),
        (
            "at least 5 N",
            LENGTH,
            ("Wrong dimension: found '5 N', which is a force; needed a length; try a figure in mm or in."),
        ),
        (
            "0.25 .. 0.10 mm",
            LENGTH,
            ("Range reversed: found '0.25 .. 0.10 mm'; needed the lower end first; try the ends swapped."),
        ),
    ],
)
def test_refusal(text: str, dimension: Dimension | None, message: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_limit(text, dimension)
    assert str(caught.value) == message


@pytest.mark.parametrize("value", [0.1, None, ("a",), {}])
def test_what_is_no_text_is_refused(value: Any) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_limit(value)
    assert caught.value.id == "not text"


def test_limit_open_at_both_ends_is_none() -> None:
    with pytest.raises(QuantityFault) as caught:
        Limit("anything", None, None, LENGTH)
    assert caught.value.id == "not a limit"
