"""The overdrive demo book: what holds its springs, and what is let go when a holder comes off.

Paths are found here by networkx in exact fractions; loads and energies were worked out apart.
"""

import networkx
import pytest

from layshaft.book.separation import Tree, is_met
from layshaft.book.size import Leaf, Sizes, Span
from layshaft.mechanics import spring
from layshaft.plan.act import Hold, LetOff, TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge
from layshaft.plan.state import Condition, State
from tests.book.overtop import BOOK, UNITS, VARIANTS, direct_force, longest, part_of, stops_as_graph, value_of

HUB, PLATE = UNITS[0].loads["direct spring"].seats
ADAPTER = {"OT-010"}
"""Off before a ring can be reached."""


@pytest.fixture(params=UNITS, ids=VARIANTS)
def unit(request):
    return request.param


def test_stops_can_all_be_together(unit):
    """No circle of stops asks for less than no room, as drawn and with the thickest and thinnest selectives."""
    assert not networkx.negative_edge_cycle(stops_as_graph(unit))
    for end in (min, max):
        chosen = {
            Leaf(part, definition.selective.from_, definition.selective.to): Span.exactly(
                end(size.nominal for size in definition.selective.sizes)
            )
            for part, definition in unit.parts.items()
            if definition.selective
        }
        assert len(chosen) == 3
        assert not networkx.negative_edge_cycle(stops_as_graph(unit, sizes=Sizes(unit, chosen)))


def test_direct_spring_is_held_by_the_drum_and_backed_up_by_the_sun(unit):
    """76.0 by the drum; without the wave ring 2.5 hub to stop ring and 0.2 plate to teeth more; without both, free."""
    assert longest(unit, HUB, PLATE, ADAPTER) == value_of("76.0 mm")
    assert longest(unit, HUB, PLATE, {*ADAPTER, "OT-042"}) == value_of("76.0 mm")
    assert longest(unit, HUB, PLATE, {*ADAPTER, "OT-043"}) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {*ADAPTER, "OT-042", "OT-043"}) is None


def test_without_the_wave_ring_the_adapters_screws_carry_the_spring(unit):
    """The hub comes forward by the hub gap of 0.7 on to the piston's bearing, long before it meets the stop ring."""
    assert longest(unit, HUB, PLATE) == value_of("76.0 mm")
    assert longest(unit, HUB, PLATE, {"OT-043"}) == value_of("76.7 mm")
    assert longest(unit, HUB, PLATE, {"OT-042", "OT-043"}) == value_of("76.7 mm")
    assert longest(unit, HUB, PLATE, {"OT-043", "OT-011"}) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {"OT-043", "OT-042", "OT-011"}) is None


def test_guide_screws_outlast_the_spring(unit):
    """From the piston's bearing to the longest free length, on the thread all the way and the margin beyond."""
    screws = next(way for way in unit.loads["direct spring"].releases if way.kind == "long screws")
    travel = unit.parts["OT-041"].spring.free_length.high - value_of("76.0 mm")
    assert screws.reach == ("OT-011",)
    assert screws.thread_engaged.low > travel + screws.margin.high


def test_adapter_is_let_down_on_the_sun_and_the_spring_taken_up_again(unit):
    """With a broken wave ring the screws stay until the spring is taken up; let down to 78.7, the press is next."""
    bench = Bench(unit)
    judge = Judge(bench, Loads(bench, Sizes(unit)))
    unbolted = State(detached=bench.mask(["OT-096"]), attitude="nose up")
    state = unbolted.with_condition("OT-043", Condition.BROKEN)
    assert [reason.id for reason in judge.may_i(state, TakeOff("OT-011")).reasons] == ["lets go"]
    assert not judge.may_i(unbolted, TakeOff("OT-011")).reasons
    for act in (Hold("direct spring", 2), TakeOff("OT-011"), LetOff(), TakeOff("OT-010")):
        answer = judge.may_i(state, act)
        assert not answer.reasons, answer.reasons
        state = judge.after(state, act)
    left = judge.loads.evaluate(state)["direct spring"]
    assert (left.is_loaded, left.length) == (True, pytest.approx(0.0787))
    assert [reason.id for reason in judge.may_i(state, TakeOff("OT-042")).reasons] == ["held", "lets go"]


@pytest.mark.parametrize(
    "part",
    [
        "OT-043",
        "OT-044",
        "OT-045",
        "OT-046",
        "OT-047",
        "OT-048",
        "OT-061",
        "OT-060",
        "OT-062",
        "OT-080",
        "OT-074",
        "OT-070",
        "OT-059",
        "OT-054",
    ],
)
def test_any_part_of_the_drum_path_hands_the_spring_to_the_sun(unit, part):
    assert longest(unit, HUB, PLATE, {*ADAPTER, part}) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {*ADAPTER, part, "OT-042"}) is None


def test_missing_thrust_bearing_drops_the_sun_on_the_carrier(unit):
    """0.2 plate to teeth and 0.3 sun to carrier, less than the sun path's 2.7."""
    assert longest(unit, HUB, PLATE, {"OT-053"}) == value_of("76.5 mm")


def test_return_springs_are_held_by_one_ring(unit):
    first, second = unit.loads["piston return"].seats
    assert longest(unit, first, second) == value_of("17.0 mm")
    assert longest(unit, first, second, {"OT-018"}) is None


def test_ram_force_reaches_the_housing_through_bearing_and_lock_ring(unit):
    ring = networkx.DiGraph(stops_as_graph(unit).edges())
    path = networkx.shortest_path(ring, "OT-090", part_of(PLATE))
    assert path == [
        "OT-090",
        "OT-082",
        "OT-081",
        "OT-080",
        "OT-074",
        "OT-070",
        "OT-059",
        "OT-054",
        "OT-053",
        "OT-051",
    ]
    press = next(way for way in unit.loads["direct spring"].releases if way.kind == "press")
    greatest = direct_force(unit, value_of("76.0 mm") - press.over.nominal, "high")
    for part in ("OT-082", "OT-081", "OT-074", "OT-059", "OT-053"):
        assert unit.parts[part].rating.si > greatest


@pytest.mark.parametrize(
    "variant, force, energy, jump, left",
    [
        ("OT4", 3698.494, 104.113, 9.746, 94.366),
        ("OT6", 4449.592, 126.146, None, None),
    ],
)
def test_spring_loads_and_energies(variant, force, energy, jump, left):
    """Worked out apart: k = G d^4 / (8 D^3 n), F = k (free - length), E = k (free - length)^2 / 2."""
    data = BOOK.unit(variant).parts["OT-041"].spring
    rate = spring.rate(data.shear_modulus.si, data.wire.si, data.mean_diameter.si, data.active_coils.si)
    free = data.free_length.si
    assert spring.force(rate, free, 0.076) == pytest.approx(force, abs=0.001)
    assert spring.stored_energy(rate, free, 0.076) == pytest.approx(energy, abs=0.001)
    if jump is not None:
        assert spring.energy_released(rate, free, 0.076, 0.0787) == pytest.approx(jump, abs=0.001)
        assert spring.stored_energy(rate, free, 0.0787) == pytest.approx(left, abs=0.001)


def test_every_spring_has_a_load_and_a_way_to_let_it_go(unit):
    springs = {
        part for part, definition in unit.parts.items() if definition.class_ == "spring" or definition.spring
    }
    assert springs == {part for load in unit.loads.values() for part in load.springs}
    assert all(load.releases for load in unit.loads.values())


def test_only_the_roller_springs_are_drafted(unit):
    assert [name for name, load in unit.loads.items() if not load.is_confirmed] == ["roller springs"]


def test_bundle_of_sun_hub_and_spring_stays_loaded_when_lifted(unit):
    """With the wave ring off, what lies on the sun holds the spring by itself: stop ring, hub, sun and thrust plate."""
    tree = Tree(unit)
    sun = tree.index["OT-050"]
    bundle = {"OT-050", *tree.names(tree.carried(0, sun))}
    assert longest(unit, HUB, PLATE, set(unit.parts) - bundle) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {*set(unit.parts) - bundle, "OT-042"}) is None


def test_loaded_bundle_is_never_proposed_to_be_lifted(unit):
    """Every way out for the sun waits for the spring, and so for both rings."""
    tree = Tree(unit)
    sun = tree.index["OT-050"]
    off = tree.mask_of(["OT-034", "OT-043"])
    for way in unit.parts["OT-050"].ways:
        assert not is_met(tree.needs_clauses(sun, (*way.held_by, *way.behind)), off)
