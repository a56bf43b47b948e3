"""Springs held by stops: worked cases, refusals, and what is said where there is no one answer."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from layshaft.mechanics import OutOfRange
from layshaft.mechanics.rest import (
    Layout,
    Misfit,
    Point,
    Solid,
    Spring,
    Stop,
    at_rest,
    contradiction,
    let_go,
    longest_length,
)

CASE = frozenset({"case"})
# Wire 11 mm, mean diameter 88 mm, 3.25 coils that work, G 79.5 GPa: 65.693 N/mm to five figures.
AMBER = 79.5e9 * 0.011**4 / (8 * 0.088**3 * 3.25)


def at(body, offset=0.0):
    return Point(body, offset)


def captive():
    """The invented Overtop unit's amber spring: 76.0 mm long by the ring in the drum, 78.7 mm by the sun gear."""
    points = {
        "seat": at("case"), "hub seat": at("hub"), "drum": at("case", 0.0760), "sun end": at("case", 0.0760),
        "sun face": at("sun"), "hub face": at("hub"), "sun back": at("sun"),
    }
    stops = (
        Stop("ring", "drum", "hub face", 0.0),
        Stop("sun washer", "sun end", "sun back", 0.0015),
        Stop("sun splines", "sun face", "hub face", 0.0012),
    )
    spring = Spring("amber", "seat", "hub seat", AMBER, 0.1323, 0.05775)
    return Layout(points, stops, (spring,), CASE)


# Figures as printed in the invented unit's description. By hand, too: 65.693 x (132.3 - 76.0) = 3698 N,
# 65.693 x (132.3 - 78.7) = 3521 N, 65.693 / 2 x (56.3^2 - 53.6^2) = 9746 N mm, 65.693 / 2 x 53.6^2 = 94 366 N mm.
def test_ring_gone_lets_the_spring_jump_to_the_sun():
    layout = captive()
    assert longest_length(layout, "amber") == (pytest.approx(0.0760), ("ring",))
    gone = let_go(layout, layout.without(stops={"ring"}))
    amber = gone.springs["amber"]
    assert amber.before.force == pytest.approx(3698.494, abs=0.0006)
    assert amber.after.length == pytest.approx(0.0787, abs=1e-12)
    assert amber.jump == pytest.approx(0.0027, abs=1e-12)
    assert amber.after.force == pytest.approx(3521.124, abs=0.0006)
    assert gone.energy == pytest.approx(9.746, abs=0.0006)
    assert amber.released == pytest.approx(gone.energy, rel=1e-12)
    assert amber.after.energy == pytest.approx(94.366, abs=0.0006)
    assert not at_rest(layout).is_coupled


def test_last_stop_gone_lets_all_go():
    layout = captive()
    free = let_go(layout, layout.without(stops={"ring", "sun washer"}))
    assert free.springs["amber"].after.energy == 0
    assert free.springs["amber"].after.length == 0.1323
    assert free.energy == pytest.approx(AMBER / 2 * 0.0563**2, rel=1e-12)
    assert longest_length(layout.without(stops={"ring", "sun splines"}), "amber") == (math.inf, ())


def rail(*springs, width=0.2, more=(), forces=None):
    """Springs on one rail between two walls, one slider after the other."""
    bodies = ["case", *(f"slider {number}" for number in range(1, len(springs))), "case"]
    points = {}
    placed = []
    for number, (rate, free, solid) in enumerate(springs):
        a, b = f"a{number}", f"b{number}"
        points[a] = at(bodies[number])
        points[b] = at(bodies[number + 1], width if number + 1 == len(springs) else 0.0)
        placed.append(Spring(number, a, b, rate, free, solid))
    return Layout(points, tuple(more), tuple(placed), CASE, forces or {})


def test_two_opposed_springs_on_one_rail():
    # First derivation, balance of the slider at x: k1 (f1 - x) = k2 (f2 - (d - x)),
    #   x = (k1 f1 - k2 (f2 - d)) / (k1 + k2).
    # Second derivation, two in series: together they are f1 + f2 - d too long, and as flexible as the sum of both,
    #   F = (f1 + f2 - d) / (1/k1 + 1/k2), x = f1 - F / k1.
    k1, f1, k2, f2, d = 30_000.0, 0.150, 10_000.0, 0.090, 0.200
    rest = at_rest(rail((k1, f1, 0.05), (k2, f2, 0.03), width=d))
    by_balance = (k1 * f1 - k2 * (f2 - d)) / (k1 + k2)
    in_series = (f1 + f2 - d) / (1 / k1 + 1 / k2)
    assert rest.springs[0].length == pytest.approx(by_balance, rel=1e-12)
    assert rest.springs[1].length == pytest.approx(d - by_balance, rel=1e-12)
    assert rest.springs[0].force == pytest.approx(in_series, rel=1e-11)
    assert rest.springs[1].force == pytest.approx(in_series, rel=1e-11)
    assert rest.energy == pytest.approx(in_series**2 / 2 * (1 / k1 + 1 / k2), rel=1e-11)
    assert rest.is_coupled and rest.carried == {}


def test_one_opposed_spring_takes_up_what_the_other_releases():
    # With a stop that keeps the slider at 0.1 m, the long spring is held; with it gone, they share: see above.
    layout = rail((30_000.0, 0.150, 0.05), (10_000.0, 0.090, 0.03))
    points = {**layout.points, "slider": at("slider 1"), "pin": at("case", 0.100)}
    held = Layout(points, (Stop("pin", "pin", "slider", 0.0),), layout.springs, CASE)
    before = at_rest(held)
    assert [before.springs[n].length for n in (0, 1)] == pytest.approx([0.100, 0.090])
    assert before.carried == {"pin": pytest.approx(1500.0)}
    gone = let_go(before, held.without(stops={"pin"}))
    after = (0.150 + 0.090 - 0.200) / (1 / 30_000 + 1 / 10_000)
    assert gone.springs[0].released == pytest.approx(1500**2 / 60_000 - after**2 / 60_000)
    assert gone.springs[1].released == pytest.approx(-(after**2) / 20_000)
    assert gone.energy == pytest.approx(gone.springs[0].released + gone.springs[1].released)


def test_springs_in_line_add_their_flexibilities():
    # Springs in series, as in any text (R. C. Hibbeler, Engineering Mechanics: Dynamics, section 22.1, from memory).
    rates = (20_000.0, 35_000.0, 50_000.0)
    rest = at_rest(rail(*((rate, 0.080, 0.02) for rate in rates)))
    force = (3 * 0.080 - 0.200) / sum(1 / rate for rate in rates)
    assert [spring.force for spring in rest.springs.values()] == pytest.approx([force] * 3, rel=1e-11)


def test_springs_too_short_for_the_rail_are_loose():
    rest = at_rest(rail((30_000.0, 0.100, 0.05), (10_000.0, 0.090, 0.03)))
    assert rest.energy == 0
    assert [spring.length for spring in rest.springs.values()] == [0.100, 0.090]


def test_nested_springs_share_a_load_by_their_rates():
    # V. B. Bhandari, Design of Machine Elements, Example 10.18: 2000 N on two springs of one free length; the energy
    # is P / 2 times the deflection. The free length is ours, and makes no difference.
    outer = 81_370e6 * 0.010**4 / (8 * 0.080**3 * 8)
    inner = 81_370e6 * 0.008**4 / (8 * 0.064**3 * 12)
    points = {"seat": at("case"), "cap": at("cap")}
    springs = (Spring("outer", "seat", "cap", outer, 0.2, 0.08), Spring("inner", "seat", "cap", inner, 0.2, 0.1))
    rest = at_rest(Layout(points, (), springs, CASE, {"cap": -2000.0}))
    assert rest.springs["outer"].force == pytest.approx(1304.348, abs=0.001)
    assert rest.springs["inner"].force == pytest.approx(695.652, abs=0.001)
    assert 0.2 - rest.springs["outer"].length == pytest.approx(52.5266e-3, abs=1e-7)
    assert rest.energy == pytest.approx(52.52657, abs=1e-5)


def test_nested_springs_of_unlike_length_on_a_stop():
    # The shorter one is loose until the stop presses both: k1 (f1 - L) + k2 (f2 - L) on the stop.
    points = {"seat": at("case"), "cap": at("cap"), "end": at("case", 0.10)}
    springs = (Spring(1, "seat", "cap", 2e4, 0.15, 0.05), Spring(2, "seat", "cap", 1e4, 0.12, 0.05))
    rest = at_rest(Layout(points, (Stop("ring", "end", "cap", 0.0),), springs, CASE))
    assert rest.carried == {"ring": pytest.approx(1000.0 + 200.0)}
    assert not rest.is_coupled


def shelf(weight):
    """A body of some weight on a shelf at 0.1 m, with a spring of 0.12 m under it."""
    points = {"seat": at("case"), "under": at("block"), "shelf": at("case", 0.1), "foot": at("block")}
    spring = Spring("lift", "seat", "under", 10_000.0, 0.12, 0.04)
    return Layout(points, (Stop("shelf", "foot", "shelf", 0.0),), (spring,), CASE, {"block": -weight})


def test_weight_heavier_than_its_spring_stays_on_the_shelf():
    rest = at_rest(shelf(500.0))
    assert rest.positions["block"] == pytest.approx(0.1)
    assert rest.springs["lift"].force == pytest.approx(200.0)
    assert rest.carried == {"shelf": pytest.approx(300.0)}


def test_weight_lighter_than_its_spring_is_lifted():
    rest = at_rest(shelf(50.0))
    assert rest.springs["lift"].length == pytest.approx(0.12 - 50.0 / 10_000, rel=1e-12)
    assert rest.carried == {}
    # A place is right to a hair of 1e-11 m, which is 5e-10 J for this weight.
    assert rest.potential == pytest.approx(50.0**2 / 20_000 + 50.0 * 0.115, abs=1e-9)


def test_weight_presses_a_spring_solid_and_goes_through_its_coils():
    layout = shelf(2000.0).without(stops={"shelf"})
    spring = at_rest(layout).springs["lift"]
    assert spring.is_solid
    assert spring.length == pytest.approx(0.04)
    assert spring.force == pytest.approx(2000.0)
    assert spring.energy == pytest.approx(10_000 / 2 * 0.08**2)
    assert Solid("lift") in at_rest(layout).tight


def test_weight_helps_a_stop_or_the_spring_does():
    # A 60 N hub stands on its spring below a ring that the spring of 100 N holds it against: 40 N are left there.
    points = {"seat": at("case"), "hub": at("hub"), "ring": at("case", 0.09)}
    spring = Spring("s", "seat", "hub", 10_000.0, 0.1, 0.02)
    layout = Layout(points, (Stop("ring", "ring", "hub", 0.0),), (spring,), CASE, {"hub": -60.0})
    rest = at_rest(layout)
    assert not rest.is_coupled
    assert rest.springs["s"].force == pytest.approx(100.0)
    assert rest.carried == {"ring": pytest.approx(40.0)}
    lifted = at_rest(replace(layout, forces={"hub": 60.0}))
    assert lifted.carried == {"ring": pytest.approx(160.0)}


def test_what_nothing_holds_falls_with_what_it_pushes_ahead():
    points = {"a": at("gear"), "b": at("washer"), "c": at("case"), "d": at("shaft"), "e": at("case")}
    stops = (Stop("rests on", "a", "b", 0.0), Stop("bush", "d", "e", 0.0))
    forces = {"gear": -20.0, "washer": -1.0, "shaft": -50.0}
    rest = at_rest(Layout(points, stops, (), CASE, forces))
    assert rest.falls == {"gear", "washer"}
    assert rest.positions["gear"] == rest.potential == -math.inf
    assert rest.carried == {"bush": pytest.approx(50.0)}


def test_stop_that_kept_a_weight_lets_go_without_bound():
    layout = shelf(500.0)
    bare = Layout(layout.points, layout.stops, (), CASE, layout.forces)
    gone = let_go(bare, bare.without(stops={"shelf"}))
    assert gone.falls == {"block"}
    assert gone.energy == math.inf
    again = bare.without(stops={"shelf"})
    assert let_go(again, again).energy == 0


def test_falling_weight_takes_its_spring_along():
    # Gear and washer fall as one; the spring between them is held by the band round both, weights or not.
    points = {"a": at("gear"), "b": at("washer"), "c": at("case")}
    spring = Spring("s", "a", "b", 1e4, 0.05, 0.01)
    layout = Layout(points, (Stop("band", "a", "b", 0.03),), (spring,), CASE, {"gear": -20.0, "washer": -5.0})
    rest = at_rest(layout)
    assert rest.falls == {"gear", "washer"}
    assert rest.springs["s"].force == pytest.approx(200.0)
    assert rest.carried == {"band": pytest.approx(200.0)}


def test_forces_that_act_both_ways():
    # 30 N up and 10 N down on a link of two bodies that only a ring above keeps: the ring bears 20 N.
    points = {"top": at("upper"), "join a": at("upper"), "join b": at("lower"), "ring": at("case", 0.1)}
    rod, neck = Stop("rod", "join b", "join a", 0.02), Stop("neck", "join a", "join b", 0.0)
    stops = (Stop("ring", "ring", "top", 0.0), rod, neck)
    rest = at_rest(Layout(points, stops, (), CASE, {"upper": 30.0, "lower": -10.0}))
    assert rest.carried == {"ring": pytest.approx(20.0), "rod": pytest.approx(10.0)}
    away = at_rest(Layout(points, stops[1:], (), CASE, {"upper": 30.0, "lower": -10.0}))
    assert away.falls == {"upper", "lower"}


def test_two_rings_in_one_place_share_a_load_unknown():
    layout = captive()
    double = Layout(layout.points, (*layout.stops, Stop("second ring", "drum", "hub face", 0.0)), layout.springs, CASE)
    rest = at_rest(double)
    assert rest.shared == {"ring", "second ring"}
    assert sum(rest.carried.values()) == pytest.approx(rest.springs["amber"].force)
    assert at_rest(layout).shared == frozenset()


def test_body_without_play_may_be_clamped_by_any_force():
    points = {"face": at("case"), "gear": at("gear")}
    stops = (Stop("shoulder", "face", "gear", 0.0), Stop("ring", "gear", "face", 0.0))
    rest = at_rest(Layout(points, stops, (), CASE))
    assert rest.shared == {"shoulder", "ring"} == rest.tight
    assert rest.carried == {}


def test_stops_that_cannot_be_kept_are_named():
    layout = captive()
    wrong = Layout(layout.points, (*layout.stops, Stop("shoulder", "hub face", "drum", -0.001)), layout.springs, CASE)
    assert sorted(contradiction(wrong)) == ["ring", "shoulder"]
    for ask in (at_rest, lambda one: longest_length(one, "amber")):
        with pytest.raises(Misfit, match=r"round the stops .*, 0\.001 m are missing") as found:
            ask(wrong)
        assert sorted(found.value.cycle) == ["ring", "shoulder"]
        assert found.value.short == pytest.approx(0.001)


def test_spring_pressed_beyond_solid_is_a_contradiction():
    layout = captive()
    pressed = Layout(layout.points, (*layout.stops, Stop("press", "seat", "hub seat", 0.0570)), layout.springs, CASE)
    assert contradiction(pressed) in (("press", Solid("amber")), (Solid("amber"), "press"))
    with pytest.raises(Misfit):
        at_rest(pressed)


def test_exact_lengths_show_the_smallest_contradiction_and_none_that_is_rounding():
    third = Fraction(1, 3)
    points = {name: Point(name, 0) for name in ("case", "a", "b")}
    touching = [Stop(1, "case", "a", third), Stop(2, "a", "b", third), Stop(3, "b", "case", -2 * third)]
    assert contradiction(Layout(points, touching, (), CASE)) is None
    touching[2] = replace(touching[2], gap=-2 * third - Fraction(1, 10**40))
    assert sorted(contradiction(Layout(points, touching, (), CASE))) == [1, 2, 3]
    floats = [replace(stop, gap=float(stop.gap)) for stop in touching]
    assert contradiction(Layout(points, floats, (), CASE)) is None


def test_longest_length_stays_exact():
    points = {"seat": Point("case", 0), "end": Point("case", Fraction("0.0760")), "hub": Point("hub", 0)}
    spring = Spring("s", "seat", "hub", 65_693.0, Fraction("0.1323"), Fraction("0.05775"))
    layout = Layout(points, (Stop("sun", "end", "hub", Fraction("0.0027")),), (spring,), CASE)
    length, stops = longest_length(layout, spring)
    assert (length, stops) == (Fraction(787, 10_000), ("sun",))
    assert isinstance(length, Fraction)


def test_fixed_bodies_are_one():
    points = {"seat": at("case"), "end": at("press bed", 0.08), "hub": at("hub")}
    spring = Spring("s", "seat", "hub", 1e4, 0.1, 0.05)
    layout = Layout(points, (Stop("ram", "end", "hub", 0.0),), (spring,), frozenset({"case", "press bed"}))
    assert at_rest(layout).springs["s"].length == pytest.approx(0.08)
    assert at_rest(layout).positions == {"case": 0.0, "press bed": 0.0, "hub": pytest.approx(0.08)}


def test_pressing_takes_work_and_frees_the_ring():
    layout = captive()
    pressed = Layout(layout.points, (*layout.stops, Stop("ram", "drum", "hub face", -0.008)), layout.springs, CASE)
    work = let_go(layout, pressed)
    assert work.energy == pytest.approx(AMBER / 2 * (0.0563**2 - 0.0643**2))
    assert at_rest(pressed).carried == {"ram": pytest.approx(AMBER * 0.0643)}
    assert "ring" not in at_rest(pressed).tight


def test_spring_lifted_out_counts_with_all_it_stored():
    layout = captive()
    gone = let_go(layout, layout.without(bodies={"hub"}))
    assert gone.springs["amber"].after.energy == 0
    assert gone.energy == pytest.approx(at_rest(layout).energy)


def test_weight_lifted_out_is_no_energy_let_go():
    points = {"a": at("gear"), "b": at("case"), "c": at("shaft")}
    stops = (Stop("bush", "a", "b", 0.0), Stop("end", "c", "b", 0.0))
    layout = Layout(points, stops, (), CASE, {"gear": -40.0, "shaft": -80.0})
    assert let_go(layout, layout.without(bodies={"gear"})).energy == pytest.approx(0.0)


@pytest.mark.parametrize("change, said", [
    ({"springs": (Spring("new", "seat", "hub seat", 1.0, 0.1, 0.01),)}, "spring new is new"),
    ({"forces": {"hub": 5.0}}, "the force on body 'hub' is another"),
    ({"points": {**captive().points, "far": at("stranger")}}, "body 'stranger' is new"),
])
def test_states_that_cannot_be_compared(change, said):
    with pytest.raises(ValueError, match=said):
        let_go(captive(), replace(captive(), **change))


@pytest.mark.parametrize("change, said", [
    ({"fixed": frozenset()}, "no body is fixed"),
    ({"stops": captive().stops * 2}, "two stops have the same id"),
    ({"springs": captive().springs * 2}, "two springs have the same id"),
    ({"stops": (Stop("x", "seat", "nowhere", 0.0),)}, "'x' ends at point 'nowhere'"),
])
def test_layout_that_says_nothing_clear_is_refused(change, said):
    with pytest.raises(ValueError, match=said):
        replace(captive(), **change)


@pytest.mark.parametrize("change", [
    {"stops": (Stop("x", "seat", "drum", math.nan),)},
    {"points": {**captive().points, "seat": at("case", math.inf)}},
    {"forces": {"hub": math.nan}},
    {"springs": (Spring("s", "seat", "hub seat", 0.0, 0.1, 0.05),)},
    {"springs": (Spring("s", "seat", "hub seat", 1.0, 0.05, 0.05),)},
    {"springs": (Spring("s", "seat", "hub seat", 1.0, 0.05, -0.01),)},
])
def test_impossible_figures_are_refused(change):
    with pytest.raises(OutOfRange):
        replace(captive(), **change)


def test_fixed_body_and_unknown_spring():
    with pytest.raises(ValueError, match="a fixed body cannot be lifted out"):
        captive().without(bodies={"case"})
    with pytest.raises(KeyError):
        longest_length(captive(), "white")
