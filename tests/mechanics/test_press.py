"""A press must show the force, reach the work and have room to let it out again."""

import pytest

from layshaft.mechanics import press


@pytest.mark.parametrize(
    "force, is_shown",
    [(0.0, False), (14_699.0, False), (14_700.0, True), (100_000.0, True), (147_000.0, True), (147_001.0, False)],
)
def test_readable_from_a_tenth_of_the_scale_to_its_end(force, is_shown):
    """2100 mm^2 and 70 MPa: the scale ends at 147 kN, a tenth of it is 14.7 kN."""
    assert press.is_readable(force, 70e6, 2100e-6) is is_shown


def test_return_springs_lift_the_reading_and_take_force():
    assert press.gauge_reading(4224.0, 2100e-6, 1000.0) > press.gauge_reading(4224.0, 2100e-6)
    assert press.ram_force(0.2e6, 2100e-6, 1000.0) == 0.0
    least = press.smallest_readable_force(70e6, 2100e-6, 1000.0)
    assert least == pytest.approx(13_700.0)


def test_stroke_and_daylight_trade_against_each_other():
    """Blocks under the unit give the ram reach and take the room it needs to let the spring out."""
    low, high = 0.540, 0.560
    assert press.stroke_left(0.150, 0.620, high) > press.stroke_left(0.150, 0.620, low)
    assert press.daylight_left(0.620, low, 0.0708) > 0 > press.daylight_left(0.620, high, 0.0708)


def test_a_stack_that_does_not_fit_shows_as_negative():
    assert press.ram_extension(0.500, 0.540) < 0
