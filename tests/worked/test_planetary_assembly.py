"""Can planets go in: a university teaching page (Ljubljana), and the conditions of standard texts from
memory.

The page: sun 21, planet 43, ring 108, three planets, ring fixed. Sun and two planets make 107: a shifted set.
"""

import pytest

from layshaft.mechanics.planet import is_evenly_spaceable, neighbour_tip_gap, planet_places, ring_closure
from layshaft.mechanics.speed import ratio
from layshaft.mechanics.train import Coupling, Train, planetary
from tests.worked.check import CLOSED, MEMORY, Check

PAGE = Train((planetary("set", "sun", "ring", "carrier", 21, -108),), (Coupling("brake", "ring"),))


def most_planets() -> int:
    """Most planets of 17 teeth round a sun of 28 whose tips clear, by (zs + zp) sin(180/n) > zp + 2."""
    return max(n for n in range(2, 12) if neighbour_tip_gap((28 + 17) / 2, n, 17 + 2) > 0)


CHECKS = [
    Check("page: ratio", lambda: ratio(PAGE, ["brake"], "sun", "carrier"), 6.14286, 5e-6),
    Check("page: places over planets", lambda: planet_places(21, -108) / 3, 43, 0),
    Check("28/62 over 3", lambda: planet_places(28, -62) / 3, 30, 0, CLOSED),
    Check("28/62 over 4", lambda: planet_places(28, -62) / 4, 22.5, 0, CLOSED),
    Check("28/62 over 6", lambda: planet_places(28, -62) / 6, 15, 0, CLOSED),
    Check("28/62 step between places, degrees", lambda: 360 / planet_places(28, -62), 4, 0, CLOSED),
    Check("most planets of 17", most_planets, 7, 0, CLOSED),
    *(
        Check(f"28/62 with {n}", lambda n=n: is_evenly_spaceable(n, 28, -62), goes, 0, MEMORY)
        for n, goes in [(3, 1), (4, 0), (5, 1), (6, 1), (10, 1)]
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()


def test_shifted_set_is_not_refused():
    assert ring_closure(21, 43, 108) == 1
