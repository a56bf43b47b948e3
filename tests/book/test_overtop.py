"""The overdrive demo book: it loads whole, and its sizes, verdicts and train come out as they were drawn up.

Sums of nominals, worst cases and roots of sums of squares were worked out apart from this program, from the
same sizes; the train by Willis' rule.
"""

from fractions import Fraction
from math import acos, degrees, isclose, sqrt

import pytest

from layshaft.book.separation import Tree, is_met
from layshaft.book.size import Leaf, Sizes, Span
from layshaft.quantity import parse_expression
from tests.book.overtop import BOOK, TEXT, UNITS, VARIANTS, mm, value_of


@pytest.fixture(params=UNITS, ids=VARIANTS)
def unit(request):
    return request.param


def root_sum_square(sizes, form):
    halves = (
        (sizes.span(leaf).high - sizes.span(leaf).low) / 2 * count for leaf, count in form.terms.items()
    )
    return sqrt(sum(float(half) ** 2 for half in halves))


# The book as a whole


def test_loads_without_a_note_in_three_variants():
    assert list(BOOK.units) == VARIANTS
    assert BOOK.notes == ()


def test_is_whole_and_within_its_size():
    assert all(unit.invented for unit in BOOK.units.values())
    assert len(TEXT.encode()) < 150_000


def test_masses_add_up(unit):
    total = sum(part.mass.si * part.count for part in unit.parts.values())
    assert isclose(total, unit.mass.si, abs_tol=0.05)


def test_every_part_that_has_a_way_can_come_out(unit):
    tree = Tree(unit)
    needs = {
        at: [tree.needs_clauses(at, (*way.held_by, *way.behind)) for way in unit.parts[part].ways]
        for at, part in enumerate(tree.order)
        if unit.parts[part].ways
    }
    out, grew = 0, True
    while grew:
        free = tree.mask(at for at, ways in needs.items() if any(is_met(way, out) for way in ways))
        out, grew = out | free, bool(free & ~out)
    assert tree.names(out) == tuple(part for part in tree.order if unit.parts[part].ways)


def test_what_is_not_sold_comes_with_what_is(unit):
    served = {part: definition.served_in for part, definition in unit.parts.items() if definition.served_in}
    assert served == {
        "OT-055": "OT-054",
        "OT-056": "OT-054",
        "OT-057": "OT-054",
        "OT-058": "OT-054",
        "OT-072": "OT-071",
        "OT-073": "OT-071",
    }
    assert all(unit.parts[part].lies_in == holder for part, holder in served.items())


@pytest.mark.parametrize(
    "parts, session, minutes",
    [
        (
            "OT-010 OT-011 OT-012 OT-013 OT-014 OT-015 OT-016 OT-017 OT-018 OT-019 OT-020 OT-095 OT-096",
            "piston return",
            16,
        ),
        ("OT-030 OT-031 OT-032 OT-033 OT-034", None, 8),
        ("OT-042 OT-043", "direct spring", 14),
        (
            "OT-040 OT-044 OT-045 OT-046 OT-047 OT-041 OT-050 OT-051 OT-052 OT-053 "
            "OT-054 OT-059 OT-070 OT-074 OT-075",
            None,
            12,
        ),
        (
            "OT-080 OT-081 OT-082 OT-083 OT-084 OT-085 OT-086 OT-087 OT-088 OT-091 OT-092 OT-093 OT-094",
            "pawl spring",
            14,
        ),
    ],
)
def test_minutes_of_the_moves_add_up_to_the_labour_list(unit, parts, session, minutes):
    hands = sum(unit.parts[part].ways[0].time.si for part in parts.split())
    held = unit.loads[session].releases[0].time.si if session else 0.0
    assert isclose((hands + held) / 60, minutes, abs_tol=0.01)


# Sizes


@pytest.mark.parametrize(
    "variant, result, nominal, worst, rss",
    [
        ("OT4", "hub recess", 14.0, 0.68, 0.197),
        ("OT5", "hub recess", 14.0, 0.78, 0.203),
        ("OT6", "hub recess", 14.0, 0.83, 0.207),
        ("OT4", "spring installed length", 76.0, 0.69, 0.167),
        ("OT5", "spring installed length", 76.0, 0.79, 0.175),
        ("OT6", "spring installed length", 76.0, 0.84, 0.178),
        ("OT4", "brake clearance", 3.1, 0.44, 0.146),
        ("OT5", "brake clearance", 3.5, 0.44, 0.146),
        ("OT6", "brake clearance", 3.8, 0.49, 0.151),
    ],
)
def test_chain_as_drawn(variant, result, nominal, worst, rss):
    sizes = Sizes(BOOK.unit(variant))
    form = sizes.form(result)
    span = sizes.worst(form)
    assert span.nominal == value_of(f"{nominal} mm")
    assert mm(span.high - span.nominal) == pytest.approx(worst) == mm(span.nominal - span.low)
    assert mm(root_sum_square(sizes, form)) == pytest.approx(rss, abs=0.0005)


@pytest.mark.parametrize(
    "variant, gap, stroke, groove",
    [
        ("OT4", "0.7 mm", "2.4 mm", "57.4 mm"),
        ("OT5", "0.7 mm", "2.8 mm", "50.0 mm"),
        ("OT6", "0.7 mm", "3.1 mm", "50.0 mm"),
    ],
)
def test_gap_stroke_and_groove_as_drawn(variant, gap, stroke, groove):
    sizes = Sizes(BOOK.unit(variant))
    assert sizes.result("hub gap").nominal == value_of(gap)
    assert sizes.result("release stroke").nominal == value_of(stroke)
    assert sizes.result("groove depth").nominal == value_of(groove)


def test_gasket_cancels_in_the_release_stroke(unit):
    sizes = Sizes(unit)
    assert any(leaf.part == "OT-012" for leaf in sizes.form("hub gap").terms)
    assert not any(leaf.part == "OT-012" for leaf in sizes.form("release stroke").terms)


def test_measured_parts_give_the_worked_clearances():
    """One OT6 measured part by part; sums by hand: recess 14.03, gap 0.67, clearance 3.764, stroke 3.094."""
    pieces = {
        "OT-045": "1.948 1.955 1.941 1.950 1.946 1.952 1.944 1.957 1.949 1.951 1.945",
        "OT-046": "1.748 1.742 1.751 1.739 1.746 1.744 1.749 1.741 1.705 1.747",
        "OT-032": "2.049 2.053 2.046 2.051 2.048",
        "OT-033": "1.797 1.801 1.792 1.799",
        "OT-043": "2.11",
        "OT-047": "5.02",
        "OT-044": "5.5",
        "OT-020": "3.9",
        "OT-034": "8.65",
        "OT-031": "3.98",
        "OT-012": "0.40",
    }
    readings = {
        Leaf(part, "front", "rear", at): Span.exactly(value_of(f"{size} mm"))
        for part, row in pieces.items()
        for at, size in enumerate(row.split())
    }
    readings[Leaf("OT-040", "front", "flange")] = Span.exactly(value_of("87.51 mm"))
    readings[Leaf("OT-090", "front", "shoulder")] = Span.exactly(value_of("45.90 mm"))
    readings[Leaf("OT-090", "front", "lock groove rear")] = Span.exactly(value_of("231.06 mm"))
    readings[Leaf("OT-013", "front", "web")] = Span.exactly(value_of("16.36 mm"))
    readings[Leaf("OT-013", "front", "brake face")] = Span.exactly(value_of("21.97 mm"))
    sizes = Sizes(BOOK.unit("OT6"), readings)
    assert sizes.result("groove depth").nominal == value_of("50.06 mm")
    assert sizes.result("bearing face proud").nominal == value_of("9.86 mm")
    assert sizes.result("brake face proud").nominal == value_of("12.47 mm")
    assert sizes.result("hub recess") == Span.exactly(value_of("14.03 mm"))
    assert sizes.result("hub gap") == Span.exactly(value_of("0.67 mm"))
    assert sizes.result("brake clearance") == Span.exactly(value_of("3.764 mm"))
    assert sizes.result("release stroke") == Span.exactly(value_of("3.094 mm"))


def test_both_clearances_inside_can_still_fail_the_stroke(unit):
    limits = {name: unit.results[name].limit for name in ("brake clearance", "hub gap", "release stroke")}
    worst = limits["brake clearance"].low - limits["hub gap"].high
    assert not limits["release stroke"].contains(worst)


def test_pack_heights(unit):
    sizes = Sizes(unit)
    for name, pack in unit.packs.items():
        assert sizes.pack_height(name).constant == 0
        assert sizes.worst(sizes.pack_height(name)).nominal == pack.height.nominal


# Verdicts


@pytest.mark.parametrize(
    "variant, load, is_inside",
    [
        ("OT4", "3420 N", True),
        ("OT4", "3419 N", False),
        ("OT6", "4120 N", True),
        ("OT6", "3698 N", False),
    ],
)
def test_spring_is_judged_by_its_load_at_a_length(variant, load, is_inside):
    reading = BOOK.unit(variant).parts["OT-041"].readings["load at 76.0 mm"]
    assert reading.reuse.contains(value_of(load)) is is_inside


def test_free_length_does_not_tell_the_springs_apart():
    amber, white = (BOOK.unit(variant).parts["OT-041"].readings for variant in ("OT4", "OT6"))
    assert amber["free length"].new.high > white["free length"].new.low
    assert amber["wire diameter"].new.high < white["wire diameter"].new.low


# Train and torque


def test_overdrive_by_willis(unit):
    """Sun held: (ring + sun) turns of the ring for ring turns of the carrier."""
    gears = unit.train.planetaries["overdrive set"]
    turns = Fraction(gears.ring.teeth, gears.ring.teeth + gears.sun.teeth)
    assert unit.train.ranges["overdrive"].drawn == f"{turns.numerator} in, {turns.denominator} out"


def test_planets_can_be_assembled(unit):
    gears = unit.train.planetaries["overdrive set"]
    assert gears.ring.teeth == gears.sun.teeth + 2 * gears.planet.teeth
    assert (gears.sun.teeth + gears.ring.teeth) % gears.planet.count == 0


@pytest.mark.parametrize(
    "variant, capacity, margin, pressure, brake",
    [
        ("OT4", 454.5, 1.191, 0.343, 1.434),
        ("OT5", 568.1, 1.151, 0.346, 1.275),
        ("OT6", 751.8, 1.197, 0.411, 1.528),
    ],
)
def test_capacity_and_release_pressure(variant, capacity, margin, pressure, brake):
    """T = 2 n mu F r; piston force less both springs. The test load of a spring is 0.05 % off that of its wire."""
    sizes = Sizes(BOOK.unit(variant))
    assert float(sizes.result("direct clutch capacity").nominal) == pytest.approx(capacity, rel=1e-3)
    assert float(sizes.result("direct clutch margin").nominal) == pytest.approx(margin, rel=1e-3)
    assert float(sizes.result("release pressure").nominal) / 1e6 == pytest.approx(pressure, abs=0.0005)
    assert float(sizes.result("brake margin").nominal) == pytest.approx(brake, rel=2e-3)


@pytest.mark.parametrize(
    "variant, free, load, result, figure",
    [
        ("OT4", "132.7 mm", "4449.6 N", "brake margin", 0.934),
        ("OT6", "132.3 mm", "3698.5 N", "direct clutch margin", 0.995),
    ],
)
def test_the_other_variants_spring_falls_short(variant, free, load, result, figure):
    """Worked out apart: the white spring eats the small brake's clamp, the amber one cannot hold the large engine."""
    unit = BOOK.unit(variant)
    sizes = Sizes(unit)
    given = {name: sizes.named(name).nominal for name in sizes.names if sizes.named(name) is not None}
    given["OT-041 load at 76.0 mm"], given["OT-041 free length"] = value_of(load), value_of(free)
    assert worked(unit, result, given) == pytest.approx(figure, abs=0.0015)
    assert not unit.results[result].limit.contains(Fraction(str(worked(unit, result, given))))


def worked(unit, result, given):
    """A result over given figures, its own inner results worked out the same way."""
    expression = parse_expression(unit.results[result].is_, set(given) | set(unit.results))
    inner = {
        name: Fraction(worked(unit, name, given))
        if name in unit.results and unit.results[name].is_
        else given[name]
        for name in expression.names
    }
    return float(expression.value(inner))


@pytest.mark.parametrize(
    "bore, roller, flat, strut, is_gripping",
    [
        ("96.00 mm", "12.000 mm", "35.591 mm", 4.00, True),
        ("96.15 mm", "12.000 mm", "35.591 mm", 4.35, True),
        ("96.15 mm", "11.985 mm", "35.55 mm", 4.59, False),
    ],
)
def test_roller_clutch_at_its_limits(unit, bore, roller, flat, strut, is_gripping):
    """Worked out apart: at 4.59 degrees, each part at its own wear limit, the tangent is 0.0804 against 0.080."""
    given = {"OT-080 outer race bore": bore, "OT-072 diameter": roller, "OT-070 flat to axis": flat}
    for name, figure in given.items():
        part, _, reading = name.partition(" ")
        assert unit.parts[part].readings[reading].reuse.contains(value_of(figure))
    cosine = worked(unit, "one-way grip", {name: value_of(figure) for name, figure in given.items()})
    assert degrees(acos(cosine) / 2) == pytest.approx(strut, abs=0.005)
    assert unit.results["one-way grip"].limit.contains(Fraction(cosine)) is is_gripping
