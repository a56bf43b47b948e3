"""Stacks of equal disc springs: packets of discs nested the same way, packets set against each other.

Here are ``stack_force``, ``stack_travel`` and ``stack_free_length``. Friction between nested discs is left
out; in a real stack it adds to the force going in and takes from it going out, 2 to 3 % for each nested pair
(common practice, no source).
"""

from __future__ import annotations

from layshaft.mechanics._domain import Real, require_at_least, require_not_negative, require_positive


def stack_force(disc_force: Real, nested: Real) -> Real:
    """Force of a stack whose packets each hold discs nested the same way.

    Parameters
    ----------
    disc_force : float or array
        Force of one disc at its travel [N].
    nested : float or array
        Discs in a packet [-].

    Returns
    -------
    float or array
        Force [N].

    Raises
    ------
    OutOfRange
        The force is negative or a packet holds no disc.

    References
    ----------
    EN 16984:2016 (DIN 2092), stacking.

    Example
    -------
    >>> stack_force(2500.0, 2)
    5000.0
    """
    require_not_negative(disc_force=disc_force)
    require_at_least(1, "one disc", nested=nested)
    return disc_force * nested


def stack_travel(disc_travel: Real, packets: Real) -> Real:
    """Travel of a stack whose packets are set against each other.

    Parameters
    ----------
    disc_travel : float or array
        Travel of one disc [m].
    packets : float or array
        Packets in the stack [-].

    Returns
    -------
    float or array
        Travel [m].

    Raises
    ------
    OutOfRange
        The travel is negative or there is no packet.

    References
    ----------
    EN 16984:2016 (DIN 2092), stacking.

    Example
    -------
    >>> round(stack_travel(0.0008, 3), 6)
    0.0024
    """
    require_not_negative(disc_travel=disc_travel)
    require_at_least(1, "one packet", packets=packets)
    return disc_travel * packets


def stack_free_length(thickness: Real, cone_height: Real, nested: Real, packets: Real) -> Real:
    """Length of a stack without load.

    Parameters
    ----------
    thickness : float or array
        Thickness of a disc t [m].
    cone_height : float or array
        Height of the free cone h0 [m].
    nested : float or array
        Discs in a packet, nested the same way [-].
    packets : float or array
        Packets, set against each other [-].

    Returns
    -------
    float or array
        Free length [m].

    Raises
    ------
    OutOfRange
        A size is not above zero, or a count is under one.

    References
    ----------
    EN 16984:2016 (DIN 2092), stacking: each packet is one free disc and a thickness for each further disc.

    Example
    -------
    >>> round(stack_free_length(0.0015, 0.00115, 2, 3), 6)
    0.01245
    """
    require_positive(thickness=thickness, cone_height=cone_height)
    require_at_least(1, "one disc", nested=nested)
    require_at_least(1, "one packet", packets=packets)
    return packets * (cone_height + nested * thickness)
