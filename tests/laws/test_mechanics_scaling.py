"""Laws any formula must keep: units do not matter, an array is its elements, more load is more of everything.

A formula in SI works in any units that belong together, so one call in metres and newtons and one in inches
and pounds-force must give the same thing. Each case says how its arguments and its answer scale.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.mechanics import (
    bearing,
    chain,
    clutch,
    coil,
    contact,
    disc_spring,
    disc_stress,
    fastener,
    fit,
    gear,
    oneway,
    piston,
    planet,
    press,
    release,
    ring,
    spring,
    spring_stress,
    strut,
    wave_spring,
)

INCH, POUND_FORCE = 0.0254, 0.45359237 * 9.80665
# What one inch-pound unit of a kind is in SI; times stay seconds, angles radians.
MASS = POUND_FORCE / INCH
KINDS = {
    "one": 1.0,
    "length": INCH,
    "area": INCH**2,
    "fourth": INCH**4,
    "force": POUND_FORCE,
    "stress": POUND_FORCE / INCH**2,
    "rate": POUND_FORCE / INCH,
    "energy": POUND_FORCE * INCH,
    "mass": MASS,
    "speed": INCH,
    "density": MASS / INCH**3,
    "per_force": INCH,
}

DISC = [(0.04, "length"), (0.0204, "length"), (0.00225, "length"), (0.0009, "length"), (0.0006, "length")]
SECTION = [(15.3e-6, "fourth"), (5890e-6, "area")]
RINGS = [(3e-5, "length"), (0.06, "length"), (0.1, "length"), (0.02, "length")]

# Function, arguments (value in SI, kind), kind of the answer.
CASES = [
    (coil.mean_diameter, [(0.099, "length"), (0.011, "length")], "length"),
    (coil.outside_diameter, [(0.088, "length"), (0.011, "length")], "length"),
    (coil.index, [(0.088, "length"), (0.011, "length")], "one"),
    (coil.mass, [(7850.0, "density"), (0.011, "length"), (0.088, "length"), (5.25, "one")], "mass"),
    (spring.rate, [(79.5e9, "stress"), (0.011, "length"), (0.088, "length"), (3.25, "one")], "rate"),
    (spring.active_coils, [(79.5e9, "stress"), (0.011, "length"), (0.088, "length"), (65e3, "rate")], "one"),
    (spring.force, [(65e3, "rate"), (0.132, "length"), (0.076, "length")], "force"),
    (spring.length_under, [(65e3, "rate"), (0.132, "length"), (3000.0, "force")], "length"),
    (spring.stored_energy, [(65e3, "rate"), (0.132, "length"), (0.076, "length")], "energy"),
    (
        spring.energy_released,
        [(65e3, "rate"), (0.132, "length"), (0.076, "length"), (0.079, "length")],
        "energy",
    ),
    (
        spring.rate_from_loads,
        [(0.09, "length"), (2780.0, "force"), (0.076, "length"), (3700.0, "force")],
        "rate",
    ),
    (
        spring.free_length_from_loads,
        [(0.09, "length"), (2780.0, "force"), (0.076, "length"), (3700.0, "force")],
        "length",
    ),
    (spring_stress.shear_factor, [(8.0, "one")], "one"),
    (spring_stress.wahl_factor, [(8.0, "one")], "one"),
    (spring_stress.bergstraesser_factor, [(8.0, "one")], "one"),
    (
        spring_stress.shear_stress,
        [(3700.0, "force"), (0.011, "length"), (0.088, "length"), (1.18, "one")],
        "stress",
    ),
    (
        spring_stress.force_at_stress,
        [(7e8, "stress"), (0.011, "length"), (0.088, "length"), (1.18, "one")],
        "force",
    ),
    (
        spring_stress.stable_free_length,
        [(0.088, "length"), (0.5, "one"), (206e9, "stress"), (79.5e9, "stress")],
        "length",
    ),
    (disc_spring.k1, [(2.0, "one")], "one"),
    (disc_spring.k2, [(2.0, "one")], "one"),
    (disc_spring.k3, [(2.0, "one")], "one"),
    *(
        (
            figure,
            [*DISC, (206e9, "stress"), (0.3, "one")],
            kind,
        )
        for figure, kind in [
            (disc_spring.force, "force"),
            (disc_spring.energy, "energy"),
            (disc_stress.stress_om, "stress"),
            (disc_stress.stress_ii, "stress"),
            (disc_stress.stress_iii, "stress"),
        ]
    ),
    (wave_spring.force, [(370e3, "rate"), (0.003, "length"), (0.0025, "length")], "force"),
    (release.speed_bound, [(104.0, "energy"), (3.9, "mass")], "speed"),
    (release.speed_estimate, [(104.0, "energy"), (3.9, "mass"), (1.1, "mass")], "speed"),
    (piston.area, [(0.176, "length"), (0.122, "length")], "area"),
    (piston.force, [(0.52e6, "stress"), (0.0126, "area"), (4331.0, "force")], "force"),
    (piston.pressure, [(3856.0, "force"), (0.0126, "area"), (475.0, "force")], "stress"),
    (press.ram_force, [(2e6, "stress"), (0.0021, "area"), (150.0, "force")], "force"),
    (press.gauge_reading, [(4224.0, "force"), (0.0021, "area"), (150.0, "force")], "stress"),
    (press.smallest_readable_force, [(70e6, "stress"), (0.0021, "area"), (150.0, "force")], "force"),
    (press.release_travel, [(0.1338, "length"), (0.068, "length"), (0.005, "length")], "length"),
    (press.left_before_solid, [(0.068, "length"), (0.05775, "length")], "length"),
    (press.ram_extension, [(0.62, "length"), (0.54, "length")], "length"),
    (press.stroke_left, [(0.15, "length"), (0.62, "length"), (0.54, "length")], "length"),
    (press.daylight_left, [(0.62, "length"), (0.54, "length"), (0.07, "length")], "length"),
    (strut.radius_of_gyration, [(15.3e-6, "fourth"), (5890e-6, "area")], "length"),
    (strut.euler_load, [(43e-9, "fourth"), (1.2, "length"), (210e9, "stress"), (1.0, "one")], "force"),
    *(
        (
            figure,
            [*SECTION, (length, "length"), (200e9, "stress"), (250e6, "stress"), (1.0, "one")],
            "force",
        )
        for figure in (strut.johnson_load, strut.critical_load)
        for length in (2.0, 9.0)
    ),
    (clutch.radius_uniform_wear, [(0.072, "length"), (0.056, "length")], "length"),
    (clutch.radius_uniform_pressure, [(0.072, "length"), (0.056, "length")], "length"),
    (clutch.disc_torque, [(16.0, "one"), (0.12, "one"), (3698.0, "force"), (0.064, "length")], "energy"),
    (clutch.clamp_for_torque, [(381.0, "energy"), (16.0, "one"), (0.12, "one"), (0.064, "length")], "force"),
    (clutch.mean_face_pressure, [(14e3, "force"), (0.062, "length"), (0.046, "length")], "stress"),
    (clutch.peak_face_pressure, [(14e3, "force"), (0.062, "length"), (0.046, "length")], "stress"),
    (clutch.ramp_clamp, [(35.0, "energy"), (0.042, "length"), (0.0524, "one"), (0.9, "one")], "force"),
    (oneway.strut_angle, [(0.048, "length"), (0.006, "length"), (0.035591, "length")], "one"),
    (oneway.cam_height, [(0.048, "length"), (0.006, "length"), (0.07, "one")], "length"),
    (oneway.normal_force, [(1582.0, "energy"), (14.0, "one"), (0.048, "length"), (0.07, "one")], "force"),
    (contact.half_width, [(24e3, "force"), (0.02, "length"), (0.02, "length"), (109e9, "stress")], "length"),
    (
        contact.peak_pressure,
        [(24e3, "force"), (0.02, "length"), (0.02, "length"), (109e9, "stress")],
        "stress",
    ),
    (
        contact.load_at_pressure,
        [(4e9, "stress"), (0.018, "length"), (0.006, "length"), (113e9, "stress")],
        "force",
    ),
    (gear.pitch_diameter, [(24.0, "one"), (0.00175, "length"), (0.26, "one")], "length"),
    (gear.tip_diameter, [(0.0435, "length"), (0.00175, "length"), (1.0, "one")], "length"),
    (gear.centre_distance, [(36.0, "one"), (24.0, "one"), (0.00175, "length"), (0.26, "one")], "length"),
    (gear.tangential_force, [(900.0, "energy"), (0.084, "length"), (4.0, "one")], "force"),
    (gear.unit_load, [(5357.0, "force"), (0.03, "length"), (0.00175, "length")], "stress"),
    (planet.neighbour_tip_gap, [(0.0544, "length"), (6.0, "one"), (0.047, "length")], "length"),
    (chain.elongation, [(0.0165, "length"), (0.2334, "length"), (0.8001, "length")], "one"),
    (chain.slack_at_elongation, [(0.005, "one"), (0.2334, "length"), (0.8001, "length")], "length"),
    (chain.length_in_links, [(0.2334, "length"), (0.009525, "length"), (35.0, "one"), (31.0, "one")], "one"),
    (chain.pitch_diameter, [(0.009525, "length"), (35.0, "one")], "length"),
    (chain.pull, [(1100.0, "energy"), (0.106, "length")], "force"),
    (bearing.preload_force, [(50e-6, "length"), (60e6, "rate")], "force"),
    (bearing.interference_for, [(3000.0, "force"), (60e6, "rate")], "length"),
    (bearing.turning_torque, [(3000.0, "force"), (0.414e-3, "per_force"), (0.6, "energy")], "energy"),
    (bearing.preload_change, [(0.325, "length"), (11.7e-6, "one"), (22e-6, "one"), (60.0, "one")], "length"),
    (bearing.roller_load, [(5000.0, "force"), (17.0, "one"), (0.26, "one")], "force"),
    (fastener.tensile_stress_area, [(0.01, "length"), (0.0015, "length")], "area"),
    (fastener.preload, [(47.0, "energy"), (0.2, "one"), (0.01, "length")], "force"),
    (fastener.tightening_torque, [(23e3, "force"), (0.2, "one"), (0.01, "length")], "energy"),
    (fastener.proof_share, [(23e3, "force"), (58e-6, "area"), (580e6, "stress")], "one"),
    (
        fastener.turn_angle,
        [(33e3, "force"), (0.04, "length"), (58e-6, "area"), (207e9, "stress"), (0.0015, "length")],
        "one",
    ),
    (ring.groove_thrust, [(0.1, "length"), (0.0015, "length"), (3e8, "stress"), (2.0, "one")], "force"),
    (ring.shear_thrust, [(0.1, "length"), (0.002, "length"), (1e9, "stress"), (4.0, "one")], "force"),
    (fit.thermal_growth, [(0.325, "length"), (10.8e-6, "one"), (40.0, "one")], "length"),
    (
        fit.interference_pressure,
        [*RINGS, (210e9, "stress"), (0.3, "one"), (110e9, "stress"), (0.34, "one")],
        "stress",
    ),
    (
        fit.hoop_stress_outside,
        [(12e6, "stress"), (0.4, "length"), (0.5, "length"), (0.45, "length")],
        "stress",
    ),
    (
        fit.hoop_stress_inside,
        [(12e6, "stress"), (0.4, "length"), (0.3, "length"), (0.35, "length")],
        "stress",
    ),
    (fit.press_force, [(33e6, "stress"), (0.06, "length"), (0.03, "length"), (0.12, "one")], "force"),
    (fit.slip_torque, [(33e6, "stress"), (0.06, "length"), (0.03, "length"), (0.12, "one")], "energy"),
]


def name_case(case):
    return f"{case[0].__module__.rpartition('.')[2]}.{case[0].__name__}" if isinstance(case, tuple) else None


@pytest.mark.parametrize("case", CASES, ids=name_case)
def test_inch_and_metric_give_the_same(case):
    figure, arguments, kind = case
    in_si = figure(*(value for value, _ in arguments))
    in_inches = figure(*(value / KINDS[unit] for value, unit in arguments))
    assert in_inches * KINDS[kind] == pytest.approx(in_si, rel=1e-12)


@pytest.mark.parametrize("case", CASES, ids=name_case)
def test_array_is_its_elements(case):
    figure, arguments, _ = case
    steps = np.array([1.0, 1.0000001, 0.9999999])
    values = [value * (steps if place == 0 else 1.0) for place, (value, _) in enumerate(arguments)]
    together = figure(*values)
    one_by_one = [figure(float(first), *values[1:]) for first in values[0]]
    assert isinstance(together, np.ndarray)
    assert all(isinstance(one, float) for one in one_by_one)
    assert together == pytest.approx(one_by_one, rel=1e-14)


@pytest.mark.parametrize("case", CASES, ids=name_case)
@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_no_figure_comes_from_one_that_is_not_finite(case, wrong):
    figure, arguments, _ = case
    for place in range(len(arguments)):
        values = [value for value, _ in arguments]
        values[place] = wrong
        with pytest.raises(ValueError, match="must be"):
            figure(*values)
        values[place] = np.array([arguments[place][0], wrong])
        with pytest.raises(ValueError, match="must be"):
            figure(*values)


# Function, its arguments, place of the one that grows, +1 where the answer grows with it, -1 where it falls.
GROWTH = [
    (spring.rate, (79.5e9, 0.011, 0.088, 3.25), 1, +1),
    (spring.rate, (79.5e9, 0.011, 0.088, 3.25), 2, -1),
    (spring.rate, (79.5e9, 0.011, 0.088, 3.25), 3, -1),
    (spring.force, (65e3, 0.132, 0.076), 2, -1),
    (spring.stored_energy, (65e3, 0.132, 0.076), 1, +1),
    (spring_stress.wahl_factor, (8.0,), 0, -1),
    (spring_stress.bergstraesser_factor, (8.0,), 0, -1),
    (disc_spring.force, (0.04, 0.0204, 0.00225, 0.0009, 0.0006, 206e9, 0.3), 4, +1),
    (release.speed_bound, (104.0, 3.9), 1, -1),
    (press.ram_force, (2e6, 0.0021, 150.0), 2, -1),
    (strut.critical_load, (15.3e-6, 5890e-6, 4.0, 200e9, 250e6, 1.0), 2, -1),
    (strut.critical_load, (15.3e-6, 5890e-6, 7.0, 200e9, 250e6, 1.0), 2, -1),
    (clutch.radius_uniform_pressure, (0.072, 0.056), 1, +1),
    (clutch.ramp_clamp, (35.0, 0.042, 0.0524, 0.9), 2, -1),
    (oneway.strut_angle, (0.048, 0.006, 0.035591), 0, +1),
    (oneway.strut_angle, (0.048, 0.006, 0.035591), 1, -1),
    (oneway.strut_angle, (0.048, 0.006, 0.034500), 2, -1),
    (oneway.normal_force, (1582.0, 14.0, 0.048, 0.07), 3, -1),
    (chain.elongation, (0.0165, 0.2334, 0.8001), 0, +1),
    (bearing.tapered_deflection, (5000.0, 17, 0.26, 0.015), 0, +1),
    (bearing.tapered_stiffness, (5000.0, 17, 0.26, 0.015), 0, +1),
    (fastener.preload, (47.0, 0.2, 0.01), 1, -1),
    (fit.interference_pressure, (3e-5, 0.06, 0.1, 0.02, 210e9, 0.3, 210e9, 0.3), 2, +1),
    (fit.interference_pressure, (3e-5, 0.06, 0.1, 0.02, 210e9, 0.3, 210e9, 0.3), 3, -1),
]


@pytest.mark.parametrize("figure, arguments, place, way", GROWTH)
@given(share=st.floats(0.0, 0.012), further=st.floats(0.0001, 0.012))
def test_grows_or_falls_with_its_argument(figure, arguments, place, way, share, further):
    less, more = list(arguments), list(arguments)
    less[place] *= 1 + share
    more[place] = less[place] * (1 + further)
    assert way * (figure(*more) - figure(*less)) > 0


INVERSES = [
    (lambda x: spring.rate(79.5e9, 0.011, 0.088, x), lambda y: spring.active_coils(79.5e9, 0.011, 0.088, y)),
    (lambda x: spring.force(65e3, 0.132, 0.132 - x / 100), lambda y: 100 * y / 65e3),
    (
        lambda x: spring_stress.shear_stress(x, 0.011, 0.088, 1.18),
        lambda y: spring_stress.force_at_stress(y, 0.011, 0.088, 1.18),
    ),
    (lambda x: piston.force(x, 0.0126), lambda y: piston.pressure(y, 0.0126)),
    (lambda x: press.gauge_reading(x, 0.0021, 150.0), lambda y: press.ram_force(y, 0.0021, 150.0)),
    (
        lambda x: clutch.disc_torque(16, 0.12, x, 0.064),
        lambda y: clutch.clamp_for_torque(y, 16, 0.12, 0.064),
    ),
    (
        lambda x: oneway.normal_force(x, 14, 0.048, 0.07),
        lambda y: oneway.torque_at_normal_force(y, 14, 0.048, 0.07),
    ),
    (
        lambda x: contact.peak_pressure(x, 0.018, 0.006, 113e9),
        lambda y: contact.load_at_pressure(y, 0.018, 0.006, 113e9),
    ),
    (
        lambda x: chain.slack_at_elongation(x / 1000, 0.2334, 0.8),
        lambda y: 1000 * chain.elongation(y, 0.2334, 0.8),
    ),
    (lambda x: bearing.interference_for(x, 60e6), lambda y: bearing.preload_force(y, 60e6)),
    (lambda x: fastener.preload(x, 0.2, 0.01), lambda y: fastener.tightening_torque(y, 0.2, 0.01)),
    (
        lambda x: oneway.cam_height(0.048, 0.006, x / 20),
        lambda y: 20 * oneway.strut_angle(0.048, 0.006, y),
    ),
    (
        lambda x: fit.thermal_growth(0.325, 11.7e-6, x),
        lambda y: fit.temperature_for_growth(y, 0.325, 11.7e-6),
    ),
]


@pytest.mark.parametrize("there, back", INVERSES)
@given(figure=st.floats(0.5, 5.0))
def test_there_and_back(there, back, figure):
    assert back(there(figure)) == pytest.approx(figure, rel=1e-7)
