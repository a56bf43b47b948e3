"""Disc clutches and brakes: rubbing faces, radius, torque, clamp, pressure on the lining, ball ramp.

Here are ``rubbing_faces``, ``radius_uniform_wear``, ``radius_uniform_pressure``, ``disc_torque``,
``clamp_for_torque``, ``mean_face_pressure``, ``peak_face_pressure`` and ``ramp_clamp``.

Clamp by a spring comes from `spring`, clamp by oil from `piston`. What torque a clutch must bear comes from
`torque`, never from the engine's alone. Heat and slip are in `engagement`; drag of an open pack is not here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from layshaft.mechanics._domain import (
    Real,
    require_above,
    require_at_least,
    require_between,
    require_not_negative,
    require_positive,
)
from layshaft.mechanics._elementwise import tan


@dataclass(frozen=True)
class Plate:
    """One plate of a pack as it lies: what it turns with, and which of its sides carry lining."""

    turns_with: str
    is_front_lined: bool
    is_rear_lined: bool


def rubbing_faces(pack: Sequence[Plate]) -> int:
    """Count the faces that carry torque in a pack, from its order.

    Parameters
    ----------
    pack : sequence of Plate
        Plates in the order they lie, front first, with the wall or pressure plate at each end where it rubs.

    Returns
    -------
    int
        Touching pairs of sides that turn differently and have lining on one side [-].

    Raises
    ------
    Nothing; a pack of one plate or none has no face.

    Notes
    -----
    Two steels side by side, two lined plates on one hub, or a bare pair give no face; a single-faced plate
    gives one. With plain alternation n lined plates give 2n.

    References
    ----------
    The meaning of a friction face; V. B. Bhandari, Design of Machine Elements, ch. 11, counts discs less one
    for plates that alternate.

    Example
    -------
    >>> steel, lined = Plate("drum", False, False), Plate("hub", True, True)
    >>> rubbing_faces([steel, lined, steel, lined, steel])
    4
    >>> rubbing_faces([steel, lined, steel, steel, lined, steel])
    4
    """
    faces = 0
    for front, rear in pairwise(pack):
        if front.turns_with != rear.turns_with and (front.is_rear_lined or rear.is_front_lined):
            faces += 1
    return faces


def radius_uniform_wear(outer_radius: Real, inner_radius: Real) -> Real:
    """Radius at which friction acts in a clutch that has worn in, the mean of the two.

    Parameters
    ----------
    outer_radius : float or array
        Outer radius of the lining [m].
    inner_radius : float or array
        Inner radius of the lining [m].

    Returns
    -------
    float or array
        Effective radius [m], always the smaller of the two ways and so the one to count on.

    Raises
    ------
    OutOfRange
        The inner radius is negative, or the outer is not larger.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10, uniform wear.

    Example
    -------
    >>> round(radius_uniform_wear(0.072, 0.056), 4)
    0.064
    """
    require_not_negative(inner_radius=inner_radius)
    require_above(inner_radius, "the inner radius", outer_radius=outer_radius)
    return (outer_radius + inner_radius) / 2


def radius_uniform_pressure(outer_radius: Real, inner_radius: Real) -> Real:
    """Radius at which friction acts in a clutch with new, even linings.

    Parameters
    ----------
    outer_radius : float or array
        Outer radius of the lining [m].
    inner_radius : float or array
        Inner radius of the lining [m].

    Returns
    -------
    float or array
        Effective radius [m].

    Raises
    ------
    OutOfRange
        The inner radius is negative, or the outer is not larger.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10, uniform pressure: (2/3)(ro^3 - ri^3)/(ro^2 - ri^2).

    Example
    -------
    >>> round(radius_uniform_pressure(0.072, 0.056), 5)
    0.06433
    """
    require_not_negative(inner_radius=inner_radius)
    require_above(inner_radius, "the inner radius", outer_radius=outer_radius)
    return 2 * (outer_radius**3 - inner_radius**3) / (3 * (outer_radius**2 - inner_radius**2))


def disc_torque(faces: Real, friction: Real, clamp: Real, effective_radius: Real) -> Real:
    """Torque a disc clutch carries before it slips.

    Parameters
    ----------
    faces : float or array
        Rubbing faces (`rubbing_faces`) [-].
    friction : float or array
        Coefficient of friction [-].
    clamp : float or array
        Force that presses the pack together [N]. Every face sees the whole of it; a negative clamp carries
        nothing and must be found out before.
    effective_radius : float or array
        Radius at which friction acts (`radius_uniform_wear` or `radius_uniform_pressure`) [m].

    Returns
    -------
    float or array
        Torque [N m].

    Raises
    ------
    OutOfRange
        Friction or radius is not above zero, faces or clamp is negative.

    Notes
    -----
    Not checked: friction of splines, which takes some of the clamp from the far plates.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10, T = n mu W R.

    Example
    -------
    >>> round(disc_torque(16, 0.12, 3698.5, 0.064), 1)
    454.5
    """
    require_positive(friction=friction, effective_radius=effective_radius)
    require_not_negative(faces=faces, clamp=clamp)
    return faces * friction * clamp * effective_radius


def clamp_for_torque(torque: Real, faces: Real, friction: Real, effective_radius: Real) -> Real:
    """Clamp that a disc clutch needs to carry a torque; the inverse of `disc_torque`.

    Parameters
    ----------
    torque : float or array
        Torque to be carried [N m].
    faces : float or array
        Rubbing faces [-].
    friction : float or array
        Coefficient of friction [-].
    effective_radius : float or array
        Radius at which friction acts [m].

    Returns
    -------
    float or array
        Clamp [N].

    Raises
    ------
    OutOfRange
        There is no face, friction or radius is not above zero, or the torque is negative.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10, T = n mu W R, solved for W.

    Example
    -------
    >>> round(clamp_for_torque(381.48, 16, 0.12, 0.064))
    3104
    """
    require_positive(friction=friction, effective_radius=effective_radius)
    require_at_least(1, "one", faces=faces)
    require_not_negative(torque=torque)
    return torque / (faces * friction * effective_radius)


def mean_face_pressure(clamp: Real, outer_radius: Real, inner_radius: Real) -> Real:
    """Mean pressure on a lining, its grooves not taken off.

    Parameters
    ----------
    clamp : float or array
        Force on the pack [N].
    outer_radius : float or array
        Outer radius of the lining [m].
    inner_radius : float or array
        Inner radius of the lining [m].

    Returns
    -------
    float or array
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        Clamp or inner radius is negative, or the outer radius is not the larger.

    References
    ----------
    T. Bevan, Theory of Machines, ch. 6, Example 5.

    Example
    -------
    >>> round(mean_face_pressure(14_000, 0.062, 0.046) / 1e6, 2)
    2.58
    """
    require_not_negative(clamp=clamp, inner_radius=inner_radius)
    require_above(inner_radius, "the inner radius", outer_radius=outer_radius)
    return clamp / (math.pi * (outer_radius**2 - inner_radius**2))


def peak_face_pressure(clamp: Real, outer_radius: Real, inner_radius: Real) -> Real:
    """Greatest pressure on a worn-in lining, at its inner edge.

    Parameters
    ----------
    clamp : float or array
        Force on the pack [N].
    outer_radius : float or array
        Outer radius of the lining [m].
    inner_radius : float or array
        Inner radius of the lining [m].

    Returns
    -------
    float or array
        Pressure [Pa].

    Raises
    ------
    OutOfRange
        The inner radius is not above zero, the outer is not the larger, or the clamp is negative.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, Theory of Machines, ch. 10, uniform wear: W = 2 pi p ri (ro - ri).

    Example
    -------
    >>> round(peak_face_pressure(3141.6, 0.150, 0.100))
    100000
    """
    require_positive(inner_radius=inner_radius)
    require_not_negative(clamp=clamp)
    require_above(inner_radius, "the inner radius", outer_radius=outer_radius)
    return clamp / (2 * math.pi * inner_radius * (outer_radius - inner_radius))


def ramp_clamp(torque: Real, ball_radius: Real, ramp_angle: Real, efficiency: Real) -> Real:
    """Clamp that a ball ramp makes of a torque.

    Parameters
    ----------
    torque : float or array
        Torque on the ramp plate [N m].
    ball_radius : float or array
        Radius of the circle the balls run on [m].
    ramp_angle : float or array
        Rise of the ramp against its circle [rad].
    efficiency : float or array
        Part of the work that reaches the pack [-].

    Returns
    -------
    float or array
        Clamp [N].

    Raises
    ------
    OutOfRange
        Radius is not above zero, the angle is not between 0 and a right angle, the torque is negative, or the
        efficiency is not between 0 and 1.

    References
    ----------
    Balance of work over a small turn: F r tan(a) = efficiency x T.

    Example
    -------
    >>> round(ramp_clamp(35.0, 0.042, math.radians(3.0), 0.9))
    14311
    """
    require_positive(ball_radius=ball_radius, ramp_angle=ramp_angle)
    require_not_negative(torque=torque)
    require_between(0.0, 1.0, efficiency=efficiency, ramp_angle_over_right_angle=ramp_angle / (math.pi / 2))
    return efficiency * torque / (ball_radius * tan(ramp_angle))
