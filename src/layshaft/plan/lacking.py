"""What a result still waits for: readings of its own parts, and results that can be read straight off the unit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layshaft.book.definition import Term, Unit
from layshaft.book.size import Form, Leaf, Piece, pack_pieces
from layshaft.plan.judgement import OpenPoint
from layshaft.plan.model import MODELS
from layshaft.plan.phrase import with_load
from layshaft.plan.read_size import ReadSizes
from layshaft.plan.wanted import PLACE_MINUTES, wanted_reading
from layshaft.quantity import parse_expression

Reading = tuple[str, str]


def lacking(unit: Unit, sizes: ReadSizes, name: str, form: Form | None = None) -> tuple[OpenPoint, ...]:
    """Readings that would put a figure in place of a tolerance in a result; what cancels in it is not asked for."""
    points: list[OpenPoint] = []
    wanted: dict[tuple[Reading, bool], list[int]] = {}
    told = sizes.form(name) if form is None else form
    walk = _Walk(unit, sizes, None if told is None else frozenset(told.terms))
    results = []
    for what in walk.through(name):
        if isinstance(what, str):
            results.append(what)
        else:
            key, piece = what
            pieces = wanted.setdefault((key, (key[0], piece) in sizes.changed), [])
            if piece not in pieces:
                pieces.append(piece)
    is_apart = told is not None and not wanted and any(_is_of_parts_in_hand(sizes, leaf) for leaf in told.terms)
    is_off = told is not None and _is_taken_apart(sizes, told)
    for what in dict.fromkeys(results):
        is_again = ("", what, 0) in sizes.waited
        point = _wanted_result(unit, what, name, is_again, is_off or (is_apart and not is_again))
        points.append(_since_reworked(point, sizes.reworked.get(what)))
    for ((part, reading), is_new), pieces in wanted.items():
        is_again = any((part, reading, piece) in sizes.waited for piece in pieces)
        point = wanted_reading(unit.parts[part], part, reading, pieces, is_again=is_again)
        points.append(replace(of_new(point) if is_new else point, decides=(name,)))
    return tuple(dict.fromkeys(points))


def of_new(point: OpenPoint) -> OpenPoint:
    """A reading wanted of the part that goes in, not of the one that came out."""
    named = point.sentence.replace(f" {point.part} ", f" the new {point.part} ", 1)
    sentence = f"{named.removesuffix('.')}, noted as new."
    return replace(point, sentence=sentence, is_new=True)


def _is_of_parts_in_hand(sizes: ReadSizes, leaf: Leaf) -> bool:
    """Whether a size of a part of the unit itself has been read by itself: then it can no longer be read as found."""
    selective = bool(leaf.part) and sizes.unit.parts[leaf.part].selective is not None
    return bool(leaf.part) and not selective and leaf in sizes.readings and (leaf.part, leaf.piece) not in sizes.changed


def _is_taken_apart(sizes: ReadSizes, form: Form) -> bool:
    """Whether parts behind a result are off, by the record, from what the others are in: it cannot be read as found."""
    return len({_root(sizes, leaf.part) for leaf in form.terms if leaf.part}) > 1


def _root(sizes: ReadSizes, part: str) -> str | None:
    """The part on record as off that a part is or lies in; none while it is in the unit."""
    at: str | None = part
    while at is not None and at not in sizes.off:
        at = sizes.unit.parts[at].lies_in
    return at


def _since_reworked(point: OpenPoint, part: str | None) -> OpenPoint:
    """A result wanted again, and why where a part was reworked since it was read."""
    why = "" if part is None else f": {part} was reworked since it was read"
    return replace(point, sentence=f"{point.sentence.removesuffix('.')}{why}.")


def _wanted_result(unit: Unit, result: str, wanted_by: str, is_again: bool, is_of_built: bool) -> OpenPoint:
    read = unit.results[result].read
    minutes = float(read.time.nominal) / 60 if read and read.time else PLACE_MINUTES * (read.places if read else 1)
    how = with_load(read.how, read.load) if read else ""
    sentence = f"Read {'again ' if is_again else ''}{result} ({how})."
    if is_of_built:
        sentence = f"Read {result} on the built unit ({how}), noted as new."
    return OpenPoint(
        part="",
        kind="result",
        name=result,
        pieces=(),
        how=how,
        gauge=read.gauge if read else None,
        minutes=minutes,
        sentence=sentence,
        is_new=is_of_built,
        decides=tuple(dict.fromkeys((wanted_by, result))),
    )


Wanted = str | tuple[Reading, int]


@dataclass(frozen=True, slots=True)
class _Walk:
    """Follows a result to what it comes from; `leaves` are those that move it, where that is known."""

    unit: Unit
    sizes: ReadSizes
    leaves: frozenset[Leaf] | None

    def through(self, name: str) -> Iterator[Wanted]:
        """Everything wanted for one result."""
        result = self.unit.results[name]
        form = self.sizes.form(name)
        if name in self.sizes.direct and name not in self.sizes.spoilt:
            return
        if ("", name, 0) in self.sizes.waited:
            # What was read of it contradicts its links, or may: they do not decide past it.
            yield name
            return
        for part in self.sizes.spoilt.get(name, ()) if self.sizes.chain_form(name) is not None else ():
            yield from self._old_size(part)
        if form is not None and self._is_to_be_read(name, form):
            yield name
            return
        if result.chain is not None:
            for term in result.chain:
                yield from self._term(term)
        elif result.is_ is not None:
            yield from self._text(result.is_)
        elif result.model in MODELS:
            for text in result.of.values():
                yield from self._text(text)

    def _is_to_be_read(self, name: str, form: Form) -> bool:
        """Whether reading it straight off the unit is the way to know faces of used parts that have no reading."""
        if self.unit.results[name].read is None or name in self.sizes.direct:
            return False
        unknown = [leaf for leaf in form.terms if self._is_open(leaf) and not readings_of(self.unit, leaf)]
        is_used = any(leaf.part and (leaf.part, leaf.piece) not in self.sizes.changed for leaf in unknown)
        return is_used and self.sizes.would_hold(name)

    def _old_size(self, part: str) -> Iterator[Wanted]:
        """The size of a selective part that a result was read with: without it the reading tells nothing of another."""
        selective = self.unit.parts[part].selective
        if selective is not None:
            for name in readings_of(self.unit, Leaf(part, selective.from_, selective.to)):
                yield (part, name), 0

    def _term(self, term: Term) -> Iterator[Wanted]:
        if term.kind == "result":
            yield from self.through(str(term.name))
        elif term.kind == "pack":
            yield from self._pack(str(term.name))
        elif term.part is not None:
            for piece in range(self.unit.parts[term.part].count if term.each else 1):
                yield from self._distance((term.part, piece), str(term.from_), str(term.to))

    def _is_open(self, leaf: Leaf) -> bool:
        return is_open_leaf(self.sizes, leaf) and (self.leaves is None or leaf in self.leaves)

    def _pack(self, name: str) -> Iterator[Wanted]:
        pack = self.unit.packs[name]
        for piece in pack_pieces(self.unit, pack):
            yield from self._distance(piece, *pack.faces)

    def _distance(self, piece: Piece, from_: str, to: str) -> Iterator[Wanted]:
        part, at = piece
        for leaf in self.sizes.distance(part, from_, to, at).terms:
            if self._is_open(leaf):
                for reading in readings_of(self.unit, leaf):
                    yield (part, reading), at

    def _text(self, text: str) -> Iterator[Wanted]:
        for name in parse_expression(text, self.sizes.names).names:
            word, _, rest = name.partition(" ")
            if name in self.unit.results:
                yield from self.through(name)
            elif word == "pack":
                yield from self._pack(rest)
            elif word != "count":
                yield from self._reading(word, rest)

    def _reading(self, part: str, name: str) -> Iterator[Wanted]:
        plan = self.unit.parts[part].readings[name]
        if plan.from_ is not None and plan.to is not None:
            yield from self._distance((part, 0), plan.from_, plan.to)
            return
        known = self.sizes.scalars.get((part, name), {})
        yield from (((part, name), at) for at in range(self.unit.parts[part].count) if at not in known)


def is_open_leaf(sizes: ReadSizes, leaf: Leaf) -> bool:
    """Whether a leaf stands at its tolerance."""
    span = sizes.span(leaf)
    return not sizes.is_read(leaf) and span.low != span.high


def readings_of(unit: Unit, leaf: Leaf) -> list[str]:
    """The readings of a part that would place the face of a leaf."""
    return (
        [
            name
            for name, plan in unit.parts[leaf.part].readings.items()
            if plan.from_ is not None and plan.to is not None and leaf.to in (plan.from_, plan.to)
        ]
        if leaf.part
        else []
    )
