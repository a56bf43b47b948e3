"""Elementary functions that take one figure or a numpy array, and load numpy only for an array."""

from __future__ import annotations

import math
import numbers
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from layshaft.mechanics._domain import Real


def _apply(scalar: str, vector: str, figure: Real) -> Real:
    function: Callable[[Real], Real]
    if isinstance(figure, numbers.Real):
        function = getattr(math, scalar)
    else:
        import numpy

        function = getattr(numpy, vector)
    return function(figure)


def sqrt(figure: Real) -> Real:
    """Square root."""
    return _apply("sqrt", "sqrt", figure)


def sin(angle: Real) -> Real:
    """Sine of an angle in radians."""
    return _apply("sin", "sin", angle)


def cos(angle: Real) -> Real:
    """Cosine of an angle in radians."""
    return _apply("cos", "cos", angle)


def tan(angle: Real) -> Real:
    """Tangent of an angle in radians."""
    return _apply("tan", "tan", angle)


def arccos(cosine: Real) -> Real:
    """Angle in radians that has this cosine."""
    return _apply("acos", "arccos", cosine)


def log(figure: Real) -> Real:
    """Natural logarithm."""
    return _apply("log", "log", figure)


def choose(condition: Any, if_true: Any, if_false: Any) -> Any:
    """`if_true` where the condition holds, else `if_false`, element by element."""
    if getattr(condition, "ndim", 0) == 0:
        return if_true if condition else if_false
    import numpy

    return numpy.where(condition, if_true, if_false)


def larger(first: Any, second: Any) -> Any:
    """The larger of two figures, element by element."""
    return choose(first > second, first, second)


def smaller(first: Any, second: Any) -> Any:
    """The smaller of two figures, element by element."""
    return choose(first < second, first, second)
