"""Integrals with fixed points."""

import math

import numpy
import pytest

from layshaft.gauging import quadrature


def test_nodes_and_weights_against_numpy():
    nodes, weights = numpy.polynomial.legendre.leggauss(8)
    known = numpy.array([nodes, weights]).T[4:]
    assert numpy.array(quadrature._RULE) == pytest.approx(known, abs=1e-15)


def test_one_panel_is_exact_to_degree_fifteen_and_no_further():
    assert quadrature.integrate(lambda x: x**14, -1.0, 1.0, panels=1) == pytest.approx(2 / 15, rel=1e-14)
    assert quadrature.integrate(lambda x: x**16, -1.0, 1.0, panels=1) != pytest.approx(2 / 17, rel=1e-8)


def test_a_break_makes_a_kink_exact():
    assert quadrature.integrate(lambda x: abs(x - 0.3), 0.0, 1.0, [0.3], panels=1) == pytest.approx(
        0.29, rel=1e-14
    )
    assert quadrature.integrate(lambda x: abs(x - 0.3), 0.0, 1.0, panels=1) != pytest.approx(0.29, rel=1e-8)


def test_breaks_outside_are_ignored():
    assert quadrature.integrate(math.exp, 0.0, 1.0, [-3.0, 7.0]) == pytest.approx(math.e - 1, rel=1e-14)


@pytest.mark.parametrize("ends", [(1.0, 0.0), (0.0, math.inf), (math.nan, 1.0)])
def test_impossible_ends_are_refused(ends):
    with pytest.raises(ValueError, match="finite ends"):
        quadrature.integrate(math.exp, *ends)
