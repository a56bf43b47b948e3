"""The spring makers' trade formula and table for single-turn wave springs (names withheld).

Formula and table were seen in published texts; no worked figure was, so the figures are own evaluations:
outside 3.0, inside 2.5, thickness 0.042 in, 4 waves, E = 30e6 psi, 100 lb.
"""

import pytest

from layshaft.mechanics import wave_spring
from tests.worked.check import CLOSED, INCH, LBF, PSI, SEEN, Check

SIZE = (3.0 * INCH, 2.5 * INCH, 0.042 * INCH)
RATE = wave_spring.rate(*SIZE, 4, 30e6 * PSI)

CHECKS = [
    *(
        Check(f"factor at {waves} waves", lambda w=waves: wave_spring.shape_factor(w), factor, 0, SEEN)
        for waves, factor in [
            (2, 3.88),
            (4, 3.88),
            (4.5, 2.90),
            (6.5, 2.90),
            (7, 2.30),
            (9.5, 2.30),
            (10, 2.13),
        ]
    ),
    Check("rate, lb/in", lambda: RATE / (LBF / INCH), 2115.439, 0.1, CLOSED),
    Check("deflection at 100 lb, in", lambda: 100 * LBF / RATE / INCH, 0.04727151, 2e-6, CLOSED),
    Check(
        "stress at 100 lb, psi", lambda: wave_spring.stress(100 * LBF, *SIZE, 4) / PSI, 91_830.14, 5, CLOSED
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
