"""Ends of a spring decide which coils work and how long it is solid."""

import pytest

from layshaft.mechanics import OutOfRange, coil


@pytest.mark.parametrize(
    "ends, inactive, solid, pitch",
    [
        ("plain", 0, 11.0, (100 - 1) / 10),
        ("plain ground", 1, 10.0, 100 / 10),
        ("squared", 2, 11.0, (100 - 3) / 8),
        ("squared ground", 2, 10.0, (100 - 2) / 8),
    ],
)
def test_ends(ends, inactive, solid, pitch):
    """Shigley's Table 10-1, from memory: ten coils of wire one, free length 100."""
    assert coil.inactive_coils(ends) == inactive
    assert coil.solid_length(1.0, 10.0, ends) == solid
    assert coil.pitch(100.0, 1.0, 10.0, ends) == pytest.approx(pitch)


@pytest.mark.parametrize("ends", ["plain", "plain ground", "squared", "squared ground"])
def test_pitch_fills_the_free_length(ends):
    """At solid length a coil lies on the next: the pitch is then one wire, whatever the ends."""
    solid = coil.solid_length(1.0, 10.0, ends)
    assert coil.pitch(solid, 1.0, 10.0, ends) == pytest.approx(1.0)


def test_a_spring_of_dead_coils_has_no_pitch():
    with pytest.raises(OutOfRange):
        coil.pitch(100.0, 1.0, 2.0, "squared")
