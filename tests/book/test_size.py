"""Sizes from leaves: what is shared cancels or adds, pieces stand by themselves, readings take their place."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Leaf, Sizes, Span, expression_names, leaf_terms, pack_pieces
from tests.stories.story import example

MM = Fraction(1, 1000)


def mm(value):
    return Fraction(value) * MM


def unit_of(parts, packs=None, results=None, stops=None):
    base = {"name": "x", "class": "x", "mass": "1 kg"}
    return Unit.model_validate({
        "id": "u", "name": "u", "maker": "m", "revision": 1, "dated": "2026-10-01", "variant": "v",
        "base": next(iter(parts)), "starts": "up", "attitudes": ["up"],
        "axes": {"a": {"start": "front", "end": "rear"}},
        "parts": {name: {**base, **part} for name, part in parts.items()},
        "packs": packs or {}, "results": {name: {"about": "r", **one} for name, one in (results or {}).items()},
        "stops": stops or {},
    })


BOX = unit_of(
    {
        "B": {"faces": {"mouth": "0 mm", "groove": "41.5 ± 0.05 mm", "floor": "50 ± 0.1 mm"}},
        "C": {"count": 3, "faces": {"front": "0 mm", "rear": "2 ± 0.1 mm"}},
        "D": {"count": 2, "faces": {"front": "0 mm", "rear": "1 mm"}},
        "E": {"faces": {"lip": "3 ± 0.2 mm", "rear": "7 ± 0.3 mm"}},
    },
    {"p": {"order": [{"alternate": ["C", "D"]}]}, "q": {"order": ["D", "C"]}},
    {
        "deep": {"chain": ["plus B mouth to floor"]},
        "short": {"chain": ["less B mouth to groove"]},
        "between": {"chain": ["plus result deep", "plus result short"]},
        "gap": {"chain": ["plus B mouth to groove", "less pack p", "plus 0.4 ± 0.05 mm, gasket"]},
        "all C": {"chain": ["plus each C front to rear"]},
        "one C": {"chain": ["plus C front to rear"]},
        "twice": {"is": "gap + gap - 2 x short"},
        "least": {"is": "min(gap, deep)"},
        "gasket twice": {"chain": ["plus 0.4 ± 0.05 mm, gasket", "plus result gap"]},
        "two unnamed": {"chain": ["plus 1 ± 0.1 mm", "less 1 ± 0.1 mm"]},
        "lip": {"chain": ["plus E lip to rear"]},
    },
    {"s": {"a": "B floor", "b": "C rear", "toward": "rear", "at most": ["less pack p"]}},
)


def bounds(result, sizes=None):
    span = (sizes or Sizes(BOX)).result(result)
    return span.low / MM, span.nominal / MM, span.high / MM


@pytest.mark.parametrize("result, low, nominal, high", [
    ("deep", "49.9", 50, "50.1"),
    ("short", "-41.55", "-41.5", "-41.45"),
    ("between", "8.35", "8.5", "8.65"),
    ("gap", "33.5", "33.9", "34.3"),        # 41.5 - 3 x 2 - 2 x 1 + 0.4; 0.05 + 3 x 0.1 + 0.05
    ("all C", "5.7", 6, "6.3"),
    ("one C", "1.9", 2, "2.1"),
    ("twice", "149.9", "150.8", "151.7"),   # the groove counts 2 + 2 times: 4 x 0.05 + 2 x 0.3 + 2 x 0.05 = 0.9
    ("least", "33.5", "33.9", "34.3"),
    ("gasket twice", "33.85", "34.3", "34.75"),
    ("two unnamed", "-0.2", 0, "0.2"),
    ("lip", "3.5", 4, "4.5"),               # neither face is the datum: both tolerances come in
])
def test_worst_case(result, low, nominal, high):
    assert bounds(result) == (Fraction(low), Fraction(nominal), Fraction(high))


def test_the_datum_cancels_out_of_a_run_between_two_faces():
    form = leaf_terms(BOX, "between")
    assert {str(leaf): count for leaf, count in form.terms.items()} == {"B mouth to floor": 1, "B mouth to groove": -1}


def test_pieces_of_a_pack_in_their_order():
    assert pack_pieces(BOX, BOX.packs["p"]) == [("C", 0), ("D", 0), ("C", 1), ("D", 1), ("C", 2)]
    assert pack_pieces(BOX, BOX.packs["q"]) == [("D", 0), ("D", 1), ("C", 0), ("C", 1), ("C", 2)]


def test_a_reading_takes_the_place_of_the_drawing_for_its_piece():
    sizes = Sizes(BOX, {Leaf("C", "front", "rear", 1): Span(mm("1.895"), mm("1.9"), mm("1.905"))})
    assert bounds("all C", sizes) == (Fraction("5.695"), Fraction("5.9"), Fraction("6.105"))
    assert bounds("one C", sizes) == bounds("one C")


def test_a_reading_between_two_toleranced_faces_leaves_nothing_of_either():
    sizes = Sizes(BOX, {Leaf("E", "lip", "rear"): Span.exactly(mm("4.1"))})
    assert bounds("lip", sizes) == (Fraction("4.1"),) * 3
    assert sizes.coordinate("E rear") == Span(mm("6.9"), mm("7.1"), mm("7.3")), "the surer face stays"


def test_a_reading_may_be_taken_the_other_way():
    sizes = Sizes(BOX, {Leaf("B", "groove", "mouth"): Span.exactly(mm("-41.6"))})
    assert bounds("short", sizes) == (Fraction("-41.6"),) * 3


def test_readings_on_readings():
    mouth, floor = Leaf("B", "mouth", "groove"), Leaf("B", "groove", "floor")
    read = {mouth: Span.exactly(mm("41.6")), floor: Span.exactly(mm("8.3"))}
    sizes = Sizes(BOX, read)
    assert bounds("deep", sizes) == (Fraction("49.9"),) * 3
    third = Sizes(BOX, {**read, Leaf("B", "mouth", "floor"): Span.exactly(mm("49.95"))})
    assert bounds("between", third)[1] in (Fraction("8.3"), Fraction("8.35")), "one reading too many closes no circle"


def test_gap_of_a_stop():
    assert Sizes(BOX).stop_gap("s") == Span(mm("-8.3"), mm("-8"), mm("-7.7"))
    assert Sizes(BOX).drawn_gap("s") == mm(-8)


def test_names_that_an_expression_may_use():
    names = expression_names(load_book(example(), "b").unit("SH-S"))
    assert {"spring length", "SH-60 thickness", "count SH-60", "pack plates"} <= names


def test_readings_stand_in_expressions_as_a_new_part_is():
    sizes = Sizes(load_book(example(), "b").unit("SH-S"))
    span = sizes.result("pressed by")
    # 1 of the free length; 0.05 + 0.02 of the hub, 2 x 0.03 + 0.02 of the pack, 3 x 0.02 of plate, ring and cap.
    assert (span.low / MM, span.nominal / MM, span.high / MM) == (Fraction("13.79"), 15, Fraction("16.21"))


LINKS = [("B", "mouth", "groove"), ("B", "groove", "floor"), ("B", "mouth", "floor"), ("E", "lip", "rear")]


@given(st.lists(st.tuples(st.sampled_from(["plus", "less"]), st.sampled_from(LINKS)), min_size=1, max_size=6))
def test_worst_case_is_that_of_all_corners(links):
    """Against every combination of least and greatest face: the bounds of a linear figure lie in the corners."""
    chain = [f"{sign} {part} {from_} to {to}" for sign, (part, from_, to) in links]
    drawn = {name: {face: at.text for face, at in part.faces.items()} for name, part in BOX.parts.items()}
    unit = unit_of({name: {"faces": faces} for name, faces in drawn.items()}, results={"r": {"chain": chain}})
    faces = {(name, face): (at.low, at.high) for name in "BE" for face, at in BOX.parts[name].faces.items()}
    values = []
    for corner in product(*faces.values()):
        place = dict(zip(faces, corner, strict=True))
        values.append(sum((1 if sign == "plus" else -1) * (place[part, to] - place[part, from_])
                          for sign, (part, from_, to) in links))
    span = Sizes(unit).result("r")
    assert (span.low, span.high) == (min(values), max(values))
