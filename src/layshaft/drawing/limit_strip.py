"""A figure against its limit as a strip: the limit takes the middle half, and the figure stands where it falls.

The mark is told by its shape: a block is what is taken, a ring lies inside, a cross outside.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from layshaft.drawing import svg
from layshaft.drawing.state_shape import shape
from layshaft.quantity import Limit

WIDTH, HEIGHT = 240.0, 44.0
EDGE = 30.0
ARROW = 6.0
StripMark = Literal["taken", "inside", "outside"]
SHAPES: dict[StripMark, str] = {"taken": "closed", "inside": "free", "outside": "cross"}


def draw_limit_strip(value: Fraction, limit: Limit, mark: StripMark) -> str:
    """The strip of one figure; nothing where the limit has one end, since there is no middle half of it then."""
    low, high = limit.low, limit.high
    if low is None or high is None or low == high:
        return ""
    share = float((value - low) / (high - low))
    # A preload grows to the right, as its limit is written.
    place = 0.25 + 0.5 * (1 - share if limit.is_preload else share)
    middle, x = HEIGHT / 2, _across(min(1.0, max(0.0, place)))
    first, last = _across(0.25), _across(0.75)
    beyond = [] if 0 <= place <= 1 else [_arrow(x, middle, 1 if place > 1 else -1)]
    return svg.element(
        "svg",
        {"xmlns": "http://www.w3.org/2000/svg", "viewBox": f"0 0 {WIDTH:.0f} {HEIGHT:.0f}", "aria-hidden": "true"},
        svg.line(EDGE, middle, WIDTH - EDGE, middle, stroke_width=1.5),
        svg.line(first, middle, last, middle, stroke_width=5),
        svg.line(first, middle - 14, first, middle + 14, stroke_width=3),
        svg.line(last, middle - 14, last, middle + 14, stroke_width=3),
        *shape(SHAPES[mark], x, middle, 9.0),
        *beyond,
    )


def _across(place: float) -> float:
    return EDGE + place * (WIDTH - 2 * EDGE)


def _arrow(x: float, y: float, side: int) -> str:
    """That it lies further out than the strip goes."""
    tip = x + side * 22
    return svg.path(svg.points([(tip - side * ARROW, y - ARROW), (tip, y), (tip - side * ARROW, y + ARROW)]))
