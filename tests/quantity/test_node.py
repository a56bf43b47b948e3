"""What an expression comes to: its value, its bounds, its linear form, and what has none of these."""

from fractions import Fraction
from typing import Any

import pytest

from layshaft.quantity import Linear, QuantityFault, parse_expression

NAMES = frozenset({"hub gap", "brake clearance", "plate", "plate thickness", "plates", "load"})
MM = Fraction(1, 1000)


def fault_of(work: Any) -> QuantityFault:
    with pytest.raises(QuantityFault) as caught:
        work()
    return caught.value


def test_several_values_are_spread_by_the_functions_and_nowhere_else() -> None:
    of: dict[str, Any] = {"plate thickness": (Fraction(3), Fraction(4), Fraction(8)), "hub gap": Fraction(1)}
    values = {
        "min(plate thickness)": 3,
        "max(plate thickness)": 8,
        "mean(plate thickness)": 5,
        "range(plate thickness)": 5,
        "mean(plate thickness, hub gap)": 4,
        "range(plate thickness, hub gap)": 7,
        "max(plate thickness) - min(plate thickness)": 5,
    }
    for text, value in values.items():
        assert parse_expression(text, NAMES).value(of) == value
    for text in (
        "plate thickness",
        "plate thickness - hub gap",
        "max(plate thickness - hub gap)",
        "abs(plate thickness)",
    ):
        fault = fault_of(lambda text=text: parse_expression(text, NAMES).value(of))
        assert str(fault) == (
            "Several values: found 'plate thickness' with 3 values; needed one value; "
            "try mean(plate thickness), "
            "min(plate thickness), max(plate thickness) or range(plate thickness)."
        )


def test_name_with_one_reading_is_a_plain_value() -> None:
    assert parse_expression("hub gap x 2", NAMES).value({"hub gap": (Fraction(3),)}) == 6


@pytest.mark.parametrize("of", [{}, {"hub gap": ()}])
def test_name_without_a_value(of: Any) -> None:
    fault = fault_of(lambda: parse_expression("hub gap x 2", NAMES).value(of))
    assert str(fault) == (
        "No value: found 'hub gap' without a value; needed a value for each name; try taking the reading of hub gap."
    )


def test_missing_dimension_and_bounds_are_faults_too() -> None:
    expression = parse_expression("hub gap x 2", NAMES)
    assert fault_of(lambda: expression.dimension({})).id == "no value"
    assert fault_of(lambda: expression.interval({})).id == "no value"


def test_values_are_exact_or_refused() -> None:
    third = parse_expression("plate / plates", NAMES)
    whole: dict[str, Any] = {"plate": 1, "plates": 3}
    assert third.value(whole) == Fraction(1, 3)
    inexact: dict[str, Any] = {"plate": 0.1, "plates": 3}
    with pytest.raises(TypeError):
        third.value(inexact)


def test_division_by_zero_is_a_fault() -> None:
    expression = parse_expression("load / (plate - hub gap)", NAMES)
    one: dict[str, Fraction | tuple[Fraction, ...]] = {"load": Fraction(1), "plate": MM, "hub gap": MM}
    assert str(fault_of(lambda: expression.value(one))) == (
        "Division by zero: found 'load / (plate - hub gap)', where 'plate - hub gap' is zero or may be; "
        "needed a divisor that stays on one side of zero; try looking at the readings behind it."
    )
    around = {"load": (Fraction(1), Fraction(2)), "plate": (MM, 2 * MM), "hub gap": (MM, MM)}
    assert fault_of(lambda: expression.interval(around)).id == "division by zero"
    assert fault_of(lambda: parse_expression("1 / 0", ()).value({})).id == "division by zero"
    assert fault_of(lambda: parse_expression("1 / 0", ()).interval({})).id == "division by zero"
    assert parse_expression("1 / 0", ()).linear() is None


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("hub gap", 1, 2),
        ("brake clearance - hub gap", 1, 6),
        ("hub gap - hub gap", 0, 0),
        ("-hub gap x 3", -6, -3),
        ("plate x hub gap", -6, 8),
        ("plate x plate", -12, 16),
        ("brake clearance / hub gap", Fraction(3, 2), 7),
        ("hub gap x 6 / 3 - hub gap", 1, 2),
        ("abs(plate)", 0, 4),
        ("abs(hub gap)", 1, 2),
        ("abs(plate - 2)", 0, 5),
        ("abs(-hub gap)", 1, 2),
        ("min(plate, hub gap)", -3, 2),
        ("max(plate, hub gap)", 1, 4),
        ("range(hub gap, brake clearance)", 1, 6),
        ("range(plate)", 0, 7),
        ("mean(hub gap, brake clearance)", 1, 7),
        ("mean(hub gap + 0, brake clearance + 0)", 2, Fraction(9, 2)),
        ("max(hub gap - hub gap, 0)", 0, 0),
        ("max(2, 3) x hub gap", 3, 6),
        ("plate x plate - hub gap", -14, 15),
        ("hub gap - plate x plate", -15, 14),
        ("hub gap / (brake clearance + hub gap - hub gap) x plate", -2, Fraction(8, 3)),
        ("mean(plate x plate, 2)", -5, 9),
        ("abs(plate x plate)", 0, 16),
        ("abs(brake clearance x hub gap)", 3, 14),
        ("abs(-brake clearance x hub gap)", 3, 14),
    ],
)
def test_interval(text: str, low: int | Fraction, high: int | Fraction) -> None:
    of = {
        "hub gap": (Fraction(1), Fraction(2)),
        "brake clearance": (Fraction(3), Fraction(7)),
        "plate": (Fraction(-3), Fraction(4)),
    }
    assert parse_expression(text, NAMES).interval(of) == (low, high)


def test_interval_of_a_mean_narrows_with_the_counts() -> None:
    of = {"hub gap": (Fraction(1), Fraction(2)), "plate": (Fraction(5), Fraction(9))}
    mean = parse_expression("mean(hub gap, plate)", NAMES)
    assert mean.interval(of) == (1, 9)
    assert mean.interval(of, {"hub gap": 1, "plate": 1}) == (3, Fraction(11, 2))
    assert mean.interval(of, {"hub gap": 3, "plate": 1}) == (2, Fraction(15, 4))
    assert mean.linear() is None
    assert mean.linear({"hub gap": 3, "plate": 1}) == Linear(
        {"hub gap": Fraction(3, 4), "plate": Fraction(1, 4)}, Fraction(0)
    )


def test_reversed_bounds_are_refused() -> None:
    fault = fault_of(lambda: parse_expression("hub gap", NAMES).interval({"hub gap": (Fraction(2), Fraction(1))}))
    assert str(fault) == (
        "Range reversed: found 'hub gap' from 2 to 1; needed the lower end first; try the ends swapped."
    )


@pytest.mark.parametrize(
    ("text", "coefficients", "constant"),
    [
        ("brake clearance - hub gap", {"brake clearance": 1, "hub gap": -1}, "0"),
        ("2 x (hub gap - 0.1 mm) / 4 + hub gap", {"hub gap": Fraction(3, 2)}, "-0.00005"),
        ("hub gap - hub gap + 1 mm", {}, "0.001"),
        ("plates x 2 mm", {"plates": Fraction(1, 500)}, "0"),
        ("load / 10 N/mm", {"load": Fraction(1, 10000)}, "0"),
        ("0 x hub gap", {}, "0"),
        ("max(1 mm, 2 mm) + hub gap", {"hub gap": 1}, "0.002"),
        ("mean(hub gap + plate, 1 mm)", {"hub gap": Fraction(1, 2), "plate": Fraction(1, 2)}, "0.0005"),
    ],
)
def test_linear_form(text: str, coefficients: dict[str, Fraction], constant: str) -> None:
    assert parse_expression(text, NAMES).linear() == Linear(coefficients, Fraction(constant))


@pytest.mark.parametrize(
    "text",
    [
        "hub gap x plate",
        "1 / hub gap",
        "max(hub gap, plate)",
        "abs(hub gap)",
        "range(plate)",
        "mean(plate)",
        "mean(plate x plate, 1)",
    ],
)
def test_what_is_not_linear_says_so(text: str) -> None:
    assert parse_expression(text, NAMES).linear() is None
