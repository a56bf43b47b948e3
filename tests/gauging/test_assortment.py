"""What there is to choose from, and the limits worked back to it."""

from fractions import Fraction as F

import pytest

from layshaft.gauging.assortment import (
    Assortment,
    CrossLimit,
    Pool,
    Result,
    Selective,
    Size,
    split_independent,
)
from layshaft.gauging.window import Window

RING = Selective("ring", (Size(F("1.5")), Size(F("1.6"))))
WASHER = Selective("washer", (Size(F(2)), Size(F(3))))
PLATES = Pool("plates", (F("1.8"), F("1.7"), F("1.9")), 2)
WIDE, NARROW, AT_LEAST = Window(F(0), F(4)), Window(F(1), F(2)), Window(F(1), None)


def result(name, choices, limit=None, **more):
    return Result(name, F(5), {choice: F(-1) for choice in choices}, limit, **more)


def demands(assortment):
    return {demand.name: demand for demand in assortment.demands}


def test_results_and_expressions_follow_the_choices():
    clearance, gap = result("clearance", ["ring", "plates"]), result("gap", ["washer"])
    stroke = CrossLimit("stroke", {"clearance": F(1), "gap": F(-2)}, AT_LEAST, constant=F(1))
    found = Assortment((RING, WASHER), (PLATES,), (clearance, gap), (stroke,))
    values = found.values({"ring": F("1.5"), "washer": F(2), "plates": F("3.5")})
    assert values == {"clearance": 0, "gap": 3, "stroke": -5}


def test_a_limit_across_results_is_worked_back_to_the_choices():
    clearance, gap = result("clearance", ["ring", "plates"]), result("gap", ["ring", "washer"])
    stroke = CrossLimit("stroke", {"clearance": F(1), "gap": F(-1)}, AT_LEAST)
    (demand,) = Assortment((RING, WASHER), (PLATES,), (clearance, gap), (stroke,)).demands
    assert demand.coefficients == {"plates": -1, "washer": 1}
    assert demand.constant == 0
    assert demand.is_cross


def test_a_limit_with_two_ends_is_scaled_by_its_width_and_aims_at_its_middle():
    found = demands(Assortment((RING,), (), (result("gap", ["ring"], WIDE),)))["gap"]
    assert (found.scale, found.aim) == (4, 2)
    assert found.distance(F(1)) == F(1, 4)


def test_a_limit_with_one_end_borrows_the_narrowest_width_beside_it():
    results = (
        result("wide", ["ring"], WIDE),
        result("narrow", ["ring", "washer"], NARROW),
        result("elsewhere", ["washer"], Window(F(0), F("0.1"))),
        result("open", ["ring"], AT_LEAST),
    )
    found = demands(Assortment((RING, WASHER), (), results))
    assert found["open"].scale == 1
    assert found["open"].aim is None
    alone = demands(Assortment((RING, WASHER), (), (results[2], results[3])))
    assert alone["open"].scale == F("0.1")
    assert demands(Assortment((RING,), (), (results[3],)))["open"].scale == 1


def test_a_limit_of_no_width_borrows_too():
    exact = result("exact", ["ring"], Window(F(3), F(3)))
    found = demands(Assortment((RING,), (), (exact, result("wide", ["ring"], WIDE))))
    assert found["exact"].scale == 4
    assert found["exact"].aim == 3


def test_scale_and_aim_can_be_given():
    found = demands(Assortment((RING,), (), (result("gap", ["ring"], WIDE, scale=F(2), aim=F("1.1")),)))[
        "gap"
    ]
    assert (found.scale, found.aim) == (2, F("1.1"))


def test_questions_that_share_nothing_come_apart():
    results = (
        result("a", ["ring"], WIDE),
        result("b", ["washer"], WIDE),
        result("c", ["plates"], WIDE),
        result("fixed", [], WIDE),
    )
    cross = CrossLimit("b less c", {"b": F(1), "c": F(-1)}, AT_LEAST)
    parts = split_independent(Assortment((RING, WASHER), (PLATES,), results, (cross,)))
    assert [part.choice_names for part in parts] == [("ring",), ("washer", "plates")]
    assert [[one.name for one in part.results] for part in parts] == [["a", "fixed"], ["b", "c"]]
    assert [[one.name for one in part.cross_limits] for part in parts] == [[], ["b less c"]]


def test_a_result_that_nothing_moves_goes_where_it_is_needed():
    results = (result("a", ["ring"], WIDE), result("b", ["washer"], WIDE), result("fixed", [], WIDE))
    cross = CrossLimit("b less fixed", {"b": F(1), "fixed": F(-1)}, AT_LEAST)
    parts = split_independent(Assortment((RING, WASHER), (), results, (cross,)))
    assert [[one.name for one in part.results] for part in parts] == [["a"], ["b", "fixed"]]


def test_a_shared_drawer_holds_questions_together():
    pair = tuple(Selective(name, RING.sizes, "rings") for name in ("front", "rear"))
    results = (result("a", ["front"], WIDE), result("b", ["rear"], WIDE))
    assert len(split_independent(Assortment(pair, (), results))) == 1


@pytest.mark.parametrize(
    "make, message",
    [
        (lambda: Assortment((), (), ()), "nothing to choose"),
        (lambda: Assortment((RING, RING), (), ()), "two of the choices are called 'ring'"),
        (lambda: Assortment((RING,), (), (result("a", []), result("a", []))), "two of the results"),
        (lambda: Assortment((RING,), (), (result("a", ["rung"]),)), "depends on 'rung'"),
        (
            lambda: Assortment((RING,), (), (result("a", ["ring"]),), (CrossLimit("x", {"b": F(1)}, WIDE),)),
            "depends on 'b'",
        ),
        (lambda: Assortment((Selective("ring", (Size(F(1)), Size(F(1)))),), (), ()), "listed twice"),
        (lambda: Assortment((Selective("ring", (Size(F(1), stock=-1),)),), (), ()), "below zero"),
        (lambda: Assortment((), (Pool("plates", (), -1),), ()), "zero or more"),
        (lambda: Assortment((RING,), (), (result("a", ["ring"], WIDE, scale=F(0)),)), "not above zero"),
        (
            lambda: Assortment(
                (
                    Selective("front", (Size(F(1), stock=1),), "rings"),
                    Selective("rear", (Size(F(1), stock=2),), "rings"),
                ),
                (),
                (),
            ),
            "two stocks",
        ),
    ],
)
def test_impossible_questions_are_refused(make, message):
    with pytest.raises(ValueError, match=message):
        make()
