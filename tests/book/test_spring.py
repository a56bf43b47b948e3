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
    rate_band,
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


def test_a_lopsided_test_load_counts_at_its_greatest():
    """1600 +400 -0 N at 60 mm, free at 100 mm: 2000 N / 40 mm = 50 N/mm at most and 40 N/mm at least, by hand."""
    band = rate_band(data(free_length="100 mm", test={"length": "60 mm", "load": "1600 +400 -0 N"}))
    assert band == pytest.approx((40_000, 40_000, 50_000))


@pytest.mark.parametrize("free", ["100 ± 2 mm", "100 mm", "100 +0 -4 mm"])
@pytest.mark.parametrize("test_length", ["90 mm", "60 ± 0.5 mm", "75 +1 -0 mm"])
@pytest.mark.parametrize("solid", [{}, {"solid_length": "30 mm"}])
def test_no_spring_that_passes_its_test_pushes_harder_than_is_said(free, test_length, solid):
    """F (L0 - L) / (L0 - T) at every corner of load, free length and test length, at every length; by brute force."""
    told = data(free_length=free, test={"length": test_length, "load": "1600 +80 -160 N"}, **solid)
    most, length, load = greatest_rate(told), told.test.length, told.test.load
    shortest = Fraction("0.030") if solid else Fraction(0)
    for at in (shortest + (told.free_length.high - shortest) * step / 20 for step in range(21)):
        worst = max(
            force * (own - at) / (own - tested)
            for force in (load.low, load.high)
            for own in (told.free_length.low, told.free_length.high)
            for tested in (length.low, length.high)
        )
        assert most * float(told.free_length.high - at) >= float(worst) * (1 - 1e-12)


def test_wire_coils_and_mean_diameter_widen_the_rate():
    """79500 x 6^4 / (8 x 40^3 x 6) = 33.539 N/mm; 6.3 mm of wire on 39.5 mm with 5.9 coils: 43.052 N/mm, by hand."""
    plain = {"free_length": "100 ± 1 mm", "shear_modulus": "79500 MPa"}
    thick = data(wire="6.0 ± 0.3 mm", mean_diameter="40 mm", active_coils="6", **plain)
    assert greatest_rate(thick) == pytest.approx(79500e6 * 0.0063**4 / (8 * 0.040**3 * 6))
    loose = data(wire="6.0 ± 0.3 mm", mean_diameter="40 ± 0.5 mm", active_coils="6 ± 0.1", **plain)
    band = rate_band(loose)
    assert band.nominal == pytest.approx(33_539, rel=1e-4)
    assert band.high == pytest.approx(43_052, rel=1e-4)
    assert band.low == pytest.approx(79500e6 * 0.0057**4 / (8 * 0.0405**3 * 6.1))


def test_a_lopsided_test_load_scatters_the_rate_of_the_wire():
    coil = {"wire": "11 mm", "mean_diameter": "88 mm", "active_coils": "3.25", "shear_modulus": "79500 MPa"}
    told = data(free_length="132.3 mm", test={"length": "76 mm", "load": "3700 +370 -0 N"}, **coil)
    assert greatest_rate(told) == pytest.approx(65_693 * 1.1, rel=1e-3)


def test_of_two_that_are_given_the_wider_counts():
    told = data(rate="40 ± 2 N/mm", free_length="100 mm", test={"length": "60 mm", "load": "1600 +400 -0 N"})
    assert rate_band(told) == pytest.approx((38_000, 40_000, 50_000))


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
