"""What holds a spring in the closed unit, against the force worked out by hand."""

from fractions import Fraction

import pytest

from layshaft.book import check_book, load_book
from layshaft.book.check.load import installed_length
from layshaft.book.check.retainer import shortest_installed
from layshaft.book.check.subject import Subject
from tests.stories.story import example

RING = "    rating: 5 kN\n"


def found(*changes):
    book = example()
    for old, new in changes:
        assert old in book
        book = book.replace(old, new)
    return [(one.id, one.found, one.variants) for one in check_book(book, "book.yaml").found]


def test_shortest_length_by_hand():
    """25.00 mm as drawn; 0.02 + 0.05 at the hub, 2 x 0.03 + 0.02 in the pack, 0.02 each of plate, ring and cap."""
    subject = Subject(load_book(example(), "book.yaml").unit("SH-S"))
    load = subject.unit.loads["slip spring"]
    length, stops = installed_length(subject, load)
    assert length == Fraction(25, 1000)
    assert shortest_installed(subject.sizes, load, stops) == Fraction(25_00 - 21, 100_000)


@pytest.mark.parametrize("rating, is_enough", [("689.22 N", True), ("689.21 N", False)])
def test_rating_is_held_against_the_greatest_installed_force(rating, is_enough):
    """42 N/mm, the stiffest, times 41 mm, the longest free, less 24.59 mm: 689.22 N in the small size.

    24.79 mm as drawn, and 0.20 mm less with the thickest pressure plate that there is.
    """
    told = {variants for id, _, variants in found((RING, f"    rating: {rating}\n")) if id == "holder overloaded"}
    assert (("SH-S",) not in told) == is_enough


def test_both_figures_are_told():
    assert ("holder overloaded", "1 N, and the spring pushes with up to 690 N", ("SH-S",)) in found(
        (RING, "    rating: 1 N\n")
    )


def test_pieces_share_what_they_hold():
    """Four rings of 200 N hold 800 N."""
    four = ("    class: snap ring\n    mass: 0.01 kg\n", "    class: snap ring\n    count: 4\n    mass: 0.0025 kg\n")
    assert found(four, (RING, "    rating: 200 N\n")) == []


def test_part_off_the_way_may_be_weak():
    assert found(("    class: friction plate\n", "    class: friction plate\n    rating: 1 N\n")) == []
