"""What a spring can do at most, from whatever its data is."""

from fractions import Fraction

import pytest

from layshaft.book import load_book
from layshaft.book.definition import SpringData
from layshaft.book.spring import (
    greatest_energy,
    greatest_force,
    greatest_rate,
    greatest_speed,
    longest_free,
    solid_length,
)
from layshaft.quantity import parse_quantity
from tests.stories.story import example

UNIT = load_book(example(), "b").unit("SH-S")
LOAD = UNIT.loads["slip spring"]


def data(**told):
    return SpringData.model_validate({"kind": "helical", **{key.replace("_", " "): one for key, one in told.items()}})


def test_rate_as_told_counts_at_its_stiffest():
    assert greatest_rate(data(rate="40 ± 2 N/mm")) == pytest.approx(42_000)


def test_rate_from_the_wire():
    # Helical spring of round wire, k = G d^4 / (8 D^3 n): 79500 x 11^4 / (8 x 88^3 x 3.25) = 65.693 N/mm.
    coil = data(wire="11 mm", mean_diameter="88 mm", active_coils="3.25", shear_modulus="79500 MPa")
    assert greatest_rate(coil) == pytest.approx(65_693, rel=1e-5)


def test_rate_from_a_test_is_raised_by_its_band():
    tested = data(free_length="50 mm", test={"length": "30 mm", "load": "200 ± 10 N"})
    assert greatest_rate(tested) == pytest.approx(200 / 0.020 * 1.05)


def test_rate_that_nothing_tells():
    assert greatest_rate(data(free_length="50 mm")) is None
    assert greatest_rate(data(kind="torsion")) is None


def test_solid_length():
    assert solid_length(data(solid_length="18 ± 0.5 mm")) == Fraction("0.0185")
    assert solid_length(data(wire="2 mm", total_coils="6")) == Fraction("0.012")
    assert solid_length(data(wire="2 mm")) is None


def test_most_that_the_small_book_can_let_go():
    # By hand: 41 mm free at most, 42 N/mm at most, 25 mm fitted: 16 mm, 672 N, 5.376 J; cap of 60 g: sqrt(2 E / m).
    assert longest_free(UNIT, LOAD) == Fraction("0.041")
    assert greatest_force(UNIT, LOAD, Fraction("0.025")) == pytest.approx(672)
    energy = greatest_energy(UNIT, LOAD, Fraction("0.025"))
    assert energy == pytest.approx(5.376)
    assert greatest_speed(UNIT, LOAD, energy) == pytest.approx((2 * 5.376 / 0.06) ** 0.5)


def test_a_wound_spring_stores_by_angle():
    wound = data(kind="torsion", angular_rate="0.5 N·m/rad")
    parts = {**UNIT.parts, "SH-40": UNIT.parts["SH-40"].model_copy(update={"spring": wound})}
    unit = UNIT.model_copy(update={"parts": parts})
    assert greatest_energy(unit, LOAD, None) is None, "nothing says how far it is wound"
    turned = LOAD.model_copy(update={"wound": parse_quantity("2 rad")})
    assert greatest_energy(unit, turned, None) == pytest.approx(0.5 * 2**2 / 2)


def test_without_data_nothing_is_claimed():
    parts = {**UNIT.parts, "SH-40": UNIT.parts["SH-40"].model_copy(update={"spring": None})}
    bare = UNIT.model_copy(update={"parts": parts})
    assert longest_free(bare, LOAD) is None
    assert greatest_force(bare, LOAD, Fraction("0.025")) is None
    assert greatest_energy(bare, LOAD, Fraction("0.025")) is None
