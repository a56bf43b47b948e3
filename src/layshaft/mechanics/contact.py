"""Line contact of two cylinders, or of a cylinder and a flat, after Hertz.

Here are ``contact_modulus``, ``relative_radius``, ``half_width``, ``peak_pressure`` and ``load_at_pressure``.
Valid while both bodies stay elastic, the width is small against the radii and nothing is crowned or tilted;
real rollers press harder at their ends. The limit on the pressure is the maker's.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_between, require_not_negative, require_positive
from layshaft.mechanics._elementwise import sqrt


def contact_modulus(modulus_1: Real, poisson_1: Real, modulus_2: Real, poisson_2: Real) -> Real:
    """Modulus that two touching bodies share, 1/E* = (1 - v1^2)/E1 + (1 - v2^2)/E2.

    Parameters
    ----------
    modulus_1 : float or array
        Modulus of elasticity of one body [Pa].
    poisson_1 : float or array
        Its Poisson's ratio [-].
    modulus_2 : float or array
        Modulus of elasticity of the other [Pa].
    poisson_2 : float or array
        Its Poisson's ratio [-].

    Returns
    -------
    float or array
        Contact modulus [Pa].

    Raises
    ------
    OutOfRange
        A modulus is not above zero, or a Poisson's ratio is not between 0 and 0.5.

    References
    ----------
    K. L. Johnson, Contact Mechanics, 1985, section 4.2 (from memory).

    Example
    -------
    >>> round(contact_modulus(206e9, 0.3, 206e9, 0.3) / 1e9, 2)
    113.19
    """
    require_positive(modulus_1=modulus_1, modulus_2=modulus_2)
    require_between(0.0, 0.5, poisson_1=poisson_1, poisson_2=poisson_2)
    return 1 / ((1 - poisson_1**2) / modulus_1 + (1 - poisson_2**2) / modulus_2)


def relative_radius(radius_1: Real, radius_2: Real) -> Real:
    """Radius of the cylinder that would touch a flat as two cylinders touch each other.

    Parameters
    ----------
    radius_1 : float or array
        Radius of one cylinder [m].
    radius_2 : float or array
        Radius of the other [m]; negative for a bore around the first, `math.inf` for a flat.

    Returns
    -------
    float or array
        Relative radius [m].

    Raises
    ------
    OutOfRange
        The first radius is not above zero, or the bore is no larger than what lies in it.

    References
    ----------
    K. L. Johnson, Contact Mechanics, 1985, section 4.2 (from memory).

    Example
    -------
    >>> relative_radius(0.006, math.inf), round(relative_radius(0.006, -0.048), 5)
    (0.006, 0.00686)
    """
    require_positive(radius_1=radius_1)
    curvature = 1 / radius_1 + 1 / radius_2
    require_positive(relative_curvature=curvature)
    return 1 / curvature


def half_width(load: Real, length: Real, relative_radius: Real, contact_modulus: Real) -> Real:
    """Half the width of the strip where two cylinders touch.

    Parameters
    ----------
    load : float or array
        Force between them [N].
    length : float or array
        Length of the line they touch along [m].
    relative_radius : float or array
        Relative radius [m].
    contact_modulus : float or array
        Contact modulus [Pa].

    Returns
    -------
    float or array
        Half width [m].

    Raises
    ------
    OutOfRange
        A size or the modulus is not above zero, or the load is negative.

    References
    ----------
    A. P. Boresi, R. J. Schmidt, Advanced Mechanics of Materials, ch. 17; b = sqrt(4 P R/(pi L E*)).

    Example
    -------
    >>> round(half_width(24_100, 0.020, 0.020, 109.18e9) * 1000, 2)
    0.53
    """
    require_positive(length=length, relative_radius=relative_radius, contact_modulus=contact_modulus)
    require_not_negative(load=load)
    return sqrt(4 * load * relative_radius / (math.pi * length * contact_modulus))


def peak_pressure(load: Real, length: Real, relative_radius: Real, contact_modulus: Real) -> Real:
    """Greatest pressure in a line contact, sqrt(P E*/(pi L R)).

    Parameters
    ----------
    load : float or array
        Force between the bodies [N].
    length : float or array
        Length of the line they touch along [m].
    relative_radius : float or array
        Relative radius [m].
    contact_modulus : float or array
        Contact modulus [Pa].

    Returns
    -------
    float or array
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        A size or the modulus is not above zero, or the load is negative.

    References
    ----------
    A. P. Boresi, R. J. Schmidt, Advanced Mechanics of Materials, ch. 17, Example 17.3.

    Example
    -------
    >>> round(peak_pressure(33_672, 0.018, 0.006, 113.19e9) / 1e6)
    3352
    """
    require_positive(length=length, relative_radius=relative_radius, contact_modulus=contact_modulus)
    require_not_negative(load=load)
    return sqrt(load * contact_modulus / (math.pi * length * relative_radius))


def load_at_pressure(pressure: Real, length: Real, relative_radius: Real, contact_modulus: Real) -> Real:
    """Force that brings a line contact to a greatest pressure; the inverse of `peak_pressure`.

    Parameters
    ----------
    pressure : float or array
        Greatest pressure [Pa].
    length : float or array
        Length of the line they touch along [m].
    relative_radius : float or array
        Relative radius [m].
    contact_modulus : float or array
        Contact modulus [Pa].

    Returns
    -------
    float or array
        Force [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    A. P. Boresi, R. J. Schmidt, Advanced Mechanics of Materials, ch. 17, solved for the load.

    Example
    -------
    >>> round(load_at_pressure(4e9, 0.018, 0.006, 113.19e9))
    47961
    """
    require_positive(
        pressure=pressure, length=length, relative_radius=relative_radius, contact_modulus=contact_modulus
    )
    return pressure**2 * math.pi * length * relative_radius / contact_modulus
