"""Inch and metric say the same: whatever the unit a figure is written in, it is one figure."""

from fractions import Fraction
from typing import Literal

from hypothesis import given
from hypothesis import strategies as st

from layshaft.quantity import (
    ENERGY,
    FORCE,
    LENGTH,
    PRESSURE,
    PURE,
    RATE,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TORQUE,
    UNITS,
    Dimension,
    Limit,
    Show,
    parse_limit,
    parse_quantity,
)
from layshaft.quantity.number import as_decimal

decimals = st.decimals(min_value=-9999, max_value=9999, places=4).map(Fraction)
positive = st.decimals(min_value="0.0001", max_value=9999, places=4).map(Fraction)
SHOWN = (LENGTH, FORCE, ENERGY, TORQUE, PRESSURE, RATE, TEMPERATURE, TEMPERATURE_DIFFERENCE, PURE)
systems = st.sampled_from(["metric", "inch"])


def written(value: Fraction) -> str:
    text = as_decimal(value)
    assert text is not None
    return text


@given(inches=decimals)
def test_inch_is_25_4_millimetres_however_it_is_written(inches: Fraction) -> None:
    assert (
        parse_quantity(f"{written(inches)} in").nominal
        == parse_quantity(f"{written(inches * Fraction('25.4'))} mm").nominal
    )
    assert parse_quantity(f"{written(inches * 1000)} thou").nominal == parse_quantity(f'{written(inches)}"').nominal


@given(sixty_fourths=st.integers(0, 64 * 40))
def test_inch_fraction_is_its_decimal(sixty_fourths: int) -> None:
    whole, rest = divmod(sixty_fourths, 64)
    as_fraction = f"{whole} {rest}/64 in"
    assert parse_quantity(as_fraction).nominal == parse_quantity(f"{written(Fraction(sixty_fourths, 64))} in").nominal


@given(value=decimals, unit=st.sampled_from([u for u in UNITS if not u.dimension.is_absolute]))
def test_figure_in_any_unit_comes_back_exact(value: Fraction, unit) -> None:
    quantity = parse_quantity(f"{written(value)} {unit.symbol}")
    assert unit.from_si(quantity.nominal) == value


@given(value=positive, tolerance=positive)
def test_three_ways_to_write_a_band_are_one(value: Fraction, tolerance: Fraction) -> None:
    v, t = written(value), written(tolerance)
    ends = f"{written(value - tolerance)} .. {written(value + tolerance)} mm"
    bands = [parse_quantity(text) for text in (f"{v} ± {t} mm", f"{v} +{t} -{t} mm", f"{v} -{t} +{t} mm", ends)]
    assert len({(band.low, band.nominal, band.high) for band in bands}) == 1


@given(texts=st.permutations(["0.10 .. 0.25 mm", "7 N·m", "7/8 in", "20 °C", "7 N·m", "0.875 in", "5 %"]))
def test_order_of_reading_makes_no_difference(texts: list[str]) -> None:
    kinds = {"7 N·m": ENERGY}
    read = {text: parse_quantity(text, kinds.get(text)) for text in texts}
    assert read["7/8 in"].nominal == read["0.875 in"].nominal == Fraction("0.022225")
    assert read["7 N·m"].dimension.name == "an energy"
    assert parse_quantity("7 N·m", TORQUE).dimension.name == "a torque"


@given(
    value=st.decimals(min_value="0.0001", max_value="999", places=6).map(Fraction),
    dimension=st.sampled_from(SHOWN),
    system=systems,
    digits=st.integers(1, 6),
    directions=st.permutations(["up", "down", "nearest"]),
)
def test_shown_figure_is_read_back_on_the_side_it_was_rounded_to(
    value: Fraction,
    dimension: Dimension,
    system: Literal["metric", "inch"],
    digits: int,
    directions: list[Literal["up", "down", "nearest"]],
) -> None:
    if dimension.is_absolute:
        value += 200
    show = Show(system, digits=digits, decimals=digits)
    back = {d: parse_quantity(show.show(value, dimension, d), dimension).nominal for d in directions}
    assert back["down"] <= value <= back["up"]
    assert back["nearest"] in (back["down"], back["up"])
    assert abs(back["nearest"] - value) == min(value - back["down"], back["up"] - value)


@given(
    ends=st.tuples(decimals, decimals),
    system=systems,
    kind=st.sampled_from(["", "preload ", "at least ", "at most "]),
)
def test_shown_limit_is_never_looser_than_the_limit(
    ends: tuple[Fraction, Fraction], system: Literal["metric", "inch"], kind: str
) -> None:
    low, high = sorted(abs(end) if kind == "preload " else end for end in ends)
    one_sided = f"{kind}{written(low)} mm"
    text = one_sided if kind.startswith("at") else f"{kind}{written(low)} .. {written(high)} mm"
    limit = parse_limit(text)
    # Nearer to each other than a millionth of a millimetre the ends cannot be told apart in nine decimals.
    if not kind.startswith("at") and 0 < high - low < Fraction(1, 10**6):
        return
    shown = parse_limit(Show(system).show_limit(limit))
    if limit.width == 0:
        assert shown.width == 0
        assert abs(shown.distance(limit.low or Fraction(0))) < Fraction(2, 10**11)
        return
    assert shown.is_preload == limit.is_preload
    assert is_within(shown, limit)


def is_within(inner: Limit, outer: Limit) -> bool:
    return (outer.low is None or (inner.low is not None and inner.low >= outer.low)) and (
        outer.high is None or (inner.high is not None and inner.high <= outer.high)
    )


@given(low=decimals, width=positive, value=decimals)
def test_limit_contains_what_lies_at_no_negative_distance(low: Fraction, width: Fraction, value: Fraction) -> None:
    limit = parse_limit(f"{written(low)} .. {written(low + width)} mm")
    x = value / 1000
    assert limit.contains(x) == (limit.distance(x) >= 0)
    assert limit.low is not None and limit.high is not None
    assert limit.distance(limit.low) == limit.distance(limit.high) == 0
    preload = parse_limit(f"preload {written(abs(low))} .. {written(abs(low) + width)} mm")
    gap = parse_limit(f"{written(-abs(low) - width)} .. {written(-abs(low))} mm")
    assert preload.contains(x) == gap.contains(x)
