"""Press plans: figures, states, room and refusals.

A-W1 and A-W2 are the project's own invented cases, worked by hand from F = k (L0 - L) and E = k (L0 - L)^2 / 2 with
k = G d^4 / (8 D^3 n) (R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 10-9).
"""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest

from layshaft.book.book import BookFaults
from layshaft.book.definition import HandLimit
from layshaft.book.size import Leaf, Sizes, Span
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.state import Condition, State
from layshaft.quantity import parse_quantity
from tests.book.overtop import UNITS
from tests.plan.press_box import COLLAR, RELEASE, bench_of, hand_cover, plan, presses, unit

OF = {one.variant: one for one in UNITS}
WIDE = ("groove: 22 mm", "groove: 22.0 ± 0.5 mm")


def overtop_plan(variant: str, release: int = 0) -> PressPlan:
    bench = Bench(OF[variant])
    found = plan_press(bench, Loads(bench, Sizes(OF[variant])), "direct spring", release, presses())
    assert isinstance(found, PressPlan)
    return found


def refused(*changes: tuple[str, str], release: str = RELEASE, **kinds: Any) -> list[str]:
    found = plan(*changes, release=release, **kinds)
    assert isinstance(found, Refusal)
    return list(found.sentences)


def made(*changes: tuple[str, str], release: str = RELEASE) -> PressPlan:
    found = plan(*changes, release=release)
    assert isinstance(found, PressPlan)
    return found


def thickly_ringed(*changes: tuple[str, str], release: str, hand: HandLimit | None = None) -> PressPlan | Refusal:
    """The plan with the ring read at 2.5 mm, 0.5 mm more than drawn: the spring is shorter by as much."""
    one = unit(*changes, release=release)
    sizes = Sizes(one, {Leaf("PB-04", "front", "rear"): Span.exactly(parse_quantity("2.5 mm").nominal)})
    bench = Bench(one)
    return plan_press(bench, Loads(bench, sizes), "box spring", 0, presses(), hand=hand)


@pytest.mark.parametrize(
    "variant, force, energy, travel, left",
    [
        ("OT4", 4224.035, 135.803, 70.8, 10.25),
        ("OT5", 4224.035, 135.803, 70.8, 10.25),
        ("OT6", 5077.4, 164.254, 71.2, 7.625),
    ],
)
def test_case_a_w1_of_the_overdrive_in_the_press(variant, force, energy, travel, left):
    found = overtop_plan(variant)
    assert found.pressed.length.nominal == pytest.approx(0.068)
    assert found.pressed.force.nominal == pytest.approx(force, abs=0.005)
    assert found.pressed.energy.nominal == pytest.approx(energy, abs=0.001)
    assert found.travel.nominal * 1e3 == pytest.approx(travel)
    assert found.left_before_solid is not None
    assert found.left_before_solid.nominal * 1e3 == pytest.approx(left)


def test_case_a_w2_of_the_overdrive_held_by_the_sun_alone():
    """The bundle lifted out with its stop ring on: 78.7 mm, 3521.124 N and 94.366 J, as in the case."""
    closed = overtop_plan("OT5", release=1).stages[0].held
    assert closed.length.nominal == pytest.approx(0.0787)
    assert closed.force.nominal == pytest.approx(3521.124, abs=0.005)
    assert closed.energy.nominal == pytest.approx(94.366, abs=0.001)


@pytest.mark.parametrize("variant, together", [("OT4", 8.38), ("OT6", 8.89)])
def test_speeds_of_hub_and_pack_are_estimates_below_the_bound(variant, together):
    """Own invented figures, 8.4 to 8.9 m/s for hub and pack: sqrt(2 E / (m + m_spring / 3)), which is no bound.

    The bound of the plan is higher on purpose: all the energy in the lightest body, the hub, without the spring.
    """
    parts = OF[variant].parts
    found = overtop_plan(variant)
    moving = sum(parts[p].mass.si * parts[p].count for p in ("OT-040", "OT-044", "OT-045", "OT-046", "OT-047"))
    estimate = sqrt(2 * found.pressed.energy.nominal / (moving + parts["OT-041"].mass.si / 3))
    assert estimate == pytest.approx(together, abs=0.01)
    assert found.stages[1].kind == "held" and found.stages[1].speed > 1.5 * estimate


def test_estimate_of_the_hub_alone_is_passed_by_the_bound():
    """Own invented figure, about 12.7 m/s: the estimate at the longest free length, stiffest rate and 68 mm."""
    unit, found = OF["OT4"], overtop_plan("OT4")
    stiffest, longest = 1.05 * 65_693.4, 0.1338
    energy = stiffest * (longest - 0.068) ** 2 / 2
    hub, spring = unit.parts["OT-040"].mass.si, unit.parts["OT-041"].mass.si
    assert sqrt(2 * energy / (hub + spring / 3)) == pytest.approx(12.7, abs=0.05)
    assert found.stages[1].held.energy.high > energy
    assert found.stages[1].speed == pytest.approx(sqrt(2 * found.stages[1].held.energy.high / 1.48))
    assert found.speed > found.stages[1].speed > sqrt(2 * energy / hub) > 12.7


def test_stages_of_the_overdrive_come_in_order_with_what_a_failing_press_would_do():
    stages = overtop_plan("OT5").stages
    assert [(stage.kind, stage.part) for stage in stages] == [
        ("closed", None), ("held", None), ("off", "OT-042"), ("off", "OT-043"), ("free", None),
    ]  # fmt: skip
    held, stop_ring, wave_ring = stages[1:4]
    assert held.without is not None and stop_ring.without is not None and wave_ring.without is not None
    assert held.without.still is not None and stop_ring.without.still is not None
    assert stop_ring.without.still.length.nominal == pytest.approx(0.076)
    assert wave_ring.without.still is None
    assert wave_ring.without.energy == wave_ring.held.energy.high


def test_rings_in_either_order_free_the_overdrive_and_neither_alone():
    sets = overtop_plan("OT5").freeing.sets
    assert frozenset({"OT-042", "OT-043"}) in sets
    assert all(len(chosen) == 2 and "OT-042" in chosen for chosen in sets)


def test_bands_contain_what_is_drawn():
    for variant in OF:
        found = overtop_plan(variant)
        for held in (found.installed, found.pressed, *(stage.held for stage in found.stages)):
            for band in (held.length, held.force, held.energy):
                assert band.low <= band.nominal <= band.high


def test_installed_length_is_uncertain_by_the_sum_of_what_lies_between_the_seats():
    """Own sum: ring 0, groove 0.5, plate and bearing 0.1 each, in mm; the case's seat is exact."""
    wide = made(WIDE, ("rear: 4.0 mm", "rear: 4.0 ± 0.1 mm"), ("rear: 3.0 mm", "rear: 3.0 ± 0.1 mm"))
    length = wide.installed.length
    assert [length.low, length.nominal, length.high] == pytest.approx([0.0753, 0.076, 0.0767])
    assert wide.travel.high == pytest.approx(0.1338 - 0.0673 + 0.005)


def test_most_beyond_installed_ends_where_the_cap_meets_its_post():
    assert made().most_over == pytest.approx(0.012)
    assert made(("post: 36 mm", "post: 50 mm")).most_over == pytest.approx(0.014)


def test_most_beyond_installed_keeps_from_solid_at_the_shortest_length():
    """62.0 - 0.5 - 57.75 leaves 3.75 mm at 14 mm; 4 mm are kept, so 13.75 mm is the most."""
    found = made(WIDE, ("post: 36 mm", "post: 50 mm"), release=RELEASE.replace("solid: 2 mm", "solid: 4 mm"))
    assert found.most_over == pytest.approx(0.01375)


def test_force_goes_through_plate_and_bearing_and_past_the_ring():
    reaction = made().reaction
    assert reaction is not None
    assert reaction.parts == ("PB-03", "PB-02", "PB-05", "PB-06", "PB-01")
    assert [(bearer.part, bearer.rating) for bearer in reaction.bearers] == [("PB-06", 20_000.0)]
    assert reaction.toward == "rear"


def test_a_load_drafted_by_one_person_says_so():
    assert made(("[A. Rower, B. Lind]", "[A. Rower, A. Rower]")).notes == (
        "box spring: load data drafted, not yet confirmed by two people on a real unit.",
    )
    assert made().notes == ()


def test_a_lip_that_the_book_does_not_reach_leaves_it_loaded_and_not_free():
    """The lip lets the spring get 107 - 7 - 20 = 80 mm: 65.693 N/mm x (52.3 mm)^2 / 2 = 89.85 J are still there."""
    found = made(
        ("faces: {groove: 22 mm", "faces: {lip: 20 mm, groove: 22 mm"),
        ("stops:\n", "stops:\n  cap on the lip: {a: PB-01 lip, b: PB-03 front, toward: front, at most: 0 mm}\n"),
    )
    last = found.stages[-1]
    assert (last.kind, last.held_by) == ("let off", ("cap on the lip", "bearing in the box", "plate on the bearing"))
    assert last.held.length.nominal == pytest.approx(0.080)
    assert last.held.energy.nominal == pytest.approx(89.85, abs=0.01)
    assert found.freeing.sets == () and len(found.freeing.fast) == 1


def test_a_part_nobody_looked_at_counts_as_whole_for_is_it_free():
    bench, loads = bench_of(unit())
    doubtful = State(attitude="nose up").with_condition("PB-04", Condition.UNKNOWN)
    found = plan_press(bench, loads, "box spring", 0, presses(), doubtful)
    assert isinstance(found, PressPlan)
    assert found.stages[0].held.length.nominal == pytest.approx(0.076)
    assert found.freeing.sets == (frozenset({"PB-04"}),)


def test_refused_without_the_rating_of_a_bearing_in_the_way():
    assert refused(("    rating: 20 kN\n", "")) == [
        "PB-06 bearing: the ram's force goes through it and its rating is not given. Needed: a rating of at least "
        "4.59 kN. Try: the maker's rating, or a support that takes the force past it."
    ]


def test_refused_above_the_rating_of_a_bearing_in_the_way():
    assert refused(("    rating: 20 kN\n", "    rating: 4 kN\n")) == [
        "PB-06 bearing: the ram's force goes through it and can come to 4.59 kN. Needed: no more than its rating of "
        "4 kN. Try: a support that takes the force past it, or another release way."
    ]


def test_refused_where_the_book_does_not_say_where_the_force_goes():
    assert refused(COLLAR, release=RELEASE.replace("stands on: PB-01", "stands on: PB-07")) == [
        "box spring: the book does not say where the force goes: no stop leads the push on from PB-01 to PB-07. "
        "Needed: a whole way for it. Try: stops that lead the push from PB-05 to PB-07."
    ]


def test_refused_without_a_solid_length():
    assert refused((", solid length: 57.75 mm", "")) == [
        "box spring: the length at which the coils touch is not given. Needed: the solid length, or wire and total "
        "coils. Try: measuring wire and coils, or asking the maker."
    ]


def test_refused_too_near_solid_at_the_shortest_length():
    """75.5 mm at the least, pressed 14 mm: 61.5 mm, and 57.75 mm is solid; as drawn 4.25 mm are left."""
    given, keep = "over: 8 mm, most over: 14 mm, keep from solid: 2 mm", "over: 14 mm, keep from solid: 3.75 mm"
    close = RELEASE.replace(given, keep)
    post = ("post: 36 mm", "post: 50 mm")
    left = made(WIDE, post, release=close).left_before_solid
    assert left is not None
    assert left.low * 1e3 == pytest.approx(3.75)
    with pytest.raises(BookFaults, match=r"needed: at least 61\.51 mm, its solid length and what keeps from it"):
        unit(WIDE, post, release=close.replace("3.75 mm", "3.76 mm"))


@pytest.mark.parametrize(("rating", "is_enough"), [("4.63 kN", True), ("4.61 kN", False)])
def test_book_and_plan_hold_one_greatest_force_against_the_tool(rating: str, is_enough: bool) -> None:
    """Fitted 75.5 mm at the least, 12 mm further at most: 65.693 N/mm x (133.8 - 63.5) mm = 4618.2 N."""
    far = RELEASE.replace("most over: 14 mm", "most over: 12 mm")
    tool = (WIDE, ("post: 36 mm", "post: 50 mm"), ("rating: 12 kN", f"rating: {rating}"))
    if is_enough:
        assert made(*tool, release=far).greatest.force.high == pytest.approx(4618.2, abs=0.1)
    else:
        with pytest.raises(BookFaults, match=r"tool overloaded(?s:.*)found:  up to 4\.62 kN"):
            unit(*tool, release=far)


def test_what_is_read_may_bring_the_coils_too_near_solid():
    """As drawn 76 - 14 - 57.75 = 4.25 mm are left, and with the ring read 0.5 mm thicker 3.75 mm."""
    close = RELEASE.replace("over: 8 mm, most over: 14 mm, keep from solid: 2 mm", "over: 14 mm, keep from solid: 4 mm")
    found = thickly_ringed(("post: 36 mm", "post: 50 mm"), release=close)
    assert isinstance(found, Refusal)
    assert found.sentences == (
        "box spring: 3.75 mm left before the coils touch at the shortest. Needed: at least 4.00 mm. "
        "Try: a smaller `over`.",
    )


def test_refused_where_the_cap_meets_its_post_before_the_ring_is_loose():
    assert refused(("post: 36 mm", "post: 30 mm")) == [
        "box spring: 8.00 mm beyond installed. Needed: at most 6.00 mm, where something hard meets. "
        "Try: a smaller `over`, or the stops round the pushed part."
    ]


def test_refused_without_a_press():
    assert refused(shop={}) == [
        "presses: the shop file has no press. Needed: ram area, rating, return force, stroke and daylight of one. "
        "Try: writing them into the shop file from its plate, or the work given to a shop with a press."
    ]


def test_refused_where_the_thread_may_end_before_the_spring_is_free():
    """133.8 mm less 75.5 mm and 5 mm of margin: 63.3 mm; as drawn 62.8 mm would be enough."""
    screws = "{kind: long screws, thread engaged: 63 mm, margin: 5 mm, reach: [PB-04], time: 5 min}"
    with pytest.raises(BookFaults, match=r"needed: more than 63\.30 mm, the way to the longest free length"):
        unit(WIDE, release=screws)
    whole = unit(WIDE, release=screws.replace("63 mm", "99 mm"))
    load = whole.loads["box spring"]
    way = load.releases[0].model_copy(update={"thread_engaged": parse_quantity("63 mm")})
    short = whole.model_copy(update={"loads": {"box spring": load.model_copy(update={"releases": (way,)})}})
    found = plan_press(*bench_of(short), "box spring", 0, {})
    assert isinstance(found, Refusal)
    assert list(found.sentences) == [
        "box spring: 63 mm engaged. Needed: more than the 63.30 mm of travel until it is free. "
        "Try: longer screws, or a press."
    ]
    assert made(release=screws).kind == "long screws"


def test_refused_by_hand_where_the_shortest_length_holds_too_much():
    """As drawn 0.0657 N/mm at 57.8 mm of shortening at most holds 0.1098 J; 0.5 mm shorter it is 0.1117 J."""
    soft = ("rate: 65.693 N/mm", "rate: 0.065693 N/mm")
    hand = "{kind: by hand under cover, limits: {energy: 0.11 J, speed: 10 m/s}, reach: [PB-04], time: 1 min}"
    assert made(soft, release=hand).pressed.energy.high == pytest.approx(0.10974, abs=1e-5)
    with pytest.raises(BookFaults, match=r"too much for a hand(?s:.*)found:  0\.112 J"):
        unit(soft, WIDE, release=hand)
    refusal = thickly_ringed(soft, release=hand)
    assert isinstance(refusal, Refusal)
    assert refusal.sentences == (
        "box spring: it can let go 0.112 J. Needed: at most 0.11 J. Try: a press or a spring compressor.",
    )


FIVE = ("rate: 65.693 N/mm", "rate: 2.9 N/mm")
"""2.9 N/mm and 57.8 mm shorter than the longest free length: 2.9 x 57.8^2 / 2 N mm = 4.84 J."""
BY_HAND = "{kind: by hand under cover, limits: {energy: 5 J, speed: 20 m/s}, reach: [PB-04], time: 1 min}"


def test_the_stricter_of_book_and_shop_holds_for_a_hand():
    found = plan(FIVE, release=BY_HAND)
    assert isinstance(found, PressPlan) and found.pressed.energy.high == pytest.approx(4.84, abs=0.01)
    refusal = plan(FIVE, release=BY_HAND, hand=hand_cover("0.5 J", "10 m/s"))
    assert isinstance(refusal, Refusal)
    assert [(lack.id, lack.whose) for lack in refusal.lacks] == [("too much for a hand", "the shop")]
    assert refusal.sentences == (
        "box spring: it can let go 4.85 J. Needed: at most 0.5 J, the shop's own limit. "
        "Try: a press or a spring compressor.",
    )


def test_a_generous_shop_does_not_widen_the_limits_of_the_book():
    soft = ("rate: 65.693 N/mm", "rate: 0.065693 N/mm")
    narrow = BY_HAND.replace("energy: 5 J", "energy: 0.11 J")
    refusal = thickly_ringed(soft, release=narrow, hand=hand_cover("900 J", "900 m/s"))
    assert isinstance(refusal, Refusal)
    assert [(lack.id, lack.whose) for lack in refusal.lacks] == [("too much for a hand", "the book")]


def test_refused_without_the_rating_of_a_spring_compressor():
    way = "{kind: spring compressor, tool: compressor, over: 8 mm, reach: [PB-04], time: 5 min}"
    assert refused(release=way) == [
        "compressor: its rating as a force is not given. Needed: a rating of at least 4.33 kN. "
        "Try: the plate or the maker of the tool."
    ]
    assert made(("compressor: {}", "compressor: {rating: 6 kN}"), release=way).rams == ()


def test_refused_where_the_tool_under_the_ram_has_no_rating():
    """12 mm beyond 76 mm the cap meets its post: 65.693 N/mm x 69.8 mm = 4585.4 N, by hand."""
    assert refused(("bridge: {rating: 12 kN}", "bridge: {}")) == [
        "bridge: its rating as a force is not given. Needed: a rating of at least 4.59 kN. "
        "Try: the plate or the maker of the tool."
    ]


def test_long_screws_ask_for_a_rating_of_theirs_and_a_thread_does_not():
    way = "{kind: long screws, tool: compressor, thread engaged: 200 mm, reach: [PB-04], time: 5 min}"
    assert len(refused(release=way)) == 1
    assert made(release=way.replace("long screws", "own thread")).tool == "compressor"
    assert made(("compressor: {}", "compressor: {rating: 6 kN}"), release=way).tool == "compressor"


TEN = RELEASE.replace("most over: 14 mm", "most over: 10 mm")
"""At most 65.693 N/mm x (133.8 - 66) mm = 4453.9854 N, by hand; back over 133.8 - 68 + 5 = 70.8 mm of travel."""


def test_a_load_exactly_at_the_ratings_and_a_travel_exactly_the_stroke_are_inside():
    exact = presses(("rating: 25 kN", "rating: 4453.9854 N"), ("stroke: 160 mm", "stroke: 70.8 mm"))
    found = plan(("bridge: {rating: 12 kN}", "bridge: {rating: 4453.9854 N}"), release=TEN, shop=exact)
    assert isinstance(found, PressPlan)
    assert found.ram is not None and found.ram.press == "spring press"


@pytest.mark.parametrize("change", [("rating: 25 kN", "rating: 4453.9853 N"), ("stroke: 160 mm", "stroke: 70.7999 mm")])
def test_one_digit_below_is_outside(change):
    found = plan(release=TEN, shop={"spring press": presses(change)["spring press"]})
    assert isinstance(found, Refusal)
    assert [lack.id for lack in found.lacks] == ["press too small"]


@pytest.mark.parametrize(("engaged", "is_enough"), [("62.8 mm", False), ("62.80001 mm", True)])
def test_a_thread_that_ends_exactly_where_the_spring_is_free_is_too_short(engaged, is_enough):
    """133.8 mm free, 76 mm fitted and 5 mm of margin: 62.8 mm. The book's own check would tell it first."""
    screws = "{kind: own thread, thread engaged: 99 mm, margin: 5 mm, reach: [PB-04], time: 5 min}"
    whole = unit(release=screws)
    load = whole.loads["box spring"]
    way = load.releases[0].model_copy(update={"thread_engaged": parse_quantity(engaged)})
    changed = {"box spring": load.model_copy(update={"releases": (way,)})}
    bench, loads = bench_of(whole.model_copy(update={"loads": changed}))
    found = plan_press(bench, loads, "box spring", 0, {})
    assert isinstance(found, PressPlan) is is_enough
    assert is_enough or [lack.id for lack in found.lacks] == ["thread too short"]


@pytest.mark.parametrize("people", ["[A. Ferrow, a. ferrow]", "[A. Ferrow, A Ferrow]", "[A. Ferrow]"])
def test_one_person_spelt_twice_is_one(people):
    change = ("confirmed by: [A. Rower, B. Lind]", f"confirmed by: {people}")
    assert made(change).notes and not made().notes


INNER = (
    "  PB-07: {name: Inner spring, class: spring, mass: 0.3 kg, spring: {kind: helical, free length: 120 ± 1 mm, "
    "rate: 10 N/mm, solid length: 50 mm}, ways: [{toward: front, behind: {PB-03: cap}, time: 1 min}]}\n"
)


def test_springs_side_by_side_add_up_and_the_longest_sets_the_travel():
    """65.693 N/mm x 64.3 mm + 10 N/mm x 52 mm = 4744.06 N; E = (65.693 x 64.3^2 + 10 x 52^2) / 2000 = 149.32 J."""
    found = made(("    springs: [PB-02]", "    springs: [PB-02, PB-07]"), ("  PB-03:\n", INNER + "  PB-03:\n"))
    assert found.pressed.force.nominal == pytest.approx(4744.06, abs=0.01)
    assert found.pressed.energy.nominal == pytest.approx(149.32, abs=0.01)
    assert found.travel.nominal == pytest.approx(0.0708)
    assert found.freeing.sets == (frozenset({"PB-04"}),)


LONG = "releases: [{kind: long screws, thread engaged: 200 mm, reach: [PB-03], time: 5 min}]"


def test_refused_where_another_load_pushes_back():
    """A spring on the far side of the cap, between it and the box's front, pushes it home: no figure stands alone."""
    found = refused(
        ("faces: {groove: 22 mm", "faces: {front: 0 mm, groove: 22 mm"),
        ("rate: 65.693 N/mm", "rate: 5 N/mm"),
        ("  PB-03:\n", INNER.replace("120 ± 1 mm", "140 ± 1 mm").replace("50 mm", "4 mm") + "  PB-03:\n"),
        ("loads:\n", "loads:\n  front spring: {springs: [PB-07], seats: [PB-01 front, PB-03 front], " + LONG + "}\n"),
    )
    assert found == [
        "box spring: the springs of front spring push back on it, so that its force, energy and travel are not its "
        "own. Needed: front spring free before this load is let go. Try: letting front spring go first where "
        "the unit allows it, else the maker's procedure."
    ]


def test_a_refusal_keeps_the_figures_that_are_known():
    found = plan(shop={})
    assert isinstance(found, Refusal) and found.pressed is not None
    assert found.pressed.force.nominal == pytest.approx(65_693 * 0.0643)


@pytest.mark.parametrize("room", range(1, 13))
def test_pressing_as_far_as_the_hard_contact_lies_is_no_further(room: int) -> None:
    """The post stands so far behind the cap, which sits at 24 mm: both lengths are one, however they are worked out."""
    way = RELEASE.replace("over: 8 mm", f"over: {room} mm")
    assert made(("post: 36 mm", f"post: {24 + room} mm"), release=way).most_over == pytest.approx(room / 1000)


@pytest.mark.parametrize(
    ("post", "over", "sentence"),
    [
        (
            "24 mm",
            "8 mm",
            "8.00 mm beyond installed. Needed: no more than installed: something hard meets there already. Try: "
            "another release way, or a look at the stops round the pushed part.",
        ),
        (
            "31.9 mm",
            "8 mm",
            "8.00 mm beyond installed. Needed: at most 7.90 mm, where something hard meets. Try: a smaller `over`, "
            "or the stops round the pushed part.",
        ),
        (
            "50 mm",
            "14 ± 0.5 mm",
            "14.50 mm beyond installed. Needed: at most the 14 mm that the book allows. Try: a smaller `over`, or "
            "less doubt in it.",
        ),
    ],
)
def test_refused_beyond_what_the_unit_or_the_book_allows(post: str, over: str, sentence: str) -> None:
    way = RELEASE.replace("over: 8 mm", f"over: {over}")
    assert refused(("post: 36 mm", f"post: {post}"), release=way) == [f"box spring: {sentence}"]
