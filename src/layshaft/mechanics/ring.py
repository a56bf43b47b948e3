"""Retaining rings: thrust that the groove bears and that the ring bears in shear.

Here are ``groove_thrust`` and ``shear_thrust``. What holds is the lesser of the two, with the maker's figure
first. Both want a sharp-cornered part square on the ring; a rounded or worn edge dishes the ring and halves
it or worse. Nothing here is for a ring that is set, twisted or used with its rounded edge under load.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_positive


def groove_thrust(
    diameter: Real, depth: Real, yield_stress: Real, factor: Real, conversion: Real = 1.0
) -> Real:
    """Thrust at which the wall of the groove is pushed out, with a factor in hand.

    Parameters
    ----------
    diameter : float or array
        Shaft or bore diameter [m].
    depth : float or array
        Depth of the groove [m], of what is left of it when worn.
    yield_stress : float or array
        Yield stress of the groove's material [Pa].
    factor : float or array
        Factor in hand [-]; 2 on makers' sheets.
    conversion : float or array
        Maker's conversion for the form of the ring [-].

    Returns
    -------
    float or array
        Thrust [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    Form on public data sheets of ring makers: Cf D d sy pi / K; they print it with pi = 3.14.

    Example
    -------
    In kilonewtons:

    >>> round(groove_thrust(0.100, 0.0015, 300e6, 2.0) / 1000, 1)
    70.7
    """
    require_positive(
        diameter=diameter, depth=depth, yield_stress=yield_stress, factor=factor, conversion=conversion
    )
    return conversion * diameter * depth * yield_stress * math.pi / factor


def shear_thrust(
    diameter: Real, thickness: Real, shear_strength: Real, factor: Real, conversion: Real = 1.0
) -> Real:
    """Thrust at which the ring is sheared, with a factor in hand.

    Parameters
    ----------
    diameter : float or array
        Shaft or bore diameter [m].
    thickness : float or array
        Thickness of the ring [m].
    shear_strength : float or array
        Shear strength of the ring [Pa].
    factor : float or array
        Factor in hand [-]; 4 on makers' sheets.
    conversion : float or array
        Maker's conversion for the form of the ring [-].

    Returns
    -------
    float or array
        Thrust [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    Form on public data sheets of ring makers: Cf D t ss pi / K; they print it with pi = 3.14.

    Example
    -------
    In kilonewtons:

    >>> round(shear_thrust(0.100, 0.002, 1000e6, 4.0) / 1000, 1)
    157.1
    """
    require_positive(
        diameter=diameter,
        thickness=thickness,
        shear_strength=shear_strength,
        factor=factor,
        conversion=conversion,
    )
    return conversion * diameter * thickness * shear_strength * math.pi / factor
