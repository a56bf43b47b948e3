"""Rubbing faces come from the order of the pack and from nothing else."""

import pytest

from layshaft.mechanics.clutch import Plate, radius_uniform_pressure, radius_uniform_wear, rubbing_faces

STEEL, LINED = Plate("drum", False, False), Plate("hub", True, True)
FRONT_ONLY, WALL = Plate("hub", True, False), Plate("drum", False, False)


@pytest.mark.parametrize(
    "pack, faces",
    [
        ([], 0),
        ([LINED], 0),
        ([WALL, LINED, WALL], 2),
        ([LINED, STEEL, LINED], 2),
        ([STEEL, LINED] * 4 + [STEEL], 8),
        ([STEEL, STEEL, LINED, STEEL, STEEL], 2),
        ([STEEL, LINED, LINED, STEEL], 2),
        ([STEEL, FRONT_ONLY, STEEL, FRONT_ONLY], 2),
        ([FRONT_ONLY, STEEL], 0),
        ([STEEL, Plate("hub", False, False), STEEL], 0),
        ([Plate("drum", True, True), Plate("hub", False, False)], 1),
        ([Plate("drum", True, True), Plate("hub", True, True)], 1),
    ],
)
def test_rubbing_faces(pack, faces):
    assert rubbing_faces(pack) == faces


def test_order_decides():
    """The same plates, two steels put together: two faces fewer, though the height is the same."""
    right, wrong = [STEEL, LINED, STEEL, LINED, STEEL], [STEEL, LINED, STEEL, STEEL, LINED]
    assert sorted(map(str, right)) == sorted(map(str, wrong))
    assert rubbing_faces(right) - rubbing_faces(wrong) == 1


@pytest.mark.parametrize("inner", [0.0, 0.02, 0.05, 0.0699])
def test_worn_radius_is_the_smaller_one(inner):
    worn, new = radius_uniform_wear(0.07, inner), radius_uniform_pressure(0.07, inner)
    assert inner < worn < new < 0.07


def test_thin_ring_has_one_radius():
    assert radius_uniform_pressure(0.07, 0.0699) == pytest.approx(0.06995, rel=1e-6)
