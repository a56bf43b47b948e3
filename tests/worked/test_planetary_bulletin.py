"""A trade training bulletin on planetary arithmetic, October 1989 (names withheld): sun 20, ring 34."""

from fractions import Fraction

import pytest

from layshaft.mechanics.speed import ratio
from layshaft.mechanics.train import Coupling, Train, planetary
from tests.worked.check import CLOSED, Check

SHAFTS = ("sun", "ring", "carrier")
SET = Train(
    (planetary("set", "sun", "ring", "carrier", 20, -34),), tuple(Coupling(f"hold {s}", s) for s in SHAFTS)
)


def of(driving: str, held: str, driven: str) -> Fraction:
    """Ratio of the set with one member held."""
    return ratio(SET, [f"hold {held}"], driving, driven)


CHECKS = [
    Check("sun in, ring held", lambda: of("sun", "ring", "carrier"), 2.7, 0.05),
    # Printed 1.58, cut off; exact 1.588.
    Check("ring in, sun held", lambda: of("ring", "sun", "carrier"), 1.58, 0.01),
    Check("carrier in, sun held, ring out", lambda: of("carrier", "sun", "ring"), 0.63, 0.005),
    Check("carrier in, ring held, sun out", lambda: of("carrier", "ring", "sun"), 0.37, 0.005),
    Check("sun in, carrier held, size", lambda: -of("sun", "carrier", "ring"), 1.7, 1e-12, CLOSED),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
