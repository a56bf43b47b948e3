"""Gears as sizes: diameters, centre distance, tooth force. Tooth counts are signed: an internal gear is
negative.

Here are ``pitch_diameter``, ``tip_diameter``, ``centre_distance``, ``tip_gap``, ``common_factor``,
``tangential_force`` and ``unit_load``. Sizes are those of gears cut without profile shift; a shifted pair
runs at another centre distance. Not here: tooth strength, contact pattern, backlash.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import (
    OutOfRange,
    Real,
    require_at_least,
    require_between,
    require_finite,
    require_positive,
)
from layshaft.mechanics._elementwise import cos, larger


def _require_helix(helix_angle: Real) -> None:
    require_between(-math.pi / 3, math.pi / 3, helix_angle=helix_angle)


def pitch_diameter(teeth: Real, normal_module: Real, helix_angle: Real = 0.0) -> Real:
    """Reference diameter of a gear, z m / cos(beta).

    Parameters
    ----------
    teeth : float or array
        Teeth [-], without sign.
    normal_module : float or array
        Module across the tooth [m].
    helix_angle : float or array
        Helix angle [rad]; none for spur gears.

    Returns
    -------
    float or array
        Diameter [m].

    Raises
    ------
    OutOfRange
        Teeth or module is not above zero, or the helix is steeper than 60 degrees.

    References
    ----------
    ISO 21771, reference diameter (from memory); any gear text.

    Example
    -------
    >>> round(pitch_diameter(24, 0.00175, math.radians(15.0)) * 1000, 3)
    43.482
    """
    require_positive(teeth=teeth, normal_module=normal_module)
    _require_helix(helix_angle)
    return teeth * normal_module / cos(helix_angle)


def tip_diameter(pitch_diameter: Real, normal_module: Real, addendum: Real = 1.0) -> Real:
    """Diameter over the teeth of an external gear.

    Parameters
    ----------
    pitch_diameter : float or array
        Reference diameter [m].
    normal_module : float or array
        Module across the tooth [m].
    addendum : float or array
        Height of the tooth above the reference circle, in modules [-].

    Returns
    -------
    float or array
        Diameter [m].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    ISO 21771, tip diameter (from memory); any gear text.

    Example
    -------
    >>> round(tip_diameter(0.043482, 0.00175) * 1000, 3)
    46.982
    """
    require_positive(pitch_diameter=pitch_diameter, normal_module=normal_module, addendum=addendum)
    return pitch_diameter + 2 * addendum * normal_module


def centre_distance(teeth_1: Real, teeth_2: Real, normal_module: Real, helix_angle: Real = 0.0) -> Real:
    """Distance between the axes of two gears in mesh, |z1 + z2| m / (2 cos(beta)).

    Parameters
    ----------
    teeth_1 : float or array
        Teeth of one gear [-], negative if it is internal.
    teeth_2 : float or array
        Teeth of the other [-], negative if it is internal.
    normal_module : float or array
        Module across the tooth [m].
    helix_angle : float or array
        Helix angle [rad]; none for spur gears.

    Returns
    -------
    float or array
        Centre distance [m].

    Raises
    ------
    OutOfRange
        The module is not above zero, the counts cancel, or the helix is steeper than 60 degrees.

    References
    ----------
    ISO 21771, reference centre distance (from memory); any gear text.

    Example
    -------
    Sun with planet, planet with ring: the same, so the set closes.

    >>> beta = math.radians(15.0)
    >>> round(centre_distance(36, 24, 0.00175, beta) * 1000, 3)
    54.352
    >>> round(centre_distance(24, -84, 0.00175, beta) * 1000, 3)
    54.352
    """
    _require_helix(helix_angle)
    sum_of_teeth: Real = larger(teeth_1 + teeth_2, -teeth_1 - teeth_2)
    require_positive(normal_module=normal_module, sum_of_teeth=sum_of_teeth)
    return sum_of_teeth * normal_module / (2 * cos(helix_angle))


def tip_gap(centre_distance: Real, tip_diameter_1: Real, tip_diameter_2: Real) -> Real:
    """Gap between the tips of two gears that must not touch.

    Parameters
    ----------
    centre_distance : float or array
        Distance between their axes [m].
    tip_diameter_1 : float or array
        Diameter over the teeth of one [m].
    tip_diameter_2 : float or array
        Diameter over the teeth of the other [m].

    Returns
    -------
    float or array
        Gap [m]; negative where they would foul.

    Raises
    ------
    OutOfRange
        A size is not above zero.

    References
    ----------
    Geometry.

    Example
    -------
    >>> round(tip_gap(0.090, 0.051, 0.120), 4)
    0.0045
    """
    require_positive(
        centre_distance=centre_distance, tip_diameter_1=tip_diameter_1, tip_diameter_2=tip_diameter_2
    )
    return centre_distance - (tip_diameter_1 + tip_diameter_2) / 2


def common_factor(teeth_1: int, teeth_2: int) -> int:
    """Greatest common factor of two tooth counts: one if each tooth meets every other.

    Parameters
    ----------
    teeth_1 : int
        Teeth of one gear [-].
    teeth_2 : int
        Teeth of the other [-].

    Returns
    -------
    int
        Common factor [-]. Above one a used pair keeps its own partners and is best put back as marked.

    Raises
    ------
    OutOfRange
        A gear has no teeth.

    References
    ----------
    Arithmetic; the use is common practice, no source.

    Example
    -------
    >>> common_factor(38, 27), common_factor(36, 24)
    (1, 12)
    """
    if teeth_1 == 0 or teeth_2 == 0:
        raise OutOfRange("teeth", (teeth_1, teeth_2), "counts other than zero")
    return math.gcd(teeth_1, teeth_2)


def tangential_force(torque: Real, pitch_diameter: Real, paths: Real = 1) -> Real:
    """Force along the pitch circle at each mesh that shares a torque.

    Parameters
    ----------
    torque : float or array
        Torque on the gear [N m].
    pitch_diameter : float or array
        Its reference diameter [m].
    paths : float or array
        Meshes that share it alike [-], as the planets of a set.

    Returns
    -------
    float or array
        Force [N]. Real planets share less evenly.

    Raises
    ------
    OutOfRange
        The diameter is not above zero, the torque is not finite or there is no mesh.

    References
    ----------
    Balance of moments; R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., ch.
    13.

    Example
    -------
    >>> round(tangential_force(900.0, 0.084, 4))
    5357
    """
    require_positive(pitch_diameter=pitch_diameter)
    require_finite(torque=torque)
    require_at_least(1, "one", paths=paths)
    return 2 * torque / (pitch_diameter * paths)


def unit_load(force: Real, face_width: Real, normal_module: Real) -> Real:
    """Tooth force over face and module, a first measure of how hard a tooth works.

    Parameters
    ----------
    force : float or array
        Force along the pitch circle [N].
    face_width : float or array
        Width of the tooth [m].
    normal_module : float or array
        Module across the tooth [m].

    Returns
    -------
    float or array
        Unit load [Pa]; it compares gears, and is no stress and no strength.

    Raises
    ------
    OutOfRange
        Width or module is not above zero, or the force is not finite.

    References
    ----------
    D. W. Dudley, Handbook of Practical Gear Design, unit load (from memory).

    Example
    -------
    >>> round(unit_load(5357.1, 0.030, 0.00175) / 1e6)
    102
    """
    require_positive(face_width=face_width, normal_module=normal_module)
    require_finite(force=force)
    return force / (face_width * normal_module)
