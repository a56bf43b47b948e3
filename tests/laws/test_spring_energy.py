"""Energy is the integral of force, for every kind of spring; nothing that is let go beats the bound on speed."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.mechanics import disc_spring, release, spring


def integrate(figure, start, end):
    """Gauss-Legendre, exact for polynomials far beyond the cubic of a disc spring."""
    points, weights = np.polynomial.legendre.leggauss(12)
    half = (end - start) / 2
    return half * float(weights @ figure(start + half * (points + 1)))


@given(st.floats(1e3, 1e5), st.floats(0.02, 0.2), st.floats(0.3, 0.99), st.floats(0.3, 0.99))
def test_helical_spring(rate, free, share_1, share_2):
    short, long = sorted((share_1 * free, share_2 * free))
    work = integrate(lambda length: spring.force(rate, free, length), short, long)
    assert spring.energy_released(rate, free, short, long) == pytest.approx(work, rel=1e-9, abs=1e-9)


@given(st.floats(1e3, 1e5), st.floats(0.02, 0.2), st.floats(0.3, 0.9), st.floats(0.0, 0.5))
def test_helical_spring_gives_nothing_beyond_its_free_length(rate, free, share, beyond):
    held = share * free
    all_of_it = spring.stored_energy(rate, free, held)
    assert spring.energy_released(rate, free, held, free * (1 + beyond)) == all_of_it
    assert spring.force(rate, free, free * (1 + beyond)) == 0


@given(
    st.floats(0.02, 0.1),
    st.floats(1.5, 3.0),
    st.floats(0.02, 0.06),
    st.floats(0.2, 1.7),
    st.floats(0.05, 1.0),
)
def test_disc_spring(outer, ratio, thin, cone, share):
    thickness = thin * outer
    sizes = (outer, outer / ratio, thickness, cone * thickness)
    travel = share * cone * thickness
    work = integrate(lambda s: disc_spring.force(*sizes, s, 206e9, 0.3), 0.0, travel)
    assert disc_spring.energy(*sizes, travel, 206e9, 0.3) == pytest.approx(work, rel=1e-9)


@given(st.floats(0.2, 2.5))
def test_disc_spring_falls_where_it_says_so(cone):
    sizes = (0.040, 0.020, 0.001, cone * 0.001)
    travels = np.linspace(0, cone * 0.001, 2001)
    forces = disc_spring.force(*sizes, travels, 206e9, 0.3)
    greatest = disc_spring.greatest_force(*sizes, travels, 206e9, 0.3)
    assert greatest == pytest.approx(np.maximum.accumulate(forces), rel=1e-5)
    if abs(cone - math.sqrt(2)) > 0.01:
        assert bool(np.any(np.diff(forces) < 0)) is disc_spring.has_falling_force(0.001, cone * 0.001)


def top_speed(body, coils, shape):
    """Greatest speed of a body on a spring of `coils` kg, let go from rest with its coils pressed in a shape.

    The spring is many equal pieces on a line, one end fixed, solved by its modes; rate and total shortening
    are one, so that the energy follows from the shape.
    """
    pieces = len(shape)
    stiff = float(pieces)
    masses = np.full(pieces, coils / pieces)
    masses[-1] = coils / pieces / 2 + body
    bands = np.diag(np.full(pieces, 2 * stiff)) - stiff * (np.eye(pieces, k=1) + np.eye(pieces, k=-1))
    bands[-1, -1] = stiff
    root = np.sqrt(masses)
    squares, modes = np.linalg.eigh(bands / root[:, None] / root[None, :])
    turns = np.sqrt(squares)
    start = modes.T @ (root * -np.cumsum(shape))
    times = np.linspace(0, math.pi / turns[0], 1000)
    speeds = -np.sin(np.outer(times, turns)) @ (turns * start * modes[-1] / root[-1])
    return float(speeds.max()), stiff * float(shape @ shape) / 2


@pytest.mark.parametrize("body", [0.02, 0.1, 0.3, 1.0, 3.0, 30.0])
@pytest.mark.parametrize("bias", [0.0, 1.0, 3.0])
def test_no_body_beats_the_bound(body, bias):
    """Coils pressed evenly, or more towards the body, as friction in a bore leaves them."""
    shape = np.linspace(1 - bias / 4, 1 + bias / 4, 50)
    speed, energy = top_speed(body, 1.0, shape / shape.sum())
    assert speed <= release.speed_bound(energy, body) * (1 + 1e-9)


def test_the_estimate_is_beaten_where_the_docs_say_so():
    """A body as heavy as its spring: 2 exp(-exp(-2)/2) - 1 by the wave equation, the estimate sqrt(3/4)."""
    exact = 2 * math.exp(-math.exp(-2) / 2) - 1
    speed, energy = top_speed(1.0, 1.0, np.full(150, 1 / 150))
    assert speed == pytest.approx(exact, rel=1e-3)
    assert release.speed_estimate(energy, 1.0, 1.0) == pytest.approx(math.sqrt(3) / 2)
    assert exact > release.speed_estimate(energy, 1.0, 1.0) * 1.003
    assert exact < release.speed_bound(energy, 1.0)
