"""Laws of gear trains on networks made at random: power in is power out, shares of torque, another solver.

Nothing here knows an arrangement: shafts are numbers, elements join them as they fall.
"""

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from layshaft.mechanics.capacity import greatest_load, torque_range
from layshaft.mechanics.planet import planet_places
from layshaft.mechanics.speed import TieUp, clashing_couplings, solve_speeds
from layshaft.mechanics.torque import NotCarried, coupling_torques, solve_torques
from layshaft.mechanics.train import Chain, Coupling, Mesh, PlanetarySet, Train, planetary

SHAFTS = ("a", "b", "c", "d", "e", "f")
TEETH = st.integers(12, 90)


@st.composite
def elements(draw, name):
    """Any element between shafts that differ."""
    first, second, third = draw(st.permutations(SHAFTS))[:3]
    kind = draw(st.sampled_from(["mesh", "carried", "set", "double", "chain"]))
    z1, z2 = draw(TEETH), draw(TEETH)
    if kind == "mesh":
        return Mesh(name, first, second, z1, draw(st.sampled_from([1, -1])) * z2)
    if kind == "carried":
        return Mesh(name, first, second, z1, z2, third)
    if kind == "chain":
        return Chain(name, first, second, z1, z2)
    if kind == "double":
        assume(z1 != z2)
        return PlanetarySet(name, first, second, third, Fraction(z1, z2))
    return planetary(name, first, second, third, z1, -z2)


@st.composite
def trains(draw):
    """One to four elements, one to three couplings; some of them closed."""
    members = tuple(draw(elements(f"element {i}")) for i in range(draw(st.integers(1, 4))))
    couplings = []
    for i in range(draw(st.integers(1, 3))):
        first, second = draw(st.permutations(SHAFTS))[:2]
        couplings.append(Coupling(f"coupling {i}", first, draw(st.sampled_from([second, None]))))
    train = Train(members, tuple(couplings))
    closed = [c.name for c in couplings if draw(st.booleans())]
    return train, closed


def matrix(train, closed):
    """The same equations as floats, one row for each element that ties."""
    return np.array([[float(e.ties.get(shaft, 0)) for shaft in train.shafts] for e in train.tying(closed)])


@given(trains(), st.integers(-9, 9).filter(bool))
def test_speeds_agree_with_least_squares(case, turns):
    train, closed = case
    driven = train.shafts[0]
    rows = [*matrix(train, closed), [float(shaft == driven) for shaft in train.shafts]]
    right = np.zeros(len(rows))
    right[-1] = turns
    found, _, rank, _ = np.linalg.lstsq(np.array(rows), right, rcond=1e-12)
    is_possible = np.allclose(np.array(rows) @ found, right, atol=1e-9)
    try:
        speeds = solve_speeds(train, closed, {driven: Fraction(turns)})
    except TieUp as fault:
        assert not is_possible
        assert set(fault.couplings) <= set(closed)
        return
    assert is_possible
    settled = [speeds[shaft] for shaft in train.shafts]
    if rank == len(train.shafts):
        assert None not in settled
    for value, other in zip(settled, found, strict=True):
        assert value is None or float(value) == pytest.approx(other, abs=1e-9)


@given(trains())
def test_clash_named_is_a_smallest_one(case):
    train, closed = case
    driven = {train.shafts[0]: Fraction(1)}
    clash = clashing_couplings(train, closed, driven)
    for fewer in combinations(clash, max(len(clash) - 1, 0)):
        if clash:
            solve_speeds(train, fewer, driven)


@given(trains(), st.integers(-500, 500).filter(bool), st.integers(1, 40))
def test_power_in_is_power_out(case, torque, turns):
    """The sum of torque times speed over all that is put on the train from outside is nothing, exactly."""
    train, closed = case
    driving, driven = train.shafts[0], train.shafts[-1]
    try:
        speeds = solve_speeds(train, closed, {driving: Fraction(turns)})
        outside, inside = solve_torques(train, closed, {driving: Fraction(torque)}, [driven])
    except (TieUp, NotCarried):
        return
    assume(outside[driven] is not None and speeds[driven] is not None)
    assert sum(outside[shaft] * speeds[shaft] for shaft in outside) == 0
    for torques in inside.values():
        known = [(torques[shaft], speeds[shaft]) for shaft in torques]
        if all(t is not None and n is not None for t, n in known):
            assert sum(t * n for t, n in known) == 0, "an element makes or takes power"


@given(trains(), st.integers(1, 500))
def test_every_shaft_is_in_balance(case, torque):
    train, closed = case
    driving, driven = train.shafts[0], train.shafts[-1]
    try:
        outside, inside = solve_torques(train, closed, {driving: Fraction(torque)}, [driven])
    except NotCarried:
        return
    for shaft in train.shafts:
        parts = [torques[shaft] for torques in inside.values() if shaft in torques]
        parts.append(outside.get(shaft, Fraction(0)))
        assert None in parts or sum(parts) == 0


@given(TEETH, TEETH, st.integers(1, 999))
def test_a_plain_set_shares_as_its_teeth(sun, ring, torque):
    """T_s : T_r : T_c = S : R : -(S + R), whoever is held."""
    shafts = ("sun", "ring", "carrier")
    train = Train((planetary("set", *shafts, sun, -ring),), tuple(Coupling(f"hold {shaft}", shaft) for shaft in shafts))
    for driving, held, driven in [shafts, shafts[::-1], ("carrier", "sun", "ring")]:
        _, inside = solve_torques(train, [f"hold {held}"], {driving: Fraction(torque)}, [driven])
        on = inside["set"]
        assert on["sun"] * ring == on["ring"] * sun
        assert on["carrier"] == -on["sun"] - on["ring"]


@given(TEETH, TEETH, st.integers(10, 900), st.integers(10, 5000), st.integers(1, 900))
def test_limits_of_a_redundant_lock(sun, ring, clutch, oneway, torque):
    """A set locked by a clutch on its sun and a one-way clutch: each has its range, both pass their sum."""
    train = Train(
        (planetary("set", "sun", "out", "in", sun, -ring),),
        (Coupling("clutch", "sun", "out"), Coupling("one-way", "in", "out")),
    )
    closed, load = ["clutch", "one-way"], {"in": Fraction(torque)}
    limits = {"clutch": (-float(clutch), float(clutch)), "one-way": (0.0, float(oneway))}
    times, slipping = greatest_load(train, closed, load, ["out"], limits)
    share = sun / (sun + ring)
    assert times * torque == pytest.approx(clutch / share + oneway, rel=1e-6)
    assert slipping == ("clutch", "one-way")
    assert coupling_torques(train, closed, load, ["out"])["clutch"] is None
    if times < 1:
        with pytest.raises(NotCarried):
            torque_range(train, closed, load, ["out"], limits, "clutch")
        return
    least, most = torque_range(train, closed, load, ["out"], limits, "one-way")
    assert least == pytest.approx(max(0.0, torque - clutch / share), abs=1e-6)
    assert most == pytest.approx(min(oneway, torque + clutch / share), abs=1e-6)


def fits(place, sun, ring, first, second, idler):
    """Whether a planet goes in at a share of a turn, by trying each tooth of its first gear.

    With `idler` a second pinion turns its second gear the other way. Counted in teeth at the points of
    contact, central gears still: the first mesh sets the planet's own angle to within whole teeth, the second
    must then come out whole.
    """
    way = -1 if idler else 1
    return any(
        (ring * place + way * Fraction(second, first) * (sun * place - tooth)).denominator == 1
        for tooth in range(first)
    )


@given(
    st.integers(10, 40),
    st.integers(50, 90),
    st.sampled_from([(1, 1), (20, 20), (24, 18), (21, 14), (17, 23), (30, 15)]),
    st.booleans(),
    st.lists(st.integers(0, 60), min_size=8, max_size=8),
)
def test_places_for_planets_by_trying_every_tooth(sun, ring, planet, idler, tries):
    """A planet goes in at each place that is named, and at none half or a third of the way to the next."""
    first, second = planet
    assume(not (idler and sun * second == ring * first))
    places = planet_places(sun, -ring, first, second, int(idler))
    for k in tries:
        for finer in (1, 2, 3):
            assert fits(Fraction(k, finer * places), sun, ring, first, second, idler) == (k % finer == 0)
