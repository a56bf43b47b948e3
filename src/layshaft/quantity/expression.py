"""Closed arithmetic over named figures, as limits and results of a unit book use it.

    sum      = product { ("+" | "-") product }
    product  = operand { ("x" | "*" | "/") operand }
    operand  = "-" operand | "(" sum ")" | function "(" sum { ", " sum } ")" | figure | name
    function = "min" | "max" | "mean" | "range" | "abs"

Names may hold spaces and hyphens, so an operator has a space on both sides. The longest known name wins.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple, cast, get_args

from layshaft.quantity.dimension import Dimension
from layshaft.quantity.fault import QuantityFault, nearest, quote
from layshaft.quantity.node import (
    Call,
    Counts,
    Figure,
    Function,
    Interval,
    Linear,
    Name,
    Node,
    Product,
    Sum,
    Value,
    bounds,
    names_in,
)
from layshaft.quantity.quantity import parse_quantity

_EXAMPLE = "max(brake clearance, 0.2 mm) - hub gap"
LONGEST_EXPRESSION = 500
DEEPEST_NESTING = 20

_OPERATOR = re.compile(r" ([-+−x×*/])(?: |$)")
_END_OF_OPERAND = re.compile(r" [-+−x×*/](?: |$)| ?[(),]|$")
_AFTER_NAME = re.compile(r" [-+−x×*/](?: |$)| ?[),]|$")
# A sign right before a digit belongs to the figure: -20 °C is no negated 20 °C.
_FIGURE_START = re.compile(r"[-−]?\.?[0-9]")
_TIGHT_COMMA = re.compile(r",([0-9]+)")
_FUNCTION = re.compile(rf"({'|'.join(get_args(Function))}) ?\(")
_TOUCHING = re.compile(r"[+*/×−]")
# A hyphen or an x without spaces may as well belong to a misspelt name.
_TOUCHING_OR_NAME = re.compile(r"\S-\S|(?:^| )[-x]\S|\S[-x](?: |$)")
_SPACES = "a space on both sides of each operator"


@dataclass(frozen=True, slots=True)
class Expression:
    """A parsed expression: what it needs to know, and what comes of it."""

    text: str
    root: Node
    names: tuple[str, ...]

    def dimension(self, of: Mapping[str, Dimension]) -> Dimension:
        """The dimension of the result, or a fault that says which part does not fit."""
        return self.root.dimension(of)

    def value(self, of: Mapping[str, Value]) -> Fraction:
        """The exact result in the SI."""
        return self.root.value(of)

    def interval(self, of: Mapping[str, Interval], counts: Counts | None = None) -> Interval:
        """Bounds of the result: exact where the expression is linear, never too narrow elsewhere.

        How many values a name has matters to a mean of several arguments; without counts its bounds are wide.
        """
        return bounds(self.root, of, counts or {})

    def linear(self, counts: Counts | None = None) -> Linear | None:
        """The expression as coefficients and a constant, None where it is not linear."""
        return self.root.linear(counts or {})

    def __str__(self) -> str:
        return self.text


def parse_expression(text: str, names: Collection[str]) -> Expression:
    """The expression a text states over the known names."""
    if not isinstance(text, str):
        raise QuantityFault("not text", quote(repr(text)), "an expression as text", _EXAMPLE)
    if len(text) > LONGEST_EXPRESSION:
        raise QuantityFault(
            "too long",
            f"{len(text)} characters",
            f"at most {LONGEST_EXPRESSION} characters",
            "a named result for a part of it",
        )
    known = _index(names if isinstance(names, frozenset) else frozenset(names))
    reader = _Reader(" ".join(text.split()), known)
    root = reader.whole()
    return Expression(text, root, tuple(dict.fromkeys(names_in(root))))


class _Known(NamedTuple):
    """Known names by their spelling with single spaces; those that hold an operator or a bracket apart."""

    by_spelling: dict[str, str]
    awkward: tuple[str, ...]


@lru_cache(maxsize=64)
def _index(names: frozenset[str]) -> _Known:
    by_spelling = {" ".join(name.split()): name for name in sorted(names)}
    awkward = [s for s in by_spelling if (end := _END_OF_OPERAND.search(s)) and end.start() < len(s)]
    return _Known(by_spelling, tuple(sorted(awkward, key=len, reverse=True)))


class _Reader:
    """Reads one expression from left to right."""

    def __init__(self, text: str, known: _Known) -> None:
        self.text = text
        self.known = known
        self.at = 0
        self.depth = 0

    def whole(self) -> Node:
        if not self.text:
            raise QuantityFault("empty", "nothing", "an expression", _EXAMPLE, 0)
        root = self._sum()
        if self.at < len(self.text):
            raise self._unexpected("an operator with a space on both sides, or the end")
        return root

    def _sum(self) -> Node:
        start = self.at
        terms = [(1, self._product())]
        while (operator := self._operator("+-−")) is not None:
            terms.append((1 if operator == "+" else -1, self._product()))
        return terms[0][1] if len(terms) == 1 else Sum(self._since(start), tuple(terms))

    def _product(self) -> Node:
        start = self.at
        factors = [(False, self._operand())]
        while (operator := self._operator("x×*/")) is not None:
            factors.append((operator == "/", self._operand()))
        return factors[0][1] if len(factors) == 1 else Product(self._since(start), tuple(factors))

    def _operator(self, among: str) -> str | None:
        match = _OPERATOR.match(self.text, self.at)
        if match is None or match[1] not in among:
            return None
        self.at = match.end()
        return match[1]

    def _operand(self) -> Node:
        self._skip_space()
        self.depth += 1
        if self.depth > DEEPEST_NESTING:
            raise QuantityFault(
                "too deep",
                f"more than {DEEPEST_NESTING} levels",
                f"at most {DEEPEST_NESTING} levels of brackets",
                "a named result for a part of it",
                self.at,
            )
        node = self._inner()
        self.depth -= 1
        return node

    def _inner(self) -> Node:
        start = self.at
        name = self._name()
        if name is not None:
            return name
        if _FIGURE_START.match(self.text, start):
            return self._figure()
        if self._take("-") or self._take("−"):
            inner = self._operand()
            return Sum(self._since(start), ((-1, inner),))
        if self._take("("):
            inner = self._sum()
            self._close()
            return inner
        function = _FUNCTION.match(self.text, self.at)
        if function is not None:
            self.at = function.end()
            return self._call(start, cast("Function", function[1]))
        raise self._unknown()

    def _call(self, start: int, function: Function) -> Node:
        arguments = [self._sum()]
        while self._take(","):
            arguments.append(self._sum())
        self._close()
        if function == "abs" and len(arguments) != 1:
            found = quote(self._since(start))
            raise QuantityFault("not an expression", found, "abs of one argument", "abs(a - b)", start)
        return Call(self._since(start), function, tuple(arguments))

    def _name(self) -> Name | None:
        chunk = self._chunk()
        best = next((spelling for spelling in self.known.awkward if self._stands_here(spelling)), "")
        if chunk in self.known.by_spelling and len(chunk) > len(best):
            best = chunk
        if not best or self._starts_call(best) or self._is_figure(best):
            return None
        self.at += len(best)
        return Name(best, self.known.by_spelling[best])

    def _stands_here(self, spelling: str) -> bool:
        end = self.at + len(spelling)
        return self.text.startswith(spelling, self.at) and bool(_AFTER_NAME.match(self.text, end))

    def _starts_call(self, name: str) -> bool:
        return name in get_args(Function) and bool(_FUNCTION.match(self.text, self.at))

    @staticmethod
    def _is_figure(name: str) -> bool:
        """Whether a known name reads as a figure: then it is one, as a formula must not change by a name."""
        if not _FIGURE_START.match(name):
            return False
        try:
            parse_quantity(name)
        except QuantityFault:
            return False
        return True

    def _figure(self) -> Node:
        start = self.at
        chunk = self._chunk()
        comma = _TIGHT_COMMA.match(self.text, start + len(chunk))
        if comma is not None:
            raise QuantityFault(
                "ambiguous comma",
                f"{quote(chunk + comma[0])}, where the comma may mark a decimal or part two arguments",
                "a decimal point, or a space behind the comma",
                f"{chunk}.{comma[1]} or {chunk}, {comma[1]}",
                start,
            )
        try:
            quantity = parse_quantity(chunk)
        except QuantityFault as fault:
            raise QuantityFault(fault.id, fault.found, fault.needed, fault.try_, start) from None
        if not quantity.is_plain:
            advice = "a named result with a range"
            raise QuantityFault("not one figure", quote(chunk), "one figure", advice, start)
        self.at += len(chunk)
        return Figure(chunk, quantity)

    def _chunk(self) -> str:
        end = _END_OF_OPERAND.search(self.text, self.at)
        return self.text[self.at : end.start() if end else len(self.text)]

    def _take(self, sign: str) -> bool:
        self._skip_space()
        if not self.text.startswith(sign, self.at):
            return False
        self.at += len(sign)
        return True

    def _close(self) -> None:
        if not self._take(")"):
            raise self._unexpected("a closing bracket")

    def _skip_space(self) -> None:
        while self.text.startswith(" ", self.at):
            self.at += 1

    def _since(self, start: int) -> str:
        return self.text[start : self.at].strip()

    def _unexpected(self, needed: str) -> QuantityFault:
        rest = self.text[self.at :].strip()
        return QuantityFault(
            "not an expression",
            quote(rest) if rest else "the end of the text",
            needed,
            _EXAMPLE,
            self.at,
        )

    def _unknown(self) -> QuantityFault:
        chunk = self._chunk().strip()
        if not chunk:
            return self._unexpected("a name, a figure or a bracket")
        if self.text.startswith("(", self.at + len(chunk)):
            needed = f"one of the functions {', '.join(get_args(Function))}"
            return QuantityFault("unknown name", quote(chunk), needed, _EXAMPLE, self.at)
        near = nearest(chunk, self.known.by_spelling)
        advice = [quote(near)] if near else []
        if near is None or near.casefold() != chunk.casefold():
            if _TOUCHING.search(chunk):
                advice.insert(0, _SPACES)
            elif _TOUCHING_OR_NAME.search(chunk):
                advice.append(_SPACES)
        found, mended = quote(chunk), ", or ".join(advice) or "a name that the book defines"
        return QuantityFault("unknown name", found, "a known name", mended, self.at)
