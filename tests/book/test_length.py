"""How short stops can come to hold a load: every size at its worst, by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layshaft.book import load_book
from layshaft.book.check.subject import Subject
from layshaft.book.length import path_span
from layshaft.book.size import Leaf, Sizes, Span
from layshaft.plan.bench import Bench
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from tests.stories.story import example

PATH = ("cap on the ring", "ring in its groove", "plate on the pack")


def test_the_worst_length_of_the_manual_s_spring() -> None:
    """25 mm; shoulder 0.05, groove, ring, cap, plate and steel 0.02 each, two plates 0.03: 0.21 mm either way.

    The pressure plate comes in 2.80 to 3.20 mm: until it is read it may be either, 0.20 mm more.
    """
    unit = load_book(example(), "book.yaml").unit("SH-S")
    subject = Subject(unit)
    span = path_span(unit, subject.sizes, "slip spring", PATH)
    assert (span.low, span.nominal, span.high) == (Fraction("0.02479"), Fraction("0.025"), Fraction("0.02521"))
    assert subject.shortest("slip spring") == Fraction("0.02459")
    any_size = path_span(unit, subject.sizes.at_any_size(), "slip spring", PATH)
    assert (any_size.low, any_size.nominal, any_size.high) == (Fraction("0.02459"), span.nominal, Fraction("0.02541"))


def test_a_size_that_was_read_is_no_longer_any() -> None:
    """The plate read at 3.10 mm leaves 24.90 mm, and 0.19 mm either way of all others."""
    unit = load_book(example(), "book.yaml").unit("SH-S")
    read = {Leaf("SH-50", "front", "rear"): Span.exactly(Fraction("0.0031"))}
    span = path_span(unit, Sizes(unit, read).at_any_size(), "slip spring", PATH)
    assert (span.low, span.nominal, span.high) == (Fraction("0.02471"), Fraction("0.0249"), Fraction("0.02509"))


def test_plan_and_check_hold_one_shortest_length() -> None:
    unit = load_book(example(), "book.yaml").unit("SH-S")
    loads = Loads(Bench(unit), Sizes(unit).at_any_size())
    shortest = Lengths(loads).installed("slip spring").low
    assert shortest == pytest.approx(float(Subject(unit).shortest("slip spring")), abs=1e-12)
