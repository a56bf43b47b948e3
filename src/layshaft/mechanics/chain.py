"""Roller and silent chain: wear from slack, length and centre distance, pull.

Here are ``elongation``, ``slack_at_elongation``, ``length_in_links``, ``equal_sprocket_centre``,
``pitch_diameter`` and ``pull``. Wear limits are the maker's; half a percent for a drive without a tensioner
is common practice, no source.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import (
    Real,
    require_at_least,
    require_between,
    require_not_negative,
    require_positive,
)
from layshaft.mechanics._elementwise import sin, sqrt


def elongation(slack: Real, span: Real, length: Real) -> Real:
    """Part by which a chain has grown, from the sag of one span while the other is tight.

    Parameters
    ----------
    slack : float or array
        Sag of the span in its middle from the straight line [m]: half the way that it can be moved up and
        down.
    span : float or array
        Free length of the span [m], the centre distance for equal sprockets.
    length : float or array
        Length of the whole chain when new [m].

    Returns
    -------
    float or array
        Growth over length [-].

    Raises
    ------
    OutOfRange
        A length is not above zero, the slack is negative or over a tenth of the span.

    Notes
    -----
    The sagging span is taken as a flat parabola, 8 s^2/(3 C) longer than straight; at a tenth of the span
    that is 2.5 % over the true parabola, on the side of wear. All growth is taken to be in this span: a new
    chain that does not sit tight at none shows as worn, so read a new one first where there is one.

    References
    ----------
    Arc of a flat parabola, any calculus text: L = C (1 + 8/3 (s/C)^2 - ...).

    Example
    -------
    In percent:

    >>> round(100 * elongation(0.0165, 0.233363, 0.8001), 4)
    0.3888
    """
    require_positive(span=span, length=length)
    require_between(0.0, 0.1, slack_over_span=slack / span)
    return 8 * slack**2 / (3 * span * length)


def slack_at_elongation(elongation: Real, span: Real, length: Real) -> Real:
    """Sag of one span, the other tight, at a growth; the inverse of `elongation`.

    Parameters
    ----------
    elongation : float or array
        Growth over length [-].
    span : float or array
        Free length of the span [m].
    length : float or array
        Length of the whole chain when new [m].

    Returns
    -------
    float or array
        Sag from the straight line in the middle of the span [m].

    Raises
    ------
    OutOfRange
        A length is not above zero, or the growth is negative or gives a slack over a tenth of the span.

    References
    ----------
    As `elongation`, solved for the sag.

    Example
    -------
    >>> round(slack_at_elongation(0.005, 0.233363, 0.8001) * 1000, 2)
    18.71
    """
    require_positive(span=span, length=length)
    require_not_negative(elongation=elongation)
    slack = sqrt(3 * elongation * span * length / 8)
    require_between(0.0, 0.1, slack_over_span=slack / span)
    return slack


def length_in_links(centre_distance: Real, pitch: Real, teeth_1: Real, teeth_2: Real) -> Real:
    """Length of a chain round two sprockets, in links.

    Parameters
    ----------
    centre_distance : float or array
        Between the axes [m].
    pitch : float or array
        Pitch of the chain [m].
    teeth_1 : float or array
        Teeth of one sprocket [-].
    teeth_2 : float or array
        Teeth of the other [-].

    Returns
    -------
    float or array
        Links [-]; a real chain has a whole, mostly even, number, and the drive closes where this is one.

    Raises
    ------
    OutOfRange
        A figure is not above zero.

    References
    ----------
    ISO 10823, number of links (from memory): 2C/p + (z1 + z2)/2 + ((z2 - z1)/2 pi)^2 p/C. Exact for equal
    sprockets.

    Example
    -------
    >>> round(length_in_links(0.2333625, 0.009525, 35, 35), 6)
    84.0
    """
    require_positive(centre_distance=centre_distance, pitch=pitch, teeth_1=teeth_1, teeth_2=teeth_2)
    pitches_apart = centre_distance / pitch
    wrapped = (teeth_1 + teeth_2) / 2
    slanted = ((teeth_2 - teeth_1) / (2 * math.pi)) ** 2 / pitches_apart
    return 2 * pitches_apart + wrapped + slanted


def equal_sprocket_centre(links: Real, pitch: Real, teeth: Real) -> Real:
    """Centre distance at which a chain of a number of links sits tight on two equal sprockets.

    Parameters
    ----------
    links : float or array
        Links of the chain [-].
    pitch : float or array
        Pitch of the chain [m].
    teeth : float or array
        Teeth of each sprocket [-].

    Returns
    -------
    float or array
        Centre distance [m].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or there are no more links than teeth.

    References
    ----------
    Geometry: half of the links wrap, the other half make two straight spans.

    Example
    -------
    >>> round(equal_sprocket_centre(84, 0.009525, 35) * 1000, 4)
    233.3625
    """
    require_positive(pitch=pitch, teeth=teeth)
    require_at_least(teeth + 1, "one more than the teeth", links=links)
    return pitch * (links - teeth) / 2


def pitch_diameter(pitch: Real, teeth: Real) -> Real:
    """Diameter of the circle that the pins lie on, round a sprocket.

    Parameters
    ----------
    pitch : float or array
        Pitch of the chain [m].
    teeth : float or array
        Teeth [-].

    Returns
    -------
    float or array
        Diameter [m].

    Raises
    ------
    OutOfRange
        The pitch is not above zero or there are fewer than three teeth.

    References
    ----------
    ISO 606, pitch circle p / sin(180 degrees / z) (from memory).

    Example
    -------
    >>> round(pitch_diameter(0.009525, 35) * 1000, 3)
    106.259
    """
    require_positive(pitch=pitch)
    require_at_least(3, "three", teeth=teeth)
    return pitch / sin(math.pi / teeth)


def pull(torque: Real, pitch_diameter: Real) -> Real:
    """Pull in the tight span from the torque on a sprocket.

    Parameters
    ----------
    torque : float or array
        Torque on the sprocket [N m].
    pitch_diameter : float or array
        Its pitch diameter [m].

    Returns
    -------
    float or array
        Pull [N]; slack side, centrifugal pull and shock are left out.

    Raises
    ------
    OutOfRange
        The diameter is not above zero or the torque is negative.

    References
    ----------
    Balance of moments.

    Example
    -------
    >>> round(pull(1100.0, 0.106259))
    20704
    """
    require_positive(pitch_diameter=pitch_diameter)
    require_not_negative(torque=torque)
    return 2 * torque / pitch_diameter
