"""The overdrive demo book: what holds its springs, and what is let go when a holder comes off.

Paths are found here by networkx in exact fractions; loads and energies were worked out apart.
"""

import networkx
import pytest

from layshaft.book.separation import Tree, is_met
from layshaft.book.size import Leaf, Sizes, Span
from layshaft.mechanics import spring
from tests.book.overtop import BOOK, UNITS, VARIANTS, direct_force, longest, part_of, stops_as_graph, value_of

HUB, PLATE = UNITS[0].loads["direct spring"].seats


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
    assert longest(unit, HUB, PLATE) == value_of("76.0 mm")
    assert longest(unit, HUB, PLATE, {"OT-042"}) == value_of("76.0 mm")
    assert longest(unit, HUB, PLATE, {"OT-043"}) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {"OT-042", "OT-043"}) is None


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
    assert longest(unit, HUB, PLATE, {part}) == value_of("78.7 mm")
    assert longest(unit, HUB, PLATE, {part, "OT-042"}) is None


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
    rate = spring.rate(data.shear_modulus.si, data.wire.si, data.mean_diameter.si, float(data.active_coils))
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
