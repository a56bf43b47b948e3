"""Int. J. Comp. Meth. and Exp. Meas. 5(5), 2017, pp. 733-740, eq. 4: axial give of a tapered bearing.

The formula was read in the open-access paper; the figures are own evaluations: 5000 N, 17 rollers, 15
degrees, 15 mm.
"""

import math

import pytest

from layshaft.mechanics import bearing
from tests.worked.check import CLOSED, Check

BEARING = (5000.0, 17, math.radians(15.0))

CHECKS = [
    Check("load of a roller, N", lambda: bearing.roller_load(*BEARING), 1136.383, 0.05, CLOSED),
    Check(
        "axial give, mm", lambda: 1000 * bearing.tapered_deflection(*BEARING, 0.015), 0.01916875, 2e-6, CLOSED
    ),
    Check(
        "stiffness, N/mm", lambda: bearing.tapered_stiffness(*BEARING, 0.015) / 1000, 289_823.5, 50, CLOSED
    ),
    Check(
        "preloaded pair, N/mm",
        lambda: 2 * bearing.tapered_stiffness(*BEARING, 0.015) / 1000,
        579_647.1,
        100,
        CLOSED,
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_stiffness_is_the_slope():
    """A small step of force over the step of give."""
    step = bearing.tapered_deflection(5000.5, *BEARING[1:], 0.015) - bearing.tapered_deflection(
        4999.5, *BEARING[1:], 0.015
    )
    assert 1.0 / step == pytest.approx(bearing.tapered_stiffness(*BEARING, 0.015), rel=1e-6)
