"""Loads that one release way takes up together: their forces, energies and travel, and where nothing adds up.

By hand: the outer spring is 76 mm long fitted and 68 mm pressed (65.693 N/mm, free at 132.3 ± 1.5 mm), the inner one
stands on a step of 12 mm and so is 64 and 56 mm long (10 N/mm, free at 110 ± 1 mm). F = sum of k (L0 - L), E = sum of
k (L0 - L)² / 2: springs in parallel, V. B. Bhandari, Design of Machine Elements, 3rd ed., section 10.7 (section number
from memory).
"""

from __future__ import annotations

import pytest

from layshaft.book.definition import Unit
from layshaft.plan.act import Hold, TakeOff
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.load_report import load_report
from layshaft.plan.may import Judge
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.press_home import HomePlan, plan_home
from layshaft.plan.press_text import Teller
from layshaft.plan.press_use import UP, press_uses, warned_by_book
from layshaft.plan.state import Condition
from layshaft.plan.step import Plan
from layshaft.plan.taken import Beside, beside_now
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import Show
from tests.plan.axle_box import shop
from tests.plan.nested_box import INNER, INNER_RELEASE, nested
from tests.plan.press_box import bench_of, presses, unit


def planned(made: Unit, load: str = "box spring") -> PressPlan | Refusal:
    return plan_press(*bench_of(made), load, 0, presses())


def plan_of(made: Unit, load: str = "box spring") -> PressPlan:
    found = planned(made, load)
    assert isinstance(found, PressPlan), found
    return found


def lacks_of(made: Unit) -> list[str]:
    found = planned(made)
    assert isinstance(found, Refusal)
    return [lack.id for lack in found.lacks]


def taken_down(made: Unit) -> tuple[Bench, Loads, Plan]:
    bench, loads = bench_of(made)
    start = start_state(made)
    return bench, loads, warned_by_book(bench, loads, order_teardown(bench, loads, start), start)


def test_forces_and_energies_of_both_add_up() -> None:
    plan = plan_of(nested())
    assert plan.taken.others == ("inner spring",)
    assert plan.pressed.force.nominal == pytest.approx(65.693 * (132.3 - 68) + 10 * (110 - 56), abs=0.01)
    assert plan.pressed.energy.nominal == pytest.approx((65.693 * 64.3**2 + 10 * 54**2) / 2000, abs=1e-3)
    assert plan.greatest.force.high == pytest.approx(65.693 * (133.8 - 67) + 10 * (111 - 55), abs=0.01)


def test_from_either_load_it_is_the_same_plan_but_for_the_length_told() -> None:
    one, other = plan_of(nested()), plan_of(nested(), "inner spring")
    assert other.taken.others == ("box spring",)
    assert other.pressed.length.nominal == pytest.approx(0.056)
    assert (one.pressed.force, one.pressed.energy, one.travel) == (
        pytest.approx(other.pressed.force), pytest.approx(other.pressed.energy), pytest.approx(other.travel),
    )  # fmt: skip


def test_the_last_to_be_free_sets_the_travel() -> None:
    """133.8 - 68 + 5 for the outer one; an inner one free at 141 mm stays pressed longer: 141 - 56 + 5."""
    assert plan_of(nested()).travel.nominal == pytest.approx(0.0708)
    long = nested(("free length: 110 ± 1 mm", "free length: 140 ± 1 mm"))
    assert plan_of(long).travel.nominal == pytest.approx(0.090)


def test_the_first_to_touch_its_coils_sets_the_room() -> None:
    plan = plan_of(nested(("solid length: 40 mm", "solid length: 53 mm")))
    assert plan.left_before_solid is not None
    assert plan.left_before_solid.nominal == pytest.approx(0.056 - 0.053)
    assert plan.most_over == pytest.approx(0.064 - 0.053 - 0.002)
    screws = (INNER_RELEASE, "{kind: long screws, thread engaged: 200 mm, reach: [PB-04], time: 5 min}")
    assert "pressed solid" in lacks_of(nested(screws, ("solid length: 40 mm", "solid length: 55 mm")))


def test_the_solid_length_of_either_is_asked_for() -> None:
    assert "solid length" in lacks_of(nested((", solid length: 40 mm", "")))


@pytest.mark.parametrize(
    ("old", "new", "lack"),
    [
        ("rating: 12 kN", "rating: 4.8 kN", "tool overloaded"),
        ("rating: 20 kN", "rating: 4.8 kN", "above its rating"),
    ],
)
def test_ratings_are_held_against_both(old: str, new: str, lack: str) -> None:
    """At most 14 mm beyond the outer one alone is 65.693 x 71.8 = 4717 N, at most 9 mm both are 4948 N."""
    assert isinstance(planned(unit((old, new))), PressPlan)
    assert lack in lacks_of(nested((old, new)))


def test_a_tool_too_weak_stops_the_book_s_own_orders() -> None:
    """The bridge takes the outer one alone and not both, which shows only as they are taken up together."""
    weak = nested(("rating: 12 kN", "rating: 4.8 kN"))
    bench, loads, down = taken_down(weak)
    up = warned_by_book(bench, loads, order_assembly(bench, loads, down.taken_off), start_state(weak))
    for plan, kind in ((down, "hold"), (up, "compress")):
        first = next(step.cautions[0] for step in plan.steps if step.kind == kind)
        assert first == (
            "Do not start: there is no plan for box spring. bridge: the load can come to 4.95 kN. Needed: no more than "
            "its rating of 4.8 kN. Try: a stronger tool or another release way."
        )


def test_a_hand_s_limit_is_held_against_both() -> None:
    """128 J at most of the outer one fitted, 11 J of the inner one: (65.693 x 57.8² + 10 x 47²) / 2000 = 120.8 J."""
    by_hand = "{kind: by hand under cover, reach: [PB-04], limits: {energy: 115 J, speed: 40 m/s}, time: 1 min}"
    alone = unit(release=by_hand)
    assert isinstance(planned(alone), PressPlan)
    assert "too much for a hand" in lacks_of(nested((INNER_RELEASE, by_hand), release=by_hand))


def test_data_that_only_one_person_confirmed_are_told_of_either() -> None:
    seats = "seats: [PB-03 step, PB-05 front]\n"
    change = f"{seats}    confirmed by: [A. Rower, B. Lind]", f"{seats}    confirmed by: [A. Rower]"
    assert plan_of(nested(change)).notes == (
        "inner spring: load data drafted, not yet confirmed by two people on a real unit.",
    )


def test_one_set_up_takes_both_down() -> None:
    _, _, plan = taken_down(nested())
    assert plan.cost.presses == 1
    hold, ring, off = plan.steps[:3]
    assert hold.what == "Take up box spring and inner spring in the press"
    assert {loaded.load for loaded in hold.loaded_after} == {"box spring", "inner spring"}
    assert hold.notes[0].startswith("box spring and inner spring add up; lengths are those of box spring.")
    assert ring.parts == ("PB-04",)
    assert off.what == "Let box spring and inner spring off in stages, each to its longest free length"


def test_and_puts_both_together() -> None:
    bench, loads, plan = taken_down(nested())
    up = order_assembly(bench, loads, plan.taken_off)
    told = {step.kind: step.what for step in up.steps}
    assert told["compress"] == "Compress box spring and inner spring from free in the press"
    assert told["let home"].startswith("Let box spring and inner spring off onto the retainers")


def test_pressing_home_counts_both() -> None:
    bench, loads = bench_of(nested())
    home = plan_home(bench, loads, "box spring", 0, presses())
    assert isinstance(home, HomePlan)
    assert home.stages[0].what == "box spring and inner spring are free: nothing pushes yet"
    seat = next(stage for stage in home.stages if stage.kind == "seat")
    assert seat.held.force.nominal == pytest.approx(65.693 * 64.3 + 10 * 54, abs=0.01)
    assert Teller(bench).home(home)[0] == "Home again, box spring and inner spring: press."


def test_told_they_are_named_together() -> None:
    bench, _ = bench_of(nested())
    lines = Teller(bench).plan(plan_of(nested()))
    assert lines[:2] == (
        "Release of box spring and inner spring: press with bridge.",
        "They are let go together: force and energy are of all, lengths those of box spring.",
    )
    assert "PB-04 alone frees box spring." in lines


OWN_RING = (
    (
        "  PB-03:\n",
        "  PB-08: {name: Stem ring, class: snap ring, mass: 0.01 kg, "
        "ways: [{toward: front, tool: ring pliers, time: 1 min}]}\n  PB-03:\n",
    ),
    (
        "loads:\n",
        "  cap on its stem: {a: PB-05 front, b: PB-03 step, toward: front, at most: 70 mm, by: [PB-08]}\nloads:\n",
    ),
)
"""The inner spring is captive on a stem besides, 6 mm longer than fitted: the ring alone does not free it."""


def test_what_stays_captive_beside_it_has_to_be_freed_before() -> None:
    """A load may not come to rest on what no release way reaches: the stem's ring comes off first, nothing moves."""
    _, _, plan = taken_down(nested(*OWN_RING))
    assert plan.taken_off.index("PB-08") < plan.taken_off.index("PB-04")


def test_a_captive_one_counts_as_well_while_it_is_pressed() -> None:
    plan = plan_of(nested(*OWN_RING))
    assert plan.taken.others == ("inner spring",)
    assert plan.stages[-1].kind == "let off"


APART = (
    "releases: [{kind: press, tool: bridge, pushes: PB-09 front, stands on: PB-01, over: 8 mm, reach: [PB-04], "
    "time: 1 min}]"
)


def test_a_load_that_the_push_does_not_hold_is_none_of_it() -> None:
    """Another cap on the same ring: pressing the one lets the other go with the ring, so nothing is planned."""
    made = unit(
        ("  PB-03:\n", INNER + "  PB-09: {name: Other cap, class: cap, mass: 0.2 kg, faces: {front: 0 mm}, "
         "ways: [{toward: front, held by: {PB-04: ring}, time: 1 min}]}\n  PB-03:\n"),
        ("loads:\n", "  other cap: {a: PB-01 groove, b: PB-09 front, toward: front, at most: -2 mm, by: [PB-04]}\n"
         "loads:\n  other: {springs: [PB-07], seats: [PB-09 front, PB-05 front], " + APART + "}\n"),
    )  # fmt: skip
    bench, loads = bench_of(made)
    assert beside_now(loads, "box spring", 0, start_state(made)) == Beside((), ("other",))
    assert lacks_of(made) == ["coupled"]
    judge = Judge(bench, loads)
    held = judge.after(start_state(made), Hold("box spring"))
    assert [reason.about for reason in judge.may_i(held, TakeOff("PB-04")).reasons] == [("other",)]


PLUG = (
    (
        "PB-01: {name: Box, class: case, mass: 5 kg, faces: {",
        "PB-01: {name: Box, class: case, mass: 5 kg, faces: {lip: -100 mm, ",
    ),
    (
        "  PB-03:\n",
        INNER.replace("110 ± 1 mm", "140 ± 1 mm").replace("PB-03: cap", "PB-10: plug")
        + "  PB-10: {name: Plug, class: plug, mass: 0.1 kg, faces: {rear: 0 mm}, "
        "ways: [{toward: front, held by: {PB-11: clip}, time: 1 min}]}\n"
        "  PB-11: {name: Clip, class: clip, mass: 0.01 kg, ways: [{toward: front, time: 1 min}]}\n  PB-03:\n",
    ),
    (
        "loads:\n",
        "  plug on its clip: {a: PB-01 lip, b: PB-10 rear, toward: front, at most: 0 mm, by: [PB-11]}\n"
        "loads:\n  front spring:\n    springs: [PB-07]\n    seats: [PB-10 rear, PB-03 front]\n"
        "    releases: [{kind: by hand under cover, reach: [PB-11], limits: {energy: 60 J, speed: 40 m/s}, "
        "time: 1 min}]\n",
    ),
)
"""A spring of 10 N/mm on the far side of the cap pushes it home with 160 N, held by a plug and a clip of its own."""


def test_a_load_that_pushes_back_is_let_go_first_where_it_can_be_and_the_plan_is_that_of_then() -> None:
    made = unit(*PLUG)
    bench, loads, plan = taken_down(made)
    assert lacks_of(made) == ["coupled"]
    assert plan.taken_off.index("PB-11") < plan.taken_off.index("PB-04")
    cautions = [caution for step in plan.steps for caution in step.cautions]
    assert not any(caution.startswith("Do not start") for caution in cautions)
    up = order_assembly(bench, loads, plan.taken_off)
    assert up.taken_off.index("PB-04") < up.taken_off.index("PB-11")


@pytest.mark.parametrize("load", ["box spring", "inner spring"])
def test_the_strictest_limits_of_all_loads_count_whichever_leads(load: str) -> None:
    """The inner one allows 9 mm beyond where the outer one allows 14; asked for, it wants more margin and more room."""
    plan = plan_of(nested(), load)
    assert plan.most_over == pytest.approx(0.009)
    wide = INNER_RELEASE, INNER_RELEASE.replace("margin: 5 mm", "margin: 20 mm")
    assert plan_of(nested(wide), load).travel.nominal == pytest.approx(0.0708 + 0.015)
    clear = INNER_RELEASE, INNER_RELEASE.replace("keep from solid: 2 mm", "keep from solid: 10 mm")
    assert plan_of(nested(clear), load).most_over == pytest.approx(0.076 - 0.05775 - 0.010)


def test_what_a_part_lets_go_of_both_is_told_together() -> None:
    """As fitted: 65.693 x 57.8² / 2000 + 10 x 47² / 2000 = 109.7 + 11.0 J, into the plate of 0.2 kg: 34.8 m/s."""
    bench, loads = bench_of(nested())
    removals = [one for report in load_report(bench, loads, start_state(bench.unit)) for one in report.removals]
    of_ring = [one for one in removals if one.part == "PB-04"]
    assert len(of_ring) == 2
    for removal in of_ring:
        assert removal.of_all == pytest.approx((65.693 * 57.8**2 + 10 * 47**2) / 2000, abs=0.01)
        assert removal.speed == pytest.approx((2 * removal.of_all / 0.2) ** 0.5)
    told = Teller(bench).report(load_report(bench, loads, start_state(bench.unit)))
    assert any("of it and up to 121 J in all, at most 34.8 m/s" in line for line in told)


def test_a_passenger_read_beyond_its_book_is_not_pressed_home_either() -> None:
    bench, loads = bench_of(nested())
    start = start_state(bench.unit)
    down = order_teardown(bench, loads, start)
    up = order_assembly(bench, loads, down.taken_off)
    lack = Lack("spring beyond its book", "PB-07", "the unit", "found", "needed", "try")
    for load in ("box spring", "inner spring"):
        uses = press_uses(bench, loads, shop("  {}\n"), (down, start), (up, start), Show(), beyond={load: (lack,)})
        refused = [use for use in uses if isinstance(use.plan, Refusal) and UP in use.when]
        assert [use.plan.lacks for use in refused] == [(lack,)]


@pytest.mark.parametrize("part", ["PB-02", "PB-07"])
def test_what_the_ram_holds_does_not_hang_on_a_spring_that_may_be_gone(part: str) -> None:
    """Nobody knows whether one of the two is whole: the ram holds the cap all the same, and with it the other."""
    bench, loads = bench_of(nested())
    start = start_state(bench.unit).with_condition(part, Condition.UNKNOWN)
    plan = order_teardown(bench, loads, start)
    assert plan.steps[0].what == "Take up box spring and inner spring in the press"
