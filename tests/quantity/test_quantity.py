"""Written quantities: every form, the traps of the bench, and how a reading is taken."""

from fractions import Fraction
from time import perf_counter

import pytest

from layshaft.quantity import (
    ANGLE,
    ENERGY,
    EXPANSION,
    FORCE,
    FRACTION,
    LENGTH,
    MASS,
    PURE,
    RATE,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    Dimension,
    QuantityFault,
    System,
    parse_quantity,
    parse_reading,
)

MM = Fraction(1, 1000)


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("0.875 in", "22.225"),
        ("7/8 in", "22.225"),
        ("7/8in", "22.225"),
        ("1 1/2 in", "38.1"),
        ("1-1/2 in", "38.1"),
        ("1½ in", "38.1"),
        (".005 in", "0.127"),
        ('.005"', "0.127"),
        ("5 thou", "0.127"),
        ("0.127mm", "0.127"),
        ("1,25 mm", "1.25"),
        ("0,250 mm", "0.25"),
        ("-0.08 mm", "-0.08"),
        ("−0.08 mm", "-0.08"),
        ("1e-3 m", "1"),
        ("2 cm", "20"),
        ("1 ft", "304.8"),
        ("  3   mm ", "3"),
        ("3\u00a0mm", "3"),
        ("3\nmm", "3"),
        ("25 µm", "0.025"),
    ],
)
def test_plain_length(text: str, millimetres: str) -> None:
    quantity = parse_quantity(text, LENGTH)
    assert quantity.low == quantity.nominal == quantity.high == Fraction(millimetres) * MM
    assert quantity.is_plain
    assert quantity.text == text
    assert str(quantity) == text


@pytest.mark.parametrize(
    ("text", "low", "nominal", "high"),
    [
        ("4.2 ± 0.05 mm", "4.15", "4.2", "4.25"),
        ("4.2 +/- 0.05 mm", "4.15", "4.2", "4.25"),
        ("4.2±0.05mm", "4.15", "4.2", "4.25"),
        ("4.2 +- 0.05 mm", "4.15", "4.2", "4.25"),
        ("4.2 mm ± 0.05 mm", "4.15", "4.2", "4.25"),
        ("4,2 ± 0,05 mm", "4.15", "4.2", "4.25"),
        ("1 in ± 2 thou", "25.3492", "25.4", "25.4508"),
        ("1 1/2 ± 1/16 in", "36.5125", "38.1", "39.6875"),
        ("40 +0.10 -0 mm", "40", "40", "40.1"),
        ("40 -0 +0.10 mm", "40", "40", "40.1"),
        ("40 +0.10/-0 mm", "40", "40", "40.1"),
        ("40 +0.10 / -0.05 mm", "39.95", "40", "40.1"),
        ("40 mm +0.10 mm -0.05 mm", "39.95", "40", "40.1"),
        ("40 -0.025 -0.050 mm", "39.95", "39.9625", "39.975"),
        ("40 +0.2 +0.1 mm", "40.1", "40.15", "40.2"),
        ("0.10 .. 0.25 mm", "0.1", "0.175", "0.25"),
        ("0.10..0.25 mm", "0.1", "0.175", "0.25"),
        ("5..7 mm", "5", "6", "7"),
        ("0.10 mm .. 0.25 mm", "0.1", "0.175", "0.25"),
        ("0.10 … 0.25 mm", "0.1", "0.175", "0.25"),
        ("1 mm .. 1 in", "1", "13.2", "25.4"),
        ("-0.08 .. -0.02 mm", "-0.08", "-0.05", "-0.02"),
        ("1/2 .. 3/4 in", "12.7", "15.875", "19.05"),
        ("50 mm ± 2 %", "49", "50", "51"),
        ("-50 mm ± 2 %", "-51", "-50", "-49"),
    ],
)
def test_length_with_bounds(text: str, low: str, nominal: str, high: str) -> None:
    quantity = parse_quantity(text, LENGTH)
    assert [quantity.low, quantity.nominal, quantity.high] == [Fraction(x) * MM for x in (low, nominal, high)]
    assert not quantity.is_plain
    assert quantity.half_width == (Fraction(high) - Fraction(low)) / 2 * MM


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("3700 N ± 5 %", FORCE, 3700),
        ("3.7 kN", FORCE, 3700),
        ("600 lbf", FORCE, 2668.9329691563),
        ("35 N·m", TORQUE, 35),
        ("35 Nm", TORQUE, 35),
        ("35 J", ENERGY, 35),
        ("35 N·m", ENERGY, 35),
        ("35 J", TORQUE, 35),
        ("65.7 N/mm", RATE, 65700),
        ("5 %", FRACTION, 0.05),
        ("0.12", PURE, 0.12),
        ("14", PURE, 14),
        ("3 .. 7 %", FRACTION, 0.05),
        ("20 °C", TEMPERATURE, 293.15),
        ("20 ± 5 °C", TEMPERATURE, 293.15),
        ("293.15 K", TEMPERATURE, 293.15),
        ("68 °F", TEMPERATURE, 293.15),
        ("60 °C", TEMPERATURE_DIFFERENCE, 60),
        ("60 K", TEMPERATURE_DIFFERENCE, 60),
        ("11.5e-6 1/K", EXPANSION, 11.5e-6),
        ("11.5 µm/(m·K)", EXPANSION, 11.5e-6),
        ("90 deg", ANGLE, 1.5707963267948966),
        ("1.5 min", TIME, 90),
        ("1/2 h", TIME, 1800),
        ("42.05 kg", MASS, 42.05),
    ],
)
def test_other_dimensions(text: str, dimension: Dimension, si: float) -> None:
    quantity = parse_quantity(text, dimension)
    assert quantity.si == pytest.approx(si, rel=1e-15)
    assert quantity.dimension is dimension


def test_floats_are_those_of_the_exact_bounds() -> None:
    quantity = parse_quantity("4.2 ± 0.05 mm")
    assert (quantity.si_low, quantity.si, quantity.si_high) == (0.00415, 0.0042, 0.00425)


def test_percentage_is_of_the_value() -> None:
    load = parse_quantity("3700 N ± 5 %", FORCE)
    assert (load.low, load.high) == (3515, 3885)


def test_without_a_dimension_the_unit_says_what_it_is() -> None:
    assert parse_quantity("35 N·m").dimension.name == "a torque"
    assert parse_quantity("35 J").dimension.name == "an energy"
    assert parse_quantity("20 °C").dimension is TEMPERATURE
    assert parse_quantity("20 K").dimension is TEMPERATURE_DIFFERENCE
    assert parse_quantity("0.12").dimension is PURE


def test_same_text_under_two_names_keeps_both() -> None:
    assert parse_quantity("7 N·m", TORQUE).dimension.name == "a torque"
    assert parse_quantity("7 N·m", ENERGY).dimension.name == "an energy"
    assert parse_quantity("7 N·m", TORQUE).dimension.name == "a torque"


def test_ten_thou_and_ten_micrometres_are_25_4_apart() -> None:
    assert parse_quantity("0.010 in").nominal / parse_quantity("0.010 mm").nominal == Fraction("25.4")


@pytest.mark.parametrize(
    ("text", "dimension", "habit", "try_"),
    [
        ("0.70", LENGTH, "metric", "writing mm or in behind the figure"),
        ("0.70", LENGTH, "inch", "writing in or mm behind the figure"),
        ("35", TORQUE, "inch", "writing lbf·ft or N·m behind the figure"),
    ],
)
def test_reading_without_a_unit_is_refused_in_the_habit_of_the_shop(
    text: str, dimension: Dimension, habit: System, try_: str
) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_reading(text, dimension, habit)
    assert caught.value.id == "missing unit"
    assert caught.value.try_ == try_


@pytest.mark.parametrize("text", ["0.10 .. 0.12 mm", "4.2 ± 0.05 mm", "40 +0.1 -0 mm"])
def test_reading_is_one_figure(text: str) -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_reading(text, LENGTH)
    assert caught.value.id == "not one figure"


def test_reading_of_another_kind_is_refused_as_any_figure_is() -> None:
    with pytest.raises(QuantityFault) as caught:
        parse_reading("5 N", LENGTH)
    assert caught.value.id == "wrong dimension"


def test_mil_is_refused_where_it_may_mean_a_millimetre() -> None:
    assert parse_reading("5 mil", LENGTH, "inch").nominal == Fraction("0.000127")
    assert parse_reading("5 thou", LENGTH, "metric").nominal == Fraction("0.000127")
    with pytest.raises(QuantityFault) as caught:
        parse_reading("5 mils", LENGTH, "metric")
    assert caught.value.id == "ambiguous unit"


def test_reading_is_kept_as_typed() -> None:
    reading = parse_reading("0.0276 in", LENGTH, "inch")
    assert (reading.text, reading.nominal, reading.unit.symbol) == ("0.0276 in", Fraction("0.00070104"), "in")


def test_five_thousand_quantities_are_read_in_a_blink() -> None:
    texts = [f"{n / 1000:.3f} ± 0.05 mm" for n in range(5000)]
    for text in texts:
        parse_quantity(text, LENGTH)
    start = perf_counter()
    for text in texts:
        parse_quantity(text, LENGTH)
    # 3 ms measured on one slow core; the bound leaves room for a busy machine.
    assert perf_counter() - start < 0.060
