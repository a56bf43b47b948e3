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


TWO_SPRINGS = """\
layshaft book: 1
id: two-springs
name: Two springs
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: TS-10
starts: front up
attitudes: [front up, front down]
axes: {main: {start: front, end: rear, start is up: front up, end is up: front down}}
tools: {pliers: {}, bridge: {rating: 5 kN}}
parts:
  TS-10: {name: Body, class: body, mass: 2 kg, faces: {top: -2 mm, groove: 0 mm, shoulder: 40 mm, step: 50 mm}}
  TS-20: {name: Ring, class: snap ring, mass: 0.01 kg, rating: 1.5 kN, faces: {front: 0 mm, rear: 2 mm},
    ways: [{toward: front, tool: pliers, time: 1 min}]}
  TS-30: {name: Cover, class: cover, mass: 0.1 kg, faces: {front: 0 mm, seat: 3 mm},
    ways: [{toward: front, held by: [TS-20], time: 1 min}]}
  TS-40: {name: Outer, class: spring, mass: 0.1 kg, ways: [{toward: front, behind: [TS-30], time: 1 min}],
    spring: {kind: helical, rate: 40 N/mm, free length: 45 mm, solid length: 18 mm}}
  TS-50: {name: Inner, class: spring, mass: 0.1 kg, ways: [{toward: front, behind: [TS-30], time: 1 min}],
    spring: {kind: helical, rate: 25 N/mm, free length: 65 mm, solid length: 22 mm}}
stops:
  ring in groove: {a: TS-10 groove, b: TS-20 front, toward: front, at most: 0 mm, rating: 1.5 kN}
  cover on ring: {a: TS-20 rear, b: TS-30 front, toward: front, at most: 0 mm}
loads:
  outer: {springs: [TS-40], seats: [TS-30 seat, TS-10 shoulder], could leave: [TS-30], releases: [RELEASE]}
  inner: {springs: [TS-50], seats: [TS-30 seat, TS-10 step], could leave: [TS-30], releases: [RELEASE]}
""".replace(
    "RELEASE", "{kind: press, tool: bridge, pushes: TS-30, stands on: TS-10, over: 1 mm, reach: [TS-20], time: 4 min}"
)
"""Both hang on one ring: 40 N/mm x (45 - 35) mm + 25 N/mm x (65 - 45) mm = 400 N + 500 N = 900 N, by hand."""


def found_in_two(*changes):
    book = TWO_SPRINGS
    for old, new in changes:
        assert old in book
        book = book.replace(old, new)
    faults = [one for one in check_book(book, "book.yaml").found if "overloaded" in one.id]
    return [(one.id, one.found, one.sentence) for one in faults]


def test_two_loads_on_one_ring_add_up():
    assert found_in_two(("rating: 1.5 kN", "rating: 900 N")) == []
    pushed = "899 N, and the 2 loads together push with up to 900 N"
    together = "the load `outer` together with `inner`"
    assert found_in_two(("rating: 1.5 kN", "rating: 899 N")) == [
        ("holder overloaded", pushed, f"TS-20 holds {together} by the stop `cover on ring` and is not rated for it."),
        ("stop overloaded", pushed, f"This stop holds {together} and is not rated for it."),
    ]


SCREWS = (
    ("class: snap ring, mass: 0.01 kg, rating: 1.5 kN", "class: screw, count: 4, mass: 0.01 kg, rating: 300 N"),
    ("at most: 0 mm, rating: 1.5 kN}", "at most: 0 mm, by: [TS-20], rated count: 3}"),
)


def test_the_rated_count_has_to_hold_alone():
    """Three of four screws are enough by the book: each has to take 900 N / 3 = 300 N, and by two 450 N."""
    assert found_in_two(*SCREWS) == []
    told = [found for _, found, _ in found_in_two(*SCREWS, ("rated count: 3", "rated count: 2"))]
    assert told == ["300 N, and the 2 loads together push with up to 450 N on each of 2, the rated count of 4"]


def test_loads_that_push_a_part_apart_do_not_add_up():
    """The inner spring under a cover of its own behind the body: the body bears 400 N forward and 500 N rearward."""
    apart = (
        ("stops:\n", "  TS-60: {name: Back, class: cover, mass: 0.1 kg, faces: {front: 0 mm}}\n"
         "stops:\n  back: {a: TS-10 back, b: TS-60 front, toward: rear, at most: 0 mm}\n"),
        ("seats: [TS-30 seat, TS-10 step]", "seats: [TS-10 step, TS-60 front]"),
        ("step: 50 mm}", "step: 50 mm, back: 95 mm}, rating: 500 N"),
    )  # fmt: skip
    assert found_in_two(*apart) == []
    told = [found for _, found, _ in found_in_two(*apart, ("rating: 500 N", "rating: 499 N"))]
    assert told == ["499 N, and the spring pushes with up to 500 N"]
