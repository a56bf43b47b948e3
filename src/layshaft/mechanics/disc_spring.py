"""Disc springs of constant thickness (Belleville washers): force and energy of one disc.

Here are ``k1``, ``k2``, ``k3``, ``reference_stress``, ``relative_travel``, ``force``, ``greatest_force``,
``energy`` and ``has_falling_force``. Stresses are in `disc_stress`, discs stacked in `disc_stack`.

Form of EN 16984 for discs of groups 1 and 2, without bearing flats. The older Almen-Laszlo factor M differs
by up to 3 %. Not here: discs with flats (group 3), slotted discs, friction, fatigue, set.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_above, require_between, require_positive
from layshaft.mechanics._elementwise import larger, log, smaller, sqrt


def k1(diameter_ratio: Real) -> Real:
    """Factor K1 of EN 16984, which brings the ring's width into the force.

    Parameters
    ----------
    diameter_ratio : float or array
        Outer over inner diameter [-], above one.

    Returns
    -------
    float or array
        Factor [-].

    Raises
    ------
    OutOfRange
        The ratio is not above one.

    References
    ----------
    EN 16984:2016 (DIN 2092), factor K1; values for six ratios from memory.

    Example
    -------
    >>> round(k1(2.0), 3)
    0.694
    """
    require_above(1.0, "one", diameter_ratio=diameter_ratio)
    d = diameter_ratio
    return ((d - 1) / d) ** 2 / ((d + 1) / (d - 1) - 2 / log(d)) / math.pi


def k2(diameter_ratio: Real) -> Real:
    """Factor K2 of EN 16984, for the stress from the change of the cone angle.

    Parameters
    ----------
    diameter_ratio : float or array
        Outer over inner diameter [-], above one.

    Returns
    -------
    float or array
        Factor [-].

    Raises
    ------
    OutOfRange
        The ratio is not above one.

    References
    ----------
    EN 16984:2016 (DIN 2092), factor K2; values for six ratios from memory.

    Example
    -------
    >>> round(k2(2.0), 2)
    1.22
    """
    require_above(1.0, "one", diameter_ratio=diameter_ratio)
    return 6 / math.pi * ((diameter_ratio - 1) / log(diameter_ratio) - 1) / log(diameter_ratio)


def k3(diameter_ratio: Real) -> Real:
    """Factor K3 of EN 16984, for the stress from bending over the thickness.

    Parameters
    ----------
    diameter_ratio : float or array
        Outer over inner diameter [-], above one.

    Returns
    -------
    float or array
        Factor [-].

    Raises
    ------
    OutOfRange
        The ratio is not above one.

    References
    ----------
    EN 16984:2016 (DIN 2092), factor K3; values for six ratios from memory.

    Example
    -------
    >>> round(k3(2.0), 2)
    1.38
    """
    require_above(1.0, "one", diameter_ratio=diameter_ratio)
    return 3 / math.pi * (diameter_ratio - 1) / log(diameter_ratio)


def reference_stress(outer: Real, inner: Real, thickness: Real, elastic_modulus: Real, poisson: Real) -> Real:
    """The stress that all formulas of a disc share, 4E/(1 - mu^2) t^2/(K1 De^2).

    Parameters
    ----------
    outer : float or array
        Outer diameter De [m].
    inner : float or array
        Inner diameter Di [m].
    thickness : float or array
        Thickness t [m].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    poisson : float or array
        Poisson's ratio [-].

    Returns
    -------
    float or array
        Stress [Pa], which no point of the disc need bear.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or Poisson's ratio is not between 0 and 0.5.

    References
    ----------
    EN 16984:2016 (DIN 2092), the factor before the brackets of its formulas.

    Example
    -------
    >>> round(reference_stress(0.040, 0.0204, 0.00225, 206e9, 0.3) / 1e6)
    4176
    """
    require_positive(inner=inner, thickness=thickness, elastic_modulus=elastic_modulus)
    require_above(inner, "the inner diameter", outer=outer)
    require_between(0.0, 0.5, poisson=poisson)
    return 4 * elastic_modulus / (1 - poisson**2) * thickness**2 / (k1(outer / inner) * outer**2)


def relative_travel(thickness: Real, cone_height: Real, travel: Real) -> tuple[Real, Real]:
    """Cone height and travel in thicknesses, h0/t and s/t, after the travel was found possible.

    Parameters
    ----------
    thickness : float or array
        Thickness t [m].
    cone_height : float or array
        Height of the free cone h0 [m].
    travel : float or array
        Deflection s from free [m].

    Returns
    -------
    tuple
        h0/t and s/t [-].

    Raises
    ------
    OutOfRange
        A size is not above zero, or the travel is negative or goes past flat.

    References
    ----------
    EN 16984:2016 (DIN 2092), the two ratios its formulas are written in.

    Example
    -------
    >>> relative_travel(2.0, 1.0, 0.5)
    (0.5, 0.25)
    """
    require_positive(thickness=thickness, cone_height=cone_height)
    require_between(0.0, 1.0, travel_over_cone_height=travel / cone_height)
    return cone_height / thickness, travel / thickness


def force(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Force of a single disc pressed by a travel.

    Parameters
    ----------
    outer : float or array
        Outer diameter De [m].
    inner : float or array
        Inner diameter Di [m].
    thickness : float or array
        Thickness t [m].
    cone_height : float or array
        Height of the free cone h0, overall height less thickness [m].
    travel : float or array
        Deflection s from free [m], between none and flat.
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    poisson : float or array
        Poisson's ratio [-].

    Returns
    -------
    float or array
        Force [N]. It does not always grow with the travel: see `has_falling_force`.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    Notes
    -----
    Friction in guides and stacks is left out; past about 75 % of the cone height real discs roll on
    their edges and push harder than this.

    References
    ----------
    EN 16984:2016 (DIN 2092), force of a disc without bearing flats (K4 = 1).

    Example
    -------
    >>> round(force(0.040, 0.0204, 0.00225, 0.0009, 0.75 * 0.0009, 206e9, 0.3))
    6500
    """
    scale = reference_stress(outer, inner, thickness, elastic_modulus, poisson)
    h, s = relative_travel(thickness, cone_height, travel)
    return scale * thickness**2 * s * ((h - s) * (h - s / 2) + 1)


def greatest_force(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Greatest force of a single disc on its way to a travel, which need not be the last one.

    Parameters
    ----------
    outer : float or array
        Outer diameter De [m].
    inner : float or array
        Inner diameter Di [m].
    thickness : float or array
        Thickness t [m].
    cone_height : float or array
        Height of the free cone h0 [m].
    travel : float or array
        Deflection s from free that it goes to [m], between none and flat.
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    poisson : float or array
        Poisson's ratio [-].

    Returns
    -------
    float or array
        Force [N]; a press must bear this, and a retainer of a disc that can snap through.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    References
    ----------
    EN 16984:2016 (DIN 2092); its force has its peak at s/t = h0/t - sqrt(((h0/t)^2 - 2)/3), where there is
    one.

    Example
    -------
    Flat it pushes with less than on the way there:

    >>> disc = (0.040, 0.020, 0.001, 0.0018)
    >>> round(force(*disc, 0.0018, 206e9, 0.3)), round(greatest_force(*disc, 0.0018, 206e9, 0.3))
    (1467, 1684)
    """
    h, _ = relative_travel(thickness, cone_height, travel)
    peak: Real = cone_height - thickness * sqrt(larger((h**2 - 2) / 3, 0.0))
    at_end = force(outer, inner, thickness, cone_height, travel, elastic_modulus, poisson)
    way: Real = smaller(travel, peak)
    result: Real = larger(at_end, force(outer, inner, thickness, cone_height, way, elastic_modulus, poisson))
    return result


def energy(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Work held in a single disc pressed by a travel.

    Parameters
    ----------
    outer : float or array
        Outer diameter De [m].
    inner : float or array
        Inner diameter Di [m].
    thickness : float or array
        Thickness t [m].
    cone_height : float or array
        Height of the free cone h0 [m].
    travel : float or array
        Deflection s from free [m], between none and flat.
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    poisson : float or array
        Poisson's ratio [-].

    Returns
    -------
    float or array
        Energy [J].

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    References
    ----------
    The integral of `force` over the travel, which EN 16984:2016 (DIN 2092) also prints.

    Example
    -------
    >>> round(energy(0.040, 0.0204, 0.00225, 0.0009, 0.75 * 0.0009, 206e9, 0.3), 2)
    2.27
    """
    scale = reference_stress(outer, inner, thickness, elastic_modulus, poisson)
    h, s = relative_travel(thickness, cone_height, travel)
    return scale * thickness**3 * s**2 * ((h - s / 2) ** 2 + 1) / 2


def has_falling_force(thickness: float, cone_height: float) -> bool:
    """Whether the force falls again before the disc is flat, so that it may snap through.

    Parameters
    ----------
    thickness : float
        Thickness t [m].
    cone_height : float
        Height of the free cone h0 [m].

    Returns
    -------
    bool
        True where h0/t is above the square root of two. The greatest force is then not the one at flat.

    Raises
    ------
    OutOfRange
        A size is not above zero.

    References
    ----------
    Slope of the force of EN 16984:2016 at its turning point s = h0: it is 1 - (h0/t)^2 / 2 in units of the
    slope of a flat disc.

    Example
    -------
    >>> has_falling_force(0.001, 0.0013), has_falling_force(0.001, 0.0015)
    (False, True)
    """
    require_positive(thickness=thickness, cone_height=cone_height)
    return cone_height**2 > 2 * thickness**2
