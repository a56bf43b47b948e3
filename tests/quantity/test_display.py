"""Figures shown: units by habit, digits that mean something, rounding to the chosen side."""

from fractions import Fraction

import pytest

from layshaft.quantity import (
    ACCELERATION,
    ANGLE,
    AREA,
    DENSITY,
    ENERGY,
    EXPANSION,
    FORCE,
    FRACTION,
    FREQUENCY,
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    PURE,
    RATE,
    ROTATIONAL_SPEED,
    SPEED,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    TORSION_RATE,
    VOLUME,
    Dimension,
    QuantityFault,
    Show,
    parse_limit,
    parse_quantity,
)

METRIC = Show()
INCH = Show("inch")
PAPER = Show(is_typographic=True)
MM = Fraction(1, 1000)


@pytest.mark.parametrize(
    ("text", "dimension", "metric", "inch"),
    [
        ("0.7 mm", LENGTH, "0.70 mm", "0.0276 in"),
        ("1 1/2 in", LENGTH, "38.10 mm", "1.5000 in"),
        ("0 mm", LENGTH, "0.00 mm", "0.0000 in"),
        ("-0.08 mm", LENGTH, "-0.08 mm", "-0.0031 in"),
        ("4224.035 N", FORCE, "4.22 kN", "950 lbf"),
        ("29.28 N", FORCE, "29.3 N", "6.58 lbf"),
        ("600 lbf", FORCE, "2.67 kN", "600 lbf"),
        ("0 N", FORCE, "0 N", "0 lbf"),
        ("135.803 J", ENERGY, "136 J", "100 ft·lbf"),
        ("1500 J", ENERGY, "1.50 kJ", "1110 ft·lbf"),
        ("35 N·m", TORQUE, "35 N·m", "25.8 lbf·ft"),
        ("3.73 N·m", TORQUE, "3.73 N·m", "33.0 lbf·in"),
        ("1582.7 N·m", TORQUE, "1580 N·m", "1170 lbf·ft"),
        ("0.55 MPa", PRESSURE, "550 kPa", "79.8 psi"),
        ("79500 MPa", PRESSURE, "79.5 GPa", "11500000 psi"),
        ("3.2 MPa", PRESSURE, "3.20 MPa", "464 psi"),
        ("42.05 kg", MASS, "42.1 kg", "92.7 lb"),
        ("12 g", MASS, "12 g", "0.0265 lb"),
        ("65.693 N/mm", RATE, "65.7 N/mm", "375 lbf/in"),
        ("20 °C", TEMPERATURE, "20 °C", "68 °F"),
        ("20.5 °C", TEMPERATURE, "20.5 °C", "68.9 °F"),
        ("21.37 °C", TEMPERATURE, "21.4 °C", "70.5 °F"),
        ("60 K", TEMPERATURE_DIFFERENCE, "60 K", "108 °F"),
        ("45 s", TIME, "45 s", "45 s"),
        ("90 min", TIME, "1.50 h", "1.50 h"),
        ("8.003 deg", ANGLE, "8.00 deg", "8.00 deg"),
        ("30 %", FRACTION, "30 %", "30 %"),
        ("0.12", PURE, "0.120", "0.120"),
        ("14", PURE, "14", "14"),
        ("12345", PURE, "12345", "12345"),
        ("12638.6 mm2", AREA, "12600 mm²", "19.6 in²"),
        ("750 ml", VOLUME, "750 ml", "25.4 US fl oz"),
        ("2.5 L", VOLUME, "2.50 L", "2.64 US qt"),
        ("7.339 m/s", SPEED, "7.34 m/s", "24.1 ft/s"),
        ("900 rpm", ROTATIONAL_SPEED, "900 rpm", "900 rpm"),
        ("50 Hz", FREQUENCY, "50 Hz", "50 Hz"),
        ("9.80665 m/s2", ACCELERATION, "9.81 m/s²", "9.81 m/s²"),
        ("7.85 g/cm3", DENSITY, "7850 kg/m³", "0.284 lb/in³"),
        ("11.5e-6 1/K", EXPANSION, "11.5 ppm/K", "11.5 ppm/K"),
        ("2 N·m/rad", TORSION_RATE, "2 N·m/rad", "0.309 lbf·in/deg"),
        ("1.5 kW", POWER, "1.50 kW", "1.50 kW"),
    ],
)
def test_figure_in_both_habits(text: str, dimension: Dimension, metric: str, inch: str) -> None:
    value = parse_quantity(text, dimension).nominal
    assert METRIC.show(value, dimension) == metric
    assert INCH.show(value, dimension) == inch
    assert METRIC.show(float(value), dimension) == metric


def test_both_systems_stand_side_by_side_unless_they_are_one() -> None:
    assert METRIC.show_both(7 * MM / 10, LENGTH) == "0.70 mm (0.0276 in)"
    assert INCH.show_both(7 * MM / 10, LENGTH) == "0.0276 in (0.70 mm)"
    assert METRIC.show_both(Fraction(12, 100), PURE) == "0.120"


@pytest.mark.parametrize(
    ("value", "up", "nearest", "down"),
    [
        ("0.704", "0.71 mm", "0.70 mm", "0.70 mm"),
        ("0.705", "0.71 mm", "0.71 mm", "0.70 mm"),
        ("-0.705", "-0.70 mm", "-0.71 mm", "-0.71 mm"),
        ("0.70", "0.70 mm", "0.70 mm", "0.70 mm"),
    ],
)
def test_rounding_to_the_chosen_side(value: str, up: str, nearest: str, down: str) -> None:
    length = Fraction(value) * MM
    assert METRIC.show(length, LENGTH, "up") == up
    assert METRIC.show(length, LENGTH) == nearest
    assert METRIC.show(length, LENGTH, "down") == down
    assert METRIC.show(Fraction(4221), FORCE, "up") == "4.23 kN"
    assert METRIC.show(Fraction(4229), FORCE, "down") == "4.22 kN"


def test_noise_of_a_float_pushes_no_figure_up_a_step() -> None:
    assert METRIC.show(0.0007000000000000001, LENGTH, "up") == "0.70 mm"
    assert METRIC.show(0.1 + 0.2, PURE, "up") == "0.300"


def test_small_length_never_shows_as_nothing() -> None:
    assert METRIC.show(Fraction("0.000004"), LENGTH) == "0.004 mm"
    assert METRIC.show(Fraction("-0.00000012"), LENGTH) == "-0.0001 mm"


def test_digits_and_decimals_are_the_shops_choice() -> None:
    show = Show(digits=4, decimals=3)
    assert show.show(Fraction("0.0276") * Fraction("0.0254"), LENGTH) == "0.701 mm"
    assert show.show(Fraction("4224.035"), FORCE) == "4.224 kN"
    assert Show("inch", decimals=1).show(MM, LENGTH) == "0.039 in"


def test_paper_gets_a_true_minus_and_unbroken_units() -> None:
    assert PAPER.show(Fraction("-0.00008"), LENGTH) == "\u22120.08\u00a0mm"
    assert PAPER.show_both(Fraction("-0.00008"), LENGTH) == "\u22120.08\u00a0mm (\u22120.0031\u00a0in)"
    assert PAPER.show_limit(parse_limit("-0.10 .. 0.05 mm")) == "\u22120.10 to 0.05\u00a0mm"


def test_exact_figure_keeps_all_its_decimals() -> None:
    assert METRIC.show_exact(Fraction("0.0009043"), LENGTH) == "0.9043 mm"
    assert METRIC.show_exact(Fraction("0.0007"), LENGTH) == "0.70 mm"
    assert METRIC.show_exact(Fraction("3421.7"), FORCE) == "3.4217 kN"
    assert METRIC.show_exact(Fraction(1, 3000), LENGTH) == "0.33 mm"
    assert INCH.show_exact(Fraction("0.000127"), LENGTH) == "0.0050 in"


def test_figure_beside_a_bound_never_looks_like_it_unless_it_is() -> None:
    bound = Fraction("0.0009")
    assert METRIC.show_beside(Fraction("0.000904"), bound, LENGTH) == "0.904 mm"
    assert METRIC.show_beside(Fraction("0.00090000001"), bound, LENGTH) == "0.90000001 mm"
    assert METRIC.show_beside(bound, bound, LENGTH) == "0.90 mm"
    assert METRIC.show_beside(Fraction("0.0005"), bound, LENGTH) == "0.50 mm"
    assert METRIC.show_beside(Fraction(3419), Fraction(3420), FORCE) == "3.419 kN"
    assert METRIC.show_beside(Fraction("0.0009") + Fraction(1, 10**20), bound, LENGTH) == "0.900000000 mm"


@pytest.mark.parametrize(
    ("text", "metric", "inch"),
    [
        ("0.10 .. 0.25 mm", "0.10 .. 0.25 mm", "0.0040 .. 0.0098 in"),
        ("0.100 .. 0.105 mm", "0.100 .. 0.105 mm", "0.00394 .. 0.00413 in"),
        (".004 .. .010 in", "0.1016 .. 0.2540 mm", "0.0040 .. 0.0100 in"),
        ("preload 0.02 .. 0.08 mm", "preload 0.02 .. 0.08 mm", "preload 0.0008 .. 0.0031 in"),
        ("preload at most 0.08 mm", "preload 0.00 .. 0.08 mm", "preload 0.0000 .. 0.0031 in"),
        ("preload at least 0.02 mm", "preload at least 0.02 mm", "preload at least 0.0008 in"),
        ("at least 3420 N", "at least 3.42 kN", "at least 769 lbf"),
        ("at most 0.15 mm", "at most 0.15 mm", "at most 0.0059 in"),
        ("at least 123456 mm2", "at least 123456 mm²", "at least 192 in²"),
        ("123456 .. 123999 mm2", "123456 .. 123999 mm²", "191.36 .. 192.19 in²"),
        ("20 .. 40 °C", "20 .. 40 °C", "68 .. 104 °F"),
        ("1/3 .. 1/3 mm", "0.333333333 .. 0.333333333 mm", "0.013123360 .. 0.013123360 in"),
        ("0.3333333334 .. 0.33333333401 mm", "0.333333334 .. 0.333333334 mm", "0.013123360 .. 0.013123360 in"),
        ("1 .. 1 in", "25.40 .. 25.40 mm", "1.0000 .. 1.0000 in"),
    ],
)
def test_limit_is_shown_exact_or_rounded_inward(text: str, metric: str, inch: str) -> None:
    limit = parse_limit(text)
    assert METRIC.show_limit(limit) == metric
    assert INCH.show_limit(limit) == inch


def test_dimension_without_a_unit_of_its_own_is_shown_in_base_units() -> None:
    assert METRIC.show(Fraction(7, 2), MASS * LENGTH) == "3.50 m·kg"
    assert METRIC.show(Fraction(7, 2), FORCE * LENGTH) == "3.50 N·m"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_not_shown(value: float) -> None:
    with pytest.raises(QuantityFault) as caught:
        METRIC.show(value, LENGTH)
    assert caught.value.id == "not a number"
