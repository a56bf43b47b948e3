"""A shape for each state of a load, so that none is told by colour: a block, a wedge, an open ring, an empty circle."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.drawing import svg

FULL: dict[str, svg.Value] = {"fill": "currentColor"}
EMPTY: dict[str, svg.Value] = {"fill": "none", "stroke": "currentColor", "stroke-width": 2.5}


def shape(kind: str, x: float, y: float, r: float) -> Iterator[str]:
    """The shape of a state round a point; `point` is a place on a curve."""
    match kind:
        case "closed":
            yield svg.element("rect", {"x": x - r, "y": y - r, "width": 2 * r, "height": 2 * r, **FULL})
        case "held":
            yield svg.element("path", {"d": svg.points([(x - r, y - r), (x + r, y - r), (x, y + r)]) + "Z", **FULL})
        case "off":
            # A ring with its gap, as it comes out of a groove.
            ends = f"M{x - r * 0.45:.1f} {y + r * 0.89:.1f}A{r:.1f} {r:.1f} 0 1 1 {x + r * 0.45:.1f} {y + r * 0.89:.1f}"
            yield svg.element("path", {"d": ends, **EMPTY, "stroke-width": 4})
        case "in":
            # The same ring shut and filled: seated.
            yield svg.element("circle", {"cx": x, "cy": y, "r": r, **EMPTY, "stroke-width": 4})
            yield svg.element("circle", {"cx": x, "cy": y, "r": r * 0.45, **FULL})
        case "let off":
            yield svg.element("rect", {"x": x - r, "y": y - r, "width": 2 * r, "height": 2 * r, **EMPTY})
            yield svg.element("rect", {"x": x - r, "y": y, "width": 2 * r, "height": r, **FULL})
        case "free":
            yield svg.element("circle", {"cx": x, "cy": y, "r": r, **EMPTY})
        case "cross":
            for side in (-1, 1):
                yield svg.line(x - r, y - side * r, x + r, y + side * r, stroke_width=4)
        case "point":
            yield svg.element("circle", {"cx": x, "cy": y, "r": r, **FULL})
