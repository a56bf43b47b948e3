"""Closed arithmetic: its grammar, its names, its dimensions, and every refusal."""

from fractions import Fraction
from typing import Any

import pytest

from layshaft.quantity import (
    ANGLE,
    ENERGY,
    EXPANSION,
    FORCE,
    FRACTION,
    LENGTH,
    PURE,
    RATE,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    TIME,
    TORQUE,
    Dimension,
    QuantityFault,
    parse_expression,
)

KINDS: dict[str, Dimension] = {
    "hub gap": LENGTH,
    "brake clearance": LENGTH,
    "OT-044 thickness": LENGTH,
    "plate thickness": LENGTH,
    "plate": LENGTH,
    "plates": PURE,
    "share": FRACTION,
    "load": FORCE,
    "rate": RATE,
    "oil": TEMPERATURE,
    "case": TEMPERATURE,
    "growth": EXPANSION,
    "wind": ANGLE,
    "work": ENERGY,
    "torque": TORQUE,
    "a x b": LENGTH,
    "depth (nose down)": LENGTH,
    "gap, cold": LENGTH,
    "x": LENGTH,
    "min": LENGTH,
    "2nd gear float": LENGTH,
    "hub gap - cold": LENGTH,
}
NAMES = frozenset(KINDS)
MM = Fraction(1, 1000)
OF: dict[str, Fraction | tuple[Fraction, ...]] = {name: (i + 1) * MM for i, name in enumerate(KINDS)}


def fault_of(work: Any) -> QuantityFault:
    with pytest.raises(QuantityFault) as caught:
        work()
    return caught.value


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("hub gap", "1"),
        ("brake clearance - hub gap", "1"),
        ("OT-044 thickness", "3"),
        ("OT-044 thickness - 0.2 mm", "2.8"),
        ("hub gap + 1 1/2 in", "39.1"),
        ("hub gap + .005 in", "1.127"),
        ("hub gap + brake clearance x 2", "5"),
        ("(hub gap + brake clearance) x 2", "6"),
        ("( hub gap + brake clearance ) * 2", "6"),
        ("hub gap − brake clearance × 2", "-3"),
        ("brake clearance / 2 / 2", "0.5"),
        ("brake clearance - hub gap - 0.25 mm", "0.75"),
        ("brake clearance - (hub gap - 0.25 mm)", "1.25"),
        ("-hub gap", "-1"),
        ("- hub gap", "-1"),
        ("-(hub gap + 1 mm)", "-2"),
        ("hub gap - -0.5 mm", "1.5"),
        ("-0.5 mm", "-0.5"),
        ("min(hub gap, brake clearance)", "1"),
        ("max(hub gap, brake clearance, 0.2 mm) - 0.1 mm", "1.9"),
        ("mean(hub gap, brake clearance)", "1.5"),
        ("range(hub gap, brake clearance, 5 mm)", "4"),
        ("abs(hub gap - brake clearance)", "1"),
        ("min (hub gap, 3 mm)", "1"),
        ("max( hub gap , max(brake clearance, 3 mm) )", "3"),
        ("2 x x", str(2 * 19)),
        ("x x 2", str(2 * 19)),
        ("min + min(min, 1 mm)", str(20 + 1)),
        ("a x b x 2", str(2 * 16)),
        ("depth (nose down) + 1 mm", str(17 + 1)),
        ("max(gap, cold, 1 mm)", "18"),
        ("2nd gear float + 2 mm", str(21 + 2)),
        ("hub gap - cold", "22"),
        ("hub gap - cold - hub gap", "21"),
        ("hub  gap\n+ 1 mm", "2"),
    ],
)
def test_value_of_a_length(text: str, millimetres: str) -> None:
    expression = parse_expression(text, NAMES)
    assert expression.value(OF) == Fraction(millimetres) * MM
    assert expression.dimension(KINDS) == LENGTH
    assert str(expression) == expression.text == text


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("load / rate", LENGTH),
        ("load x hub gap", ENERGY),
        ("load / plate / plate", RATE / LENGTH),
        ("hub gap / plate", PURE),
        ("plates x plate thickness", LENGTH),
        ("share x load", FORCE),
        ("torque + work", TORQUE),
        ("oil - case", TEMPERATURE_DIFFERENCE),
        ("oil + 20 K", TEMPERATURE),
        ("20 K + oil", TEMPERATURE),
        ("oil - case + case", TEMPERATURE),
        ("mean(oil, case)", TEMPERATURE),
        ("oil - -20 °C", TEMPERATURE_DIFFERENCE),
        ("range(oil, case)", TEMPERATURE_DIFFERENCE),
        ("growth x hub gap x (oil - case)", LENGTH),
        ("torque / wind", TORQUE / ANGLE),
        ("wind / 1 rad", PURE),
        ("min(5 min, 3 min)", TIME),
        ("5 min + 3 s", TIME),
        ("max(share, 5 %)", FRACTION),
        ("2 x 3 + 4", PURE),
        ("5 % + 0.1", PURE),
    ],
)
def test_dimension(text: str, dimension: Dimension) -> None:
    assert parse_expression(text, NAMES).dimension(KINDS) == dimension


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "hub gap + load",
            "Wrong dimension: found 'hub gap + load', where 'hub gap' is a length and 'load' is a force; "
            "needed terms of one kind; try the name that was meant.",
        ),
        (
            "load x (hub gap + 2)",
            "Wrong dimension: found 'hub gap + 2', where 'hub gap' is a length and '2' is a plain number; "
            "needed terms of one kind; try a unit behind the bare figure.",
        ),
        (
            "max(hub gap, 2 N) + 1 mm",
            "Wrong dimension: found 'max(hub gap, 2 N)', where 'hub gap' is a length and '2 N' is a force; "
            "needed terms of one kind; try the name that was meant.",
        ),
        (
            "wind + 3",
            "Wrong dimension: found 'wind + 3', where 'wind' is an angle and '3' is a plain number; "
            "needed terms of one kind; try a unit behind the bare figure.",
        ),
        (
            "oil x 2",
            "Wrong dimension: found 'oil x 2', a temperature multiplied or divided; "
            "needed a temperature difference, as only a difference may be multiplied; "
            "try subtracting a reference temperature first, as in (oil temperature - 20 °C).",
        ),
        (
            "oil + 20 °C",
            "Wrong dimension: found 'oil + 20 °C', temperatures added up; "
            "needed one temperature, with differences added to it; "
            "try a difference in K, as in 20 °C + 60 K.",
        ),
        (
            "-oil",
            "Wrong dimension: found '-oil', temperatures added up; "
            "needed one temperature, with differences added to it; "
            "try a difference in K, as in 20 °C + 60 K.",
        ),
        (
            "abs(oil)",
            "Wrong dimension: found 'abs(oil)', the size of a temperature; "
            "needed a temperature difference; try subtracting the reference temperature inside.",
        ),
    ],
)
def test_wrong_dimension_names_the_part(text: str, message: str) -> None:
    expression = parse_expression(text, NAMES)
    assert str(fault_of(lambda: expression.dimension(KINDS))) == message


_EXAMPLE = "max(brake clearance, 0.2 mm) - hub gap"


@pytest.mark.parametrize(
    ("text", "at", "message"),
    [
        ("", 0, f"Empty: found nothing; needed an expression; try {_EXAMPLE}."),
        (
            "hub gp - 1 mm",
            0,
            "Unknown name: found 'hub gp'; needed a known name; try 'hub gap'.",
        ),
        (
            "hub gap + brake clearence",
            10,
            "Unknown name: found 'brake clearence'; needed a known name; try 'brake clearance'.",
        ),
        ("hub gap spacer", 0, "Unknown name: found 'hub gap spacer'; needed a known name; try 'hub gap'."),
        (
            "hub gap + zzz",
            10,
            "Unknown name: found 'zzz'; needed a known name; try a name that the book defines.",
        ),
        (
            "hub gap/2",
            0,
            (
                "Unknown name: found 'hub gap/2'; needed a known name; "
                "try a space on both sides of each operator, or 'hub gap'."
            ),
        ),
        (
            "OT-44 thickness",
            0,
            "Unknown name: found 'OT-44 thickness'; needed a known name; "
            "try 'OT-044 thickness', or a space on both sides of each operator.",
        ),
        (
            "hub gap x2",
            0,
            "Unknown name: found 'hub gap x2'; needed a known name; "
            "try 'hub gap', or a space on both sides of each operator.",
        ),
        ("Hub Gap", 0, "Unknown name: found 'Hub Gap'; needed a known name; try 'hub gap'."),
        (
            "zzz*2",
            0,
            ("Unknown name: found 'zzz*2'; needed a known name; try a space on both sides of each operator."),
        ),
        (
            "sin(wind)",
            0,
            (f"Unknown name: found 'sin'; needed one of the functions min, max, mean, range, abs; try {_EXAMPLE}."),
        ),
        (
            "hub gap +",
            9,
            (f"Not an expression: found the end of the text; needed a name, a figure or a bracket; try {_EXAMPLE}."),
        ),
        ("hub gap + x 2", 10, "Unknown name: found 'x 2'; needed a known name; try 'x'."),
        (
            "(hub gap",
            8,
            (f"Not an expression: found the end of the text; needed a closing bracket; try {_EXAMPLE}."),
        ),
        (
            "hub gap)",
            7,
            (
                "Not an expression: found ')'; "
                f"needed an operator with a space on both sides, or the end; try {_EXAMPLE}."
            ),
        ),
        (
            "(hub gap) 2",
            9,
            (
                "Not an expression: found '2'; "
                f"needed an operator with a space on both sides, or the end; try {_EXAMPLE}."
            ),
        ),
        (
            "2 (hub gap)",
            1,
            (
                "Not an expression: found '(hub gap)'; "
                f"needed an operator with a space on both sides, or the end; try {_EXAMPLE}."
            ),
        ),
        (
            "hub gap, 2",
            7,
            (
                "Not an expression: found ', 2'; "
                f"needed an operator with a space on both sides, or the end; try {_EXAMPLE}."
            ),
        ),
        ("max()", 4, f"Not an expression: found ')'; needed a name, a figure or a bracket; try {_EXAMPLE}."),
        (
            "abs(hub gap, 1 mm)",
            0,
            ("Not an expression: found 'abs(hub gap, 1 mm)'; needed abs of one argument; try abs(a - b)."),
        ),
        (
            "max(hub gap, 0,25 mm)",
            13,
            "Ambiguous comma: found '0,25', where the comma may mark a decimal or part two arguments; "
            "needed a decimal point, or a space behind the comma; try 0.25 or 0, 25.",
        ),
        (
            "hub gap + 0,2 mm",
            10,
            "Ambiguous comma: found '0,2', where the comma may mark a decimal or part two arguments; "
            "needed a decimal point, or a space behind the comma; try 0.2 or 0, 2.",
        ),
        (
            "hub gap + 5 MM",
            10,
            "Unknown unit: found '5 MM' with the unit 'MM'; needed a unit from the closed list, "
            "upper and lower case as the SI writes it; try 5 mm.",
        ),
        (
            "hub gap + 1 .. 2 mm",
            10,
            ("Not one figure: found '1 .. 2 mm'; needed one figure; try a named result with a range."),
        ),
        (
            "hub gap + 1 ± 2 mm",
            10,
            "Not one figure: found '1 ± 2 mm'; needed one figure; try a named result with a range.",
        ),
        (
            "(" * 21 + "1" + ")" * 21,
            20,
            (
                "Too deep: found more than 20 levels; needed at most 20 levels of brackets; "
                "try a named result for a part of it."
            ),
        ),
        (
            "- " * 30 + "1",
            40,
            (
                "Too deep: found more than 20 levels; needed at most 20 levels of brackets; "
                "try a named result for a part of it."
            ),
        ),
        (
            "1 + " * 200 + "1",
            None,
            ("Too long: found 801 characters; needed at most 500 characters; try a named result for a part of it."),
        ),
    ],
)
def test_refusal_says_where_and_what(text: str, at: int | None, message: str) -> None:
    fault = fault_of(lambda: parse_expression(text, NAMES))
    assert str(fault) == message
    assert fault.at == at


@pytest.mark.parametrize("value", [3, None, ["hub gap"]])
def test_what_is_no_text_is_refused(value: Any) -> None:
    assert fault_of(lambda: parse_expression(value, NAMES)).id == "not text"


def test_expression_of_just_the_greatest_length_is_read() -> None:
    assert parse_expression("1 + " * 124 + "1234", ()).value({}) == 124 + 1234


def test_names_stand_once_in_the_order_of_the_text() -> None:
    expression = parse_expression("max(plate, hub gap) + plate - -(brake clearance) x plates / plates", NAMES)
    assert expression.names == ("plate", "hub gap", "brake clearance", "plates")


def test_any_collection_of_names_will_do_and_spaces_in_them_do_not_matter() -> None:
    for names in (["hub  gap"], ("hub  gap",), {"hub  gap": 1}, {"hub  gap"}):
        assert parse_expression("hub gap x 2", names).names == ("hub  gap",)


def test_figure_is_no_name() -> None:
    # A book that called something `2` must not change what a formula says.
    assert parse_expression("2 + 2", ["2", "2 mm"]).value({}) == 4
    assert parse_expression("2 mm", ["2 mm"]).names == ()
