"""A whole book: its text read and checked for every variant, and a unit for each; a book with faults is never used."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from hashlib import sha256
from types import MappingProxyType
from typing import Any

from pydantic import ValidationError

from layshaft.book.check import check_unit
from layshaft.book.check.subject import Memory
from layshaft.book.definition import Unit
from layshaft.book.definition.base import Definition
from layshaft.book.fault import Fault, FaultReport
from layshaft.book.keyed import Keyed
from layshaft.book.message import fault
from layshaft.book.option import Options, Variant
from layshaft.book.reader import FATAL, Manuscript, Raw, Table, read
from layshaft.book.reading import entry_of, refusals
from layshaft.quantity import nearest

FIRST_KEY = "layshaft book"
_SET_BY_VARIANT = ("variant", "cues")


class BookFaults(ValueError):
    """A book that cannot be used, with the whole report of what has to be corrected."""

    def __init__(self, report: FaultReport) -> None:
        super().__init__(report.text())
        self.report = report


class UnknownVariant(LookupError):
    """A variant that a book does not have, with those that it has."""

    def __init__(self, book: str, variant: str, known: tuple[str, ...]) -> None:
        near = nearest(variant, known)
        hint = f" Did you mean {near}?" if near else ""
        super().__init__(f"{book} has no variant `{variant}`; it has {', '.join(known)}.{hint}")
        self.variant = variant
        self.known = known


@dataclass(frozen=True)
class Book:
    """A unit book without faults."""

    id: str
    name: str
    revision: int
    sha256: str
    options: Mapping[str, tuple[str, ...]]
    variants: Mapping[str, Variant]
    notes: tuple[Fault, ...]
    units: Mapping[str, Unit]

    def unit(self, variant: str) -> Unit:
        """The unit of one variant; raise `UnknownVariant` where the book has none of that name."""
        try:
            return self.units[variant]
        except KeyError:
            raise UnknownVariant(self.id, variant, tuple(self.units)) from None


def load_book(text: str | bytes, name: str) -> Book:
    """Read a book; raise `BookFaults` with every fault at once if there is any."""
    book, report = _read_book(text, name)
    if book is None:
        raise BookFaults(report)
    return book


def check_book(text: str | bytes, name: str) -> FaultReport:
    """Read a book and report every fault and note of all its variants, in file order."""
    return _read_book(text, name)[1]


def _read_book(text: str | bytes, name: str) -> tuple[Book | None, FaultReport]:
    script = read(text, name, FIRST_KEY)
    if any(one.id in FATAL for one in script.faults):
        return None, FaultReport.of(name, script.faults)
    options = Options.of(script)
    if not options.is_readable:
        return None, FaultReport.of(name, script.faults, is_partial=True)
    reader = _UnitReader(script, options)
    units = {variant.name: reader.unit(variant) for variant in options.variants}
    report = FaultReport.of(name, reader.gathered(), is_partial=None in units.values())
    whole = {variant: unit for variant, unit in units.items() if unit is not None}
    if not report.is_clean or not whole:
        return None, report
    first = next(iter(whole.values()))
    data = text.encode() if isinstance(text, str) else text
    book = Book(
        id=first.id,
        name=name,
        revision=first.revision,
        sha256=sha256(data).hexdigest(),
        options=MappingProxyType(options.choices),
        variants=MappingProxyType({variant.name: variant for variant in options.variants}),
        notes=report.notes,
        units=MappingProxyType(whole),
    )
    return book, report


class _UnitReader:
    """Reads the units of all variants; what does not vary is read once."""

    def __init__(self, script: Manuscript, options: Options) -> None:
        self.script = script
        self.options = options
        self.keyed = Keyed(script, options)
        self.named = {key: frozenset(value) for key, value in script.tree.items() if isinstance(value, Table)}
        self.seen: dict[tuple[type[Definition], int], Definition | tuple[Fault, ...]] = {}
        self.kept: list[Table] = []
        self.found: dict[tuple[Any, ...], tuple[Fault, set[str]]] = {}
        self.memory: Memory = {}

    def unit(self, variant: Variant) -> Unit | None:
        """One variant's unit, or nothing where it has faults; those are taken down."""
        resolved = self.keyed.tree_of(variant)
        self.kept.append(resolved.tree)
        lost = resolved.lost | self.script.lost
        for one in resolved.faults:
            self._take(one, variant)
        unit, refused = self._defined(resolved.tree, variant)
        for one in refused:
            if one.path not in lost:
                self._take(self.script.located(one, resolved.tree), variant)
        if unit is None or resolved.lost:
            return None
        for one in check_unit(unit, self.memory, self.named):
            self._take(self.script.located(one, resolved.tree), variant)
        return unit

    def _defined(self, tree: Table, variant: Variant) -> tuple[Unit | None, list[Fault]]:
        refused: list[Fault] = []
        data: dict[str, Raw] = {"variant": variant.name, "cues": variant.cues}
        for key, value in tree.items():
            if key == FIRST_KEY:
                continue
            kind = entry_of(Unit, key)
            if kind is not None and isinstance(value, Table):
                data[key] = self._entries(kind, value, key, refused)
            elif key in _SET_BY_VARIANT:
                refused.append(self._set_by_variant(key))
            else:
                data[key] = value
        try:
            unit = Unit.model_validate(data)
        except ValidationError as error:
            broken = {one.path[:1] for one in refused}
            return None, [*refused, *(one for one in refusals(error, Unit) if one.path not in broken)]
        return (None if refused else unit), refused

    def _entries(self, kind: type[Definition], table: Table, key: str, refused: list[Fault]) -> dict[str, Definition]:
        """The entries of one section, each read once however many variants share it."""
        entries: dict[str, Definition] = {}
        for name, value in table.items():
            known = self.seen.get((kind, id(value)))
            if known is None:
                try:
                    known = kind.model_validate(value)
                except ValidationError as error:
                    known = tuple(refusals(error, kind))
                if isinstance(value, Table):
                    self.seen[kind, id(value)] = known
            if isinstance(known, tuple):
                refused.extend(one.on((key, name, *one.path)) for one in known)
            else:
                entries[name] = known
        return entries

    @staticmethod
    def _set_by_variant(key: str) -> Fault:
        return fault("unknown key", path=(key,), found=key)

    def _take(self, one: Fault, variant: Variant) -> None:
        key = (one.line, one.column, one.id, one.found, one.sentence)
        self.found.setdefault(key, (one, set()))[1].add(variant.name)

    def gathered(self) -> list[Fault]:
        """Every fault once, told with the variants it concerns where that is not all of them."""
        every = {variant.name for variant in self.options.variants}
        order = [variant.name for variant in self.options.variants]
        merged = [
            replace(one, variants=() if names == every else tuple(name for name in order if name in names))
            for one, names in self.found.values()
        ]
        return [*self.script.faults, *merged]
