"""Stress in disc springs of constant thickness, at the upper middle and at the two lower edges.

Here are ``stress_om``, ``stress_ii`` and ``stress_iii``; force and energy are in `disc_spring`. Tension is
positive. Form of EN 16984 for discs without bearing flats; the limits on these stresses are the maker's.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real
from layshaft.mechanics.disc_spring import k2, k3, reference_stress, relative_travel


def stress_om(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Stress at the upper middle OM, which tells how far a disc may be set flat.

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
        Stress [Pa], negative: it is in compression.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    References
    ----------
    EN 16984:2016 (DIN 2092), stress at OM.

    Example
    -------
    >>> round(stress_om(0.025, 0.0122, 0.0015, 0.00055, 0.00055, 206e9, 0.3) / 1e6)
    -1622
    """
    scale = reference_stress(outer, inner, thickness, elastic_modulus, poisson)
    _, s = relative_travel(thickness, cone_height, travel)
    return -scale * s * 3 / math.pi


def stress_ii(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Stress at the lower inner edge II, where discs of group 1 tire first.

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
        Stress [Pa], positive: it is in tension in ordinary discs.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    References
    ----------
    EN 16984:2016 (DIN 2092), stress at II.

    Example
    -------
    >>> round(stress_ii(0.025, 0.0122, 0.0015, 0.00055, 0.0004125, 206e9, 0.3) / 1e6)
    1419
    """
    scale = reference_stress(outer, inner, thickness, elastic_modulus, poisson)
    h, s = relative_travel(thickness, cone_height, travel)
    ratio = outer / inner
    return scale * s * (k3(ratio) - k2(ratio) * (h - s / 2))


def stress_iii(
    outer: Real,
    inner: Real,
    thickness: Real,
    cone_height: Real,
    travel: Real,
    elastic_modulus: Real,
    poisson: Real,
) -> Real:
    """Stress at the lower outer edge III, where thicker discs tire first.

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
        Stress [Pa], positive: it is in tension.

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the travel goes past flat.

    References
    ----------
    DIN 2093:2013-12, correction note in the foreword, which corrects an older print of this formula.

    Example
    -------
    >>> round(stress_iii(0.025, 0.0122, 0.0015, 0.00055, 0.0004125, 206e9, 0.3) / 1e6)
    1091
    """
    scale = reference_stress(outer, inner, thickness, elastic_modulus, poisson)
    h, s = relative_travel(thickness, cone_height, travel)
    ratio = outer / inner
    return -scale * s / ratio * ((k2(ratio) - 2 * k3(ratio)) * (h - s / 2) - k3(ratio))
