"""Closed arithmetic against Python's own, and bounds against what lies between them."""

from fractions import Fraction
from statistics import mean

from hypothesis import given, settings
from hypothesis import strategies as st

from layshaft.quantity import PURE, QuantityFault, parse_expression

NAMES = {"hub gap": "a", "OT-044 thickness": "b", "plate - cold": "c"}
fractions = st.fractions(min_value=-9, max_value=9, max_denominator=12)
# Each tree is written twice: for the reader under test and for Python's own.
Pair = tuple[str, str]


def operands() -> st.SearchStrategy[Pair]:
    names = st.sampled_from(sorted(NAMES)).map(lambda name: (name, NAMES[name]))
    figures = st.integers(0, 40).map(lambda n: (f"{n / 8}", f"F({n}, 8)"))
    shares = st.integers(1, 9).map(lambda n: (f"{n}/16", f"F({n}, 16)"))
    return st.one_of(names, names, figures, shares)


def larger(inner: st.SearchStrategy[Pair]) -> st.SearchStrategy[Pair]:
    chain = st.tuples(inner, st.lists(st.tuples(st.sampled_from("+-x/"), inner), min_size=1, max_size=3)).map(
        lambda parts: (
            "(" + parts[0][0] + "".join(f" {op} {pair[0]}" for op, pair in parts[1]) + ")",
            "("
            + parts[0][1]
            + "".join(f" {'*' if op == 'x' else op} {pair[1]}" for op, pair in parts[1])
            + ")",
        )
    )
    calls = st.tuples(
        st.sampled_from(["min", "max", "mean", "range"]), st.lists(inner, min_size=1, max_size=3)
    ).map(
        lambda call: (
            f"{call[0]}({', '.join(pair[0] for pair in call[1])})",
            f"{call[0]}_([{', '.join(pair[1] for pair in call[1])}])",
        )
    )
    signs = inner.map(lambda pair: (f"-({pair[0]})", f"(-({pair[1]}))"))
    sizes = inner.map(lambda pair: (f"abs({pair[0]})", f"abs({pair[1]})"))
    return st.one_of(chain, chain, calls, signs, sizes)


trees = st.recursive(operands(), larger, max_leaves=8).filter(lambda pair: len(pair[0]) <= 500)
values = st.fixed_dictionaries(dict.fromkeys(NAMES, fractions))


def by_python(source: str, of: dict[str, Fraction]) -> Fraction:
    scope = {NAMES[name]: value for name, value in of.items()}
    functions = {"F": Fraction, "min_": min, "max_": max, "mean_": mean, "range_": lambda v: max(v) - min(v)}
    return Fraction(eval(source, {"__builtins__": {"abs": abs}, **functions}, scope))


@settings(max_examples=150)
@given(pair=trees, of=values)
def test_value_is_what_python_makes_of_it(pair: Pair, of: dict[str, Fraction]) -> None:
    expression = parse_expression(pair[0], NAMES)
    assert expression.dimension(dict.fromkeys(NAMES, PURE)) == PURE
    try:
        expected = by_python(pair[1], of)
    except ZeroDivisionError:
        expected = None
    try:
        value = expression.value(of)
    except QuantityFault as fault:
        assert fault.id == "division by zero"
        assert expected is None
    else:
        assert value == expected


@settings(max_examples=150)
@given(
    pair=trees,
    ends=st.tuples(values, values),
    share=st.fixed_dictionaries(dict.fromkeys(NAMES, st.fractions(0, 1))),
)
def test_interval_holds_every_value_between_the_ends(
    pair: Pair, ends: tuple[dict[str, Fraction], dict[str, Fraction]], share: dict[str, Fraction]
) -> None:
    expression = parse_expression(pair[0], NAMES)
    of = {name: (min(ends[0][name], ends[1][name]), max(ends[0][name], ends[1][name])) for name in NAMES}
    inside = {name: of[name][0] + share[name] * (of[name][1] - of[name][0]) for name in NAMES}
    try:
        low, high = expression.interval(of)
    except QuantityFault as fault:
        assert fault.id == "division by zero"
        return
    # A divisor that cancels out of a linear form may still be zero at one point in between.
    try:
        value = by_python(pair[1], inside)
    except ZeroDivisionError:
        return
    assert low <= value <= high


@settings(max_examples=150)
@given(pair=trees, of=values)
def test_linear_form_gives_the_value(pair: Pair, of: dict[str, Fraction]) -> None:
    expression = parse_expression(pair[0], NAMES)
    counts = dict.fromkeys(NAMES, 1)
    linear = expression.linear(counts)
    if linear is None:
        return
    assert all(linear.coefficients.values())
    worked = linear.constant + sum(c * of[name] for name, c in linear.coefficients.items())
    assert worked == expression.value(of)


@given(
    coefficients=st.lists(
        st.tuples(st.sampled_from(sorted(NAMES)), st.integers(-5, 5)), min_size=1, max_size=6
    ),
    constant=st.integers(0, 9),
    ends=st.tuples(values, values),
    order=st.randoms(use_true_random=False),
)
def test_sum_is_linear_its_bounds_are_reached_and_its_order_is_free(
    coefficients: list[tuple[str, int]],
    constant: int,
    ends: tuple[dict[str, Fraction], dict[str, Fraction]],
    order,
) -> None:
    def text_of(terms: list[tuple[str, int]]) -> str:
        return " + ".join([f"{c} x {name}" for name, c in terms] + [str(constant)])

    of = {name: (min(ends[0][name], ends[1][name]), max(ends[0][name], ends[1][name])) for name in NAMES}
    expression = parse_expression(text_of(coefficients), NAMES)
    shuffled = order.sample(coefficients, len(coefficients))
    assert parse_expression(text_of(shuffled), NAMES).linear() == expression.linear()

    net = {name: sum(c for n, c in coefficients if n == name) for name in NAMES}
    assert expression.linear() == ({name: c for name, c in net.items() if c}, constant)
    low, high = expression.interval(of)
    assert low == expression.value({name: of[name][0 if net[name] > 0 else 1] for name in NAMES})
    assert high == expression.value({name: of[name][1 if net[name] > 0 else 0] for name in NAMES})
