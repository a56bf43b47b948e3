"""A plan as text: force, energy and travel rounded up, room rounded down, never said to be safe."""

from __future__ import annotations

import pytest

from layshaft.plan.load_report import load_report
from layshaft.plan.press import plan_press
from layshaft.plan.press_home import plan_home
from layshaft.plan.press_text import Teller
from layshaft.plan.state import Session, State
from layshaft.quantity import Show
from tests.plan.press_box import RELEASE, bench_of, presses, unit


def lines(*changes: tuple[str, str], release: str = RELEASE, shop=None, show: Show | None = None) -> list[str]:
    bench, loads = bench_of(unit(*changes, release=release))
    found = plan_press(bench, loads, "box spring", 0, presses() if shop is None else shop)
    return list(Teller(bench, show).plan(found))


def test_a_plan_says_its_figures_to_the_safe_side():
    """4224.06 N, 4322.60 N, 135.80 J and 142.22 J go up; the 10.25 mm left before solid are exact."""
    text = lines()
    assert text[:6] == [
        "Release of box spring: press with bridge.",
        "Installed: 76.00 mm long, 3.70 kN as drawn and up to 3.80 kN, 105 J as drawn and up to 110 J.",
        "Pressed 8.00 mm beyond installed: 68.00 mm long, 4.23 kN as drawn and up to 4.33 kN, "
        "136 J as drawn and up to 143 J.",
        "Left before solid then: 10.25 mm.",
        "Never more than 12.00 mm beyond installed; there it pushes with up to 4.59 kN.",
        "Travel to free, margin counted: 70.80 mm.",
    ]


def test_a_plan_ends_with_what_no_gauge_proves_and_whose_data_come_first():
    assert lines()[-2:] == [
        "A gauge never proves zero: it is free when its parts rock freely at the longest free length.",
        "The maker's data, the rating plate of press and tool, and local rules come before this sheet.",
    ]


def test_a_gauge_that_cannot_show_the_force_says_so():
    text = lines(shop={name: press for name, press in presses().items() if name == "frame press"})
    assert (
        "Press: frame press; its gauge cannot show this force: the force is under a tenth of its scale, 40 MPa; it "
        "shows forces from 15.1 kN. Work by stroke or by a load cell." in text
    )
    assert not any("its gauge shows" in line for line in text)


def test_a_gauge_that_shows_the_force_tells_both_ends_in_one_unit():
    """(4224.06 N + 300 N) on 10 cm^2 less 0.1 MPa go down, (4322.60 N + 300 N) and 0.1 MPa go up."""
    found = next(line for line in lines() if line.startswith("Press: "))
    assert found == "Press: spring press; its gauge shows 4.32 .. 4.73 MPa."


def test_a_failing_press_is_told_for_every_state():
    """65.693 N/mm x ((133.8 - 68)^2 - (133.8 - 76)^2) mm^2 / 2 = 32.48 J; to free, (133.8 - 68)^2, 142.22 J."""
    text = [line for line in lines() if "give in" in line]
    assert text == [
        "Held: up to 143 J, at most 18.9 m/s. Should the release way give in then, it lets go up to 32.5 J; PB-04 ring "
        "would still hold 110 J.",
        "PB-04 ring off: up to 143 J, at most 18.9 m/s. Should the release way give in then, it lets go up to 143 J; "
        "nothing would hold it.",
    ]


def test_a_refusal_says_how_many_things_stand_in_the_way():
    text = lines(("    rating: 20 kN\n", ""), shop={})
    assert text[0] == "No plan for box spring: 2 things in the way."
    assert text[-1].startswith("Known so far, pressed: 68.00 mm long, 4.23 kN as drawn")


def test_inches_are_told_where_the_shop_works_in_them():
    assert "Travel to free, margin counted: 2.7875 in." in lines(show=Show("inch"))


def test_the_report_names_what_lets_go_now_and_what_frees():
    bench, loads = bench_of(unit())
    text = Teller(bench).report(load_report(bench, loads, State(attitude="nose up")))
    assert text[0] == "LOADED: box spring, pushing with up to 3.80 kN and holding up to 110 J."
    assert "PB-04 ring off lets go up to 110 J, at most 16.6 m/s; nothing holds it after that." in text
    assert "PB-04 alone frees it." in text


def test_a_held_load_with_its_retainers_off_is_told_as_held_by_its_release_way():
    """Half of 65.693 N/mm x (133.8 - 68)^2 mm^2 is 142.2 J: pressed 8 mm past 76 mm."""
    bench, loads = bench_of(unit())
    held = State(bench.mask(["PB-04"]), "nose up", Session("box spring", 0))
    text = Teller(bench).report(load_report(bench, loads, held))
    assert "It is held by its release way now: 68.00 mm long" in text[1]
    assert "No retainer holds it any more." in text
    assert not any("alone frees" in line for line in text)


SCREWS = "{kind: long screws, thread engaged: 70 mm, reach: [PB-04], time: 5 min}"


@pytest.mark.parametrize("release", [RELEASE, SCREWS])
def test_nothing_is_called_safe(release):
    bench, loads = bench_of(unit(release=release))
    home = Teller(bench).home(plan_home(bench, loads, "box spring", 0, presses()))
    assert not any("safe" in line.lower() for line in (*lines(release=release), *home))
