"""The tree of a closed expression: what each node's dimension, value, bounds and linear form are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from numbers import Rational
from typing import Literal, NamedTuple, TypeVar

from layshaft.quantity.dimension import TEMPERATURE_DIFFERENCE, Dimension
from layshaft.quantity.fault import QuantityFault, quote
from layshaft.quantity.quantity import Quantity

Value = Fraction | tuple[Fraction, ...]
Interval = tuple[Fraction, Fraction]
Counts = Mapping[str, int]
T = TypeVar("T")
Function = Literal["min", "max", "mean", "range", "abs"]


class Linear(NamedTuple):
    """An expression as a sum: a coefficient for each name, and a constant."""

    coefficients: dict[str, Fraction]
    constant: Fraction


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure written into the expression."""

    source: str
    quantity: Quantity

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        return self.quantity.dimension

    def value(self, of: Mapping[str, Value]) -> Fraction:
        return self.quantity.nominal

    def linear(self, counts: Counts) -> Linear | None:
        return Linear({}, self.quantity.nominal)

    def interval(self, of: Mapping[str, Interval], counts: Counts) -> Interval:
        return self.quantity.nominal, self.quantity.nominal


@dataclass(frozen=True, slots=True)
class Name:
    """A name whose value is given from outside."""

    source: str
    name: str

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        return _given(of, self.name)

    def value(self, of: Mapping[str, Value]) -> Fraction:
        values = self.values(of)
        if len(values) > 1:
            raise QuantityFault(
                "several values",
                f"{quote(self.name)} with {len(values)} values",
                "one value",
                f"mean({self.name}), min({self.name}), max({self.name}) or range({self.name})",
            )
        return values[0]

    def values(self, of: Mapping[str, Value]) -> tuple[Fraction, ...]:
        given = _given(of, self.name)
        values = given if isinstance(given, tuple) else (given,)
        if not values:
            raise _without_value(self.name)
        return tuple(_exact(value) for value in values)

    def linear(self, counts: Counts) -> Linear | None:
        return Linear({self.name: Fraction(1)}, Fraction(0))

    def interval(self, of: Mapping[str, Interval], counts: Counts) -> Interval:
        low, high = _given(of, self.name)
        if low > high:
            found = f"{quote(self.name)} from {low} to {high}"
            raise QuantityFault("range reversed", found, "the lower end first", "the ends swapped")
        return _exact(low), _exact(high)


@dataclass(frozen=True, slots=True)
class Sum:
    """Terms added, each with its sign."""

    source: str
    terms: tuple[tuple[int, Node], ...]

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        found = [(sign, term, term.dimension(of)) for sign, term in self.terms]
        first = found[0][2]
        for _, term, dimension in found[1:]:
            if dimension.exponents != first.exponents:
                raise _unlike(self.source, found[0][1], first, term, dimension)
        net = sum(sign for sign, _, dimension in found if dimension.is_absolute)
        if net not in (0, 1):
            raise QuantityFault(
                "wrong dimension",
                f"{quote(self.source)}, temperatures added up",
                "one temperature, with differences added to it",
                "a difference in K, as in 20 °C + 60 K",
            )
        if net:
            return next(dimension for _, _, dimension in found if dimension.is_absolute)
        return TEMPERATURE_DIFFERENCE if first.is_absolute else first

    def value(self, of: Mapping[str, Value]) -> Fraction:
        return sum((sign * term.value(of) for sign, term in self.terms), Fraction(0))

    def linear(self, counts: Counts) -> Linear | None:
        return _added((Fraction(sign), term.linear(counts)) for sign, term in self.terms)

    def interval(self, of: Mapping[str, Interval], counts: Counts) -> Interval:
        low = high = Fraction(0)
        for sign, term in self.terms:
            bottom, top = bounds(term, of, counts)
            low += bottom if sign > 0 else -top
            high += top if sign > 0 else -bottom
        return low, high


@dataclass(frozen=True, slots=True)
class Product:
    """Factors multiplied from left to right, each with whether it divides."""

    source: str
    factors: tuple[tuple[bool, Node], ...]

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        result = self.factors[0][1].dimension(of)
        for is_divided, factor in self.factors[1:]:
            other = factor.dimension(of)
            try:
                result = result / other if is_divided else result * other
            except QuantityFault as fault:
                found = f"{quote(self.source)}, {fault.found}"
                raise QuantityFault(fault.id, found, fault.needed, fault.try_) from None
        return result

    def value(self, of: Mapping[str, Value]) -> Fraction:
        result = self.factors[0][1].value(of)
        for is_divided, factor in self.factors[1:]:
            other = factor.value(of)
            if is_divided and not other:
                raise self._through_zero(factor)
            result = result / other if is_divided else result * other
        return result

    def linear(self, counts: Counts) -> Linear | None:
        result = self.factors[0][1].linear(counts)
        for is_divided, factor in self.factors[1:]:
            other = factor.linear(counts)
            if result is None or other is None:
                return None
            if is_divided:
                if other.coefficients or not other.constant:
                    return None
                result = _scaled(result, 1 / other.constant)
            elif not other.coefficients:
                result = _scaled(result, other.constant)
            elif not result.coefficients:
                result = _scaled(other, result.constant)
            else:
                return None
        return result

    def interval(self, of: Mapping[str, Interval], counts: Counts) -> Interval:
        low, high = bounds(self.factors[0][1], of, counts)
        for is_divided, factor in self.factors[1:]:
            bottom, top = bounds(factor, of, counts)
            if is_divided:
                if bottom <= 0 <= top:
                    raise self._through_zero(factor)
                bottom, top = 1 / top, 1 / bottom
            corners = (low * bottom, low * top, high * bottom, high * top)
            low, high = min(corners), max(corners)
        return low, high

    def _through_zero(self, divisor: Node) -> QuantityFault:
        return QuantityFault(
            "division by zero",
            f"{quote(self.source)}, where {quote(divisor.source)} is zero or may be",
            "a divisor that stays on one side of zero",
            "looking at the readings behind it",
        )


@dataclass(frozen=True, slots=True)
class Call:
    """One of the five functions over its arguments; a name with several values is spread."""

    source: str
    function: Function
    arguments: tuple[Node, ...]

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        first = self.arguments[0].dimension(of)
        for argument in self.arguments[1:]:
            dimension = argument.dimension(of)
            if dimension != first:
                raise _unlike(self.source, self.arguments[0], first, argument, dimension)
        if first.is_absolute and self.function == "range":
            return TEMPERATURE_DIFFERENCE
        if first.is_absolute and self.function == "abs":
            raise QuantityFault(
                "wrong dimension",
                f"{quote(self.source)}, the size of a temperature",
                "a temperature difference",
                "subtracting the reference temperature inside",
            )
        return first

    def value(self, of: Mapping[str, Value]) -> Fraction:
        values: list[Fraction] = []
        for argument in self.arguments:
            if isinstance(argument, Name) and self.function != "abs":
                values.extend(argument.values(of))
            else:
                values.append(argument.value(of))
        return _applied(self.function, values)

    def linear(self, counts: Counts) -> Linear | None:
        parts = [argument.linear(counts) for argument in self.arguments]
        constants = [part.constant for part in parts if part is not None and not part.coefficients]
        if len(constants) == len(parts):
            return Linear({}, _applied(self.function, constants))
        weights = self._weights(counts)
        if self.function != "mean" or weights is None:
            return None
        return _added(zip(weights, parts, strict=True))

    def interval(self, of: Mapping[str, Interval], counts: Counts) -> Interval:
        parts = [bounds(argument, of, counts) for argument in self.arguments]
        lows, highs = [low for low, _ in parts], [high for _, high in parts]
        if self.function == "abs":
            low, high = parts[0]
            return (low, high) if low >= 0 else (-high, -low) if high <= 0 else (Fraction(0), max(-low, high))
        if self.function == "min":
            return min(lows), min(highs)
        if self.function == "max":
            return max(lows), max(highs)
        if self.function == "range":
            return max(Fraction(0), max(lows) - min(highs)), max(highs) - min(lows)
        weights = self._weights(counts)
        if weights is None:
            return min(lows), max(highs)
        return (
            sum((w * low for w, low in zip(weights, lows, strict=True)), Fraction(0)),
            sum((w * high for w, high in zip(weights, highs, strict=True)), Fraction(0)),
        )

    def _weights(self, counts: Counts) -> list[Fraction] | None:
        """Share of each argument in a mean, None where it hangs on how many values a name has."""
        sizes = [
            counts.get(argument.name, 0) if isinstance(argument, Name) else 1 for argument in self.arguments
        ]
        if not all(size > 0 for size in sizes):
            return None
        whole = sum(sizes)
        return [Fraction(size, whole) for size in sizes]


Node = Figure | Name | Sum | Product | Call


def bounds(node: Node, of: Mapping[str, Interval], counts: Counts) -> Interval:
    """The bounds of a node: exact where it is linear, as shared names then cancel; else an outer bound."""
    linear = node.linear(counts)
    if linear is None or isinstance(node, Name | Figure):
        return node.interval(of, counts)
    low = high = linear.constant
    for name, coefficient in linear.coefficients.items():
        bottom, top = Name(name, name).interval(of, counts)
        low += coefficient * (bottom if coefficient > 0 else top)
        high += coefficient * (top if coefficient > 0 else bottom)
    return low, high


def names_in(node: Node) -> Iterator[str]:
    """The names a tree uses, in the order of the text, repeats included."""
    if isinstance(node, Name):
        yield node.name
    elif isinstance(node, Sum):
        for _, term in node.terms:
            yield from names_in(term)
    elif isinstance(node, Product):
        for _, factor in node.factors:
            yield from names_in(factor)
    elif isinstance(node, Call):
        for argument in node.arguments:
            yield from names_in(argument)


def _applied(function: Function, values: list[Fraction]) -> Fraction:
    if function == "mean":
        return sum(values, Fraction(0)) / len(values)
    if function == "range":
        return max(values) - min(values)
    if function == "abs":
        return abs(values[0])
    return min(values) if function == "min" else max(values)


def _added(parts: Iterable[tuple[Fraction, Linear | None]]) -> Linear | None:
    """The weighted sum of linear forms, None as soon as one part is none."""
    coefficients: dict[str, Fraction] = {}
    constant = Fraction(0)
    for weight, part in parts:
        if part is None:
            return None
        constant += weight * part.constant
        for name, coefficient in part.coefficients.items():
            coefficients[name] = coefficients.get(name, Fraction(0)) + weight * coefficient
    return Linear({name: c for name, c in coefficients.items() if c}, constant)


def _scaled(linear: Linear, factor: Fraction) -> Linear:
    scaled = {name: c * factor for name, c in linear.coefficients.items() if c * factor}
    return Linear(scaled, linear.constant * factor)


def _exact(value: Rational) -> Fraction:
    if not isinstance(value, Rational):
        raise TypeError(f"an expression is worked out in exact figures, not in {type(value).__name__}")
    return Fraction(value)


def _given(of: Mapping[str, T], name: str) -> T:
    try:
        return of[name]
    except KeyError:
        raise _without_value(name) from None


def _without_value(name: str) -> QuantityFault:
    return QuantityFault(
        "no value", f"{quote(name)} without a value", "a value for each name", f"taking the reading of {name}"
    )


def _unlike(source: str, one: Node, first: Dimension, other: Node, second: Dimension) -> QuantityFault:
    kinds = f"{quote(one.source)} is {first.name} and {quote(other.source)} is {second.name}"
    has_bare_figure = first.is_pure or second.is_pure
    advice = "a unit behind the bare figure" if has_bare_figure else "the name that was meant"
    return QuantityFault("wrong dimension", f"{quote(source)}, where {kinds}", "terms of one kind", advice)
