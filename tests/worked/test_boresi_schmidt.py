"""A. P. Boresi, R. J. Schmidt, Advanced Mechanics of Materials, Example 17.3, frictionless values.

Two equal steel cylinders, radius 40 mm, length 20 mm, 24.1 kN, E = 200 GPa, Poisson 0.29. A page in
circulation prints b = sqrt(2 P R/(pi E*)), wrong by the square root of two; the pressure shows which is
right.
"""

import pytest

from layshaft.mechanics import contact
from tests.worked.check import CLOSED, Check

MODULUS = contact.contact_modulus(200e9, 0.29, 200e9, 0.29)
RADIUS = contact.relative_radius(0.040, 0.040)
CONTACT = (24_100, 0.020, RADIUS, MODULUS)

CHECKS = [
    Check("half width, mm", lambda: 1000 * contact.half_width(*CONTACT), 0.5301364, 5e-5, CLOSED),
    Check("greatest pressure, MPa", lambda: contact.peak_pressure(*CONTACT) / 1e6, 1445, 2.5),
    # The greatest shear lies under the surface at 0.300 of the pressure.
    Check("greatest shear, MPa", lambda: 0.300 * contact.peak_pressure(*CONTACT) / 1e6, 433, 1.2),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_load_is_the_pressure_over_the_half_ellipse():
    """What the strip carries, pi b p L / 2, is the load: half width and pressure belong together."""
    carried = 3.141592653589793 / 2 * contact.half_width(*CONTACT) * contact.peak_pressure(*CONTACT) * 0.020
    assert carried == pytest.approx(24_100, rel=1e-12)
