"""Straight struts under end load: press posts, push rods, blocks standing on end.

Here are ``radius_of_gyration``, ``euler_load``, ``johnson_load``, ``squash_load``, ``transition_slenderness``
and ``critical_load``, which chooses. All give the load at which a perfect, centred strut gives way; a working
load is a part of it that the maker's data, local codes or a licensed engineer set. Off-centre load is not
here.

``end_fixity`` is 1 for two pivots, 1/4 for one end free, 4 for two fixed ends, 2.046 for one fixed and one
pivot; practice takes less, because no end is truly fixed.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_positive
from layshaft.mechanics._elementwise import choose, sqrt


def radius_of_gyration(second_moment: Real, area: Real) -> Real:
    """Radius of gyration of a section.

    Parameters
    ----------
    second_moment : float or array
        Least second moment of area [m^4].
    area : float or array
        Area of the section [m^2].

    Returns
    -------
    float or array
        Radius of gyration [m]; a quarter of the diameter for a solid round.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    J. M. Gere, Mechanics of Materials, 7th ed., section 12.4 (from memory).

    Example
    -------
    >>> round(radius_of_gyration(15.3e-6, 5890e-6), 4)
    0.051
    """
    require_positive(second_moment=second_moment, area=area)
    return sqrt(second_moment / area)


def euler_load(second_moment: Real, length: Real, elastic_modulus: Real, end_fixity: Real) -> Real:
    """Load at which a slender strut buckles, c pi^2 E I / L^2.

    Parameters
    ----------
    second_moment : float or array
        Least second moment of area [m^4].
    length : float or array
        Length between the ends [m].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    end_fixity : float or array
        Factor c for the ends [-].

    Returns
    -------
    float or array
        Load [N]. Too high for a short strut: use `critical_load`.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    J. M. Gere, Mechanics of Materials, 7th ed., sections 11.3 and 11.4.

    Example
    -------
    >>> round(euler_load(43.2157e-9, 1.2, 210e9, 1.0))
    62201
    """
    require_positive(
        second_moment=second_moment, length=length, elastic_modulus=elastic_modulus, end_fixity=end_fixity
    )
    return end_fixity * math.pi**2 * elastic_modulus * second_moment / length**2


def squash_load(area: Real, yield_stress: Real) -> Real:
    """Load at which the section yields all over; no strut bears more.

    Parameters
    ----------
    area : float or array
        Area of the section [m^2].
    yield_stress : float or array
        Yield stress in compression [Pa].

    Returns
    -------
    float or array
        Load [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    R. C. Hibbeler, Mechanics of Materials, Example 13.2.

    Example
    -------
    >>> round(squash_load(5890e-6, 250e6))
    1472500
    """
    require_positive(area=area, yield_stress=yield_stress)
    return area * yield_stress


def johnson_load(
    second_moment: Real, area: Real, length: Real, elastic_modulus: Real, yield_stress: Real, end_fixity: Real
) -> Real:
    """Load at which a short strut gives way after Johnson's parabola.

    Parameters
    ----------
    second_moment : float or array
        Least second moment of area [m^4].
    area : float or array
        Area of the section [m^2].
    length : float or array
        Length between the ends [m].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    yield_stress : float or array
        Yield stress in compression [Pa].
    end_fixity : float or array
        Factor c for the ends [-].

    Returns
    -------
    float or array
        Load [N]. Meaningless for a slender strut: use `critical_load`.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    V. M. Faires, Design of Machine Elements, column chapter: A s_y [1 - s_y (L/k)^2 / (4 c pi^2 E)].

    Example
    -------
    >>> round(johnson_load(15.3e-6, 5890e-6, 2.0, 200e9, 250e6, 1.0))
    1400706
    """
    require_positive(length=length, elastic_modulus=elastic_modulus, end_fixity=end_fixity)
    squash = squash_load(area, yield_stress)
    slenderness = length / radius_of_gyration(second_moment, area)
    return squash * (1 - yield_stress * slenderness**2 / (4 * end_fixity * math.pi**2 * elastic_modulus))


def transition_slenderness(elastic_modulus: Real, yield_stress: Real, end_fixity: Real) -> Real:
    """Length over radius of gyration at which Johnson's parabola hands over to Euler.

    Parameters
    ----------
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    yield_stress : float or array
        Yield stress in compression [Pa].
    end_fixity : float or array
        Factor c for the ends [-].

    Returns
    -------
    float or array
        Slenderness L/k [-]; there both give half the squash load.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    V. M. Faires, Design of Machine Elements, column chapter: sqrt(2 c pi^2 E / s_y).

    Example
    -------
    >>> round(transition_slenderness(200e9, 250e6, 1.0), 1)
    125.7
    """
    require_positive(elastic_modulus=elastic_modulus, yield_stress=yield_stress, end_fixity=end_fixity)
    return sqrt(2 * end_fixity * math.pi**2 * elastic_modulus / yield_stress)


def critical_load(
    second_moment: Real, area: Real, length: Real, elastic_modulus: Real, yield_stress: Real, end_fixity: Real
) -> Real:
    """Load at which a centred strut gives way, after Johnson when short and Euler when slender.

    Parameters
    ----------
    second_moment : float or array
        Least second moment of area [m^4].
    area : float or array
        Area of the section [m^2].
    length : float or array
        Length between the ends [m].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    yield_stress : float or array
        Yield stress in compression [Pa].
    end_fixity : float or array
        Factor c for the ends [-].

    Returns
    -------
    float or array
        Load [N], no working load: divide by the factor that the code in force asks for.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    V. M. Faires, Design of Machine Elements, column chapter.

    Example
    -------
    >>> round(critical_load(15.3e-6, 5890e-6, 4.0, 200e9, 250e6, 1.0))
    1185323
    """
    slenderness = length / radius_of_gyration(second_moment, area)
    short = johnson_load(second_moment, area, length, elastic_modulus, yield_stress, end_fixity)
    slender = euler_load(second_moment, length, elastic_modulus, end_fixity)
    result: Real = choose(
        slenderness < transition_slenderness(elastic_modulus, yield_stress, end_fixity), short, slender
    )
    return result
