"""A figure worked out in binary fractions, held against one as typed: the last digits of the working decide nothing."""

from __future__ import annotations

from fractions import Fraction

NOISE = 1e-12
"""What the working may be off by, as a share of the figure that was typed (own choice: more than a chain of twenty
sizes comes to, less than one in the tenth place of what anybody types)."""


def is_more(worked: float, typed: Fraction | float) -> bool:
    """Whether a figure that was worked out lies above a typed one; exactly on it is not above.

    >>> is_more(42000 * (0.101 - 0.058), Fraction(1806))
    False
    >>> is_more(1806.0001, Fraction(1806))
    True
    """
    return worked > float(typed) + NOISE * abs(float(typed))


def is_less(worked: float, typed: Fraction | float) -> bool:
    """Whether a figure that was worked out lies below a typed one; exactly on it is not below."""
    return worked < float(typed) - NOISE * abs(float(typed))


def is_over(typed: Fraction | float, worked: float) -> bool:
    """Whether a typed figure surely lies above one that was worked out; exactly on it is not above."""
    return float(typed) > worked + NOISE * abs(worked)
