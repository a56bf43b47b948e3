"""Figures against limits in a shop's units: rounding to the strict side, one unit, preloads, free text."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book.size import Span
from layshaft.plan.free_figure import in_own_units
from layshaft.plan.telling import METRIC, Telling, between, lowered
from layshaft.quantity import PRESSURE, Show, parse_limit

INCH = Telling("inch", decimals=2)
MM = Fraction(1, 1000)


def told(telling: Telling, limit: str, *figures: str) -> str:
    """Low, nominal and high in the SI against a limit, as a result is told."""
    held = parse_limit(limit)
    low, nominal, high = (Fraction(figure) for figure in (figures * 3 if len(figures) == 1 else figures))
    return f"{telling.band(Span(low, nominal, high), held.dimension, held)}: {telling.against(nominal, held)}"


@pytest.mark.parametrize(
    ("limit", "figures", "sentence"),
    [
        (
            "0.50 .. 0.90 mm",
            ("0.0005804", "0.00067", "0.0007596"),
            "0.670 mm (0.580 to 0.760 mm at worst): inside 0.50 .. 0.90 mm by 0.170 mm",
        ),
        ("0.50 .. 0.90 mm", ("0.0009",), "0.900 mm: inside 0.50 .. 0.90 mm exactly"),
        ("0.50 .. 0.90 mm", ("0.0009001",), "0.9001 mm: outside 0.50 .. 0.90 mm by 0.0001 mm"),
        ("0.381 .. 0.441 MPa", ("406740",), "0.4067 MPa: inside 0.381 .. 0.441 MPa by 0.0257 MPa"),
        ("at least 1", ("1.5547",), "1.554: 0.554 over the 1 asked"),
        ("at least 2.75 mm", ("0.0026",), "2.600 mm: 0.150 mm under the 2.75 mm asked"),
        ("at most 0.70 mm", ("0.00068",), "0.680 mm: 0.020 mm under the 0.70 mm allowed"),
        ("preload 0.02 .. 0.08 mm", ("-0.00005",), "preload 0.050 mm: inside 0.02 .. 0.08 mm by 0.030 mm"),
        ("preload 0.02 .. 0.08 mm", ("0.00001",), "0.010 mm: outside preload 0.02 .. 0.08 mm by 0.030 mm"),
        (
            "preload 0.14 .. 0.20 mm",
            ("-0.000182", "-0.00016", "-0.000151"),
            "preload 0.160 mm (0.151 to 0.182 mm at worst): inside 0.14 .. 0.20 mm by 0.020 mm",
        ),
    ],
)
def test_a_figure_against_its_limit(limit: str, figures: tuple[str, ...], sentence: str) -> None:
    assert told(METRIC, limit, *figures) == sentence


@pytest.mark.parametrize(
    ("limit", "figure", "sentence"),
    [
        # 0.67, 0.50 and 0.90 mm are 0.02638, 0.01969 and 0.03543 in; the limit's ends go inward.
        ("0.50 .. 0.90 mm", "0.00067", "0.0264 in: inside 0.0197 .. 0.0354 in (0.50 .. 0.90 mm) by 0.0066 in"),
        ("0.020 .. 0.035 in", "0.00067", "0.0263 in: inside 0.020 .. 0.035 in by 0.0063 in"),
        ("at most 0.70 mm", "0.00068", "0.0268 in: 0.0007 in under the 0.0275 in (0.70 mm) allowed"),
        # 3400 and 3420 N are 764.35 and 768.85 lbf.
        ("at least 3420 N", "3400", "764.4 lbf: 4.5 lbf under the 768.9 lbf (3420 N) asked"),
        ("10 .. 12 deg", "0.2", "11.46 deg: inside 10 .. 12 deg by 0.54 deg"),
    ],
)
def test_inch_first_in_an_inch_shop(limit: str, figure: str, sentence: str) -> None:
    assert told(INCH, limit, figure) == sentence


@given(st.integers(-3000, 3000), st.sampled_from([METRIC, INCH]))
def test_what_is_told_inside_is_inside(microns: int, telling: Telling) -> None:
    """Against plain comparison; and the least shown is never above the greatest."""
    value = Fraction(microns, 10**6)
    sentence = told(telling, "0.50 .. 0.90 mm", str(value - MM), str(value), str(value + MM))
    assert (": inside" in sentence) == (500 <= microns <= 900)
    low, high = sentence.split("(")[1].split(" at worst")[0].rsplit(" ", 1)[0].split(" to ")
    scale = 1000 if telling is METRIC else Fraction(10000, 254)
    assert Fraction(low) <= (value - MM) * scale and (value + MM) * scale <= Fraction(high)


@given(st.integers(-30000, 30000), st.sampled_from(["0.50 .. 0.90 mm", "at least 0.70 mm", "at most 0.70 mm"]))
def test_a_figure_and_its_room_add_up_and_no_room_is_rounded_up(tenths: int, limit: str) -> None:
    """Against sums of the figures as they are told: whoever takes the limit from the figure gets the room."""
    value, held = Fraction(tenths, 10**7), parse_limit(limit)
    shown = Fraction(METRIC.value(value, held.dimension, held).split()[0])
    found = re.search(r"by ([0-9.]+) mm$|^([0-9.]+) mm (?:over|under)", METRIC.against(value, held))
    if found is None:
        return
    room = Fraction(found[1] or found[2])
    ends = [1000 * end for end in (held.low, held.high) if end is not None]
    if room:
        assert min(abs(shown - end) for end in ends) == room
    gap = min(abs(1000 * value - end) for end in ends)
    assert room <= gap if held.contains(value) else room >= gap


@pytest.mark.parametrize(
    ("gauges", "sentence"),
    [
        ("0", "0.157 mm (0.151 to 0.162 mm at worst)"),
        ("0.0000001", "0.157 mm (0.150 to 0.163 mm at worst, gauges counted)"),
        ("0.000046", "0.157 mm (0.105 to 0.208 mm at worst, gauges counted)"),
    ],
)
def test_what_gauges_leave_is_in_the_worst_case(gauges: str, sentence: str) -> None:
    band = Span(Fraction("0.000151"), Fraction("0.000157"), Fraction("0.000162"))
    limit = parse_limit("0.14 .. 0.20 mm")
    assert METRIC.band(band, limit.dimension, limit, Fraction(gauges)) == sentence
    alone = Span.exactly(band.nominal)
    assert METRIC.band(alone, limit.dimension, limit, Fraction(gauges)) == "0.157 mm"


def test_a_band_of_pressure_is_in_one_unit() -> None:
    assert between(Show(), 638_900.0, 2_461_000.0, PRESSURE) == "0.63 .. 2.47 MPa"


@pytest.mark.parametrize(
    ("text", "inch"),
    [
        ("M10: 47 N·m, oil", "M10: 34.67 lbf·ft (47 N·m), oil"),
        ("drops about 1/4 in (6 mm) as the splines meet", "drops about 1/4 in (6 mm) as the splines meet"),
        ("by feeler 1 (± 0.025 mm)", "by feeler 1 (± 0.0010 in (0.025 mm))"),
        ("at most 0.70 mm", "at most 0.0275 in (0.70 mm)"),
        ("at least 2.75 mm", "at least 0.1083 in (2.75 mm)"),
        ("4.3 to 5.2 kN are needed", "966.7 to 1169 lbf (4.3 to 5.2 kN) are needed"),
        ("0.0268 in (0.68 mm)", "0.0268 in (0.68 mm)"),
        ("Adapter screw M8x28, OT-011, 8 of 12, 20,000 km", "Adapter screw M8x28, OT-011, 8 of 12, 20,000 km"),
        ("20 °C", "68 °F (20 °C)"),
        ("Detent ball 10 mm", "Detent ball 0.39 in (10 mm)"),
        ("30.0 mm long", "1.181 in (30.0 mm) long"),
        ("at least 10 mm", "at least 0.40 in (10 mm)"),
        ("10, 13 and 30 mm deep", "0.39, 0.51 and 1.18 in (10, 13 and 30 mm) deep"),
        ("10, 13 and 30 mm sockets, a 6 mm hex key", "10, 13 and 30 mm sockets, a 6 mm hex key"),
        ("about 21 kg, 21 kg", "about 46 lb (21 kg), 46.30 lb (21 kg)"),
        ("about 5 kg", "about 11 lb (5 kg)"),
        ("Fill in 2.4 L, then 250 ml", "Fill in 2.536 US qt (2.4 L), then 8.454 US fl oz (250 ml)"),
        ("dragged round by 2.60 .. 3.73 N·m", "dragged round by 23.02 .. 33.01 lbf·in (2.60 .. 3.73 N·m)"),
        ("OT-011, 30 mm", "OT-011, 1.18 in (30 mm)"),
    ],
)
def test_figures_in_free_text(text: str, inch: str) -> None:
    assert in_own_units(text, INCH) == inch
    assert in_own_units(inch, INCH) == inch
    assert in_own_units(text, METRIC) == text


def test_inches_in_a_metric_shop() -> None:
    assert in_own_units("0.0268 in of play, 2 in the tray", METRIC) == "0.681 mm (0.0268 in) of play, 2 in the tray"


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("Adapter screw M8x28", "adapter screw M8x28"),
        ("M8x28 screw", "M8x28 screw"),
        ("Drum-to-ring snap ring", "drum-to-ring snap ring"),
    ],
)
def test_a_name_inside_a_sentence(name: str, inside: str) -> None:
    assert lowered(name) == inside


@pytest.mark.parametrize(
    ("size", "metric", "inch"),
    [
        ("0.0020", "2.00 mm", "0.0787 in (2.00 mm)"),
        ("0.0003175", "0.3175 mm", "0.0125 in (0.3175 mm)"),
        ("0.000550545", "0.551 mm", "0.0217 in (0.551 mm)"),
    ],
)
def test_a_size_has_the_decimals_of_a_list(size: str, metric: str, inch: str) -> None:
    assert (METRIC.size(Fraction(size)), INCH.size(Fraction(size))) == (metric, inch)
