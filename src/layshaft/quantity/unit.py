"""The closed list of units with their exact factors to the SI.

The yard and the pound are exact by definition, and all inch units here are derived from them and from
standard gravity, so that no factor is a rounded one. Degrees and revolutions need pi, which no fraction
holds: it is taken to fifty decimals, far beyond what a float or a gauge can tell.

References
----------
NIST Special Publication 811, A. Thompson and B. N. Taylor, Guide for the Use of the International System of
Units (SI), 2008 edition, Appendix B (factors in bold are exact).
BIPM, The International System of Units (SI), 9th edition, 2019, sections 2.3 and 4.
ISO 80000-3:2019 and ISO 80000-4:2019 (names of the quantities).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layshaft.quantity import dimension as kind
from layshaft.quantity.dimension import Dimension

System = Literal["metric", "inch"]

PI = Fraction(314159265358979323846264338327950288419716939937510, 10**50)

INCH = Fraction("0.0254")
POUND = Fraction("0.45359237")
STANDARD_GRAVITY = Fraction("9.80665")
POUND_FORCE = POUND * STANDARD_GRAVITY
_FOOT = 12 * INCH
_PSI = POUND_FORCE / INCH**2
_DEGREE = PI / 180
_KELVIN_AT_0_C = Fraction("273.15")
_FAHRENHEIT = Fraction(5, 9)


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its symbol, its dimension, and value in SI = value x factor + offset."""

    symbol: str
    dimension: Dimension
    factor: Fraction
    system: System
    spellings: tuple[str, ...] = ()
    is_any_case: bool = False
    offset: Fraction = Fraction(0)

    def to_si(self, value: Fraction, dimension: Dimension | None = None) -> Fraction:
        """The value in the SI; a difference of temperatures takes no offset."""
        return value * self.factor + self._shift(dimension)

    def from_si(self, value: Fraction, dimension: Dimension | None = None) -> Fraction:
        """The SI value in this unit; a difference of temperatures takes no offset."""
        return (value - self._shift(dimension)) / self.factor

    def _shift(self, dimension: Dimension | None) -> Fraction:
        return self.offset if (dimension or self.dimension).is_absolute else Fraction(0)

    def fits(self, dimension: Dimension) -> bool:
        """Whether a figure in this unit may stand where that dimension is due."""
        return self.dimension.exponents == dimension.exponents


def _metric(symbol: str, dimension: Dimension, factor: str | Fraction | int, *spellings: str) -> Unit:
    return Unit(symbol, dimension, Fraction(factor), "metric", spellings)


def _word(symbol: str, dimension: Dimension, factor: str | Fraction | int, *spellings: str) -> Unit:
    return Unit(symbol, dimension, Fraction(factor), "metric", spellings, is_any_case=True)


def _inch(symbol: str, dimension: Dimension, factor: Fraction, *spellings: str) -> Unit:
    return Unit(symbol, dimension, factor, "inch", spellings, is_any_case=True)


# Spellings are in the plain form that `spelling.plain_form` gives: a raised dot for a product, ² and ³.
UNITS: tuple[Unit, ...] = (
    _metric("mm", kind.LENGTH, "0.001", "millimetre", "millimetres", "millimeter", "millimeters"),
    _metric("m", kind.LENGTH, 1, "metre", "metres", "meter", "meters"),
    _metric("cm", kind.LENGTH, "0.01"),
    _metric("km", kind.LENGTH, 1000),
    _metric("µm", kind.LENGTH, "0.000001", "um", "micron", "microns"),
    _inch("in", kind.LENGTH, INCH, "inch", "inches", '"'),
    _inch("thou", kind.LENGTH, INCH / 1000, "mil", "mils"),
    _inch("ft", kind.LENGTH, _FOOT, "foot", "feet"),
    _metric("mm²", kind.AREA, "0.000001"),
    _metric("cm²", kind.AREA, "0.0001"),
    _metric("m²", kind.AREA, 1),
    _inch("in²", kind.AREA, INCH**2, "sq·in", "sq in"),
    _metric("ml", kind.VOLUME, "0.000001", "mL", "cm³", "cc"),
    _metric("L", kind.VOLUME, "0.001", "l", "litre", "litres", "liter", "liters"),
    _metric("mm³", kind.VOLUME, "0.000000001"),
    _metric("m³", kind.VOLUME, 1),
    _inch("in³", kind.VOLUME, INCH**3, "cu·in", "cu in"),
    # The US liquid gallon is 231 in³; others differ, so that the sign says whose it is.
    _inch("US qt", kind.VOLUME, INCH**3 * 231 / 4, "US quart", "US quarts"),
    _inch("US fl oz", kind.VOLUME, INCH**3 * 231 / 128),
    _metric("N", kind.FORCE, 1, "newton", "newtons"),
    _metric("kN", kind.FORCE, 1000),
    _metric("daN", kind.FORCE, 10),
    _metric("kgf", kind.FORCE, STANDARD_GRAVITY, "kp"),
    _inch("lbf", kind.FORCE, POUND_FORCE),
    _metric("N·m", kind.TORQUE, 1, "Nm"),
    _metric("kN·m", kind.TORQUE, 1000, "kNm"),
    _metric("N·mm", kind.TORQUE, "0.001", "Nmm"),
    _metric("N·cm", kind.TORQUE, "0.01", "Ncm"),
    _metric("kgf·m", kind.TORQUE, STANDARD_GRAVITY, "m·kgf"),
    _metric("kgf·cm", kind.TORQUE, STANDARD_GRAVITY / 100, "cm·kgf"),
    _inch("lbf·ft", kind.TORQUE, POUND_FORCE * _FOOT, "ft·lbf", "lb·ft", "ft·lb", "ft·lbs", "lbs·ft"),
    _inch("lbf·in", kind.TORQUE, POUND_FORCE * INCH, "in·lbf", "lb·in", "in·lb", "in·lbs", "lbs·in"),
    _metric("J", kind.ENERGY, 1, "joule", "joules"),
    _metric("kJ", kind.ENERGY, 1000),
    _metric("mJ", kind.ENERGY, "0.001"),
    _metric("MPa", kind.PRESSURE, 10**6, "N/mm²"),
    _metric("kPa", kind.PRESSURE, 1000),
    _metric("Pa", kind.PRESSURE, 1, "N/m²"),
    _metric("GPa", kind.PRESSURE, 10**9),
    _word("bar", kind.PRESSURE, 10**5),
    _metric("mbar", kind.PRESSURE, 100),
    _metric("kgf/cm²", kind.PRESSURE, STANDARD_GRAVITY * 10**4),
    _inch("psi", kind.PRESSURE, _PSI, "lbf/in²", "lb/in²"),
    _inch("ksi", kind.PRESSURE, _PSI * 1000),
    _metric("kg", kind.MASS, 1),
    _metric("g", kind.MASS, "0.001", "gram", "grams"),
    _metric("t", kind.MASS, 1000, "tonne", "tonnes"),
    _inch("lb", kind.MASS, POUND, "lbs", "lbm"),
    _inch("oz", kind.MASS, POUND / 16),
    _metric("s", kind.TIME, 1),
    _word("min", kind.TIME, 60, "mins", "minute", "minutes"),
    _metric("h", kind.TIME, 3600),
    _word("hour", kind.TIME, 3600, "hours", "hr", "hrs"),
    _word("sec", kind.TIME, 1, "second", "seconds"),
    _word("day", kind.TIME, 86400, "days"),
    _metric("ms", kind.TIME, "0.001"),
    Unit("°C", kind.TEMPERATURE, Fraction(1), "metric", ("degC", "deg C", "C"), offset=_KELVIN_AT_0_C),
    Unit(
        "°F", kind.TEMPERATURE, _FAHRENHEIT, "inch", ("degF", "deg F", "F"),
        offset=Fraction("459.67") * _FAHRENHEIT,
    ),
    # Differences are what a kelvin is used for at the bench; where a temperature is due, it is read as one.
    _metric("K", kind.TEMPERATURE_DIFFERENCE, 1),
    _metric("1/K", kind.EXPANSION, 1, "/K", "K^-1", "1/°C", "/°C"),
    _metric("ppm/K", kind.EXPANSION, "0.000001", "µm/(m·K)", "um/(m·K)", "µm/m/K", "um/m/K", "ppm/°C"),
    _inch("1/°F", kind.EXPANSION, 1 / _FAHRENHEIT, "/°F"),
    _metric("rad", kind.ANGLE, 1),
    _metric("mrad", kind.ANGLE, "0.001"),
    _word("deg", kind.ANGLE, _DEGREE, "°", "degree", "degrees"),
    _word("turn", kind.ANGLE, 2 * PI, "turns", "rev", "revs"),
    _metric("m/s", kind.SPEED, 1),
    _metric("mm/s", kind.SPEED, "0.001"),
    _metric("mm/min", kind.SPEED, Fraction(1, 60000)),
    _metric("km/h", kind.SPEED, Fraction(1000, 3600)),
    _inch("ft/s", kind.SPEED, _FOOT),
    _inch("in/s", kind.SPEED, INCH),
    _word("rpm", kind.ROTATIONAL_SPEED, 2 * PI / 60, "r/min", "rev/min"),
    _metric("rad/s", kind.ROTATIONAL_SPEED, 1),
    _metric("Hz", kind.FREQUENCY, 1, "1/s", "/s"),
    _metric("kHz", kind.FREQUENCY, 1000),
    _metric("m/s²", kind.ACCELERATION, 1),
    _metric("N/mm", kind.RATE, 1000),
    _metric("N/m", kind.RATE, 1),
    _metric("kN/mm", kind.RATE, 10**6, "MN/m"),
    _metric("kgf/mm", kind.RATE, STANDARD_GRAVITY * 1000),
    _inch("lbf/in", kind.RATE, POUND_FORCE / INCH, "lb/in", "lbs/in"),
    _metric("N·m/rad", kind.TORSION_RATE, 1, "Nm/rad"),
    _metric("N·m/deg", kind.TORSION_RATE, 1 / _DEGREE, "Nm/deg", "N·m/°", "Nm/°"),
    _inch("lbf·in/deg", kind.TORSION_RATE, POUND_FORCE * INCH / _DEGREE, "in·lb/deg", "lbf·in/°"),
    _metric("kg/m³", kind.DENSITY, 1),
    _metric("g/cm³", kind.DENSITY, 1000),
    _inch("lb/in³", kind.DENSITY, POUND / INCH**3),
    _metric("W", kind.POWER, 1),
    _metric("kW", kind.POWER, 1000),
    _metric("%", kind.FRACTION, "0.01", "percent"),
)  # fmt: skip

ONE = Unit("", kind.PURE, Fraction(1), "metric")
"""The unit of a plain number: none."""

UNIT_BY_SYMBOL: dict[str, Unit] = {unit.symbol: unit for unit in UNITS}
