"""A load against its travel: the figures drawn are those of the plan, every state is there by number, shape and word.

Figures of the box spring are worked by hand from F = k (L0 - L) (R. G. Budynas, J. K. Nisbett, Shigley's Mechanical
Engineering Design, 10th ed., eq. 10-9): k = 65.693 N/mm, L0 = 132.3 mm with 1.5 mm either way, 76 mm long as fitted.
"""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest

from layshaft.book.size import Sizes
from layshaft.drawing.load_curve import described, draw_load_curve, load_curve
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, plan_press
from layshaft.quantity import Show
from tests.book.overtop import UNITS
from tests.plan.press_box import plan

SVG = "{http://www.w3.org/2000/svg}"


def box() -> PressPlan:
    made = plan()
    assert isinstance(made, PressPlan)
    return made


def pawl() -> PressPlan:
    unit = next(one for one in UNITS if one.variant == "OT6")
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    made = plan_press(bench, loads, "pawl spring", 0, None)
    assert isinstance(made, PressPlan)
    return made


def test_the_load_falls_as_it_is_let_out_and_is_nothing_where_the_longest_spring_is_free():
    curve = load_curve(box())
    loads = [band.high for _, band in curve.points]
    assert loads == sorted(loads, reverse=True)
    assert loads[-1] == pytest.approx(0.0, abs=1e-6)
    out, first = curve.points[0]
    assert -out * 1e3 == pytest.approx(12.0), "drawn until the cap meets the post, 36 mm down, from 24 mm"
    assert first.nominal == pytest.approx(65.693 * (132.3 - 64.0), abs=0.01)


def test_every_state_stands_where_it_pushes_as_hard_as_the_plan_says():
    marks = load_curve(box()).marks
    assert [(mark.number, mark.kind, mark.words) for mark in marks] == [
        (1, "closed", "closed"),
        (2, "held", "held"),
        (3, "off", "PB-04 off"),
        (4, "free", "free"),
    ]
    assert [mark.load.nominal for mark in marks] == pytest.approx([3698.516, 4224.060, 4224.060, 0.0], abs=0.01)
    assert [mark.out * 1e3 for mark in marks[:3]] == pytest.approx([0.0, -8.0, -8.0])
    assert marks[3].out * 1e3 == pytest.approx(133.8 - 76.0), "free at its longest only"


def test_pressed_home_the_states_come_from_free_to_closed():
    marks = load_curve(box(), is_home=True).marks
    assert [mark.words for mark in marks] == ["free", "pressed", "PB-04 in", "let home"]
    assert [mark.kind for mark in marks] == ["free", "held", "in", "closed"]


def test_a_wound_spring_is_drawn_by_its_angle_and_torque():
    curve = load_curve(pawl())
    first = curve.marks[0]
    # 0.1 N·m/rad, wound 45 degrees.
    assert first.load.nominal == pytest.approx(0.1 * 0.785398, abs=1e-6)
    assert curve.marks[-1].out == pytest.approx(0.785398, abs=1e-6)
    assert curve.most_in is None


def test_it_is_told_in_words_with_room_rounded_down_and_loads_up():
    words = described(load_curve(box(), now=1), Show())
    assert "1 closed, up to" in words
    assert "2 held, now, up to" in words
    assert "8.00 mm further in" in words
    assert "4 free, 57.80 mm further out" in words
    assert "Never more than 12.00 mm further in" in words
    assert "safe" not in words


@pytest.mark.parametrize("width", [354.0, 960.0])
@pytest.mark.parametrize("is_home", [False, True])
def test_the_picture_is_whole_svg_in_the_page_s_own_ink(width: float, is_home: bool):
    curve = load_curve(box(), now=1, is_home=is_home)
    picture = draw_load_curve(curve, Show(), width=width, id_="-a")
    root = ElementTree.fromstring(picture)
    inks = {value for one in root.iter() for key, value in one.attrib.items() if key in ("fill", "stroke")}
    assert inks == {"currentColor", "none"}
    assert "style" not in picture
    assert root.find(f"{SVG}desc").text == described(curve, Show())
    assert {"curve-a", "curve-a-words"} == set(root.attrib["aria-labelledby"].split())
    texts = " ".join(one.text for one in root.iter(f"{SVG}text"))
    for mark in curve.marks:
        assert f"{mark.number} {mark.words}" in texts


def test_nothing_is_drawn_beyond_its_edges():
    root = ElementTree.fromstring(draw_load_curve(load_curve(box()), Show(), width=354.0, size=17.0))
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    for one in root.iter():
        for key, most in (("x", width), ("x1", width), ("x2", width), ("cx", width), ("y", height), ("cy", height)):
            if key in one.attrib:
                assert 0 <= float(one.attrib[key]) <= most


def test_a_name_with_signs_in_it_stays_a_name():
    curve = replace(load_curve(box()), about="a <b> & spring")
    root = ElementTree.fromstring(draw_load_curve(curve, Show(), id_='"><script>'))
    assert root.find(f"{SVG}title").text == "Load against travel: a <b> & spring"
    assert not list(root.iter("script"))
