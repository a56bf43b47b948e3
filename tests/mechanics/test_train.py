"""Trains that cannot answer say which kind of no it is: tied up, free, or nothing bears the torque."""

from fractions import Fraction

import pytest

from layshaft.mechanics import OutOfRange
from layshaft.mechanics.capacity import greatest_load, torque_range
from layshaft.mechanics.speed import (
    TieUp,
    Undetermined,
    clashing_couplings,
    ratio,
    slip_speeds,
    solve_speeds,
    turns_statement,
    whole_turns,
)
from layshaft.mechanics.torque import NotCarried, coupling_torques, solve_torques
from layshaft.mechanics.train import Chain, Coupling, Mesh, PlanetarySet, Train, planetary

ONE = {"in": Fraction(1)}
SET = planetary("set", "sun", "out", "in", 36, -84)
UNIT = Train(
    (SET,),
    (
        Coupling("direct", "sun", "out"),
        Coupling("brake", "sun"),
        Coupling("one-way", "in", "out"),
        Coupling("lock", "out"),
    ),
)


def test_everything_open_is_neutral():
    with pytest.raises(Undetermined) as neutral:
        ratio(UNIT, [], "in", "out")
    assert neutral.value.shaft == "out"
    with pytest.raises(NotCarried):
        coupling_torques(UNIT, [], ONE, ["out"])
    with pytest.raises(NotCarried):
        greatest_load(UNIT, [], ONE, ["out"], {})


def test_tie_up_names_only_what_clashes():
    with pytest.raises(TieUp) as tied:
        solve_speeds(UNIT, ["direct", "brake", "one-way"], ONE)
    assert set(tied.value.couplings) < {"direct", "brake", "one-way"}
    assert len(tied.value.couplings) == 2
    assert "brake" in str(tied.value)


def test_gears_that_clash_alone_are_said_to():
    locked = Train((Mesh("one", "a", "b", 20, 30), Mesh("two", "a", "b", 20, 31)))
    with pytest.raises(TieUp, match="the gears alone") as tied:
        solve_speeds(locked, [], {"a": Fraction(1)})
    assert tied.value.couplings == ()
    assert clashing_couplings(locked, [], {"a": Fraction(1)}) == ()


def test_a_held_output_has_no_ratio():
    with pytest.raises(OutOfRange):
        ratio(UNIT, ["lock"], "sun", "out")


def test_parallel_gears_of_one_ratio_are_allowed():
    """Two meshes in step are a redundant loop: speeds are settled, torques are not."""
    twin = Train((Mesh("one", "a", "b", 20, 30), Mesh("two", "a", "b", 40, 60)))
    assert ratio(twin, [], "a", "b") == Fraction(-3, 2)
    outside, inside = solve_torques(twin, [], {"a": Fraction(10)}, ["b"])
    assert outside["b"] == Fraction(15)
    assert inside["one"] == {"a": None, "b": None}


def test_a_free_one_way_clutch_slips_its_free_way():
    """In overdrive the output runs ahead of the input by three turns in seven."""
    slips = slip_speeds(UNIT, ["brake"], {"in": Fraction(7)})
    assert slips == {"direct": -10, "brake": 0, "one-way": -3, "lock": 10}
    assert slip_speeds(UNIT, [], {"in": Fraction(7)})["one-way"] is None


def test_a_one_way_clutch_asked_to_hold_its_free_way_bears_nothing():
    held = {"one-way": (0.0, 900.0)}
    times, slipping = greatest_load(UNIT, ["one-way"], ONE, ["out"], held)
    assert (round(times), slipping) == (900, ("one-way",))
    with pytest.raises(NotCarried):
        greatest_load(UNIT, ["one-way"], {"in": Fraction(-1)}, ["out"], held)
    with pytest.raises(NotCarried):
        torque_range(UNIT, ["one-way"], {"in": Fraction(-1)}, ["out"], held, "one-way")


def test_torque_passes_from_first_side_to_second():
    """Driven forward, the one-way clutch hands all of it from input to output; braked, the sun pushes the
    case on.
    """
    assert coupling_torques(UNIT, ["one-way"], {"in": Fraction(9)}, ["out"])["one-way"] == 9
    assert coupling_torques(UNIT, ["one-way"], {"in": Fraction(-9)}, ["out"])["one-way"] == -9
    assert coupling_torques(UNIT, ["brake"], {"in": Fraction(10)}, ["out"])["brake"] == 3
    assert coupling_torques(UNIT, ["direct"], {"in": Fraction(10)}, ["out"])["direct"] == 3


def test_dogs_pass_anything():
    assert greatest_load(UNIT, ["one-way"], ONE, ["out"], {}) == (float("inf"), ())


def test_an_unlimited_loop_can_be_wound_up_by_anything():
    least, most = torque_range(UNIT, ["direct", "one-way"], ONE, ["out"], {}, "direct")
    assert (least, most) == (float("-inf"), float("inf"))


@pytest.mark.parametrize(
    "call",
    [
        lambda: Train((SET, SET)),
        lambda: Train((SET,), (Coupling("set", "sun"),)),
        lambda: Mesh("m", "a", "b", 0, 20),
        lambda: Chain("c", "a", "b", 20, 0),
        lambda: PlanetarySet("p", "a", "b", "c", Fraction(1)),
        lambda: solve_speeds(UNIT, ["nothing"], ONE),
        lambda: solve_speeds(UNIT, [], {"nobody": Fraction(1)}),
        lambda: solve_torques(UNIT, [], ONE, ["nobody"]),
        lambda: torque_range(UNIT, ["brake"], ONE, ["out"], {}, "direct"),
        lambda: greatest_load(UNIT, ["brake"], ONE, ["out"], {"brake": (5.0, 10.0)}),
        lambda: whole_turns(Fraction(0)),
    ],
)
def test_wrong_questions_are_refused(call):
    with pytest.raises(OutOfRange):
        call()


@pytest.mark.parametrize(
    "turned, said",
    [
        (Fraction(7, 10), "7 turns in, 10 turns out, the same way"),
        (Fraction(-3), "3 turns in, 1 turn out, opposite ways"),
        (Fraction(1), "1 turn in, 1 turn out, the same way"),
    ],
)
def test_turns_statement(turned, said):
    assert turns_statement(turned) == said


def test_parallel_shafts_with_a_chain_and_a_differential():
    """Chain 35/35 to a second shaft, whose bevel differential gives half the sum of its sides."""
    train = Train(
        (
            Chain("chain", "in", "cross", 35, 35),
            PlanetarySet("differential", "left", "right", "cross", Fraction(-1)),
        ),
        (Coupling("left held", "left"),),
    )
    assert ratio(train, ["left held"], "in", "right") == Fraction(1, 2)
    outside, _ = solve_torques(train, [], {"in": Fraction(100)}, ["left", "right"])
    assert (outside["left"], outside["right"]) == (-50, -50)


def test_a_carried_planet_knows_its_own_speed():
    """Sun held, carrier turned once: a planet of half the sun's teeth turns three times."""
    train = Train((Mesh("mesh", "sun", "planet", 40, 20, "carrier"),), (Coupling("hold", "sun"),))
    assert solve_speeds(train, ["hold"], {"carrier": Fraction(1)})["planet"] == 3
