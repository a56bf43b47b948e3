"""Sizes of a unit: distances between faces, pack heights and results, each as signed leaf dimensions, exactly.

A leaf is the place of one face on one piece, told from that part's datum (a face at exactly nothing, or the origin
that its coordinates are counted from), or a distance that this job has read. A link that stands in a chain twice with
unlike signs so cancels, and one with like signs counts twice. Pieces of one part are leaves of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from copy import copy
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple, Self

from layshaft.book.definition import Pack, Result, Selective, Term, Unit
from layshaft.quantity import Quantity, parse_expression

Piece = tuple[str, int]
Times = int | Fraction
ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class Span:
    """A figure in the SI with its bounds."""

    low: Fraction
    nominal: Fraction
    high: Fraction

    @classmethod
    def of(cls, quantity: Quantity) -> Span:
        """The span of a written quantity."""
        return cls(quantity.low, quantity.nominal, quantity.high)

    @classmethod
    def exactly(cls, value: Fraction) -> Span:
        """A span of no width."""
        return cls(value, value, value)

    def times(self, factor: Times) -> Span:
        """The span of a multiple; a negative factor turns the bounds."""
        low, high = sorted((self.low * factor, self.high * factor))
        return Span(low, self.nominal * factor, high)

    def plus(self, other: Span) -> Span:
        """The span of a sum of two figures that have nothing to do with each other."""
        return Span(self.low + other.low, self.nominal + other.nominal, self.high + other.high)


class Leaf(NamedTuple):
    """One dimension that a result comes from: a distance on one piece of a part, or a plain size in a chain."""

    part: str
    from_: str
    to: str
    piece: int = 0

    def __str__(self) -> str:
        if not self.part:
            return self.to
        return f"{self.part} {self.from_} to {self.to}" if self.from_ else f"{self.part} {self.to}"


ORIGIN = ""
"""What stands for the datum of a part that has no face at exactly nothing."""


@dataclass(slots=True)
class Form:
    """A linear figure: a constant and each leaf times how often it counts."""

    constant: Times = 0
    terms: dict[Leaf, Times] = field(default_factory=dict)

    def add(self, other: Form, factor: Times = 1) -> Form:
        """Add a multiple of another figure to this one, in place; what cancels is gone."""
        self.constant += other.constant * factor
        for leaf, count in other.terms.items():
            total = self.terms.get(leaf, 0) + count * factor
            if total:
                self.terms[leaf] = total
            else:
                self.terms.pop(leaf, None)
        return self


def pack_pieces(unit: Unit, pack: Pack) -> list[Piece]:
    """The pieces of a pack in their order from axis start to axis end."""
    pieces: list[Piece] = []
    used: dict[str, int] = {}

    def put(part: str, number: int) -> None:
        first = used.get(part, 0)
        pieces.extend((part, first + at) for at in range(number))
        used[part] = first + number

    for item in pack.order:
        if item.part is not None:
            put(item.part, unit.parts[item.part].count)
        elif item.alternate is not None:
            outer, inner = item.alternate
            left = [unit.parts[outer].count, unit.parts[inner].count]
            while left[0] or left[1]:
                for at, part in enumerate((outer, inner)):
                    if left[at]:
                        put(part, 1)
                        left[at] -= 1
    return pieces


class Sizes:
    """Every size of a unit, with this job's readings in place of the drawing's where there are any."""

    def __init__(self, unit: Unit, readings: Mapping[Leaf, Span] | None = None) -> None:
        self.unit = unit
        self.readings: dict[Leaf, Span] = dict(readings or {})
        self._plain: dict[Leaf, Span] = {}
        self._datums: dict[str, str] = {}
        self._forms: dict[str, Form | None] = {}
        self._spans: dict[str, Span | None] = {}

    def at_any_size(self) -> Self:
        """The same, with each selective part of which no size is known anywhere from its smallest to its largest."""
        found = copy(self)
        found.readings = {**self._sizes_unknown(), **self.readings}
        found._plain, found._forms, found._spans = dict(self._plain), {}, {}
        vars(found).pop("_read_from", None)
        return found

    def _sizes_unknown(self) -> dict[Leaf, Span]:
        spans: dict[Leaf, Span] = {}
        for part, definition in self.unit.parts.items():
            selective = definition.selective
            for piece in range(definition.count if selective is not None else 0):
                assert selective is not None
                leaf = Leaf(part, selective.from_, selective.to, piece)
                if leaf not in self.readings:
                    spans[leaf] = self._any_of(selective, self.worst(self.distance(*leaf)))
        return spans

    @staticmethod
    def _any_of(selective: Selective, drawn: Span) -> Span:
        """From the smallest size to the largest, each as much off as any may be, and no narrower than drawn."""
        told = selective.size_tolerance
        off = told.high if told is not None else max(drawn.high - drawn.nominal, drawn.nominal - drawn.low)
        sizes = [size.nominal for size in selective.sizes]
        return Span(min(drawn.low, min(sizes) - off), drawn.nominal, max(drawn.high, max(sizes) + off))

    # Leaves and their values.

    @cached_property
    def _read_from(self) -> dict[tuple[str, int], dict[str, tuple[str, Leaf, int]]]:
        """For each read piece the faces that a reading places: from which face, by which leaf, with which sign."""
        placed: dict[tuple[str, int], dict[str, tuple[str, Leaf, int]]] = {}
        for leaf in self.readings:
            links = placed.setdefault((leaf.part, leaf.piece), {})
            candidates = [(leaf.to, leaf.from_, 1), (leaf.from_, leaf.to, -1)]
            if self._width(leaf.part, leaf.from_) > self._width(leaf.part, leaf.to):
                candidates.reverse()
            for face, other, sign in candidates:
                if face not in links and not self._leads_to(links, other, face):
                    links[face] = (other, leaf, sign)
                    break
        return placed

    @staticmethod
    def _leads_to(links: Mapping[str, tuple[str, Leaf, int]], face: str, wanted: str) -> bool:
        while face != wanted and face in links:
            face = links[face][0]
        return face == wanted

    def _width(self, part: str, face: str) -> Fraction:
        """How uncertain a face is as drawn; the datum is the most certain of all."""
        coordinate = self.unit.parts[part].faces[face]
        return Fraction(-1) if face == self.datum(part) else coordinate.high - coordinate.low

    def datum(self, part: str) -> str:
        """The face of a part that stands at exactly nothing, or the origin."""
        if part not in self._datums:
            faces = self.unit.parts[part].faces.items()
            self._datums[part] = next((name for name, at in faces if at.low == at.high == 0), ORIGIN)
        return self._datums[part]

    def span(self, leaf: Leaf) -> Span | Quantity:
        """The value of a leaf: as read, or as drawn."""
        return self.readings.get(leaf) or self._plain.get(leaf) or self.unit.parts[leaf.part].faces[leaf.to]

    def worst(self, form: Form) -> Span:
        """The bounds of a figure when every leaf is at its worst."""
        low = nominal = high = Fraction(form.constant)
        for leaf, count in form.terms.items():
            span = self.span(leaf)
            nominal += span.nominal * count
            low += (span.low if count > 0 else span.high) * count
            high += (span.high if count > 0 else span.low) * count
        return Span(low, nominal, high)

    def nominal(self, form: Form) -> Fraction:
        """A figure with every leaf as read or as drawn."""
        return sum((self.span(leaf).nominal * count for leaf, count in form.terms.items()), Fraction(form.constant))

    # Figures as forms.

    def place(self, part: str, face: str, piece: int = 0) -> Form:
        """Where a face sits on its part, told from the part's datum."""
        form = Form()
        links = self._read_from.get((part, piece), {})
        while face in links:
            face, leaf, sign = links[face]
            form.add(Form(0, {leaf: sign}))
        datum = self.datum(part)
        if face != datum:
            form.add(Form(0, {Leaf(part, datum, face, piece): 1}))
        return form

    def distance(self, part: str, from_: str, to: str, piece: int = 0) -> Form:
        """The distance from one face of a piece to another, positive toward the axis end."""
        return self.place(part, to, piece).add(self.place(part, from_, piece), -1)

    def pack_height(self, name: str) -> Form:
        """The height of a pack: all its pieces, face to face."""
        pack = self.unit.packs[name]
        form = Form()
        for part, piece in pack_pieces(self.unit, pack):
            form.add(self.distance(part, *pack.faces, piece))
        return form

    def term(self, term: Term) -> Form | None:
        """One link of a chain without its sign; nothing where it is a result that is no sum of sizes."""
        if term.kind == "pack":
            return self.pack_height(str(term.name))
        if term.kind == "result":
            return self.form(str(term.name))
        return self._plain_form(term) if term.size is not None else self._distance_term(term)

    def _plain_form(self, term: Term) -> Form:
        if term.size is None:
            return Form()
        # A size with a name is one thing wherever it stands; one without is known by its own link alone.
        number = 0 if term.name else len(self._plain)
        leaf = Leaf("", term.size.text, term.name or term.size.text, number)
        self._plain[leaf] = Span.of(term.size)
        return Form(0, {leaf: 1})

    def _distance_term(self, term: Term) -> Form:
        part, from_, to = str(term.part), str(term.from_), str(term.to)
        form = Form()
        for piece in range(self.unit.parts[part].count if term.each else 1):
            form.add(self.distance(part, from_, to, piece))
        return form

    def chain(self, terms: Iterable[Term]) -> Form | None:
        """A whole chain: positive is a gap. Nothing where a link of it is no sum of sizes."""
        form = Form()
        for term in terms:
            link = self.term(term)
            if link is None:
                return None
            form.add(link, term.sign)
        return form

    def form(self, result: str) -> Form | None:
        """A result as a sum of leaves, or nothing where it is none (a least of several, a product, a model)."""
        if result not in self._forms:
            self._forms[result] = self._form_of(self.unit.results[result])
        return self._forms[result]

    def _form_of(self, result: Result) -> Form | None:
        if result.chain is not None:
            return self.chain(result.chain)
        if result.is_ is None:
            return None
        linear = parse_expression(result.is_, self.names).linear()
        if linear is None:
            return None
        form = Form(linear.constant)
        for name, count in linear.coefficients.items():
            inner = self._named_form(name)
            if inner is None:
                return None
            form.add(inner, count)
        return form

    @cached_property
    def names(self) -> frozenset[str]:
        """The names that an expression may use: results, `pack NAME`, `PART reading` and `count PART`."""
        return expression_names(self.unit)

    def _named_form(self, name: str) -> Form | None:
        if name in self.unit.results:
            return self.form(name)
        word, _, rest = name.partition(" ")
        if word == "pack":
            return self.pack_height(rest)
        if word == "count":
            return Form(self.unit.parts[rest].count)
        plan = self.unit.parts[word].readings[rest]
        if plan.from_ is not None and plan.to is not None:
            return self.distance(word, plan.from_, plan.to)
        return None

    # Figures as values.

    def result(self, name: str) -> Span | None:
        """The worst bounds and the nominal of a result, or nothing where no arithmetic here gives it."""
        if name not in self._spans:
            form = self.form(name)
            self._spans[name] = self._closed(self.unit.results[name]) if form is None else self.worst(form)
        return self._spans[name]

    def _closed(self, result: Result) -> Span | None:
        if result.is_ is None:
            return None
        expression = parse_expression(result.is_, self.names)
        spans: dict[str, Span] = {}
        for name in expression.names:
            span = self.named(name)
            if span is None:
                return None
            spans[name] = span
        low, high = expression.interval({name: (span.low, span.high) for name, span in spans.items()})
        nominal = expression.value({name: span.nominal for name, span in spans.items()})
        return Span(low, nominal, high)

    def named(self, name: str) -> Span | None:
        """The value of a name in an expression."""
        if name in self.unit.results:
            return self.result(name)
        form = self._named_form(name)
        if form is not None:
            return self.worst(form)
        part, _, reading = name.partition(" ")
        new = self.unit.parts[part].readings[reading].new
        if new is None or new.low is None or new.high is None:
            return None
        return Span(new.low, (new.low + new.high) / 2, new.high)

    def stop_gap(self, stop: str) -> Span:
        """How far beyond face `a` the face `b` of a stop may sit."""
        at_most = self.unit.stops[stop].at_most
        return Span.of(at_most) if isinstance(at_most, Quantity) else self.worst(self._stop_form(stop, at_most))

    def drawn_gap(self, stop: str) -> Fraction:
        """How far beyond face `a` the face `b` of a stop may sit, without bounds."""
        at_most = self.unit.stops[stop].at_most
        return at_most.nominal if isinstance(at_most, Quantity) else self.nominal(self._stop_form(stop, at_most))

    def _stop_form(self, stop: str, links: tuple[Term, ...]) -> Form:
        form = self.chain(links)
        if form is None:
            raise ValueError(f"how far the stop {stop} lets go is no sum of sizes")
        return form

    def coordinate(self, face: str) -> Span:
        """Where a face, written `PART face`, sits on its part."""
        part, _, name = face.partition(" ")
        return self.worst(self.place(part, name))


def expression_names(unit: Unit) -> frozenset[str]:
    """The names that an expression of a unit may use: results, `pack NAME`, `PART reading` and `count PART`."""
    names = set(unit.results)
    names.update(f"pack {name}" for name in unit.packs)
    for part, definition in unit.parts.items():
        names.add(f"count {part}")
        names.update(f"{part} {reading}" for reading in definition.readings)
    return frozenset(names)


def leaf_terms(unit: Unit, result: str) -> Form | None:
    """A result of a unit as drawn, as a sum of leaves with net signs, or nothing where it is none."""
    return Sizes(unit).form(result)
