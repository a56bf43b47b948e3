"""Ratios of two well-known arrangements of planetary sets, from an encyclopaedia's articles (names withheld).

The ratios were read, the tooth counts are the simplest that give them. First arrangement: two equal sets on
one sun, front carrier and rear ring on the output. Second: one carrier with long and short planets, two suns,
ring out.
"""

from fractions import Fraction

import pytest

from layshaft.mechanics.speed import ratio
from layshaft.mechanics.train import Coupling, PlanetarySet, Train, planetary
from tests.worked.check import CLOSED, SEEN, Check

COMMON_SUN = Train(
    (
        planetary("front", "sun", "front ring", "out", 35, -73),
        planetary("rear", "sun", "out", "rear carrier", 35, -73),
    ),
    (
        Coupling("forward", "in", "front ring"),
        Coupling("direct", "in", "sun"),
        Coupling("sun brake", "sun"),
        Coupling("carrier brake", "rear carrier"),
    ),
)

LONG_AND_SHORT = Train(
    (
        PlanetarySet("small sun", "small", "out", "carrier", Fraction(64, 25)),
        planetary("large sun", "large", "out", "carrier", 32, -64),
    ),
    (
        Coupling("forward", "in", "small"),
        Coupling("reverse", "in", "large"),
        Coupling("third", "in", "carrier"),
        Coupling("large brake", "large"),
        Coupling("carrier brake", "carrier"),
    ),
)


def of(train: Train, *closed: str) -> Fraction:
    """Ratio with these couplings closed."""
    return ratio(train, closed, "in", "out")


CHECKS = [
    Check("common sun, first", lambda: of(COMMON_SUN, "forward", "carrier brake"), 2.479, 0.0006),
    Check("common sun, second", lambda: of(COMMON_SUN, "forward", "sun brake"), 1.479, 0.0006),
    Check("common sun, third", lambda: of(COMMON_SUN, "forward", "direct"), 1, 0),
    Check("common sun, reverse", lambda: of(COMMON_SUN, "direct", "carrier brake"), -2.086, 0.0006),
    Check("long and short, first", lambda: of(LONG_AND_SHORT, "forward", "carrier brake"), 2.56, 0.0006),
    Check("long and short, second", lambda: of(LONG_AND_SHORT, "forward", "large brake"), 1.52, 0.0006),
    Check("long and short, reverse", lambda: of(LONG_AND_SHORT, "reverse", "carrier brake"), -2, 0.0006),
    Check(
        "long and short, overdrive", lambda: of(LONG_AND_SHORT, "third", "large brake"), 2 / 3, 1e-12, CLOSED
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_first_is_second_and_one_with_equal_sets():
    assert of(COMMON_SUN, "forward", "carrier brake") == of(COMMON_SUN, "forward", "sun brake") + 1


def test_published_ones_are_marked_so():
    assert sum(check.status == SEEN for check in CHECKS) == 7
