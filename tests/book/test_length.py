"""How short stops can come to hold a load: every size at its worst, by hand."""

from __future__ import annotations

from fractions import Fraction

from layshaft.book import load_book
from layshaft.book.check.subject import Subject
from layshaft.book.length import path_span
from tests.stories.story import example

PATH = ("cap on the ring", "ring in its groove", "plate on the pack")


def test_the_worst_length_of_the_manual_s_spring() -> None:
    """25 mm; shoulder 0.05, groove, ring, cap, plate and steel 0.02 each, two plates 0.03: 0.21 mm either way."""
    unit = load_book(example(), "book.yaml").unit("SH-S")
    subject = Subject(unit)
    span = path_span(unit, subject.sizes, "slip spring", PATH)
    assert (span.low, span.nominal, span.high) == (Fraction("0.02479"), Fraction("0.025"), Fraction("0.02521"))
    assert subject.shortest("slip spring") == span.low
