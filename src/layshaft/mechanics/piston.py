"""Pistons: area, force from pressure, pressure from force, whatever else the piston must push back.

Here are ``area``, ``force`` and ``pressure``. Seal friction and the pressure that a spinning drum adds to its
oil are not here; both are real and neither is known without a test.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_above, require_not_negative, require_positive


def area(bore: Real, rod: Real = 0.0) -> Real:
    """Area that the fluid pushes on: a round bore, less a rod or an inner bore.

    Parameters
    ----------
    bore : float or array
        Outer diameter [m].
    rod : float or array
        Inner diameter [m]; none by default.

    Returns
    -------
    float or array
        Area [m^2].

    Raises
    ------
    OutOfRange
        The bore is not above zero, the rod is negative or not below the bore.

    References
    ----------
    Geometry; T. H. Wentzell, Machine Design, Example 10.1.

    Example
    -------
    In square millimetres:

    >>> round(area(0.176, 0.122) * 1e6, 1)
    12638.6
    """
    require_not_negative(rod=rod)
    require_above(rod, "the rod", bore=bore)
    return math.pi * (bore**2 - rod**2) / 4


def force(pressure: Real, area: Real, opposing: Real = 0.0) -> Real:
    """Force that a piston has left for its work.

    Parameters
    ----------
    pressure : float or array
        Gauge pressure of the fluid [Pa].
    area : float or array
        Area it pushes on [m^2].
    opposing : float or array
        All that pushes the piston back before the work gets anything [N]: return springs, and any other
        spring that the piston must hold.

    Returns
    -------
    float or array
        Force left [N]. Negative where the pressure does not overcome what opposes it.

    Raises
    ------
    OutOfRange
        The area is not above zero, or pressure or opposing force is negative.

    References
    ----------
    Balance of forces on the piston, F = pA - others; T. H. Wentzell, Machine Design, Example 10.1.

    Example
    -------
    >>> round(force(0.52e6, 0.0126386, 4331.3))
    2241
    """
    require_positive(area=area)
    require_not_negative(pressure=pressure, opposing=opposing)
    return pressure * area - opposing


def pressure(force: Real, area: Real, opposing: Real = 0.0) -> Real:
    """Gauge pressure at which a piston gives a force; the inverse of `force`.

    Parameters
    ----------
    force : float or array
        Force for the work [N]; none for the pressure at which the piston begins to move.
    area : float or array
        Area the fluid pushes on [m^2].
    opposing : float or array
        All that pushes the piston back [N].

    Returns
    -------
    float or array
        Gauge pressure [Pa].

    Raises
    ------
    OutOfRange
        The area is not above zero, or a force is negative.

    References
    ----------
    Balance of forces on the piston, p = (F + others)/A; T. H. Wentzell, Machine Design, Example 10.2.

    Example
    -------
    In megapascals, to hold a spring and its own return springs:

    >>> round(pressure(3856.2, 0.0126386, 475.1) / 1e6, 3)
    0.343
    """
    require_positive(area=area)
    require_not_negative(force=force, opposing=opposing)
    return (force + opposing) / area
