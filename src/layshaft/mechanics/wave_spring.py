"""Single-turn wave springs of flat wire: rate, force and stress by the makers' trade formula.

Here are ``shape_factor``, ``rate``, ``force`` and ``stress``. The formula is an agreed one with a factor by
the number of waves, not a theory: expect 10 % on load, and take a maker's load at height where there is one.
Not here: nested and crest-to-crest springs, plates that are waved and then clamped in a pack.
"""

from __future__ import annotations

import math

from layshaft.mechanics._domain import OutOfRange, Real, require_above, require_not_negative, require_positive

# Waves a turn from, to (both included), factor.
_FACTORS = ((2.0, 4.0, 3.88), (4.5, 6.5, 2.90), (7.0, 9.5, 2.30), (10.0, math.inf, 2.13))


def shape_factor(waves: float) -> float:
    """Factor K of the trade formula for a number of waves.

    Parameters
    ----------
    waves : float
        Waves in a turn [-].

    Returns
    -------
    float
        Factor on the deflection [-].

    Raises
    ------
    OutOfRange
        Under two waves, or between two rows of the table.

    References
    ----------
    Table published alike by several spring makers: 2 to 4, 4.5 to 6.5, 7 to 9.5, 10 and more waves.

    Example
    -------
    >>> shape_factor(4)
    3.88
    """
    for least, most, factor in _FACTORS:
        if least <= waves <= most:
            return factor
    raise OutOfRange("waves", waves, "2 to 4, 4.5 to 6.5, 7 to 9.5, or 10 and more")


def rate(outer: Real, inner: Real, thickness: Real, waves: float, elastic_modulus: Real) -> Real:
    """Rate of a single-turn wave spring, E b t^3 N^4 / (K Dm^3) x OD/ID.

    Parameters
    ----------
    outer : float or array
        Outer diameter [m].
    inner : float or array
        Inner diameter [m].
    thickness : float or array
        Thickness of the flat wire [m].
    waves : float
        Waves in a turn [-].
    elastic_modulus : float or array
        Modulus of elasticity [Pa].

    Returns
    -------
    float or array
        Rate [N/m].

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, or the waves are not in the table.

    References
    ----------
    Trade formula f = P K Dm^3 / (E b t^3 N^4) x ID/OD as published by spring makers, solved for P/f.

    Example
    -------
    In newtons a millimetre:

    >>> round(rate(0.0762, 0.0635, 0.0010668, 4, 206.84e9) / 1000, 1)
    370.5
    """
    require_positive(inner=inner, thickness=thickness, elastic_modulus=elastic_modulus)
    require_above(inner, "the inner diameter", outer=outer)
    width, mean = (outer - inner) / 2, (outer + inner) / 2
    stiff = elastic_modulus * width * thickness**3 * waves**4 / (shape_factor(waves) * mean**3)
    return stiff * outer / inner


def force(rate: Real, free_height: Real, height: Real) -> Real:
    """Push of a wave spring at a height; none once it is as high as when free.

    Parameters
    ----------
    rate : float or array
        Rate [N/m].
    free_height : float or array
        Height without load, over the crests [m].
    height : float or array
        Height at which it is held [m].

    Returns
    -------
    float or array
        Force [N].

    Raises
    ------
    OutOfRange
        A figure is not above zero, or the height is above the free height.

    Notes
    -----
    Near flat the waves shorten in number and the force climbs far above this line: makers give loads to
    about 80 % of the travel (common practice, no source).

    References
    ----------
    Hooke's law with `rate`.

    Example
    -------
    >>> round(force(370.5e3, 0.0030, 0.0025), 1)
    185.2
    """
    require_positive(rate=rate, free_height=free_height, height=height)
    require_not_negative(free_height_less_height=free_height - height)
    return rate * (free_height - height)


def stress(load: Real, outer: Real, inner: Real, thickness: Real, waves: float) -> Real:
    """Bending stress at the crests, 3 pi P Dm / (4 b t^2 N^2).

    Parameters
    ----------
    load : float or array
        Force on the spring [N].
    outer : float or array
        Outer diameter [m].
    inner : float or array
        Inner diameter [m].
    thickness : float or array
        Thickness of the flat wire [m].
    waves : float
        Waves in a turn [-].

    Returns
    -------
    float or array
        Stress [Pa].

    Raises
    ------
    OutOfRange
        A size is not above zero, the diameters cross, the load is negative, or the waves are not in the
        table.

    References
    ----------
    Trade formula as published by spring makers.

    Example
    -------
    >>> round(stress(444.82, 0.0762, 0.0635, 0.0010668, 4) / 1e6)
    633
    """
    require_positive(inner=inner, thickness=thickness)
    require_not_negative(load=load)
    require_above(inner, "the inner diameter", outer=outer)
    shape_factor(waves)
    width, mean = (outer - inner) / 2, (outer + inner) / 2
    return 3 * math.pi * load * mean / (4 * width * thickness**2 * waves**2)
