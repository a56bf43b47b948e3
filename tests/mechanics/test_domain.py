"""Refusals name the figure, what was found and what would do, for one figure and for arrays."""

import numpy as np
import pytest

from layshaft.mechanics import OutOfRange, coil, disc_spring, oneway, piston, spring


def test_refusal_carries_what_a_message_needs():
    with pytest.raises(OutOfRange) as refusal:
        coil.mean_diameter(0.020, 0.011)
    fault = refusal.value
    assert (fault.name, fault.found, fault.needed) == ("outside_diameter", 0.020, "above two wires (0.022)")
    assert str(fault) == "outside diameter is 0.02, but must be above two wires (0.022)"


def test_one_bad_element_refuses_the_array():
    with pytest.raises(OutOfRange) as refusal:
        spring.force(65e3, 0.132, np.array([0.076, -0.001]))
    assert refusal.value.name == "length"


@pytest.mark.parametrize(
    "call, name",
    [
        (lambda: spring.force(0.0, 0.132, 0.076), "rate"),
        (lambda: spring.length_under(1e3, 0.1, 100.0), "length"),
        (lambda: spring.energy_released(1e3, 0.1, 0.08, 0.07), "length_after"),
        (lambda: spring.rate_from_loads(0.07, 100.0, 0.08, 200.0), "length_1"),
        (lambda: spring.rate_from_loads(0.08, 200.0, 0.07, 100.0), "load_2"),
        (lambda: piston.area(0.05, 0.06), "bore"),
        (lambda: piston.force(-1.0, 0.01), "pressure"),
        (lambda: disc_spring.force(0.04, 0.02, 0.002, 0.001, 0.0011, 2e11, 0.3), "travel_over_cone_height"),
        (lambda: disc_spring.force(0.02, 0.04, 0.002, 0.001, 0.0005, 2e11, 0.3), "outer"),
        (lambda: oneway.strut_angle(0.048, 0.007, 0.0355), "roller_in_its_pocket"),
        (lambda: coil.solid_length(0.01, 5.0, "ground"), "ends"),
    ],
)
def test_refused(call, name):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert refusal.value.name == name


def test_edges_that_are_allowed():
    """Flat is still a travel, a ram without return springs and a spring at its free length are in range."""
    assert disc_spring.force(0.04, 0.02, 0.002, 0.001, 0.001, 2e11, 0.3) > 0
    assert spring.force(65e3, 0.132, 0.132) == 0
    assert piston.force(0.0, 0.01) == 0
