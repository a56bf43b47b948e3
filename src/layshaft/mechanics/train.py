"""Gear trains as networks: shafts that turn, and the elements that tie their speeds together.

Here are ``Mesh``, ``PlanetarySet``, ``Chain``, ``Coupling``, ``Train`` and ``planetary``. Every element is
one linear equation between speeds, its ``ties``; the same coefficients share out its torque, which is why
speeds (`speed`) and torques (`torque`) need no rule for any kind of unit. A shaft is anything that turns as
one.

Tooth counts are signed: an internal gear is negative. A coupling is a clutch, a brake (to the case), a
one-way clutch or a dog; whether it is closed is said when a question is asked.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from layshaft.mechanics._domain import OutOfRange


def _require_teeth(name: str, *counts: int) -> None:
    for count in counts:
        if count == 0:
            raise OutOfRange(f"teeth_of_{name}", count, "a whole number other than zero")


def _tied(*terms: tuple[str, Fraction]) -> dict[str, Fraction]:
    tied: dict[str, Fraction] = {}
    for shaft, coefficient in terms:
        tied[shaft] = tied.get(shaft, Fraction(0)) + coefficient
    return {shaft: c for shaft, c in tied.items() if c}


@dataclass(frozen=True)
class Mesh:
    """Two gears in mesh, their axes fixed in the case or carried round by a carrier."""

    name: str
    first: str
    second: str
    first_teeth: int
    second_teeth: int
    carrier: str | None = None

    def __post_init__(self) -> None:
        _require_teeth(self.name, self.first_teeth, self.second_teeth)

    @property
    def ties(self) -> Mapping[str, Fraction]:
        """Coefficients of the speeds, whose weighted sum is zero."""
        first, second = Fraction(self.first_teeth), Fraction(self.second_teeth)
        terms = [(self.first, first), (self.second, second)]
        if self.carrier is not None:
            terms.append((self.carrier, -first - second))
        return _tied(*terms)


@dataclass(frozen=True)
class PlanetarySet:
    """Two central gears and a carrier, tied by the ratio the gears have while the carrier stands still.

    `standing_ratio` is turns of `sun` over turns of `ring` with the carrier held: -R/S for a plain set,
    +R/S with double planets, and with its sign for any compound planet.
    """

    name: str
    sun: str
    ring: str
    carrier: str
    standing_ratio: Fraction

    def __post_init__(self) -> None:
        if self.standing_ratio in (0, 1):
            raise OutOfRange(
                f"standing_ratio_of_{self.name}", self.standing_ratio, "other than none and other than one"
            )

    @property
    def ties(self) -> Mapping[str, Fraction]:
        """Coefficients of the speeds, whose weighted sum is zero."""
        ratio = Fraction(self.standing_ratio)
        return _tied((self.sun, Fraction(1)), (self.ring, -ratio), (self.carrier, ratio - 1))


@dataclass(frozen=True)
class Chain:
    """Two sprockets or toothed pulleys that turn the same way."""

    name: str
    first: str
    second: str
    first_teeth: int
    second_teeth: int

    def __post_init__(self) -> None:
        _require_teeth(self.name, self.first_teeth, self.second_teeth)

    @property
    def ties(self) -> Mapping[str, Fraction]:
        """Coefficients of the speeds, whose weighted sum is zero."""
        return _tied((self.first, Fraction(self.first_teeth)), (self.second, Fraction(-self.second_teeth)))


@dataclass(frozen=True)
class Coupling:
    """What can tie two shafts to one speed when closed, or hold one to the case (`second` left out)."""

    name: str
    first: str
    second: str | None = None

    @property
    def ties(self) -> Mapping[str, Fraction]:
        """Coefficients of the speeds, whose weighted sum is zero while it is closed."""
        terms = [(self.first, Fraction(1))]
        if self.second is not None:
            terms.append((self.second, Fraction(-1)))
        return _tied(*terms)


Element = Mesh | PlanetarySet | Chain | Coupling


@dataclass(frozen=True)
class Train:
    """Elements that always tie, and couplings that tie while closed."""

    elements: tuple[Mesh | PlanetarySet | Chain, ...]
    couplings: tuple[Coupling, ...] = ()

    def __post_init__(self) -> None:
        names = [element.name for element in (*self.elements, *self.couplings)]
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            raise OutOfRange("names_of_elements", twice, "each used once")

    @cached_property
    def shafts(self) -> tuple[str, ...]:
        """Every shaft once, in the order it is first named."""
        return tuple(dict.fromkeys(shaft for e in (*self.elements, *self.couplings) for shaft in e.ties))

    def tying(self, closed: Collection[str]) -> tuple[Element, ...]:
        """The elements and closed couplings that tie, in order; an unknown coupling is refused."""
        known = {coupling.name for coupling in self.couplings}
        unknown = sorted(set(closed) - known)
        if unknown:
            raise OutOfRange("closed_couplings", unknown, f"among {sorted(known)}")
        return (*self.elements, *(c for c in self.couplings if c.name in closed))

    def require_shafts(self, *shafts: str) -> None:
        """Refuse a shaft that the train does not have."""
        for shaft in shafts:
            if shaft not in self.shafts:
                raise OutOfRange("shaft", shaft, f"one of {list(self.shafts)}")


def planetary(name: str, sun: str, ring: str, carrier: str, sun_teeth: int, ring_teeth: int) -> PlanetarySet:
    """A plain planetary set from the signed teeth of its two central gears.

    Parameters
    ----------
    name : str
        Name of the set.
    sun : str
        Shaft of the first central gear.
    ring : str
        Shaft of the second central gear.
    carrier : str
        Shaft of the carrier.
    sun_teeth : int
        Teeth of the first central gear [-], negative if internal.
    ring_teeth : int
        Teeth of the second central gear [-], negative if internal, as a ring is.

    Returns
    -------
    PlanetarySet
        The set, with the standing ratio ring over sun: one planet between two gears keeps the sign of the
        counts, so sun 36 and ring -84 give -7/3.

    Raises
    ------
    OutOfRange
        A gear has no teeth.

    References
    ----------
    Willis's equation: z_s n_s + z_r n_r = (z_s + z_r) n_c for a plain set, as in R. S. Khurmi, J. K. Gupta,
    Theory of Machines, ch. 13.

    Example
    -------
    >>> planetary("set", "sun", "ring", "carrier", 36, -84).standing_ratio
    Fraction(-7, 3)
    """
    _require_teeth(name, sun_teeth, ring_teeth)
    return PlanetarySet(name, sun, ring, carrier, Fraction(ring_teeth, sun_teeth))
