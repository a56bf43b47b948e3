"""Results: expressions that can be read and make sense, no circles, limits of the right dimension, true drawings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from layshaft.book.check.model import check_arguments, check_model, expression_fault
from layshaft.book.check.subject import Subject
from layshaft.book.circle import circles
from layshaft.book.definition import Result, Term
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.model import MODEL_PLANS
from layshaft.book.rounding import agrees
from layshaft.book.size import expression_names
from layshaft.book.unlike import unlike
from layshaft.quantity import (
    LENGTH,
    PURE,
    Dimension,
    Expression,
    Limit,
    Quantity,
    QuantityFault,
    Show,
    parse_expression,
)

SHOW = Show()


def check_results(subject: Subject) -> Iterator[Fault]:
    """Every fault in what results come from and in what is asked of them."""
    checker = _Checker(subject)
    yield from checker.read()
    for name, result in subject.unit.results.items():
        if name not in checker.unsound:
            yield from checker.check(name, result)
    yield from checker.stop_links()


class _Checker:
    """Works out the dimension of every result and compares what stands beside it."""

    def __init__(self, subject: Subject) -> None:
        self.subject = subject
        self.unit = subject.unit
        self.names = expression_names(subject.unit)
        self.expressions: dict[str, Expression] = {}
        self.arguments: dict[str, dict[str, Expression]] = {}
        self.unsound: set[str] = set()
        self.dimensions: dict[str, Dimension | None] = {}

    def read(self) -> Iterator[Fault]:
        """Read every expression, and tell those that cannot be read or that come from themselves."""
        for name, result in self.unit.results.items():
            path = ("results", name)
            faults = list(check_model(path, result))
            texts: dict[tuple[str, ...], str] = {("is",): result.is_} if result.is_ is not None else {}
            texts |= {("of", argument): text for argument, text in result.of.items()}
            for key, text in texts.items():
                try:
                    expression = parse_expression(text, self.names)
                except QuantityFault as refusal:
                    faults.append(expression_fault((*path, *key), refusal))
                    continue
                if key == ("is",):
                    self.expressions[name] = expression
                else:
                    self.arguments.setdefault(name, {})[key[-1]] = expression
            if faults:
                self.unsound.add(name)
            yield from faults
        edges = {name: self._from(name, result) for name, result in self.unit.results.items()}
        for circle in circles(edges):
            chain = ", ".join(
                f"`{name}` comes from `{circle[(at + 1) % len(circle)]}`" for at, name in enumerate(circle)
            )
            yield fault("result in a circle", path=("results", circle[0]), found=chain)
            self.unsound.update(circle)
        self._spread(edges)

    def _from(self, name: str, result: Result) -> tuple[str, ...]:
        chained = tuple(str(term.name) for term in result.chain or () if term.kind == "result")
        read = [self.expressions[name]] if name in self.expressions else []
        read += self.arguments.get(name, {}).values()
        named = dict.fromkeys(one for expression in read for one in expression.names if one in self.unit.results)
        return chained + tuple(named)

    def _spread(self, edges: Mapping[str, tuple[str, ...]]) -> None:
        """What comes from an unsound result cannot be checked either."""
        grown = True
        while grown:
            more = {name for name, sources in edges.items() if self.unsound.intersection(sources)} - self.unsound
            self.unsound |= more
            grown = bool(more)

    def dimension(self, name: str) -> Dimension | None:
        """The dimension of a name in an expression; nothing where the book does not tell it."""
        if name in self.unit.results:
            if name not in self.dimensions:
                self.dimensions[name] = self._of_result(name, self.unit.results[name])
            return self.dimensions[name]
        word, _, rest = name.partition(" ")
        if word in ("pack", "count"):
            return LENGTH if word == "pack" else PURE
        plan = self.unit.parts[word].readings[rest]
        told = plan.new or plan.reuse
        return told.dimension if told is not None else LENGTH if plan.from_ is not None else None

    def _of_result(self, name: str, result: Result) -> Dimension | None:
        if result.chain is not None:
            return LENGTH
        if result.is_ is None:
            return MODEL_PLANS[str(result.model)].dimension
        return self._of_expression(self.expressions[name])

    def _of_expression(self, expression: Expression) -> Dimension | None:
        known = {one: self.dimension(one) for one in expression.names}
        whole = {one: dimension for one, dimension in known.items() if dimension is not None}
        return expression.dimension(whole) if len(whole) == len(known) else None

    def check(self, name: str, result: Result) -> Iterator[Fault]:
        """One result: its dimension, its limit, and what is drawn beside it."""
        path = ("results", name)
        yield from self._check_links((*path, "chain"), result.chain or ())
        yield from self._check_directions((*path, "chain"), result.chain or ())
        yield from check_arguments(path, result, self.arguments.get(name, {}), self._of_expression)
        try:
            dimension = self.dimension(name)
        except QuantityFault as refusal:
            self.dimensions[name] = None
            yield expression_fault((*path, "is"), refusal)
            return
        if dimension is None:
            return
        for key, told in (("limit", result.limit), ("target", result.target), ("drawn", result.drawn)):
            if told is None:
                continue
            wrong = unlike((*path, key), str(told), told.dimension, dimension, "as the result is")
            if wrong is not None:
                yield wrong
                return
        yield from self._check_value(path, name, result, dimension)

    def _check_links(self, path: Path, links: tuple[Term, ...]) -> Iterator[Fault]:
        for at, term in enumerate(links):
            name = str(term.name)
            if term.kind == "result" and name not in self.unsound:
                dimension = self.dimension(name)
                if dimension is not None and dimension.exponents != LENGTH.exponents:
                    yield fault(
                        "wrong dimension", path=(*path, at), found=f"`{name}`, {dimension.name}", needed="a length"
                    )
                elif self.subject.sizes.form(name) is None:
                    yield fault("link is no sum", path=(*path, at), found=name)

    def _check_directions(self, path: Path, links: tuple[Term, ...]) -> Iterator[Fault]:
        """Links between faces lie along one direction: that of the most of them, of the first where it is a tie."""
        lying: dict[int, str] = {}
        for at, term in enumerate(links):
            if term.kind == "distance" and term.part in self.unit.parts:
                axis = self.unit.axis_of(term.part)
                lying |= {at: axis} if axis in self.unit.axes else {}
        ways = {at: (self.unit.axes[axis].start, self.unit.axes[axis].end) for at, axis in lying.items()}
        if len(set(ways.values())) < 2:
            return
        every = list(ways.values())
        most = max(every, key=every.count)
        main = next(axis for at, axis in lying.items() if ways[at] == most)
        for at, axis in lying.items():
            if ways[at] != most:
                found = f"{links[at].part} on {axis}"
                yield fault("link across", path=(*path, at), found=found, needed=f"links along {main}", axis=main)

    def stop_links(self) -> Iterator[Fault]:
        """Links in the gaps of stops."""
        for name, stop in self.unit.stops.items():
            if not isinstance(stop.at_most, Quantity):
                yield from self._check_links(("stops", name, "at most"), stop.at_most)

    def _check_value(self, path: Path, name: str, result: Result, dimension: Dimension) -> Iterator[Fault]:
        sizes = self.subject.sizes
        form = sizes.form(name)
        if form is not None:
            nominal = sizes.nominal(form)
        else:
            try:
                span = sizes.result(name)
            except QuantityFault as refusal:
                yield expression_fault((*path, "is"), refusal)
                return
            if span is None:
                return
            nominal = span.nominal
        if result.drawn is not None and not agrees(result.drawn, nominal):
            yield fault(
                "drawn otherwise",
                path=(*path, "drawn"),
                found=result.drawn.text,
                needed=f"{SHOW.show_exact(nominal, dimension)}, as it works out from what it comes from",
            )
        elif result.limit is not None and not result.limit.contains(nominal):
            yield fault(
                "outside as drawn",
                path=(*path, "limit"),
                found=SHOW.show_exact(nominal, dimension),
                needed=str(result.limit),
            )


def check_limits(subject: Subject) -> Iterator[Fault]:
    """Limits on readings and proofs: of one dimension, and such that a new part passes."""
    for part, definition in subject.unit.parts.items():
        for name, plan in definition.readings.items():
            path = ("parts", part, "readings", name)
            if (plan.from_ is None) != (plan.to is None):
                yield fault("half a distance", path=path, found="`from`" if plan.from_ else "`to`")
            told: list[tuple[str, Limit | Quantity]] = [
                (key, limit) for key, limit in (("new", plan.new), ("reuse", plan.reuse)) if limit is not None
            ]
            if plan.rework is not None and plan.rework.down_to is not None:
                told.append(("rework", plan.rework.down_to))
            due = LENGTH if plan.from_ is not None else told[0][1].dimension if told else None
            each = [unlike((*path, key), str(limit), limit.dimension, due or limit.dimension) for key, limit in told]
            wrong = [one for one in each if one is not None]
            yield from wrong
            if not wrong and plan.new is not None and plan.reuse is not None and not _is_inside(plan.new, plan.reuse):
                yield fault(
                    "new outside reuse",
                    path=(*path, "reuse"),
                    found=str(plan.reuse),
                    needed=f"limits that hold all of the new range, {plan.new}",
                )


def _is_inside(inner: Limit, outer: Limit) -> bool:
    low = outer.low is None or (inner.low is not None and inner.low >= outer.low)
    high = outer.high is None or (inner.high is not None and inner.high <= outer.high)
    return low and high
