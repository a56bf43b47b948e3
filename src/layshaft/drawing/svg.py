"""Elements of an SVG picture as text: names escaped, lengths to a tenth, ink from the page around it."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

Value = str | int | float


def element(name: str, attributes: Mapping[str, Value], *inside: str) -> str:
    """One element; what stands inside is markup already."""
    told = "".join(f' {key}="{escape(_written(value))}"' for key, value in attributes.items())
    return f"<{name}{told}>{''.join(inside)}</{name}>" if inside else f"<{name}{told}/>"


def text(words: str, x: float, y: float, size: float, anchor: str = "start", weight: str = "normal") -> str:
    """A line of text."""
    where: dict[str, Value] = {"x": x, "y": y, "font-size": size, "text-anchor": anchor, "font-weight": weight}
    return element("text", {**where, "fill": "currentColor"}, escape(words))


def line(x1: float, y1: float, x2: float, y2: float, **more: Value) -> str:
    """A straight line."""
    return element("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2, **_stroke(more)})


def path(d: str, **more: Value) -> str:
    """A path that is drawn and not filled, if nothing else is said."""
    return element("path", {"d": d, "fill": "none", **_stroke(more)})


def points(ends: list[tuple[float, float]]) -> str:
    """Points for a path, from the first to the last."""
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in ends)


def _stroke(more: Mapping[str, Value]) -> dict[str, Value]:
    given = {key.replace("_", "-"): value for key, value in more.items()}
    return {"stroke": "currentColor", "stroke-width": 2, **given}


def _written(value: Value) -> str:
    return f"{value:.1f}".removesuffix(".0") if isinstance(value, float) else str(value)
