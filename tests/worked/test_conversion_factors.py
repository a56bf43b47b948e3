"""Factors to the SI against printed tables.

Sources: ASTM E380-82, Standard for Metric Practice, table of conversion factors (read in a program's copy of
it); NIST Special Publication 811, 2008 edition, Appendix B.8 and B.9, prints the same figures. Rows marked
(m) are those of Appendix B.8 from memory. All are rounded there to seven digits; the exact ones are
definitions.
"""

from fractions import Fraction

import pytest

from layshaft.quantity import TEMPERATURE, TEMPERATURE_DIFFERENCE, find_unit, parse_quantity

PRINTED = [
    ("in", "2.540000E-02"),
    ("ft", "3.048000E-01"),
    ("mil", "2.540000E-05"),
    ("µm", "1.000000E-06"),
    ("in²", "6.451600E-04"),
    ("in³", "1.638706E-05"),
    ("US qt", "9.463529E-04"),  # (m)
    ("US fl oz", "2.957353E-05"),  # (m)
    ("L", "1.000000E-03"),
    ("deg", "1.745329E-02"),
    ("lbf", "4.448222E+00"),
    ("kgf", "9.806650E+00"),
    ("lbf·in", "1.129848E-01"),
    ("lbf·ft", "1.355818E+00"),
    ("kgf·m", "9.806650E+00"),
    ("psi", "6.894757E+03"),
    ("ksi", "6.894757E+06"),
    ("bar", "1.000000E+05"),
    ("mbar", "1.000000E+02"),
    ("kgf/cm²", "9.806650E+04"),  # (m)
    ("lb", "4.535924E-01"),
    ("oz", "2.834952E-02"),
    ("lb/in³", "2.767990E+04"),
    ("g/cm³", "1.000000E+03"),
    ("ft/s", "3.048000E-01"),
    ("in/s", "2.540000E-02"),
    ("km/h", "2.777778E-01"),
    ("lbf/in", "1.751268E+02"),  # (m)
    ("rpm", "1.047198E-01"),  # (m)
    ("h", "3.600000E+03"),  # (m)
    ("min", "6.000000E+01"),  # (m)
    ("day", "8.640000E+04"),  # (m)
]


@pytest.mark.parametrize(("spelling", "printed"), PRINTED)
def test_factor_rounds_to_the_printed_seven_digits(spelling: str, printed: str) -> None:
    assert f"{float(find_unit(spelling).factor):.6E}" == printed


@pytest.mark.parametrize(
    ("spelling", "exact"),
    [
        # International yard and pound, 1959; NIST SP 811 B.8 footnotes: exact.
        ("in", "0.0254"),
        ("lb", "0.45359237"),
        ("lbf", "4.4482216152605"),
        ("kgf", "9.80665"),
    ],
)
def test_defined_factor_is_held_to_its_last_digit(spelling: str, exact: str) -> None:
    assert find_unit(spelling).factor == Fraction(exact)


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [
        # Fixed points of the two scales, as in NIST SP 811 B.9: K = °C + 273.15, K = (°F + 459.67)/1.8.
        ("0 °C", "273.15"),
        ("32 °F", "273.15"),
        ("100 °C", "373.15"),
        ("212 °F", "373.15"),
        ("-40 °C", "233.15"),
        ("-40 °F", "233.15"),
        ("-459.67 °F", "0"),
        ("-273.15 °C", "0"),
    ],
)
def test_temperatures_meet_at_the_fixed_points(text: str, kelvin: str) -> None:
    assert parse_quantity(text, TEMPERATURE).nominal == Fraction(kelvin)


def test_difference_of_180_fahrenheit_is_100_kelvin() -> None:
    assert parse_quantity("180 °F", TEMPERATURE_DIFFERENCE).nominal == 100


def test_pi_agrees_with_machins_formula_to_fifty_decimals() -> None:
    # J. Machin, 1706: pi/4 = 4 arctan(1/5) - arctan(1/239), summed here in whole numbers.
    def arctan_of_inverse(n: int, scale: int) -> int:
        total = term = scale // n
        k = 1
        while term:
            term //= -n * n
            k += 2
            total += term // k
        return total

    scale = 10**70
    pi = 4 * (4 * arctan_of_inverse(5, scale) - arctan_of_inverse(239, scale))
    assert abs(180 * find_unit("deg").factor - Fraction(pi, scale)) < Fraction(1, 10**50)
