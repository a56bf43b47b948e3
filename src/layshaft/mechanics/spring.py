"""Helical compression springs of constant rate: rate, force, energy, rate from two loads.

Here are ``rate``, ``active_coils``, ``force``, ``length_under``, ``stored_energy``, ``energy_released``,
``rate_from_loads`` and ``free_length_from_loads``.

The coil itself is in `coil`, stress and buckling in `spring_stress`, what a spring let go can do in
`release`, several springs on shared parts in `rest`. Not here: torsion and extension springs, rectangular
wire, coils of varying pitch (their rate is not constant), coils that touch before the solid length.
"""

from __future__ import annotations

from layshaft.mechanics._domain import (
    Real,
    require_above,
    require_at_least,
    require_not_negative,
    require_positive,
)
from layshaft.mechanics._elementwise import larger


def rate(shear_modulus: Real, wire: Real, mean_diameter: Real, active_coils: Real) -> Real:
    """Force gained for each unit of shortening, k = G d^4 / (8 D^3 n).

    Parameters
    ----------
    shear_modulus : float or array
        Shear modulus of the wire [Pa].
    wire : float or array
        Wire diameter [m]. It enters to the fourth power: 1 % in wire is 4 % in rate.
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m], not the outside diameter.
    active_coils : float or array
        Coils that work [-], which is the total less those the ends use up (`coil.inactive_coils`).

    Returns
    -------
    float or array
        Rate [N/m].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the mean diameter is no larger than the wire.

    Notes
    -----
    Valid for round wire, a constant pitch, an index of about 4 or more and coils that do not touch.
    Not checked: the last two.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-9.
    EN 13906-1:2013, section 9 (the same formula).

    Example
    -------
    In newtons a millimetre:

    >>> round(rate(79.5e9, 0.011, 0.088, 3.25) / 1000, 3)
    65.693
    """
    require_positive(shear_modulus=shear_modulus, wire=wire, active_coils=active_coils)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return shear_modulus * wire**4 / (8 * mean_diameter**3 * active_coils)


def active_coils(shear_modulus: Real, wire: Real, mean_diameter: Real, rate: Real) -> Real:
    """Coils that must work for a spring to have a rate; the inverse of `rate`.

    Parameters
    ----------
    shear_modulus : float or array
        Shear modulus of the wire [Pa].
    wire : float or array
        Wire diameter [m].
    mean_diameter : float or array
        Diameter of the helix along the middle of the wire [m].
    rate : float or array
        Rate [N/m].

    Returns
    -------
    float or array
        Active coils [-].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the mean diameter is no larger than the wire.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-9, solved for Na.

    Example
    -------
    >>> round(active_coils(79.5e9, 0.011, 0.088, 65_693.4), 3)
    3.25
    """
    require_positive(shear_modulus=shear_modulus, wire=wire, rate=rate)
    require_above(wire, "the wire", mean_diameter=mean_diameter)
    return shear_modulus * wire**4 / (8 * mean_diameter**3 * rate)


def force(rate: Real, free_length: Real, length: Real) -> Real:
    """Push of a compression spring held at a length; none once it is as long as when free.

    Parameters
    ----------
    rate : float or array
        Rate [N/m].
    free_length : float or array
        Length without load [m].
    length : float or array
        Length at which it is held [m].

    Returns
    -------
    float or array
        Force on each seat [N], never negative: a spring that only rests on its seats cannot pull.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    Notes
    -----
    Not checked: the solid length, under which the spring is a tube and the force has no bound.

    References
    ----------
    Hooke's law; R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-9.

    Example
    -------
    >>> round(force(65_693.4, 0.1323, 0.076), 1)
    3698.5
    >>> force(65_693.4, 0.1323, 0.140)
    0.0
    """
    require_positive(rate=rate, free_length=free_length, length=length)
    result: Real = rate * larger(free_length - length, 0.0)
    return result


def length_under(rate: Real, free_length: Real, load: Real) -> Real:
    """Length that a spring takes under a load.

    Parameters
    ----------
    rate : float or array
        Rate [N/m].
    free_length : float or array
        Length without load [m].
    load : float or array
        Force that shortens it [N].

    Returns
    -------
    float or array
        Length under the load [m].

    Raises
    ------
    OutOfRange
        Rate or free length is not above zero, the load is negative, or it would leave no length at all.

    References
    ----------
    Hooke's law, solved for the length.

    Example
    -------
    >>> round(length_under(65_693.4, 0.1323, 3698.5), 4)
    0.076
    """
    require_positive(rate=rate, free_length=free_length)
    require_not_negative(load=load)
    length = free_length - load / rate
    require_positive(length=length)
    return length


def stored_energy(rate: Real, free_length: Real, length: Real) -> Real:
    """Work held in a spring at a length, E = k x^2 / 2.

    Parameters
    ----------
    rate : float or array
        Rate [N/m].
    free_length : float or array
        Length without load [m]. For the greatest energy of a state take the longest it may have.
    length : float or array
        Length at which it is held [m]. For the greatest energy take the shortest it may have.

    Returns
    -------
    float or array
        Energy that comes out when it is let out to its free length [J].

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    The integral of `force` over the travel; R. C. Hibbeler, Mechanics of Materials, chapter on energy
    methods.

    Example
    -------
    >>> round(stored_energy(65_693.4, 0.1323, 0.076), 2)
    104.11
    """
    require_positive(rate=rate, free_length=free_length, length=length)
    shortening: Real = larger(free_length - length, 0.0)
    return rate * shortening**2 / 2


def energy_released(rate: Real, free_length: Real, length_before: Real, length_after: Real) -> Real:
    """Work that a spring gives up as it lengthens from one held length to another.

    Parameters
    ----------
    rate : float or array
        Rate [N/m].
    free_length : float or array
        Length without load [m].
    length_before : float or array
        Length before [m].
    length_after : float or array
        Length after, not shorter [m]; it may lie beyond the free length.

    Returns
    -------
    float or array
        Energy let go [J]. What the spring still holds is `stored_energy` at the length after.

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the spring would have got shorter.

    References
    ----------
    Difference of `stored_energy` at the two lengths.

    Example
    -------
    >>> round(energy_released(65_693.4, 0.1323, 0.076, 0.0787), 2)
    9.75
    """
    require_at_least(length_before, "the length before", length_after=length_after)
    before = stored_energy(rate, free_length, length_before)
    return before - stored_energy(rate, free_length, length_after)


def rate_from_loads(length_1: Real, load_1: Real, length_2: Real, load_2: Real) -> Real:
    """Rate of a spring from its loads on a tester at two lengths.

    Parameters
    ----------
    length_1 : float or array
        Longer length [m].
    load_1 : float or array
        Load read at it [N].
    length_2 : float or array
        Shorter length [m].
    load_2 : float or array
        Load read at it [N].

    Returns
    -------
    float or array
        Rate [N/m].

    Raises
    ------
    OutOfRange
        A length or load is not above zero, the lengths are not in this order, or the load did not rise.

    Notes
    -----
    Take the two lengths well apart: the error of a load is divided by their difference. Readings near
    the free length (end coils still settling) or near solid (coils touching) do not show this rate.

    References
    ----------
    Hooke's law at two points. EN 13906-1 takes the rate between 30 % and 70 % of the greatest load (from
    memory).

    Example
    -------
    >>> round(rate_from_loads(0.090, 2780.0, 0.076, 3700.0))
    65714
    """
    require_positive(length_1=length_1, load_1=load_1, length_2=length_2, load_2=load_2)
    require_above(length_2, "the shorter length", length_1=length_1)
    require_above(load_1, "the load at the longer length", load_2=load_2)
    return (load_2 - load_1) / (length_1 - length_2)


def free_length_from_loads(length_1: Real, load_1: Real, length_2: Real, load_2: Real) -> Real:
    """Free length that two loads at two lengths point back to.

    Parameters
    ----------
    length_1 : float or array
        Longer length [m].
    load_1 : float or array
        Load read at it [N].
    length_2 : float or array
        Shorter length [m].
    load_2 : float or array
        Load read at it [N].

    Returns
    -------
    float or array
        Estimate of the free length [m]. It stretches the straight line between the readings; a real
        spring may stand a little longer, so plan a release for the longer of this and a measured length.

    Raises
    ------
    OutOfRange
        As `rate_from_loads`.

    References
    ----------
    Hooke's law at two points.

    Example
    -------
    >>> round(free_length_from_loads(0.090, 2780.0, 0.076, 3700.0), 4)
    0.1323
    """
    return length_1 + load_1 / rate_from_loads(length_1, load_1, length_2, load_2)
