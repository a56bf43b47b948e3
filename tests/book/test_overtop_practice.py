"""Common practice for units of this kind, no source: it checks the overdrive demo book, which says where it differs.

These are facts of one family of units; they are no defaults of the program.
"""

import pytest

from layshaft.book.size import pack_pieces
from layshaft.quantity import parse_quantity
from tests.book.overtop import UNITS, VARIANTS, direct_force, mm, value_of

LBF = 4.4482216152605  # N, exact from the definitions of pound and standard gravity
INCH = 25.4


@pytest.fixture(params=UNITS, ids=VARIANTS)
def unit(request):
    return request.param


def test_spring_load():
    """Common practice, no source: about 600 lbf, some say 800 to 850. The white spring is above."""
    amber = direct_force(UNITS[0], value_of("76.0 mm")) / LBF
    white = direct_force(UNITS[2], value_of("76.0 mm")) / LBF
    assert 600 < amber < 850
    assert white == pytest.approx(1000, abs=1)


def test_pressing(unit):
    """Common practice, no source: 3/8 in shorter than installed. The book says 8.0 mm; neither goes near solid."""
    press = unit.loads["direct spring"].releases[0]
    data = unit.parts["OT-041"].spring
    solid = data.wire.si * data.total_coils.si
    assert mm(press.over.nominal) == 8.0
    assert 3 / 8 * INCH - mm(press.over.nominal) == pytest.approx(1.525)
    assert mm(press.most_over.nominal) > 3 / 8 * INCH
    assert mm(solid + press.keep_from_solid.si) < 76.0 - 3 / 8 * INCH
    assert set(press.reach) == {"OT-042", "OT-043"}


def test_free_only_at_its_longest_free_length(unit):
    """Common practice, no source: not free until let out to its longest free length; here eight times as far."""
    press = unit.loads["direct spring"].releases[0]
    travel = unit.parts["OT-041"].spring.free_length.high - value_of("76.0 mm") + press.over.nominal
    assert 8 < travel / press.over.nominal < 8.5
    assert travel + press.margin.nominal in (value_of("70.8 mm"), value_of("71.2 mm"))


def test_hub_drops_on_its_splines(unit):
    """Common practice, no source: about 1/4 in."""
    assert any(
        "1/4 in" in text and "6 mm" in text for text in unit.loads["direct spring"].releases[0].home.splines
    )
    assert pytest.approx(6, abs=0.5) == 0.25 * INCH


def test_planets_serve_rising_torque():
    """Common practice, no source: four-, five- and six-planet carriers."""
    assert [unit.train.planetaries["overdrive set"].planet.count for unit in UNITS] == [4, 5, 6]
    torques = [unit.train.worst_input_torque.si for unit in UNITS]
    assert torques == sorted(torques)


def test_plates_alternate(unit):
    """Common practice, no source: a friction plate at each end of the plates, steel plates between."""
    for pack, friction in (("direct", "OT-045"), ("brake", "OT-032")):
        plates = [part for part, _ in pack_pieces(unit, unit.packs[pack])][1:-1]
        assert all(part == friction for part in plates[::2])
        assert friction not in plates[1::2]
        assert plates[-1] == friction


def test_friction_plates_go_in_soaked(unit):
    """Common practice, no source: half an hour to two hours."""
    soak = unit.preparations["friction soak"]
    assert set(soak.parts) == {"OT-032", "OT-045"} and soak.before == "fitting"
    assert 30 <= soak.elapsed.si / 60 <= 120


def test_bearing_faces_the_teeth(unit):
    """Common practice, no source: a thrust bearing's open side faces the sun gear's teeth side."""
    assert "open side" in unit.parts["OT-053"].way_round.lower()
    assert "teeth side" in unit.parts["OT-053"].way_round


def test_races_are_lined_up_by_a_stub_shaft(unit):
    """Common practice, no source; with 24 teeth a miss is up to a tooth pitch."""
    alignment = unit.alignments["one-way race with the carrier"]
    assert (alignment.tool, alignment.while_load) == ("dummy shaft", "direct spring")
    assert {"OT-070", "OT-054"} <= set(alignment.parts)
    assert alignment.turn_at_most.nominal == parse_quantity("15 deg").nominal
