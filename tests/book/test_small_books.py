"""Three small books of constructions that no demo book has: they load whole and say what they were drawn for."""

from fractions import Fraction
from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.check.load import is_spring_class
from layshaft.book.separation import Tree, is_met
from layshaft.book.size import Sizes
from layshaft.book.turning import network
from layshaft.mechanics import speed
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.teardown import start_state

FOLDER = Path(__file__).parents[1] / "books"
BOOKS = {path.stem: load_book(path.read_text(encoding="utf-8"), path.name) for path in sorted(FOLDER.glob("*.yaml"))}
EVERY = [(name, variant) for name, book in BOOKS.items() for variant in book.units]


def unit_of(book, variant):
    return BOOKS[book].unit(variant)


def test_there_are_three_and_none_has_a_note():
    assert {"compound-box", "two-springs-one-rail", "two-ways-out"} <= set(BOOKS)
    assert all(book.notes == () for book in BOOKS.values())


@pytest.mark.parametrize(("book", "variant"), EVERY)
def test_every_spring_is_in_a_load_with_a_release(book, variant):
    unit = unit_of(book, variant)
    springs = {name for name, part in unit.parts.items() if is_spring_class(part)}
    assert {part for load in unit.loads.values() for part in load.springs} == springs
    assert all(load.releases for load in unit.loads.values())


def test_both_springs_push_one_fork():
    unit = unit_of("two-springs-one-rail", "even")
    front, rear = (unit.loads[name].seats for name in ("front spring", "rear spring"))
    assert front[1].split()[0] == rear[0].split()[0] == "RS-30"


def test_uneven_springs_rest_where_their_forces_are_alike():
    """By hand, 76 mm of room for both: 8 (60 - a) = 12 (60 - (76 - a)), so a = 33.6 mm and 211.2 N on either side."""
    unit = unit_of("two-springs-one-rail", "uneven")
    loads = Loads(Bench(unit), Sizes(unit)).evaluate(start_state(unit))
    lengths = {name: load.length * 1e3 for name, load in loads.items()}
    assert lengths == pytest.approx({"front spring": 33.6, "rear spring": 42.4})
    assert [load.force for load in loads.values()] == pytest.approx([211.2, 211.2])


def test_either_clip_off_lets_the_spindle_tilt():
    unit = unit_of("two-ways-out", "wide")
    tree = Tree(unit)
    way = next(way for way in unit.parts["TW-20"].ways if way.toward == "hatch")
    clauses = tree.needs_clauses(tree.index["TW-20"], (*way.held_by, *way.behind))
    lid = tree.mask_of(["TW-13"])
    assert not is_met(clauses, lid)
    assert is_met(clauses, lid | tree.mask_of(["TW-31"]))
    assert is_met(clauses, lid | tree.mask_of(["TW-32"]))
    assert not is_met(clauses, tree.mask_of(["TW-31", "TW-32"]))


def test_without_a_hatch_one_way_is_left():
    ways = unit_of("two-ways-out", "narrow").parts["TW-20"].ways
    assert [way.toward for way in ways] == ["rear"]


@pytest.mark.parametrize("variant", ["three", "four"])
def test_stepped_planets_turn_as_counted_by_hand(variant):
    """1 + 72 x 30 / (24 x 18) = 6 with the ring held (Willis' rule), after 40 / 20 the other way round."""
    train = unit_of("compound-box", variant).train
    turned = speed.solve_speeds(network(train), (), {train.input: Fraction(1), train.case: Fraction(0)})
    assert turned[train.output] == -Fraction(1, 12)


def test_radial_plugs_stand_on_axes_of_their_own():
    unit = unit_of("compound-box", "three")
    assert {unit.axis_of(part) for part in ("CB-60", "CB-70", "CB-50")} == {"left", "top", "output"}
