"""Shop presses: what the gauge says, what the ram gives, how far it must be able to travel.

Here are ``ram_force``, ``gauge_reading``, ``smallest_readable_force``, ``is_readable``, ``release_travel``,
``left_before_solid``, ``ram_extension``, ``stroke_left`` and ``daylight_left``.

Heights along the press: with the ram drawn in, its face stands the *daylight* above the bed; the ram can come
out by its *stroke*. A gauge shows pressure, never that a spring is free: zero is proved by parts that rock.
A press rating, guards and fixtures are the maker's and come first.
"""

from __future__ import annotations

from layshaft.mechanics._domain import (
    Real,
    require_above,
    require_between,
    require_not_negative,
    require_positive,
)
from layshaft.mechanics._elementwise import larger


def ram_force(gauge_pressure: Real, ram_area: Real, return_force: Real = 0.0) -> Real:
    """Force on the work at a gauge pressure.

    Parameters
    ----------
    gauge_pressure : float or array
        Pressure shown [Pa].
    ram_area : float or array
        Area of the ram's piston [m^2].
    return_force : float or array
        What the ram's own return springs take at this stroke [N]; they pull it in while it presses.

    Returns
    -------
    float or array
        Force on the work [N]; none while the pressure only holds the return springs.

    Raises
    ------
    OutOfRange
        The area is not above zero, or pressure or return force is negative.

    References
    ----------
    F = pA less the return force; T. H. Wentzell, Machine Design, Example 10.1.

    Example
    -------
    >>> round(ram_force(2.0e6, 0.0021, 150.0))
    4050
    """
    require_positive(ram_area=ram_area)
    require_not_negative(gauge_pressure=gauge_pressure, return_force=return_force)
    result: Real = larger(gauge_pressure * ram_area - return_force, 0.0)
    return result


def gauge_reading(force: Real, ram_area: Real, return_force: Real = 0.0) -> Real:
    """Pressure the gauge shows at a force on the work.

    Parameters
    ----------
    force : float or array
        Force on the work [N].
    ram_area : float or array
        Area of the ram's piston [m^2].
    return_force : float or array
        What the ram's own return springs take at this stroke [N].

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
    p = (F + return force)/A; T. H. Wentzell, Machine Design, Example 10.2.

    Example
    -------
    >>> round(gauge_reading(4224.0, 0.0021, 150.0) / 1e6, 2)
    2.08
    """
    require_positive(ram_area=ram_area)
    require_not_negative(force=force, return_force=return_force)
    return (force + return_force) / ram_area


def smallest_readable_force(
    gauge_scale: Real, ram_area: Real, return_force: Real = 0.0, readable_share: Real = 0.1
) -> Real:
    """Least force on the work that the gauge can show.

    Parameters
    ----------
    gauge_scale : float or array
        Full scale of the gauge [Pa].
    ram_area : float or array
        Area of the ram's piston [m^2].
    return_force : float or array
        What the ram's own return springs take [N].
    readable_share : float or array
        Part of the scale under which its needle says nothing [-].

    Returns
    -------
    float or array
        Force [N]. Work under it is controlled by stroke or by a load cell.

    Raises
    ------
    OutOfRange
        Scale or area is not above zero, the return force is negative, the share is not between 0 and 1.

    References
    ----------
    A tenth of the scale: common practice, no source. Gauges are usually classed by a share of full scale, so
    an error that is small at the top is large at the bottom.

    Example
    -------
    >>> round(smallest_readable_force(70e6, 0.0021))
    14700
    """
    require_positive(gauge_scale=gauge_scale)
    require_between(0.0, 1.0, readable_share=readable_share)
    return ram_force(readable_share * gauge_scale, ram_area, return_force)


def is_readable(
    force: float, gauge_scale: float, ram_area: float, return_force: float = 0.0, readable_share: float = 0.1
) -> bool:
    """Whether the gauge can show a force on the work.

    Parameters
    ----------
    force : float
        Force on the work [N].
    gauge_scale : float
        Full scale of the gauge [Pa].
    ram_area : float
        Area of the ram's piston [m^2].
    return_force : float
        What the ram's own return springs take [N].
    readable_share : float
        Part of the scale under which its needle says nothing [-].

    Returns
    -------
    bool
        False where the reading would lie under that part of the scale, or past its end.

    Raises
    ------
    OutOfRange
        Scale or area is not above zero, a force is negative, the share is not between 0 and 1.

    References
    ----------
    A gauge cannot show a force under a tenth of its scale: common practice, no source.

    Example
    -------
    A 20 ton press and a clutch spring:

    >>> is_readable(4224.0, 70e6, 0.0021)
    False
    """
    require_positive(gauge_scale=gauge_scale)
    require_between(0.0, 1.0, readable_share=readable_share)
    return bool(readable_share * gauge_scale <= gauge_reading(force, ram_area, return_force) <= gauge_scale)


def release_travel(longest_free_length: Real, pressed_length: Real, margin: Real) -> Real:
    """How far a ram must be let back until a pressed spring is free for certain.

    Parameters
    ----------
    longest_free_length : float or array
        Longest free length the spring may have [m].
    pressed_length : float or array
        Its length under the ram [m].
    margin : float or array
        Further travel, so that parts can be seen to rock [m].

    Returns
    -------
    float or array
        Travel [m].

    Raises
    ------
    OutOfRange
        A length is not above zero, the margin is negative, or the pressed length is not the shorter.

    References
    ----------
    Geometry. Why the longest: a spring longer than drawn is still loaded where the drawn one is free.

    Example
    -------
    >>> round(release_travel(0.1338, 0.068, 0.005), 4)
    0.0708
    """
    require_positive(pressed_length=pressed_length)
    require_not_negative(margin=margin)
    require_above(pressed_length, "the pressed length", longest_free_length=longest_free_length)
    return longest_free_length - pressed_length + margin


def left_before_solid(pressed_length: Real, solid_length: Real) -> Real:
    """How much further a pressed spring could be shortened before its coils touch.

    Parameters
    ----------
    pressed_length : float or array
        Its length under the ram [m].
    solid_length : float or array
        Its solid length [m].

    Returns
    -------
    float or array
        Travel left [m]; negative where the plan would press past solid, which breaks something else.

    Raises
    ------
    OutOfRange
        A length is not above zero.

    References
    ----------
    Geometry.

    Example
    -------
    >>> round(left_before_solid(0.068, 0.05775), 5)
    0.01025
    """
    require_positive(pressed_length=pressed_length, solid_length=solid_length)
    return pressed_length - solid_length


def ram_extension(daylight: Real, pressed_height: Real) -> Real:
    """How far the ram stands out when it holds a stack at its pressed height.

    Parameters
    ----------
    daylight : float or array
        Bed to ram face with the ram drawn in [m].
    pressed_height : float or array
        Unit, blocks and tool together, bed to ram face, spring pressed [m].

    Returns
    -------
    float or array
        Extension [m]; negative where the stack does not fit under the ram at all.

    Raises
    ------
    OutOfRange
        A length is not above zero.

    References
    ----------
    Geometry.

    Example
    -------
    >>> round(ram_extension(0.620, 0.540), 3)
    0.08
    """
    require_positive(daylight=daylight, pressed_height=pressed_height)
    return daylight - pressed_height


def stroke_left(stroke: Real, daylight: Real, pressed_height: Real) -> Real:
    """Stroke the ram has left beyond the pressed height.

    Parameters
    ----------
    stroke : float or array
        Stroke of the ram [m].
    daylight : float or array
        Bed to ram face with the ram drawn in [m].
    pressed_height : float or array
        Unit, blocks and tool together, spring pressed [m].

    Returns
    -------
    float or array
        Stroke left [m]; negative where the ram cannot reach: put blocks under the unit.

    Raises
    ------
    OutOfRange
        A length is not above zero.

    References
    ----------
    Geometry.

    Example
    -------
    >>> round(stroke_left(0.150, 0.620, 0.540), 3)
    0.07
    """
    require_positive(stroke=stroke)
    return stroke - ram_extension(daylight, pressed_height)


def daylight_left(daylight: Real, pressed_height: Real, release_travel: Real) -> Real:
    """Room the ram has left when the spring has been let back all the way.

    Parameters
    ----------
    daylight : float or array
        Bed to ram face with the ram drawn in [m].
    pressed_height : float or array
        Unit, blocks and tool together, spring pressed [m].
    release_travel : float or array
        How far the ram must be let back (`release_travel`) [m].

    Returns
    -------
    float or array
        Room left [m]; negative where the ram is home before the spring is free, so that a loaded spring could
        not be let out: take blocks away or use another press.

    Raises
    ------
    OutOfRange
        A length is not above zero.

    References
    ----------
    Geometry.

    Example
    -------
    >>> round(daylight_left(0.620, 0.540, 0.0708), 4)
    0.0092
    """
    require_positive(release_travel=release_travel)
    return ram_extension(daylight, pressed_height) - release_travel
