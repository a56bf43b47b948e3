"""Form of the preload bounds of NASA NSTS 08307 Rev A (1998), from memory; figures by it are own evaluations.

M10, 20 N m, K = 0.20, scatter 25 % lubricated or 35 % dry, 5 % of the least preload settles, no thermal term.
"""

import pytest

from layshaft.mechanics import fastener
from tests.worked.check import CLOSED, Check

LUBRICATED = fastener.preload_bounds(20.0, 0.20, 0.010, 0.25, 0.05)
DRY = fastener.preload_bounds(20.0, 0.20, 0.010, 0.35, 0.05)

CHECKS = [
    Check("nominal, N", lambda: fastener.preload(20.0, 0.20, 0.010), 10_000, 1, CLOSED),
    Check("lubricated least, N", lambda: LUBRICATED[0], 7125, 1, CLOSED),
    Check("lubricated greatest, N", lambda: LUBRICATED[1], 12_500, 1, CLOSED),
    Check("dry least, N", lambda: DRY[0], 6175, 1, CLOSED),
    Check("dry greatest, N", lambda: DRY[1], 13_500, 1, CLOSED),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
