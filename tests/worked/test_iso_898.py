"""ISO 898-1: stress areas and proof loads of coarse threads, as reprinted by a fastener supplier.

Proof stress of class 8.8 is 580 MPa to M16 and 600 MPa above, of 10.9 830 MPa. Loads are printed to three
figures from the printed areas; M10 in 8.8 prints 33 700 N although 58.0 x 580 is 33 640.
"""

import pytest

from layshaft.mechanics import fastener
from tests.worked.check import Check

# Size and pitch in mm, area in mm2 and its tolerance.
AREAS = [
    (6, 1, 20.1, 0.05),
    (8, 1.25, 36.6, 0.05),
    (10, 1.5, 58.0, 0.05),
    (12, 1.75, 84.3, 0.05),
    (16, 2, 157, 0.5),
    (20, 2.5, 245, 0.5),
    (24, 3, 353, 0.55),
    (30, 3.5, 561, 0.5),
]
# Size, area as printed in mm2, proof stress in MPa, proof load in N and its tolerance.
LOADS = [
    (6, 20.1, 580, 11_600, 60),
    (8, 36.6, 580, 21_200, 60),
    (10, 58.0, 580, 33_700, 65),
    (12, 84.3, 580, 48_900, 60),
    (16, 157, 580, 91_000, 70),
    (20, 245, 600, 147_000, 100),
    (12, 84.3, 830, 70_000, 100),
]

CHECKS = [
    *(
        Check(
            f"M{d} area, mm2",
            lambda d=d, p=p: 1e6 * fastener.tensile_stress_area(d / 1000, p / 1000),
            area,
            near,
        )
        for d, p, area, near in AREAS
    ),
    # At the proof load the share of proof is one; the tolerance is that of the printed load.
    *(
        Check(
            f"M{d} proof load at {proof} MPa",
            lambda a=a, s=proof, f=load: fastener.proof_share(f, a / 1e6, s * 1e6),
            1,
            near / load,
        )
        for d, a, proof, load, near in LOADS
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
