"""Refusals: a figure that a formula was not made for raises, naming itself and what is needed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

# All floats give a float; as soon as one argument is an array the answer may be one.
Real = TypeVar("Real", float, "float | NDArray[np.float64]")


class OutOfRange(ValueError):
    """A figure lies outside the range a formula is valid for.

    `name` is the argument, `found` the figure as given, `needed` a phrase for what would do.
    """

    def __init__(self, name: str, found: Any, needed: str) -> None:
        self.name = name
        self.found = found
        self.needed = needed
        super().__init__(f"{name.replace('_', ' ')} is {found!r}, but must be {needed}")


def _all(condition: Any) -> bool:
    return bool(condition) if isinstance(condition, bool) else bool(condition.all())


def _require(name: str, value: Any, condition: Any, needed: str) -> None:
    if not _all(condition):
        raise OutOfRange(name, value, needed)


# A comparison with a NaN is false, so each test below also refuses NaN; the upper bound refuses infinity.
def require_positive(**figures: Any) -> None:
    """Refuse any named figure that is not above zero and finite."""
    for name, value in figures.items():
        _require(name, value, (value > 0) & (value < float("inf")), "above zero")


def require_not_negative(**figures: Any) -> None:
    """Refuse any named figure that is negative or not finite."""
    for name, value in figures.items():
        _require(name, value, (value >= 0) & (value < float("inf")), "zero or more")


def require_finite(**figures: Any) -> None:
    """Refuse any named figure that is not a finite number."""
    for name, value in figures.items():
        _require(name, value, (value > float("-inf")) & (value < float("inf")), "a finite number")


def require_above(limit: Any, limit_name: str, **figures: Any) -> None:
    """Refuse any named figure that is not above `limit`."""
    for name, value in figures.items():
        _require(name, value, (value > limit) & (value < float("inf")), f"above {limit_name} ({limit!r})")


def require_at_least(limit: Any, limit_name: str, **figures: Any) -> None:
    """Refuse any named figure below `limit`."""
    for name, value in figures.items():
        _require(name, value, (value >= limit) & (value < float("inf")), f"at least {limit_name} ({limit!r})")


def require_between(low: float, high: float, **figures: Any) -> None:
    """Refuse any named figure outside `low` to `high`, both ends allowed."""
    for name, value in figures.items():
        _require(name, value, (value >= low) & (value <= high), f"between {low!r} and {high!r}")
