"""Student's distribution for whole degrees of freedom: how much wider a band is when little was measured."""

from __future__ import annotations

import math
from statistics import NormalDist

# Beyond this the factor differs from the normal one by less than 1 part in 10,000.
_MANY = 20_000


def probability_within(factor: float, degrees_of_freedom: int) -> float:
    """Probability that a Student variable lies between minus and plus a factor.

    Parameters
    ----------
    factor : float [-]
        Half-width in standard uncertainties, zero or more.
    degrees_of_freedom : int [-]
        One or more.

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        No degree of freedom, or a negative factor.

    References
    ----------
    Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, 26.7.3 and 26.7.4 (finite sums).

    Examples
    --------
    >>> round(probability_within(12.71, 1), 3)
    0.95
    """
    if degrees_of_freedom < 1:
        raise ValueError(f"at least 1 degree of freedom is needed, not {degrees_of_freedom!r}")
    if factor < 0:
        raise ValueError(f"a factor is zero or more, not {factor!r}")
    angle = math.atan2(factor, math.sqrt(degrees_of_freedom))
    sine, cosine = math.sin(angle), math.cos(angle)
    is_odd = degrees_of_freedom % 2
    term = cosine if is_odd else 1.0
    total = term if degrees_of_freedom > 1 else 0.0
    for step in range(2 if is_odd else 1, degrees_of_freedom - 2, 2):
        term *= cosine * cosine * step / (step + 1)
        total += term
    return 2 / math.pi * (angle + sine * total) if is_odd else sine * total


def student_factor(probability: float, degrees_of_freedom: float) -> float:
    """Factor that holds a Student variable between minus and plus itself with a given probability.

    Parameters
    ----------
    probability : float [-]
        Between 0 and 1.
    degrees_of_freedom : float [-]
        At least 1; cut down to a whole number, infinity for the normal distribution.

    Returns
    -------
    float [-]

    Raises
    ------
    ValueError
        A probability that is not strictly between 0 and 1, or less than one degree of freedom.

    Notes
    -----
    A part of a degree is cut off, never rounded up: the factor errs on the wide side. From 20,000 degrees on
    the normal factor is given.

    References
    ----------
    JCGM 100:2008, Evaluation of measurement data (GUM), Annex G, table G.2 and G.4.1.

    Examples
    --------
    >>> round(student_factor(0.99, 16.64), 2)
    2.92
    """
    if not 0 < probability < 1:
        raise ValueError(f"a probability lies between 0 and 1, not {probability!r}")
    if not degrees_of_freedom >= 1:
        raise ValueError(f"at least 1 degree of freedom is needed, not {degrees_of_freedom!r}")
    if degrees_of_freedom >= _MANY:
        return NormalDist().inv_cdf((1 + probability) / 2)
    whole = math.floor(degrees_of_freedom)
    low, high = 0.0, 1.0
    while probability_within(high, whole) < probability:
        high *= 2
    # Halving a bracket of doubles ends when the two ends are neighbours.
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if probability_within(middle, whole) < probability else (low, middle)
    return high
