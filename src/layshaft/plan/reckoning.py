"""Results worked out from sizes and readings: value, worst bounds, and how each leaf dimension moves them.

A chain is a sum of leaves and exact. An expression that is no sum, or a model, is followed by its slope at the
present figures for the odds; its worst bounds come from interval arithmetic, or from the corners of a model.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import isfinite

from layshaft.book.definition import Result
from layshaft.book.size import Form, Leaf, Span
from layshaft.mechanics import OutOfRange
from layshaft.plan.model import MODELS
from layshaft.plan.read_size import Doubt, ReadSizes
from layshaft.quantity import QuantityFault, Value, parse_expression
from layshaft.quantity.node import Call, Name, Node, Product, Sum

SCALAR = "as named"
STEP = Fraction(1, 10**6)
"""Share of a figure by which it is moved to see a slope."""


@dataclass(frozen=True, slots=True)
class Reckoned:
    """A result: its span, and its slope by leaves, or why there is none."""

    span: Span | None
    form: Form | None
    lack: str | None = None


class Reckoner:
    """Works out results of one set of sizes, each once."""

    def __init__(self, sizes: ReadSizes) -> None:
        self.sizes = sizes
        self.unit = sizes.unit
        self._known: dict[str, Reckoned] = {}
        self._scalars: dict[Leaf, tuple[Span, Doubt | None]] = {}

    def result(self, name: str) -> Reckoned:
        """One result of the unit."""
        if name not in self._known:
            form = self.sizes.form(name)
            if form is not None:
                self._known[name] = Reckoned(self.sizes.worst(form), form)
            else:
                self._known[name] = self._guarded(name, self.unit.results[name])
        return self._known[name]

    def _guarded(self, name: str, result: Result) -> Reckoned:
        try:
            return self._of_model(result) if result.model is not None else self._of_text(str(result.is_))
        except (QuantityFault, OutOfRange, ZeroDivisionError, OverflowError) as refusal:
            return Reckoned(None, None, f"{name} cannot be worked out: {refusal}")

    def span_of(self, leaf: Leaf) -> Span:
        """The span of a leaf, or of a named reading that stands as one."""
        if leaf in self._scalars:
            return self._scalars[leaf][0]
        span = self.sizes.span(leaf)
        return Span(span.low, span.nominal, span.high)

    def doubt_of(self, leaf: Leaf) -> Doubt | None:
        """What the reading of a leaf is worth."""
        return self._scalars[leaf][1] if leaf in self._scalars else self.sizes.doubts.get(leaf)

    def is_read(self, leaf: Leaf) -> bool:
        """Whether a leaf has been read."""
        if leaf in self._scalars:
            return bool(self.sizes.scalars.get((leaf.part, leaf.to)))
        return self.sizes.is_read(leaf)

    # Expressions.

    def _of_text(self, text: str) -> Reckoned:
        expression = parse_expression(text, self.sizes.names)
        known: dict[str, Reckoned] = {}
        functions: dict[str, set[str | None]] = {}
        for name, function in _functions_in(expression.root, None):
            functions.setdefault(name, set()).add(function)
        for name, within in functions.items():
            known[name] = self._named(name, next(iter(within)) if len(within) == 1 else None)
            if known[name].span is None:
                return Reckoned(None, None, known[name].lack or f"{name} is not known")
        spans = {name: one.span for name, one in known.items() if one.span is not None}
        nominal: dict[str, Value] = {name: span.nominal for name, span in spans.items()}
        for name, within in functions.items():
            # Only all the values of a name tell its range, or stand in two functions at once.
            if "range" in within or len(within) > 1:
                nominal[name] = self.sizes.values_of(name) or nominal[name]
        low, high = expression.interval({name: (span.low, span.high) for name, span in spans.items()})
        value = expression.value(nominal)
        form = self._sloped(known, nominal, value, lambda of: expression.value(of))
        return Reckoned(Span(min(low, value), value, max(high, value)), form)

    def _named(self, name: str, function: str | None) -> Reckoned:
        if name in self.unit.results:
            return self.result(name)
        word, _, rest = name.partition(" ")
        if word == "pack":
            form = self.sizes.pack_height(rest)
            return Reckoned(self.sizes.worst(form), form)
        if word == "count":
            count = Fraction(self.unit.parts[rest].count)
            return Reckoned(Span.exactly(count), Form(count))
        plan = self.unit.parts[word].readings[rest]
        if plan.from_ is not None and plan.to is not None:
            form = self.sizes.distance(word, plan.from_, plan.to)
            return Reckoned(self.sizes.worst(form), form)
        span = self.sizes.spread(name, function)
        if span is None:
            return Reckoned(None, None, f"{word} {self.unit.parts[word].name}, {rest}, is not measured")
        leaf = Leaf(word, f"{SCALAR} {function or ''}".rstrip(), rest)
        first = next(iter(self.sizes.scalars.get((word, rest), {}).values()), None)
        self._scalars[leaf] = (span, first.doubt if first else None)
        return Reckoned(span, Form(0, {leaf: 1}))

    def _sloped(
        self,
        known: Mapping[str, Reckoned],
        nominal: Mapping[str, Value],
        value: Fraction,
        work_out: Callable[[Mapping[str, Value]], Fraction],
    ) -> Form:
        """The figure near its present value as a sum of leaves."""
        form = Form(value)
        for name, one in known.items():
            at = nominal[name]
            if one.form is None or not one.form.terms or isinstance(at, tuple):
                continue
            step = abs(at) * STEP or STEP
            ahead = work_out({**nominal, name: at + step})
            behind = work_out({**nominal, name: at - step})
            slope = (ahead - behind) / (2 * step)
            if slope:
                form.add(one.form, slope)
                form.add(Form(at), -slope)
        return form

    # Models.

    def _of_model(self, result: Result) -> Reckoned:
        model = MODELS.get(str(result.model))
        if model is None:
            return Reckoned(None, None, f"there is no model {result.model}; there are {', '.join(MODELS)}")
        lacking, unknown = model.missing(result.of), model.unknown(result.of)
        if lacking or unknown:
            told = f"needs {', '.join(lacking)}" if lacking else f"takes no {', '.join(unknown)}"
            return Reckoned(None, None, f"the model {result.model} {told}")
        known = {name: self._of_text(text) for name, text in result.of.items()}
        for one in known.values():
            if one.span is None:
                return Reckoned(None, None, one.lack)
        spans = {name: one.span for name, one in known.items() if one.span is not None}

        def work_out(of: Mapping[str, Value]) -> Fraction:
            figure = model.value({name: float(one) for name, one in of.items() if not isinstance(one, tuple)})
            if not isfinite(figure):
                raise OverflowError(f"the model {result.model} gives no finite figure")
            return Fraction(figure)

        nominal: dict[str, Value] = {name: span.nominal for name, span in spans.items()}
        value = work_out(nominal)
        ends = [sorted({span.low, span.high}) for span in spans.values()]
        corners = [work_out(dict(zip(spans, corner, strict=True))) for corner in product(*ends)]
        form = self._sloped(known, nominal, value, work_out)
        return Reckoned(Span(min(value, *corners), value, max(value, *corners)), form)


def _functions_in(node: Node, function: str | None) -> Iterator[tuple[str, str | None]]:
    """Each name with the function that its values go into, where it stands alone in one."""
    if isinstance(node, Name):
        yield node.name, function
    elif isinstance(node, Sum):
        for _, term in node.terms:
            yield from _functions_in(term, None)
    elif isinstance(node, Product):
        for _, factor in node.factors:
            yield from _functions_in(factor, None)
    elif isinstance(node, Call):
        for argument in node.arguments:
            yield from _functions_in(argument, node.function)
