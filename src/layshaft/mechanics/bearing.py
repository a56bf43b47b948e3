"""Rolling bearings set against each other: preload, stiffness, turning torque, change with heat.

Here are ``preload_force``, ``interference_for``, ``turning_torque``, ``bearing_torque``, ``preload_change``,
``roller_load``, ``tapered_deflection`` and ``tapered_stiffness``.

Interference is positive, end play negative. Stiffness and torque per force are figures of a unit's book,
never defaults. Life ratings are not here. Turn bearings many times both ways before any reading.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import (
    Real,
    require_between,
    require_finite,
    require_not_negative,
    require_positive,
)
from layshaft.mechanics._elementwise import larger, sin


def preload_force(interference: Real, stiffness: Real) -> Real:
    """Force between two bearings from the interference they are set to.

    Parameters
    ----------
    interference : float or array
        Axial interference [m]; negative where there is end play.
    stiffness : float or array
        Axial stiffness of bearings, shaft and case together [N/m].

    Returns
    -------
    float or array
        Force [N], none with end play.

    Raises
    ------
    OutOfRange
        The stiffness is not above zero or the interference is not finite.

    Notes
    -----
    A straight line; real rollers stiffen as load grows (`tapered_stiffness`), so keep near the setting that
    the stiffness was read at.

    References
    ----------
    Hooke's law for the whole arrangement.

    Example
    -------
    >>> round(preload_force(0.05e-3, 60e6))
    3000
    """
    require_positive(stiffness=stiffness)
    require_finite(interference=interference)
    result: Real = stiffness * larger(interference, 0.0)
    return result


def interference_for(force: Real, stiffness: Real) -> Real:
    """Interference that gives a preload; the inverse of `preload_force`.

    Parameters
    ----------
    force : float or array
        Preload [N].
    stiffness : float or array
        Axial stiffness of bearings, shaft and case together [N/m].

    Returns
    -------
    float or array
        Interference [m].

    Raises
    ------
    OutOfRange
        The stiffness is not above zero or the force is negative.

    References
    ----------
    Hooke's law for the whole arrangement.

    Example
    -------
    >>> round(interference_for(3000.0, 60e6) * 1e6)
    50
    """
    require_positive(stiffness=stiffness)
    require_not_negative(force=force)
    return force / stiffness


def turning_torque(preload: Real, torque_per_force: Real, seal_drag: Real = 0.0) -> Real:
    """Torque that turns a preloaded shaft slowly and steadily.

    Parameters
    ----------
    preload : float or array
        Preload [N].
    torque_per_force : float or array
        Torque for each unit of preload, both bearings together [N m/N]. New bearings and run ones differ,
        often by half (common practice, no source).
    seal_drag : float or array
        Torque of seals that turn along [N m].

    Returns
    -------
    float or array
        Torque [N m].

    Raises
    ------
    OutOfRange
        A figure is negative.

    References
    ----------
    Rib friction proportional to preload: common practice, no source; the factor comes from readings.

    Example
    -------
    >>> round(turning_torque(3000.0, 0.414e-3), 2)
    1.24
    """
    require_not_negative(preload=preload, torque_per_force=torque_per_force, seal_drag=seal_drag)
    return preload * torque_per_force + seal_drag


def bearing_torque(read_torque: Real, seal_drag: Real) -> Real:
    """Torque of the bearings alone, from a reading with the seals in.

    Parameters
    ----------
    read_torque : float or array
        Torque read [N m].
    seal_drag : float or array
        Torque of the seals, read without preload [N m].

    Returns
    -------
    float or array
        Torque of the bearings [N m].

    Raises
    ------
    OutOfRange
        A figure is negative, or the seals alone would take more than was read: one of the two is wrong.

    References
    ----------
    Difference of two readings.

    Example
    -------
    >>> round(bearing_torque(1.9, 0.6), 1)
    1.3
    """
    require_not_negative(read_torque=read_torque, seal_drag=seal_drag)
    require_not_negative(read_torque_less_seal_drag=read_torque - seal_drag)
    return read_torque - seal_drag


def preload_change(span: Real, shaft_expansion: Real, case_expansion: Real, rise: Real) -> Real:
    """Change of the interference when shaft and case warm up alike.

    Parameters
    ----------
    span : float or array
        Distance between the two bearing seats [m].
    shaft_expansion : float or array
        Thermal expansion of the shaft [1/K].
    case_expansion : float or array
        Thermal expansion of the case [1/K].
    rise : float or array
        Rise of temperature, negative for cooling [K].

    Returns
    -------
    float or array
        Change [m]: positive tightens bearings whose shaft pushes outwards against the case.

    Raises
    ------
    OutOfRange
        The span is not above zero, an expansion is negative, or the rise is not finite.

    References
    ----------
    Difference of two thermal expansions; R. C. Hibbeler, Mechanics of Materials, thermal strain.

    Example
    -------
    In millimetres, an alloy case over 60 K:

    >>> round(preload_change(0.325, 11.7e-6, 22e-6, 60.0) * 1000, 3)
    -0.201
    """
    require_positive(span=span)
    require_not_negative(shaft_expansion=shaft_expansion, case_expansion=case_expansion)
    require_finite(rise=rise)
    return span * (shaft_expansion - case_expansion) * rise


def _require_contact_angle(contact_angle: Real) -> None:
    require_positive(contact_angle=contact_angle)
    require_between(0.0, math.pi / 2, contact_angle=contact_angle)


def roller_load(axial_force: Real, rollers: Real, contact_angle: Real) -> Real:
    """Load of each roller of a tapered bearing under pure axial force.

    Parameters
    ----------
    axial_force : float or array
        Axial force [N].
    rollers : float or array
        Number of rollers [-].
    contact_angle : float or array
        Contact angle [rad].

    Returns
    -------
    float or array
        Load of a roller [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero or the angle is over a right angle.

    References
    ----------
    Balance of forces: Q = Fa/(Z sin(a)).

    Example
    -------
    >>> round(roller_load(5000.0, 17, math.radians(15.0)))
    1136
    """
    require_positive(axial_force=axial_force, rollers=rollers)
    _require_contact_angle(contact_angle)
    return axial_force / (rollers * sin(contact_angle))


def tapered_deflection(axial_force: Real, rollers: Real, contact_angle: Real, roller_length: Real) -> Real:
    """Axial give of one tapered bearing under pure axial force.

    Parameters
    ----------
    axial_force : float or array
        Axial force [N].
    rollers : float or array
        Number of rollers [-].
    contact_angle : float or array
        Contact angle [rad].
    roller_length : float or array
        Length of a roller that bears [m].

    Returns
    -------
    float or array
        Axial deflection [m], bearing alone; shaft and case give too.

    Raises
    ------
    OutOfRange
        A figure is not above zero or the angle is over a right angle.

    References
    ----------
    Int. J. Comp. Meth. and Exp. Meas. 5(5), 2017, pp. 733-740, eq. 4: 0.000077 Q^0.9 / (sin(a) l^0.8) in N
    and mm.

    Example
    -------
    In micrometres:

    >>> round(tapered_deflection(5000.0, 17, math.radians(15.0), 0.015) * 1e6, 2)
    19.17
    """
    require_positive(roller_length=roller_length)
    load = roller_load(axial_force, rollers, contact_angle)
    millimetres: Real = 0.000077 * load**0.9 / (sin(contact_angle) * (1000 * roller_length) ** 0.8)
    return millimetres / 1000


def tapered_stiffness(axial_force: Real, rollers: Real, contact_angle: Real, roller_length: Real) -> Real:
    """Axial stiffness of one tapered bearing at an axial force.

    Parameters
    ----------
    axial_force : float or array
        Axial force [N].
    rollers : float or array
        Number of rollers [-].
    contact_angle : float or array
        Contact angle [rad].
    roller_length : float or array
        Length of a roller that bears [m].

    Returns
    -------
    float or array
        Stiffness at this force [N/m]. A rigid preloaded pair of equal bearings has twice that for small
        loads.

    Raises
    ------
    OutOfRange
        A figure is not above zero or the angle is over a right angle.

    References
    ----------
    Slope of `tapered_deflection`: F/(0.9 deflection).

    Example
    -------
    In newtons a millimetre:

    >>> round(tapered_stiffness(5000.0, 17, math.radians(15.0), 0.015) / 1000)
    289824
    """
    return axial_force / (0.9 * tapered_deflection(axial_force, rollers, contact_angle, roller_length))
