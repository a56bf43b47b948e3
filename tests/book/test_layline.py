"""The gearbox demo book: both cases load whole, and the setting of the tapered bearings, springs and ratios agree.

Sums of nominals, worst cases and roots of sums of squares, the preload's force, the rolling torque and the change when
hot were worked out apart from this program from the invented sizes; spring figures from R = G d^4 / (8 D^3 n) (Wahl,
Mechanical Springs, 2nd ed., ch. 4, from memory); ratios by counting teeth.
"""

from fractions import Fraction
from math import cos, isclose, radians, sqrt
from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.check.load import installed_length, is_spring_class, stop_parts
from layshaft.book.check.subject import Subject
from layshaft.book.sheet import load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.order_list import order_list
from layshaft.plan.order_need import gather_needs
from layshaft.plan.price_list import offer_on
from layshaft.plan.teardown import order_teardown, start_state
from layshaft.quantity import parse_quantity
from tests.book.reckoned import results_of

TEXT = (Path(__file__).parents[2] / "books" / "layline" / "book.yaml").read_text(encoding="utf-8")
BOOK = load_book(TEXT, "book.yaml")
UNITS = {name: BOOK.unit(name) for name in ("iron", "alloy")}
SHOP_FILE = Path(__file__).parents[2] / "books" / "demo" / "shop.yaml"
SHOP = narrow_shop(load_shop(SHOP_FILE.read_text(encoding="utf-8"), "shop.yaml").content, BOOK, "iron")

STACKS = [
    ("iron", "countershaft setting", -0.05, 0.315, 0.156),
    ("alloy", "countershaft setting", -0.17, 0.315, 0.156),
    ("iron", "main bearing play", 0.06, 0.12, 0.079),
    ("iron", "input end play", 0.10, 0.11, 0.071),
    ("iron", "third gear float", 0.25, 0.06, 0.042),
]
RATIOS = {
    "first": Fraction(38 * 46, 27 * 17),
    "second": Fraction(38 * 41, 27 * 24),
    "third": Fraction(38 * 34, 27 * 31),
    "fourth": Fraction(1),
    "fifth": Fraction(38 * 25, 27 * 43),
    "reverse": -Fraction(38 * 38, 27 * 15),
}


@pytest.fixture(params=["iron", "alloy"])
def unit(request):
    return UNITS[request.param]


def mm(value):
    return float(value) * 1e3


def test_loads_without_a_note():
    assert list(BOOK.units) == ["iron", "alloy"]
    assert BOOK.notes == ()


@pytest.mark.parametrize(("variant", "name", "nominal", "worst", "root"), STACKS)
def test_stacks(variant, name, nominal, worst, root):
    sizes = Sizes(UNITS[variant])
    form = sizes.form(name)
    span = sizes.worst(form)
    assert isclose(mm(span.nominal), nominal, abs_tol=1e-9)
    assert isclose(mm(span.high - span.low) / 2, worst, abs_tol=1e-9)
    halves = ((sizes.span(leaf).high - sizes.span(leaf).low) / 2 * count for leaf, count in form.terms.items())
    assert isclose(mm(sqrt(sum(float(half) ** 2 for half in halves))), root, abs_tol=5e-4)


@pytest.mark.parametrize(
    ("variant", "least", "most"), [("iron", "0.02 mm", "0.08 mm"), ("alloy", "0.14 mm", "0.20 mm")]
)
def test_preload_is_a_gap_below_nothing(variant, least, most):
    limit = UNITS[variant].results["countershaft setting"].limit
    assert limit.is_preload
    assert limit.low == -parse_quantity(most).nominal
    assert limit.high == -parse_quantity(least).nominal


@pytest.mark.parametrize(
    ("variant", "stiffness", "preload", "expansion"),
    [("iron", 60e6, 0.05e-3, 1.08e-5), ("alloy", 45e6, 0.17e-3, 2.2e-5)],
)
def test_preload_figures(variant, stiffness, preload, expansion):
    found = results_of(UNITS[variant])
    force = stiffness * preload
    assert isclose(found["preload force"].value, force, rel_tol=1e-9)
    assert isclose(found["rolling torque"].value, 0.414e-3 * force, rel_tol=1e-9)
    hot = -preload + 0.325 * 60 * (expansion - 1.17e-5)
    assert isclose(found["hot setting"].value, hot, abs_tol=1e-9)


@pytest.mark.parametrize(("variant", "least", "most"), [("iron", 0.038, 0.098), ("alloy", -0.061, -0.001)])
def test_hot_window_is_the_cold_one_and_the_change(variant, least, most):
    unit = UNITS[variant]
    cold, hot = (unit.results[name].limit for name in ("countershaft setting", "hot setting"))
    change = results_of(unit)["preload change when hot"].value
    assert isclose(mm(-cold.high + change), least, abs_tol=1e-3)
    assert isclose(mm(-cold.low + change), most, abs_tol=1e-3)
    assert isclose(mm(-hot.high), least, abs_tol=1.1e-3)
    assert isclose(mm(-hot.low), most, abs_tol=1.1e-3)


def test_alloy_case_loses_its_preload_when_hot_and_iron_gains():
    assert results_of(UNITS["alloy"])["hot setting"].value > 0
    iron = results_of(UNITS["iron"])
    assert iron["hot setting"].value < iron["countershaft setting"].value < 0


def test_every_spring_is_in_a_load(unit):
    springs = {name for name, part in unit.parts.items() if is_spring_class(part)}
    assert springs == {"LL-054-12", "LL-054-34", "LL-054-5R", "LL-084", "LL-087"}
    assert {part for load in unit.loads.values() for part in load.springs} == springs
    assert all(load.releases for load in unit.loads.values())
    drafted = [name for name, load in unit.loads.items() if not load.is_confirmed]
    assert drafted == [f"strut rings {hub}" for hub in ("first and second", "third and fourth", "fifth and reverse")]


SOLD = {"LL-046": 5, "LL-050": 3, "LL-051": 3, "LL-052": 5, "LL-053": 9, "LL-054": 6, "LL-055": 3}
"""How many of each the unit takes, as they stood in its parts list before each place had a part of its own."""


def test_places_of_one_sold_part_add_up_to_what_the_unit_takes(unit):
    needs = gather_needs(unit, {name: part.count for name, part in unit.parts.items() if part.sold_as}, opened=())
    assert {need.part: need.pieces for need in needs} == SOLD
    order = order_list(unit, SHOP, "2026-11-20", {"LL-052-3": 1, "LL-052-5": 1, "LL-050-12": 1}, opened=())
    assert [(one.part, one.name, one.pieces) for one in order.taken] == [
        ("LL-050", "Synchro hub", 1),
        ("LL-052", "Blocker ring", 2),
    ]
    prices = [offer_on(SHOP, sold, "2026-11-20") for sold in SOLD]
    assert all(prices)


def test_main_shaft_is_stripped_hub_and_gear_by_turns_from_either_end(unit):
    """From the front 3-4 hub, third; from the rear, up to the collar, fifth, 5-R, reverse, first, 1-2 hub, second."""
    bench = Bench(unit)
    plan = order_teardown(bench, Loads(bench, Sizes(unit)), start_state(unit))
    taken = [step.parts[0] for step in plan.steps if step.parts]
    for run in (("LL-055-34", "LL-050-34", "LL-052-3", "LL-043", "LL-046-3"),
                ("LL-044", "LL-055-5R", "LL-050-5R", "LL-045", "LL-056", "LL-041", "LL-055-12", "LL-050-12", "LL-042")):
        places = [taken.index(part) for part in run]
        assert places == sorted(places), run
    again = [step.parts[0] for step in order_assembly(bench, Loads(bench, Sizes(unit)), taken).steps if step.parts]
    run = ("LL-042", "LL-050-12", "LL-041", "LL-045", "LL-050-5R", "LL-044")
    assert [part for part in again if part in run] == list(run)


@pytest.mark.parametrize(("load", "length"), [("rail detents", 21.0), ("reverse lock", 30.0)])
def test_springs_stand_at_their_test_length(load, length):
    found, _ = installed_length(Subject(UNITS["iron"]), UNITS["iron"].loads[load])
    assert isclose(mm(found), length, abs_tol=1e-9)


def test_detents_go_free_when_plug_rail_or_cover_goes():
    unit = UNITS["iron"]
    _, stops = installed_length(Subject(unit), unit.loads["rail detents"])
    assert {part for stop in stops for part in stop_parts(unit, stop)} == {
        "LL-017", "LL-018", "LL-080", "LL-083", "LL-085",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("part", "rate", "load", "energy"),
    [("LL-084", 11.167, 100.504, 0.452), ("LL-087", 12.12, 181.793, 1.363)],
)
def test_coil_springs_by_their_wire(part, rate, load, energy):
    data = UNITS["iron"].parts[part].spring
    found = data.shear_modulus.si * data.wire.si**4 / (8 * data.mean_diameter.si**3 * data.active_coils.si)
    pressed = data.free_length.si - data.test.length.si
    assert isclose(found / 1e3, rate, abs_tol=1e-3)
    assert isclose(found * pressed, load, abs_tol=0.05)
    assert isclose(found * pressed**2 / 2, energy, abs_tol=1e-3)
    assert data.test.load.low <= found * pressed <= data.test.load.high


@pytest.mark.parametrize("name", RATIOS)
def test_ratios_by_counting_teeth(unit, name):
    turned, out = (int(word.split()[0]) for word in unit.train.ranges[name].drawn.split(", "))
    assert Fraction(turned, out) == RATIOS[name]


def test_every_pair_stands_at_the_centre_distance(unit):
    for name, mesh in unit.train.meshes.items():
        if mesh.centre_distance is not None:
            module = mesh.normal_module.si / cos(mesh.helix.si)
            pitch = (mesh.a.teeth + mesh.b.teeth) / 2 * module
            assert isclose(pitch, mesh.centre_distance.si, abs_tol=1e-6), name
    assert isclose(unit.train.meshes["third"].helix.si, radians(25.474))


def test_countershaft_lengths_fill_its_shoulders(unit):
    faces = unit.parts["LL-030"].faces
    runs = (8, 26, 34, 24, 6, 26, 36, 30, 6, 22, 32, 24, 12.4)
    assert isclose(mm(faces["rear shoulder"].nominal), sum(runs))
    for at, face in enumerate(("constant", "third", "second", "first", "reverse", "fifth seat")):
        assert isclose(mm(faces[face].nominal), sum(runs[: 2 * at + 1]))


def test_case_cools_down_before_it_is_measured(unit):
    cooling = unit.preparations["cooling down"]
    assert cooling.before == "measuring"
    assert {"LL-010", "LL-011", "LL-030"} <= set(cooling.parts)
