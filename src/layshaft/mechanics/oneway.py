"""Roller one-way clutches on flat cams: strut angle, grip, force on a roller, torque.

Here are ``strut_angle``, ``cam_height``, ``friction_needed``, ``is_gripping``, ``normal_force`` and
``torque_at_normal_force``. How hard a roller presses its flat and its race is in `contact`.

The inner part carries flats at a height from its axis, the outer part a round bore; the roller is wedged
between. A larger roller sits nearer the middle of its flat at a smaller angle and wedges harder; a worn one
rides out to a larger angle until friction no longer holds. Not here: sprags, roller springs, dents, spreading
of the outer race, which all let the rollers ride further out.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import Real, require_above, require_between, require_positive
from layshaft.mechanics._elementwise import arccos, cos, tan


def strut_angle(race_radius: Real, roller_radius: Real, cam_height: Real) -> Real:
    """Angle that the line between a roller's two contacts makes with each face it touches.

    Parameters
    ----------
    race_radius : float or array
        Radius of the round bore [m].
    roller_radius : float or array
        Radius of a roller [m].
    cam_height : float or array
        Flat to axis [m].

    Returns
    -------
    float or array
        Strut angle a [rad], half the wedge angle: cos(2a) = (h + r)/(R - r).

    Raises
    ------
    OutOfRange
        A size is not above zero, or the roller is too large for its pocket: it would not go in.

    References
    ----------
    Geometry: the roller's middle lies h + r from the axis across the flat, and R - r from it outright.

    Example
    -------
    In degrees:

    >>> round(math.degrees(strut_angle(0.048, 0.006, 0.035591)), 3)
    4.001
    """
    require_positive(roller_radius=roller_radius, cam_height=cam_height)
    require_above(roller_radius, "the roller's radius", race_radius=race_radius)
    cosine = (cam_height + roller_radius) / (race_radius - roller_radius)
    require_between(0.0, 1.0, roller_in_its_pocket=cosine)
    return arccos(cosine) / 2


def cam_height(race_radius: Real, roller_radius: Real, strut_angle: Real) -> Real:
    """Height of the flat that gives a strut angle; the inverse of `strut_angle`.

    Parameters
    ----------
    race_radius : float or array
        Radius of the round bore [m].
    roller_radius : float or array
        Radius of a roller [m].
    strut_angle : float or array
        Strut angle [rad].

    Returns
    -------
    float or array
        Flat to axis [m].

    Raises
    ------
    OutOfRange
        A size is not above zero, or the angle is not between 0 and a quarter of a half turn.

    References
    ----------
    Geometry, as `strut_angle`.

    Example
    -------
    >>> round(cam_height(0.048, 0.006, math.radians(4.001)), 5)
    0.03559
    """
    require_positive(roller_radius=roller_radius)
    require_above(roller_radius, "the roller's radius", race_radius=race_radius)
    require_between(0.0, math.pi / 4, strut_angle=strut_angle)
    return (race_radius - roller_radius) * cos(2 * strut_angle) - roller_radius


def friction_needed(strut_angle: Real) -> Real:
    """Coefficient of friction that a roller needs to stay wedged.

    Parameters
    ----------
    strut_angle : float or array
        Strut angle [rad].

    Returns
    -------
    float or array
        Tangent of the strut angle [-].

    Raises
    ------
    OutOfRange
        The angle is not between 0 and a quarter of a half turn.

    References
    ----------
    N. Nagler, A. Lohrengel, Forschung im Ingenieurwesen 85 (2021), eq. 1: tan(a) = Ft/Fn <= mu.

    Example
    -------
    >>> round(friction_needed(math.radians(4.001)), 4)
    0.0699
    """
    require_between(0.0, math.pi / 4, strut_angle=strut_angle)
    return tan(strut_angle)


def is_gripping(strut_angle: float, friction: float) -> bool:
    """Whether friction holds a roller wedged at a strut angle.

    Parameters
    ----------
    strut_angle : float
        Strut angle [rad].
    friction : float
        Least coefficient of friction to count on [-].

    Returns
    -------
    bool
        True where the tangent of the angle is not above the friction.

    Raises
    ------
    OutOfRange
        The angle is not between 0 and a quarter of a half turn, or friction is not above zero.

    References
    ----------
    N. Nagler, A. Lohrengel, Forschung im Ingenieurwesen 85 (2021), eq. 1.

    Example
    -------
    >>> is_gripping(math.radians(4.0), 0.08), is_gripping(math.radians(4.6), 0.08)
    (True, False)
    """
    require_positive(friction=friction)
    return bool(friction_needed(strut_angle) <= friction)


def normal_force(torque: Real, rollers: Real, race_radius: Real, strut_angle: Real) -> Real:
    """Force of each roller on the round bore when the clutch carries a torque.

    Parameters
    ----------
    torque : float or array
        Torque [N m].
    rollers : float or array
        Rollers that carry, taken to share alike [-].
    race_radius : float or array
        Radius of the round bore [m].
    strut_angle : float or array
        Strut angle [rad].

    Returns
    -------
    float or array
        Normal force [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the angle is past a quarter of a half turn.

    References
    ----------
    Balance of moments, T = n R N tan(a); rule as N. Nagler, A. Lohrengel (2021), eq. 1.

    Example
    -------
    >>> round(normal_force(1582.7, 14, 0.048, math.radians(4.001)))
    33673
    """
    require_positive(torque=torque, rollers=rollers, race_radius=race_radius, strut_angle=strut_angle)
    return torque / (rollers * race_radius * friction_needed(strut_angle))


def torque_at_normal_force(force: Real, rollers: Real, race_radius: Real, strut_angle: Real) -> Real:
    """Torque at which each roller presses with a force; the inverse of `normal_force`.

    Parameters
    ----------
    force : float or array
        Normal force of a roller [N].
    rollers : float or array
        Rollers that carry, taken to share alike [-].
    race_radius : float or array
        Radius of the round bore [m].
    strut_angle : float or array
        Strut angle [rad].

    Returns
    -------
    float or array
        Torque [N m].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the angle is past a quarter of a half turn.

    References
    ----------
    Balance of moments, as `normal_force`.

    Example
    -------
    >>> round(torque_at_normal_force(33672.0, 14, 0.048, math.radians(4.001)), 1)
    1582.7
    """
    require_positive(force=force, rollers=rollers, race_radius=race_radius, strut_angle=strut_angle)
    return rollers * race_radius * force * friction_needed(strut_angle)
