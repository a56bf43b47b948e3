"""Stress in helical compression springs, and the free length from which they buckle.

Here are ``shear_factor``, ``wahl_factor``, ``bergstraesser_factor``, ``shear_stress``, ``force_at_stress``
and ``stable_free_length``.

Three correction factors are in use and differ by 1 to 10 %: name the one used beside each stress. The factor
is an argument, so no figure hides which was taken. Not here: fatigue, set, hot relaxation, strength of a
wire.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_above, require_positive
from layshaft.mechanics._elementwise import sqrt


def shear_factor(index: Real) -> Real:
    """Factor for the direct shear alone, K_s = 1 + 0.5 / C; the curvature of the wire is left out.

    Parameters
    ----------
    index : float or array
        Spring index [-].

    Returns
    -------
    float or array
        Factor on the torsion stress of a straight bar [-].

    Raises
    ------
    OutOfRange
        The index is not above one.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-3.

    Example
    -------
    >>> shear_factor(8.0)
    1.0625
    """
    require_above(1.0, "one", index=index)
    return 1 + 0.5 / index


def wahl_factor(index: Real) -> Real:
    """Factor for shear and curvature after Wahl, K_W = (4C - 1)/(4C - 4) + 0.615/C.

    Parameters
    ----------
    index : float or array
        Spring index [-].

    Returns
    -------
    float or array
        Factor on the torsion stress of a straight bar [-].

    Raises
    ------
    OutOfRange
        The index is not above one.

    References
    ----------
    A. M. Wahl, Mechanical Springs, 2nd ed., 1963 (from memory); V. B. Bhandari, Design of Machine Elements,
    ch. 10.

    Example
    -------
    >>> round(wahl_factor(8.0), 4)
    1.184
    """
    require_above(1.0, "one", index=index)
    return (4 * index - 1) / (4 * index - 4) + 0.615 / index


def bergstraesser_factor(index: Real) -> Real:
    """Factor for shear and curvature after Bergstraesser, K_B = (4C + 2)/(4C - 3).

    Parameters
    ----------
    index : float or array
        Spring index [-].

    Returns
    -------
    float or array
        Factor on the torsion stress of a straight bar [-]. The factor k of EN 13906-1,
        (w + 0.5)/(w - 0.75), is the same function.

    Raises
    ------
    OutOfRange
        The index is not above one.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-5.
    EN 13906-1:2013 (from memory).

    Example
    -------
    >>> round(bergstraesser_factor(8.0), 4)
    1.1724
    """
    require_above(1.0, "one", index=index)
    return (4 * index + 2) / (4 * index - 3)


def shear_stress(force: Real, wire: Real, mean_diameter: Real, factor: Real) -> Real:
    """Greatest shear stress in the wire under a force, tau = K 8 F D / (pi d^3).

    Parameters
    ----------
    force : float or array
        Force on the spring [N].
    wire : float or array
        Wire diameter [m].
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    factor : float or array
        Correction factor [-], of `shear_factor`, `wahl_factor` or `bergstraesser_factor`.

    Returns
    -------
    float or array
        Shear stress [Pa].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-7.

    Example
    -------
    In megapascals, with Wahl's factor:

    >>> round(shear_stress(3698.5, 0.011, 0.088, wahl_factor(8.0)) / 1e6, 1)
    737.3
    """
    require_positive(force=force, wire=wire, factor=factor)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return factor * 8 * force * mean_diameter / (math.pi * wire**3)


def force_at_stress(stress: Real, wire: Real, mean_diameter: Real, factor: Real) -> Real:
    """Force that brings the wire to a shear stress; the inverse of `shear_stress`.

    Parameters
    ----------
    stress : float or array
        Shear stress [Pa].
    wire : float or array
        Wire diameter [m].
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    factor : float or array
        Correction factor [-].

    Returns
    -------
    float or array
        Force [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-7, solved for F.

    Example
    -------
    >>> round(force_at_stress(737.3e6, 0.011, 0.088, wahl_factor(8.0)))
    3699
    """
    require_positive(stress=stress, wire=wire, factor=factor)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return stress * math.pi * wire**3 / (8 * factor * mean_diameter)


def stable_free_length(
    mean_diameter: Real, end_condition: Real, elastic_modulus: Real, shear_modulus: Real
) -> Real:
    """Free length under which a spring cannot buckle, however far it is pressed.

    Parameters
    ----------
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    end_condition : float or array
        0.5 between two flat parallel seats, 0.707 one seat and one pivot, 1 two pivots, 2 one end free [-].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].
    shear_modulus : float or array
        Shear modulus [Pa].

    Returns
    -------
    float or array
        Longest free length that is stable at any deflection [m]; for steel about 2.63 D over the
        end condition. A longer spring may still be stable at small deflections: that is not answered here.

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the shear modulus is not below the modulus of elasticity.

    Notes
    -----
    Off-centre loads, seats that tilt and a spring that is not square buckle earlier. A rod or a bore
    that guides the spring holds it, at the price of friction.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-12 (from memory).

    Example
    -------
    >>> round(stable_free_length(0.088, 0.5, 206e9, 79.5e9), 3)
    0.46
    """
    require_positive(mean_diameter=mean_diameter, end_condition=end_condition, shear_modulus=shear_modulus)
    require_above(shear_modulus, "the shear modulus", elastic_modulus=elastic_modulus)
    ratio = 2 * (elastic_modulus - shear_modulus) / (2 * shear_modulus + elastic_modulus)
    return math.pi * mean_diameter / end_condition * sqrt(ratio)
