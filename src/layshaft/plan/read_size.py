"""Sizes of a unit with readings in them: also results read straight off the unit, and figures that are no distance."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from layshaft.book.definition import Unit
from layshaft.book.size import Form, Leaf, Piece, Sizes, Span
from layshaft.plan.source import Sources
from layshaft.quantity import Limit

READ = "as read"
AS_FOUND = "as found"


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainty of a reading [SI]: its own, and what all readings of its gauge have in common."""

    own: float
    bias: float
    gauge: str | None


@dataclass(frozen=True, slots=True)
class Scalar:
    """A reading of one piece that enters an expression by its name."""

    value: Fraction
    doubt: Doubt | None
    places: tuple[Fraction, ...]


class ReadSizes(Sizes):
    """Sizes with readings; `found` are the sizes that a built unit's direct readings were taken with."""

    def __init__(self, unit: Unit, found: ReadSizes | None = None) -> None:
        super().__init__(unit)
        self.found = found
        self.changed: set[Piece] = set()
        self.doubts: dict[Leaf, Doubt] = {}
        self.direct: dict[str, tuple[Fraction, Doubt | None, bool]] = {}
        self.apart: dict[str, tuple[Fraction, Fraction]] = {}
        """How far the least and the greatest place of a direct reading lie off its mean, where the worst decides."""
        self.scalars: dict[tuple[str, str], dict[int, Scalar]] = {}
        self.waited: set[tuple[str, str, int]] = set()
        """Readings of pieces, and results without a part, whose figure decides nothing yet: to be taken again."""
        self.spoilt: dict[str, tuple[str, ...]] = {}
        """Results whose direct reading no longer holds, with the parts that were changed since."""

        self.dropped: dict[str, tuple[str, ...]] = {}
        """Results whose reading as found counts no more, their links being known, with the parts renewed since."""
        self.off: frozenset[str] = frozenset()
        """Parts that are on record as off."""
        self.reworked: dict[str, str] = {}
        """Results whose reading counts no more, with the part that was reworked since."""
        self.alike: dict[str, tuple[str, ...]] = {}
        """Results whose reading as found counts on, with the changed parts that the book draws without a tolerance."""

    # Laying figures over the drawing. All of it before the first question is asked.

    def set_reading(self, leaf: Leaf, span: Span, doubt: Doubt | None) -> None:
        """A distance that has been read or chosen."""
        self.readings[leaf] = span
        if doubt is not None:
            self.doubts[leaf] = doubt
        else:
            self.doubts.pop(leaf, None)

    def set_direct(self, result: str, value: Fraction, doubt: Doubt | None, is_built: bool = False) -> None:
        """A result that has been read straight off the unit."""
        self.direct[result] = (value, doubt, is_built)

    def set_scalar(self, part: str, reading: str, piece: int, scalar: Scalar) -> None:
        """A reading by its name in expressions."""
        self.scalars.setdefault((part, reading), {})[piece] = scalar

    def worst_place(self, result: str, mean: Fraction, limit: Limit | None) -> Fraction:
        """How far off the mean of a direct reading the place lies that is nearest to failing a limit."""
        if limit is None or result not in self.apart or result in self.spoilt:
            return Fraction(0)
        return min(self.apart[result], key=lambda off: limit.distance(mean + off))

    # Answers.

    def is_read(self, leaf: Leaf) -> bool:
        """Whether a leaf has been read or chosen."""
        return leaf in self.readings or leaf.from_ in (READ, AS_FOUND)

    def form(self, result: str) -> Form | None:
        """A result as a sum of leaves; one that has been read is a leaf itself."""
        if result in self.direct and result not in self._forms:
            read = self._direct_form(result)
            if read is not None:
                self._forms[result] = read
        return super().form(result)

    def _direct_form(self, result: str) -> Form | None:
        value, doubt, is_built = self.direct[result]
        form = Form(0, {self._marked(READ, result, Span.exactly(value), doubt): 1})
        if self.found is None or is_built:
            return form
        built = self._form_of(self.unit.results[result])
        before = self.found.chain_form(result)
        if built is None or before is None:
            # What is no sum cannot be corrected for what was changed since.
            changed = {part for part, _ in self.changed} & Sources(self.unit).parts(result)
            if not changed:
                return form
            self.spoilt[result] = tuple(part for part in self.unit.parts if part in changed)
            return None
        lost: list[str] = []
        alike: list[str] = []
        for leaf, count in before.terms.items():
            if (leaf.part, leaf.piece) in self.changed and leaf.part:
                span = self.found.span(leaf)
                if span.low != span.high:
                    lost.append(leaf.part)
                elif not self.found.is_read(leaf):
                    alike.append(leaf.part)
                mark = self._marked(
                    AS_FOUND,
                    f"{leaf} {leaf.piece}",
                    Span(span.low, span.nominal, span.high),
                    self.found.doubts.get(leaf),
                )
                form.add(Form(0, {mark: -count}))
        if lost:
            self.spoilt[result] = tuple(dict.fromkeys(lost))
            return None
        self.alike[result] = tuple(dict.fromkeys(alike))
        form.add(Form(built.constant))
        form.add(Form(before.constant), -1)
        for leaf, count in built.terms.items():
            if leaf.part and (leaf.part, leaf.piece) in self.changed:
                form.add(Form(0, {leaf: count}))
        return form

    def chain_form(self, result: str) -> Form | None:
        """A result by its chain, its own direct reading set aside."""
        return self._form_of(self.unit.results[result])

    def would_hold(self, result: str) -> bool:
        """Whether a direct reading of the unit as found would still tell something once parts are changed."""
        before = None if self.found is None else self.found.chain_form(result)
        if self.found is None or before is None:
            return True
        for leaf in before.terms:
            if (leaf.part, leaf.piece) not in self.changed or not leaf.part:
                continue
            span = self.found.span(leaf)
            is_known = self.found.is_read(leaf) or span.low == span.high or self.unit.parts[leaf.part].selective
            if not is_known:
                return False
        return True

    def _marked(self, kind: str, name: str, span: Span, doubt: Doubt | None) -> Leaf:
        leaf = Leaf("", kind, name)
        self._plain[leaf] = span
        if doubt is not None:
            self.doubts[leaf] = doubt
        return leaf

    def named(self, name: str) -> Span | None:
        """The value of a name in an expression: for a part's reading the mean of its pieces, within what was read."""
        return self.spread(name, None)

    def values_of(self, name: str) -> tuple[Fraction, ...]:
        """Everything that was read under the name of a part's reading."""
        part, _, reading = name.partition(" ")
        return tuple(place for one in self.scalars.get((part, reading), {}).values() for place in one.places)

    def spread(self, name: str, function: str | None) -> Span | None:
        """The least, greatest or mean of all that was read under a name; what is not read yet stands as drawn."""
        if name in self.unit.results or name.partition(" ")[0] in ("pack", "count"):
            return super().named(name)
        part, _, reading = name.partition(" ")
        pieces = self.scalars.get((part, reading), {})
        if not pieces:
            return super().named(name)
        values = [place for one in pieces.values() for place in one.places]
        decided = [one.value for one in pieces.values()]
        mean = sum(decided, Fraction(0)) / len(decided)
        if function in ("min", "max"):
            span = Span.exactly(min(values) if function == "min" else max(values))
        else:
            span = Span(min(decided), mean, max(decided))
        if len(pieces) == self.unit.parts[part].count:
            return Span.exactly(mean) if function == "mean" else span
        drawn = super().named(name)
        if drawn is None:
            return None
        if function == "min":
            return Span(min(span.low, drawn.low), span.nominal, span.high)
        if function == "max":
            return Span(span.low, span.nominal, max(span.high, drawn.high))
        return Span(min(span.low, drawn.low), span.nominal, max(span.high, drawn.high))
