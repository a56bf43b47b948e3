"""A figure on its strip: the limit takes the middle half, and what lies far out is shown at the edge with an arrow."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree

import pytest

from layshaft.drawing.limit_strip import EDGE, WIDTH, draw_limit_strip
from layshaft.quantity import LENGTH, parse_limit

SVG = "{http://www.w3.org/2000/svg}"
GAP = parse_limit("0.50 .. 0.90 mm", LENGTH)


def root(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


@pytest.mark.parametrize(("value", "place"), [("0.5", 0.25), ("0.7", 0.5), ("0.9", 0.75), ("0.3", 0.0), ("1.1", 1.0)])
def test_it_stands_where_it_falls(value: str, place: float):
    drawn = root(draw_limit_strip(Fraction(value) / 1000, GAP, "inside"))
    ring = drawn.find(f"{SVG}circle")
    assert float(ring.attrib["cx"]) == pytest.approx(EDGE + place * (WIDTH - 2 * EDGE), abs=0.06)
    assert not drawn.findall(f"{SVG}path")


@pytest.mark.parametrize("value", ["-4", "40"])
def test_what_lies_beyond_the_strip_has_an_arrow_and_stays_on_it(value: str):
    drawn = root(draw_limit_strip(Fraction(value) / 1000, GAP, "outside"))
    assert len(drawn.findall(f"{SVG}path")) == 1
    assert all(0 <= float(line.attrib[key]) <= WIDTH for line in drawn.findall(f"{SVG}line") for key in ("x1", "x2"))


def test_each_mark_has_a_shape_of_its_own():
    shapes = [draw_limit_strip(Fraction("0.7") / 1000, GAP, mark) for mark in ("taken", "inside", "outside")]
    assert len({*shapes}) == 3


def test_a_limit_with_one_end_has_no_middle():
    assert draw_limit_strip(Fraction(1), parse_limit("at least 0.5 mm", LENGTH), "inside") == ""
