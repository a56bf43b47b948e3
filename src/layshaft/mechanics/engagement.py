"""A clutch taking up: common speed, time it slips, heat it makes, rise of temperature.

Here are ``common_speed``, ``slip_time``, ``slip_heat``, ``slip_heat_driven`` and ``lumped_rise``. Torque is
taken as constant; oil, cooling and where in the pack the heat goes are not here.
"""

from __future__ import annotations

from layshaft.mechanics._domain import Real, require_finite, require_not_negative, require_positive


def common_speed(inertia_1: Real, speed_1: Real, inertia_2: Real, speed_2: Real) -> Real:
    """Speed at which two free rotors meet when a clutch joins them.

    Parameters
    ----------
    inertia_1 : float or array
        Moment of inertia of the first rotor [kg m^2].
    speed_1 : float or array
        Its speed before [rad/s].
    inertia_2 : float or array
        Moment of inertia of the second rotor [kg m^2].
    speed_2 : float or array
        Its speed before [rad/s].

    Returns
    -------
    float or array
        Common speed [rad/s].

    Raises
    ------
    OutOfRange
        An inertia is not above zero or a speed is not finite.

    References
    ----------
    Conservation of angular momentum; R. S. Khurmi, J. K. Gupta, Theory of Machines, Example 10.27.

    Example
    -------
    >>> common_speed(2.0, 100.0, 3.0, 0.0)
    40.0
    """
    require_positive(inertia_1=inertia_1, inertia_2=inertia_2)
    require_finite(speed_1=speed_1, speed_2=speed_2)
    return (inertia_1 * speed_1 + inertia_2 * speed_2) / (inertia_1 + inertia_2)


def slip_time(
    inertia_1: Real,
    speed_1: Real,
    inertia_2: Real,
    speed_2: Real,
    clutch_torque: Real,
    torque_1: Real = 0.0,
    torque_2: Real = 0.0,
) -> Real:
    """Time until the slower rotor has caught the faster one.

    Parameters
    ----------
    inertia_1 : float or array
        Moment of inertia of the faster rotor [kg m^2].
    speed_1 : float or array
        Its speed before [rad/s].
    inertia_2 : float or array
        Moment of inertia of the slower rotor [kg m^2].
    speed_2 : float or array
        Its speed before [rad/s].
    clutch_torque : float or array
        Torque of the slipping clutch [N m].
    torque_1 : float or array
        Outside torque that drives the faster rotor, negative for a load on it [N m].
    torque_2 : float or array
        Outside torque that drives the slower rotor, negative for a load on it [N m].

    Returns
    -------
    float or array
        Time [s].

    Raises
    ------
    OutOfRange
        An inertia is not above zero, the first rotor is not the faster, or the clutch never closes the gap.

    References
    ----------
    Newton's second law for both rotors; R. S. Khurmi, J. K. Gupta, Theory of Machines, Example 10.27.

    Example
    -------
    >>> slip_time(2.0, 100.0, 3.0, 0.0, 12.0)
    10.0
    """
    require_positive(inertia_1=inertia_1, inertia_2=inertia_2)
    require_finite(torque_1=torque_1, torque_2=torque_2)
    slip = speed_1 - speed_2
    require_not_negative(speed_difference=slip)
    closing = (clutch_torque - torque_1) / inertia_1 + (clutch_torque + torque_2) / inertia_2
    require_positive(rate_at_which_the_speeds_close=closing)
    return slip / closing


def slip_heat(inertia_1: Real, inertia_2: Real, speed_difference: Real) -> Real:
    """Heat made when two rotors, both free, are brought to one speed.

    Parameters
    ----------
    inertia_1 : float or array
        Moment of inertia of one rotor [kg m^2].
    inertia_2 : float or array
        Moment of inertia of the other [kg m^2].
    speed_difference : float or array
        Difference of their speeds before [rad/s].

    Returns
    -------
    float or array
        Heat [J], whatever the torque of the clutch.

    Raises
    ------
    OutOfRange
        An inertia is not above zero or the difference is not finite.

    References
    ----------
    Kinetic energy before less after; R. S. Khurmi, J. K. Gupta, Theory of Machines, Example 10.27.

    Example
    -------
    >>> slip_heat(2.0, 3.0, 100.0)
    6000.0
    """
    require_positive(inertia_1=inertia_1, inertia_2=inertia_2)
    require_finite(speed_difference=speed_difference)
    return inertia_1 * inertia_2 / (inertia_1 + inertia_2) * speed_difference**2 / 2


def slip_heat_driven(inertia: Real, speed_difference: Real) -> Real:
    """Heat made when a rotor is brought to the speed of a driver that does not slow down.

    Parameters
    ----------
    inertia : float or array
        Moment of inertia of the rotor [kg m^2].
    speed_difference : float or array
        Difference of the speeds before [rad/s].

    Returns
    -------
    float or array
        Heat [J]; more than with a free driver, because the driver's engine adds to it.

    Raises
    ------
    OutOfRange
        The inertia is not above zero or the difference is not finite.

    References
    ----------
    U. C. Jindal, Machine Design, Example 22-1.

    Example
    -------
    >>> slip_heat_driven(3.0, 100.0)
    15000.0
    """
    require_positive(inertia=inertia)
    require_finite(speed_difference=speed_difference)
    return inertia * speed_difference**2 / 2


def lumped_rise(heat: Real, mass: Real, specific_heat: Real) -> Real:
    """Rise of temperature of a body that takes a heat and gives none away.

    Parameters
    ----------
    heat : float or array
        Heat [J].
    mass : float or array
        Mass of the body [kg].
    specific_heat : float or array
        Specific heat [J/(kg K)].

    Returns
    -------
    float or array
        Rise, the same all through [K]; the face of a plate is hotter for a moment.

    Raises
    ------
    OutOfRange
        Mass or specific heat is not above zero, or the heat is negative.

    References
    ----------
    T. H. Wentzell, Machine Design, Example 16.5.

    Example
    -------
    >>> round(lumped_rise(15_000.0, 1.5, 460.0), 1)
    21.7
    """
    require_positive(mass=mass, specific_heat=specific_heat)
    require_not_negative(heat=heat)
    return heat / (mass * specific_heat)
