"""Where a figure lies between the two ends of a limit, decided on exact figures."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

End = Literal["low", "high"]


class Limit(Protocol):
    """Anything with a low and a high end; `None` is an end that is not there."""

    @property
    def low(self) -> Fraction | None:
        """Smallest figure that is still inside, or `None`."""

    @property
    def high(self) -> Fraction | None:
        """Largest figure that is still inside, or `None`."""


@dataclass(frozen=True, slots=True)
class Window:
    """A limit with one end or two, both ends inside.

    Attributes
    ----------
    low, high : Fraction or None [any one unit]
        Ends as typed.

    Raises
    ------
    ValueError
        No end at all, or the low end above the high one.

    Examples
    --------
    >>> Window(Fraction("0.5"), Fraction("0.9")).width
    Fraction(2, 5)
    """

    low: Fraction | None
    high: Fraction | None

    def __post_init__(self) -> None:
        check_ends(self)

    @property
    def width(self) -> Fraction | None:
        """Distance between the ends, `None` when one is missing."""
        return None if self.low is None or self.high is None else self.high - self.low


@dataclass(frozen=True, slots=True)
class Margin:
    """Distance from a figure to the end it is nearest to failing, negative outside."""

    distance: Fraction
    end: End


def check_ends(limit: Limit) -> None:
    """Refuse a limit that has no end, or whose ends are the wrong way round.

    Parameters
    ----------
    limit : Limit [any one unit]

    Raises
    ------
    ValueError
        As said above.

    Examples
    --------
    >>> check_ends(Window(Fraction(1), None))
    """
    if limit.low is None and limit.high is None:
        raise ValueError("a limit needs a low end, a high end or both; this one has neither")
    if limit.low is not None and limit.high is not None and limit.low > limit.high:
        raise ValueError(f"the low end {limit.low} lies above the high end {limit.high}")


def is_inside(value: Fraction, limit: Limit) -> bool:
    """Whether a figure lies inside a limit; a figure exactly on an end is inside.

    Parameters
    ----------
    value : Fraction [unit of the limit]
        Figure as typed, never rounded to a gauge's step.
    limit : Limit [any one unit]

    Returns
    -------
    bool [-]

    Notes
    -----
    Says nothing about how sure the figure is: see `conformity`.

    Examples
    --------
    >>> limit = Window(None, Fraction("0.70"))
    >>> is_inside(Fraction("0.70"), limit), is_inside(Fraction("0.7001"), limit)
    (True, False)
    """
    return margin(value, limit).distance >= 0


def margin(value: Fraction, limit: Limit) -> Margin:
    """Distance to the nearest end of a limit, and which end that is.

    Parameters
    ----------
    value : Fraction [unit of the limit]
    limit : Limit [any one unit]

    Returns
    -------
    Margin [unit of the limit]
        Negative when the figure lies outside. At equal distances the low end is named.

    Raises
    ------
    ValueError
        The limit has no end, or its ends are the wrong way round.

    Examples
    --------
    >>> margin(Fraction("0.95"), Window(Fraction("0.5"), Fraction("0.9")))
    Margin(distance=Fraction(-1, 20), end='high')
    """
    check_ends(limit)
    found = []
    if limit.low is not None:
        found.append(Margin(value - limit.low, "low"))
    if limit.high is not None:
        found.append(Margin(limit.high - value, "high"))
    return min(found, key=lambda one: one.distance)
