"""Dimensions: how they multiply, what they are called, what stays apart."""

import pytest

from layshaft.quantity import (
    ACCELERATION,
    ANGLE,
    AREA,
    DENSITY,
    ENERGY,
    EXPANSION,
    FORCE,
    FRACTION,
    FREQUENCY,
    LENGTH,
    MASS,
    POWER,
    PRESSURE,
    PURE,
    RATE,
    ROTATIONAL_SPEED,
    SPEED,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    TORSION_RATE,
    VOLUME,
    Dimension,
    QuantityFault,
)


@pytest.mark.parametrize(
    ("product", "result"),
    [
        # BIPM, SI Brochure, 9th edition, table 4: the derived units in terms of others.
        (LENGTH * LENGTH, AREA),
        (AREA * LENGTH, VOLUME),
        (LENGTH / TIME, SPEED),
        (MASS * LENGTH / TIME / TIME, FORCE),
        (FORCE / AREA, PRESSURE),
        (FORCE * LENGTH, ENERGY),
        (FORCE / LENGTH, RATE),
        (FORCE * SPEED, POWER),
        (SPEED / TIME, ACCELERATION),
        (MASS / VOLUME, DENSITY),
        (PURE / TIME, FREQUENCY),
        (ANGLE / TIME, ROTATIONAL_SPEED),
        (TORQUE / ANGLE, TORSION_RATE),
        (PURE / TEMPERATURE_DIFFERENCE, EXPANSION),
    ],
)
def test_product_is_the_derived_dimension(product: Dimension, result: Dimension) -> None:
    assert product == result
    assert hash(product) == hash(result)


@pytest.mark.parametrize(
    ("dimension", "name"),
    [
        (LENGTH, "a length"),
        (FORCE, "a force"),
        (FORCE / AREA, "a pressure"),
        (TORQUE, "a torque"),
        (ENERGY, "an energy"),
        (FORCE * LENGTH, "a torque or an energy"),
        (LENGTH / LENGTH, "a plain number"),
        (MASS * LENGTH, "a quantity in m·kg"),
        (MASS / LENGTH / TIME, "a quantity in kg/(m·s)"),
        (PURE / MASS, "a quantity in 1/kg"),
        (VOLUME * LENGTH, "a quantity in m^4"),
    ],
)
def test_name_is_plain_words(dimension: Dimension, name: str) -> None:
    assert dimension.name == name
    assert str(dimension) == name


def test_torque_and_energy_are_one_dimension_with_two_names() -> None:
    assert TORQUE == ENERGY
    assert TORQUE.name != ENERGY.name


def test_plain_factor_keeps_the_name() -> None:
    assert (TORQUE * PURE).name == "a torque"
    assert (PURE * TORQUE).name == "a torque"
    assert (TORQUE / FRACTION).name == "a torque"


def test_angle_is_no_plain_number_and_turning_is_no_frequency() -> None:
    assert ANGLE != PURE
    assert ROTATIONAL_SPEED != FREQUENCY
    assert ANGLE / ANGLE == PURE


def test_temperature_is_no_difference_and_is_not_multiplied() -> None:
    assert TEMPERATURE != TEMPERATURE_DIFFERENCE
    assert EXPANSION * LENGTH * TEMPERATURE_DIFFERENCE == LENGTH
    for work in (lambda: EXPANSION * TEMPERATURE, lambda: TEMPERATURE * PURE, lambda: LENGTH / TEMPERATURE):
        with pytest.raises(QuantityFault) as caught:
            work()
        assert caught.value.id == "wrong dimension"
