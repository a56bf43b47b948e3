"""The coil of a helical compression spring of round wire: diameters, index, ends, solid length, mass.

Here are ``mean_diameter``, ``outside_diameter``, ``index``, ``inactive_coils``, ``solid_length``, ``pitch``
and ``mass``. What the coil pushes is in `spring`, what it suffers in `spring_stress`.
"""

from __future__ import annotations

import math
from typing import Literal

from layshaft.mechanics._domain import OutOfRange, Real, require_above, require_at_least, require_positive

Ends = Literal["plain", "plain ground", "squared", "squared ground"]

# For each way of finishing the ends: coils that do not work; wires added to the coils when solid.
_ENDS: dict[str, tuple[int, int]] = {
    "plain": (0, 1),
    "plain ground": (1, 0),
    "squared": (2, 1),
    "squared ground": (2, 0),
}


def _ends(ends: str) -> tuple[int, int]:
    if ends not in _ENDS:
        raise OutOfRange("ends", ends, "one of " + ", ".join(repr(known) for known in _ENDS))
    return _ENDS[ends]


def mean_diameter(outside_diameter: Real, wire: Real) -> Real:
    """Diameter of the helix along the middle of the wire.

    Parameters
    ----------
    outside_diameter : float or array
        Diameter over the coils [m].
    wire : float or array
        Wire diameter [m].

    Returns
    -------
    float or array
        Mean diameter [m].

    Raises
    ------
    OutOfRange
        The wire is not above zero, or the coils are no wider than two wires.

    References
    ----------
    Geometry: the wire's middle lies half a wire inside the outer edge.

    Example
    -------
    >>> round(mean_diameter(0.099, 0.011), 6)
    0.088
    """
    require_positive(wire=wire)
    require_above(2 * wire, "two wires", outside_diameter=outside_diameter)
    return outside_diameter - wire


def outside_diameter(mean_diameter: Real, wire: Real) -> Real:
    """Diameter over the coils, the one a caliper reads.

    Parameters
    ----------
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    wire : float or array
        Wire diameter [m].

    Returns
    -------
    float or array
        Outside diameter at free length [m]; the coils grow slightly as the spring shortens.

    Raises
    ------
    OutOfRange
        The wire is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    Geometry: the wire's middle lies half a wire inside the outer edge.

    Example
    -------
    >>> round(outside_diameter(0.088, 0.011), 6)
    0.099
    """
    require_positive(wire=wire)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return mean_diameter + wire


def index(mean_diameter: Real, wire: Real) -> Real:
    """Spring index C, the mean diameter in wires.

    Parameters
    ----------
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    wire : float or array
        Wire diameter [m].

    Returns
    -------
    float or array
        Spring index [-]; about 4 to 16 in springs that are wound on ordinary machines.

    Raises
    ------
    OutOfRange
        The wire is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., section 10-1.

    Example
    -------
    >>> round(index(0.088, 0.011), 6)
    8.0
    """
    require_positive(wire=wire)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return mean_diameter / wire


def inactive_coils(ends: Ends) -> int:
    """Coils that the ends use up, to be taken from the total for the active coils.

    Parameters
    ----------
    ends : str
        "plain", "plain ground", "squared" (closed, not ground) or "squared ground".

    Returns
    -------
    int
        Inactive coils [-].

    Raises
    ------
    OutOfRange
        The ends are none of the four.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., Table 10-1 (from memory).

    Example
    -------
    >>> inactive_coils("squared ground")
    2
    """
    return _ends(ends)[0]


def solid_length(wire: Real, total_coils: Real, ends: Ends) -> Real:
    """Length at which every coil touches the next.

    Parameters
    ----------
    wire : float or array
        Wire diameter [m].
    total_coils : float or array
        All coils, the inactive ones too [-].
    ends : str
        "plain", "plain ground", "squared" or "squared ground"; ends not ground add one wire.

    Returns
    -------
    float or array
        Solid length [m]. A real spring may bind a little earlier: coils are never quite even.

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the ends are none of the four.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., Table 10-1 (from memory).

    Example
    -------
    >>> round(solid_length(0.011, 5.25, "squared ground"), 6)
    0.05775
    """
    require_positive(wire=wire, total_coils=total_coils)
    return (total_coils + _ends(ends)[1]) * wire


def pitch(free_length: Real, wire: Real, total_coils: Real, ends: Ends) -> Real:
    """Distance from one active coil to the next along the axis, at free length.

    Parameters
    ----------
    free_length : float or array
        Length without load [m].
    wire : float or array
        Wire diameter [m].
    total_coils : float or array
        All coils, the inactive ones too [-].
    ends : str
        "plain", "plain ground", "squared" or "squared ground".

    Returns
    -------
    float or array
        Pitch [m].

    Raises
    ------
    OutOfRange
        A figure is not above zero, no coil is left to work, or the free length is under the solid length.

    Notes
    -----
    Books quote a pitch in three ways; this one takes the closed ends off the length and divides by the
    coils that work. Compare a pitch with a printed one only after making sure of the way.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., Table 10-1 (from memory).

    Example
    -------
    >>> round(pitch(0.1323, 0.011, 5.25, "squared ground"), 6)
    0.033938
    """
    inactive, _ = _ends(ends)
    require_positive(wire=wire)
    require_above(inactive, "the inactive coils", total_coils=total_coils)
    require_at_least(solid_length(wire, total_coils, ends), "the solid length", free_length=free_length)
    if ends == "plain ground":
        return free_length / total_coils
    wires_at_the_ends = {"plain": 1, "squared": 3, "squared ground": 2}[ends]
    return (free_length - wires_at_the_ends * wire) / (total_coils - inactive)


def mass(density: Real, wire: Real, mean_diameter: Real, total_coils: Real) -> Real:
    """Mass of the wire in a spring, its rise along the helix left out.

    Parameters
    ----------
    density : float or array
        Density of the wire [kg/m^3].
    wire : float or array
        Wire diameter [m].
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    total_coils : float or array
        All coils [-].

    Returns
    -------
    float or array
        Mass [kg], a little low: the wire is longer than its circles by the pitch, under 1 % when the
        pitch is under a third of the mean diameter. Ground ends take some off again.

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    Geometry: section of the wire times the length of its circles.

    Example
    -------
    >>> round(mass(7850.0, 0.011, 0.088, 5.25), 3)
    1.083
    """
    require_positive(density=density, wire=wire, total_coils=total_coils)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return density * (math.pi * wire**2 / 4) * (math.pi * mean_diameter * total_coils)
