"""The transfer case demo book: it loads whole, and its sizes, springs, clutch, chain and train come out as drawn up.

Sums of nominals, worst cases and roots of sums of squares were worked out apart from this program from the invented
sizes; spring figures from R = G d^4 / (8 D^3 n) (Wahl, Mechanical Springs, 2nd ed., ch. 4, from memory); the ratio by
Willis' rule; plate clutch capacity at the mean radius, uniform wear (Shigley, 10th ed., sec. 16-5, from memory).
"""

from math import isclose, radians, sqrt, tan
from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.check.load import installed_length, is_spring_class, stop_parts
from layshaft.book.check.subject import Subject
from layshaft.book.size import Sizes
from layshaft.quantity import parse_quantity
from tests.book.reckoned import results_of

TEXT = (Path(__file__).parents[2] / "books" / "twinpath" / "book.yaml").read_text(encoding="utf-8")
BOOK = load_book(TEXT, "book.yaml")
UNIT = BOOK.unit("TP2")
SIZES = Sizes(UNIT)

STACKS = [
    ("input end play", 0.15, 0.15, 0.096),
    ("rear output end play", 0.10, 0.16, 0.088),
    ("front clutch clearance", 1.10, 0.52, 0.123),
]


def mm(value):
    return float(value) * 1e3


def test_loads_without_a_note():
    assert list(BOOK.units) == ["TP2"]
    assert BOOK.notes == ()
    assert UNIT.invented


@pytest.mark.parametrize(("name", "nominal", "worst", "root"), STACKS)
def test_stacks(name, nominal, worst, root):
    form = SIZES.form(name)
    span = SIZES.worst(form)
    assert isclose(mm(span.nominal), nominal, abs_tol=1e-9)
    assert isclose(mm(span.high - span.low) / 2, worst, abs_tol=1e-9)
    halves = ((SIZES.span(leaf).high - SIZES.span(leaf).low) / 2 * count for leaf, count in form.terms.items())
    assert isclose(mm(sqrt(sum(float(half) ** 2 for half in halves))), root, abs_tol=5e-4)


def test_stack_windows_hold_the_nominal_and_not_a_size_beyond():
    for name, part, beyond in (
        ("input end play", "TP-025", "1.55 mm"),
        ("rear output end play", "TP-095", "0.70 mm"),
        ("front clutch clearance", "TP-074", "4.3 mm"),
    ):
        nominal = SIZES.nominal(SIZES.form(name))
        limit = UNIT.results[name].limit
        size = next(one for one in UNIT.parts[part].selective.sizes if one.text == beyond)
        selective = UNIT.parts[part].selective
        drawn = SIZES.nominal(SIZES.distance(part, selective.from_, selective.to))
        assert limit.contains(nominal)
        assert not limit.contains(nominal + drawn - size.nominal)


def test_every_spring_is_in_a_load_that_two_people_confirmed():
    springs = {name for name, part in UNIT.parts.items() if is_spring_class(part)}
    assert springs == {"TP-044", "TP-049", "TP-075"}
    assert {part for load in UNIT.loads.values() for part in load.springs} == springs
    assert all(load.is_confirmed and load.releases for load in UNIT.loads.values())


@pytest.mark.parametrize(("load", "length"), [("fork return", 75.0), ("detent", 27.0), ("clutch return", 5.2)])
def test_springs_stand_at_the_length_that_their_chain_gives(load, length):
    found, _ = installed_length(Subject(UNIT), UNIT.loads[load])
    assert isclose(mm(found), length, abs_tol=1e-9)


@pytest.mark.parametrize(
    ("part", "rate", "load", "energy"),
    [("TP-044", 8.485, 296.96, 5.197), ("TP-049", 8.709, 95.794, 0.527)],
)
def test_coil_springs_by_their_wire(part, rate, load, energy):
    data = UNIT.parts[part].spring
    found = data.shear_modulus.si * data.wire.si**4 / (8 * data.mean_diameter.si**3 * data.active_coils.si)
    pressed = data.free_length.si - data.test.length.si
    assert isclose(found / 1e3, rate, abs_tol=1e-3)
    assert isclose(found * pressed, load, abs_tol=0.05)
    assert isclose(found * pressed**2 / 2, energy, abs_tol=1e-3)
    assert data.test.load.low <= found * pressed <= data.test.load.high


def test_what_holds_the_captive_spring_is_its_ring_alone():
    _, stops = installed_length(Subject(UNIT), UNIT.loads["fork return"])
    held = {part for stop in stops for part in stop_parts(UNIT, stop)}
    assert held == {"TP-043", "TP-045"}


def test_detent_is_held_by_its_plug_and_by_the_sector():
    _, stops = installed_length(Subject(UNIT), UNIT.loads["detent"])
    held = {part for stop in stops for part in stop_parts(UNIT, stop)}
    assert {"TP-050", "TP-048", "TP-046", "TP-047"} <= held


def test_ratio_by_willis():
    gears = UNIT.train.planetaries["low range"]
    assert 1 + gears.ring.teeth / gears.sun.teeth == 11 / 4
    assert UNIT.train.ranges["low"].drawn == "11 in, 4 out"
    assert gears.ring.teeth == gears.sun.teeth + 2 * gears.planet.teeth
    centre = (gears.sun.teeth + gears.planet.teeth) * gears.normal_module.si / 2
    assert isclose(centre, gears.centre_distance.si)


def elongation_of(slack):
    return results_of(UNIT, f"  - {{part: TP-062, reading: slack, figures: [{slack}]}}\n")["chain elongation"]


def test_chain_elongation_by_its_slack():
    assert isclose(elongation_of("16.5 mm").value, 0.003888, abs_tol=5e-7)
    assert isclose(elongation_of("18 mm").value, 0.004627, abs_tol=5e-7)


def test_slack_and_elongation_are_limited_alike():
    assert UNIT.parts["TP-062"].readings["slack"].reuse.contains(parse_quantity("18 mm").nominal)
    assert elongation_of("18 mm").verdict == "inside"
    assert elongation_of("18.1 mm").verdict == "outside"


def test_front_clutch_holds_what_the_front_asks():
    capacity = 2 * UNIT.parts["TP-072"].count * 0.11 * 14e3 * 0.054
    assert isclose(capacity, 1330.6, abs_tol=0.05)
    assert isclose(float(SIZES.result("front clutch margin").nominal), capacity / 1100, rel_tol=1e-9)
    ramp = 35 / 0.042 / tan(radians(3)) * 0.9
    assert isclose(float(SIZES.result("ramp clamp").nominal), ramp, rel_tol=1e-5)


def test_plates_alternate_with_steel_outermost():
    assert UNIT.parts["TP-073"].count == UNIT.parts["TP-072"].count + 1
