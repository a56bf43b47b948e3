"""Fits: growth with heat, and the pressure and stress of one ring pressed on another.

Here are ``thermal_growth``, ``growth_difference``, ``temperature_for_growth``, ``interference_pressure``,
``hoop_stress_outside``, ``hoop_stress_inside``, ``press_force`` and ``slip_torque``. Plane stress after Lame,
elastic, round, no friction along the axis. Roughness takes some of a measured interference; not here, nor are
tolerance tables.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import (
    Real,
    require_above,
    require_at_least,
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)


def thermal_growth(length: Real, expansion: Real, rise: Real) -> Real:
    """Growth of a length with heat.

    Parameters
    ----------
    length : float or array
        Length or diameter [m].
    expansion : float or array
        Thermal expansion of the material [1/K].
    rise : float or array
        Rise of temperature, negative for cooling [K].

    Returns
    -------
    float or array
        Growth [m].

    Raises
    ------
    OutOfRange
        Length is not above zero, expansion is negative, or the rise is not finite.

    References
    ----------
    R. C. Hibbeler, Mechanics of Materials, thermal strain; T. H. Wentzell, Machine Design, Example 6.3.

    Example
    -------
    An iron case warm from the wash, in millimetres:

    >>> round(thermal_growth(0.325, 10.8e-6, 40.0) * 1000, 2)
    0.14
    """
    require_positive(length=length)
    require_not_negative(expansion=expansion)
    require_finite(rise=rise)
    return length * expansion * rise


def growth_difference(length: Real, outer_expansion: Real, inner_expansion: Real, rise: Real) -> Real:
    """What an outer part grows more than an inner part over a shared length.

    Parameters
    ----------
    length : float or array
        Shared length or diameter [m].
    outer_expansion : float or array
        Thermal expansion of the outer part [1/K].
    inner_expansion : float or array
        Thermal expansion of the inner part [1/K].
    rise : float or array
        Rise of temperature of both, negative for cooling [K].

    Returns
    -------
    float or array
        Clearance gained [m], negative where it gets tighter.

    Raises
    ------
    OutOfRange
        Length is not above zero, an expansion is negative, or the rise is not finite.

    References
    ----------
    Difference of two thermal growths.

    Example
    -------
    >>> round(growth_difference(0.150, 23e-6, 11.7e-6, 80.0) * 1000, 4)
    0.1356
    """
    outer = thermal_growth(length, outer_expansion, rise)
    return outer - thermal_growth(length, inner_expansion, rise)


def temperature_for_growth(growth: Real, length: Real, expansion: Real) -> Real:
    """Rise of temperature that gives a growth, as for heating a hub before it goes on.

    Parameters
    ----------
    growth : float or array
        Growth wanted [m].
    length : float or array
        Length or diameter [m].
    expansion : float or array
        Thermal expansion of the material [1/K].

    Returns
    -------
    float or array
        Rise [K]. What the steel, its temper and its seals stand is the maker's to say.

    Raises
    ------
    OutOfRange
        Length or expansion is not above zero, or the growth is not finite.

    References
    ----------
    T. H. Wentzell, Machine Design, Example 6.3.

    Example
    -------
    >>> round(temperature_for_growth(0.00006, 0.060, 11.7e-6))
    85
    """
    require_positive(length=length, expansion=expansion)
    require_finite(growth=growth)
    return growth / (length * expansion)


def interference_pressure(
    interference: Real,
    diameter: Real,
    outer_diameter: Real,
    bore: Real,
    outer_modulus: Real,
    outer_poisson: Real,
    inner_modulus: Real,
    inner_poisson: Real,
) -> Real:
    """Pressure between two rings pressed together.

    Parameters
    ----------
    interference : float or array
        Interference on the diameter, free [m].
    diameter : float or array
        Diameter where they meet [m].
    outer_diameter : float or array
        Outside diameter of the outer ring [m].
    bore : float or array
        Bore of the inner ring [m], none for a solid shaft.
    outer_modulus : float or array
        Modulus of elasticity of the outer ring [Pa].
    outer_poisson : float or array
        Poisson's ratio of the outer ring [-].
    inner_modulus : float or array
        Modulus of elasticity of the inner ring [Pa].
    inner_poisson : float or array
        Poisson's ratio of the inner ring [-].

    Returns
    -------
    float or array
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        The diameters are not in order, a modulus is not above zero, the interference is negative, or a
        Poisson's ratio is not between 0 and 0.5.

    References
    ----------
    Lame's equations in plane stress; A. C. Ugural, S. K. Fenster, Advanced Strength and Applied Elasticity,
    section 8.5, Example 8.3. With one material and a solid shaft Poisson's ratio drops out.

    Example
    -------
    In megapascals:

    >>> round(interference_pressure(30e-6, 0.060, 0.100, 0.0, 210e9, 0.3, 210e9, 0.3) / 1e6, 1)
    33.6
    """
    require_not_negative(interference=interference, bore=bore)
    require_positive(outer_modulus=outer_modulus, inner_modulus=inner_modulus)
    require_between(0.0, 0.5, outer_poisson=outer_poisson, inner_poisson=inner_poisson)
    require_above(bore, "the bore", diameter=diameter)
    require_above(diameter, "the diameter where they meet", outer_diameter=outer_diameter)
    outer = (outer_diameter**2 + diameter**2) / (outer_diameter**2 - diameter**2) + outer_poisson
    inner = (diameter**2 + bore**2) / (diameter**2 - bore**2) - inner_poisson
    return interference / (diameter * (outer / outer_modulus + inner / inner_modulus))


def hoop_stress_outside(pressure: Real, diameter: Real, outer_diameter: Real, at: Real) -> Real:
    """Hoop stress in the outer ring of a press fit, tension positive.

    Parameters
    ----------
    pressure : float or array
        Pressure between the rings [Pa].
    diameter : float or array
        Diameter where they meet [m].
    outer_diameter : float or array
        Outside diameter of the outer ring [m].
    at : float or array
        Diameter at which the stress is wanted [m].

    Returns
    -------
    float or array
        Stress [Pa], greatest at the inner edge.

    Raises
    ------
    OutOfRange
        The diameters are not in order, the place is outside the ring, or the pressure is negative.

    References
    ----------
    Lame's equations; A. C. Ugural, S. K. Fenster, Advanced Strength and Applied Elasticity, ch. 8.

    Example
    -------
    >>> round(hoop_stress_outside(12.3e6, 0.400, 0.500, 0.400) / 1e6, 2)
    56.03
    """
    require_not_negative(pressure=pressure)
    require_positive(diameter=diameter)
    require_above(diameter, "the diameter where they meet", outer_diameter=outer_diameter)
    require_at_least(diameter, "the inner edge", at=at)
    require_at_least(at, "the place", outer_diameter=outer_diameter)
    return pressure * diameter**2 / (outer_diameter**2 - diameter**2) * (1 + outer_diameter**2 / at**2)


def hoop_stress_inside(pressure: Real, diameter: Real, bore: Real, at: Real) -> Real:
    """Hoop stress in the inner ring of a press fit, tension positive, so this is negative.

    Parameters
    ----------
    pressure : float or array
        Pressure between the rings [Pa].
    diameter : float or array
        Diameter where they meet [m].
    bore : float or array
        Bore of the inner ring [m]; above zero, a solid shaft has the pressure all through.
    at : float or array
        Diameter at which the stress is wanted [m].

    Returns
    -------
    float or array
        Stress [Pa].

    Raises
    ------
    OutOfRange
        The diameters are not in order, the place is outside the ring, or the pressure is negative.

    References
    ----------
    Lame's equations; A. C. Ugural, S. K. Fenster, Advanced Strength and Applied Elasticity, ch. 8.

    Example
    -------
    >>> round(hoop_stress_inside(12.3e6, 0.400, 0.300, 0.300) / 1e6, 2)
    -56.23
    """
    require_not_negative(pressure=pressure)
    require_positive(bore=bore)
    require_above(bore, "the bore", diameter=diameter)
    require_at_least(bore, "the bore", at=at)
    require_at_least(at, "the place", diameter=diameter)
    return -pressure * diameter**2 / (diameter**2 - bore**2) * (1 + bore**2 / at**2)


def press_force(pressure: Real, diameter: Real, length: Real, friction: Real) -> Real:
    """Axial force at which a press fit slides.

    Parameters
    ----------
    pressure : float or array
        Pressure between the parts [Pa].
    diameter : float or array
        Diameter where they meet [m].
    length : float or array
        Length of the seat [m].
    friction : float or array
        Coefficient of friction [-].

    Returns
    -------
    float or array
        Force [N]; a dry or rusted seat may need several times as much.

    Raises
    ------
    OutOfRange
        Diameter or length is not above zero, or pressure or friction is negative.

    References
    ----------
    Friction over the seat, F = pi d l p mu; any machine design text.

    Example
    -------
    >>> round(press_force(33.6e6, 0.060, 0.030, 0.12))
    22800
    """
    require_positive(diameter=diameter, length=length)
    require_not_negative(pressure=pressure, friction=friction)
    return math.pi * diameter * length * pressure * friction


def slip_torque(pressure: Real, diameter: Real, length: Real, friction: Real) -> Real:
    """Torque at which a press fit turns on its seat.

    Parameters
    ----------
    pressure : float or array
        Pressure between the parts [Pa].
    diameter : float or array
        Diameter where they meet [m].
    length : float or array
        Length of the seat [m].
    friction : float or array
        Coefficient of friction to count on [-].

    Returns
    -------
    float or array
        Torque [N m].

    Raises
    ------
    OutOfRange
        Diameter or length is not above zero, or pressure or friction is negative.

    References
    ----------
    Friction over the seat at its radius; any machine design text.

    Example
    -------
    >>> round(slip_torque(33.6e6, 0.060, 0.030, 0.12))
    684
    """
    return press_force(pressure, diameter, length, friction) * diameter / 2
