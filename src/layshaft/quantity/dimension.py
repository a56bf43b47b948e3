"""What kind of thing a figure is: a length, a force, a temperature, and how those multiply.

The SI counts the radian as the number one. Here the angle keeps an exponent of its own, so that three
degrees never pass for a count of three, nor revolutions a minute for a frequency; `x / 1 rad` turns it into
a number where that is meant. A temperature read off a thermometer and a difference of two temperatures are
kept apart as well: 20 °C is 293.15 K as the one and 20 K as the other, and only the other may be multiplied.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from layshaft.quantity.fault import QuantityFault

_BASE_SYMBOLS = ("m", "kg", "s", "K", "rad")


@dataclass(frozen=True, slots=True)
class Dimension:
    """Exponents of the base quantities; equal exponents are one dimension, whatever its name."""

    length: int = 0
    mass: int = 0
    time: int = 0
    temperature: int = 0
    angle: int = 0
    is_absolute: bool = False
    label: str = field(default="", compare=False)

    @property
    def exponents(self) -> tuple[int, int, int, int, int]:
        """Powers of length, mass, time, temperature and angle."""
        return (self.length, self.mass, self.time, self.temperature, self.angle)

    @property
    def is_pure(self) -> bool:
        """Whether this is a plain number: a count, a ratio, a share."""
        return not any(self.exponents)

    @property
    def name(self) -> str:
        """The dimension in plain words, as in `a length`."""
        return self.label or f"a quantity in {self.base_symbol}"

    @property
    def base_symbol(self) -> str:
        """The coherent SI unit, written out in base units."""
        over = [_power(s, e) for s, e in zip(_BASE_SYMBOLS, self.exponents, strict=True) if e > 0]
        under = [_power(s, -e) for s, e in zip(_BASE_SYMBOLS, self.exponents, strict=True) if e < 0]
        if not under:
            return "·".join(over) or "1"
        bottom = "·".join(under)
        return f"{'·'.join(over) or '1'}/{bottom if len(under) == 1 else f'({bottom})'}"

    def __mul__(self, other: Dimension) -> Dimension:
        return self._combined(other, 1)

    def __truediv__(self, other: Dimension) -> Dimension:
        return self._combined(other, -1)

    def _combined(self, other: Dimension, sign: int) -> Dimension:
        for factor in (self, other):
            if factor.is_absolute:
                raise QuantityFault(
                    "wrong dimension",
                    "a temperature multiplied or divided",
                    "a temperature difference, as only a difference may be multiplied",
                    "subtracting a reference temperature first, as in (oil temperature - 20 °C)",
                )
        if other.is_pure:
            return self
        if self.is_pure and sign == 1:
            return other
        plain = Dimension(
            self.length + sign * other.length,
            self.mass + sign * other.mass,
            self.time + sign * other.time,
            self.temperature + sign * other.temperature,
            self.angle + sign * other.angle,
        )
        return _NAMED.get(plain, plain)

    def __str__(self) -> str:
        return self.name


def _power(symbol: str, exponent: int) -> str:
    return symbol if exponent == 1 else f"{symbol}^{exponent}"


PURE = Dimension(label="a plain number")
FRACTION = Dimension(label="a share")
ANGLE = Dimension(angle=1, label="an angle")

LENGTH = Dimension(1, label="a length")
AREA = Dimension(2, label="an area")
VOLUME = Dimension(3, label="a volume")

TIME = Dimension(time=1, label="a time")
FREQUENCY = Dimension(time=-1, label="a frequency")
ROTATIONAL_SPEED = Dimension(time=-1, angle=1, label="a rotational speed")
SPEED = Dimension(1, time=-1, label="a speed")
ACCELERATION = Dimension(1, time=-2, label="an acceleration")

MASS = Dimension(mass=1, label="a mass")
DENSITY = Dimension(-3, 1, label="a density")
FORCE = Dimension(1, 1, -2, label="a force")
RATE = Dimension(0, 1, -2, label="a spring rate")
TORQUE = Dimension(2, 1, -2, label="a torque")
ENERGY = Dimension(2, 1, -2, label="an energy")
TORSION_RATE = Dimension(2, 1, -2, angle=-1, label="a torsion spring rate")
PRESSURE = Dimension(-1, 1, -2, label="a pressure")
POWER = Dimension(2, 1, -3, label="a power")

TEMPERATURE = Dimension(temperature=1, is_absolute=True, label="a temperature")
TEMPERATURE_DIFFERENCE = Dimension(temperature=1, label="a temperature difference")
EXPANSION = Dimension(temperature=-1, label="a thermal expansion")

_TORQUE_OR_ENERGY = Dimension(2, 1, -2, label="a torque or an energy")

_NAMED: dict[Dimension, Dimension] = {
    d: d
    for d in (
        PURE, ANGLE, LENGTH, AREA, VOLUME, TIME, FREQUENCY, ROTATIONAL_SPEED, SPEED, ACCELERATION, MASS,
        DENSITY, FORCE, RATE, _TORQUE_OR_ENERGY, TORSION_RATE, PRESSURE, POWER, TEMPERATURE_DIFFERENCE,
        EXPANSION,
    )
}  # fmt: skip
