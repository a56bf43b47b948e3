"""Values that depend on options: where a book's tree has them, and the tree of one variant with all of them answered.

A value may be a table whose every key is a condition: exactly one has to hold. An entry or a list item may carry
`only` with a condition, or several of which any will do: where none holds, it is not there at all.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed
from layshaft.book.option import ONLY, Condition, Options, Variant, read_condition
from layshaft.book.reader import Manuscript, Place, Raw, Row, Table

SECTIONS_OF_OPTIONS = ("options", "variants")


@dataclass
class Keyed:
    """Every place in a book's tree that depends on its options."""

    script: Manuscript
    options: Options
    used: set[str] = field(default_factory=set)
    _by_condition: dict[int, tuple[tuple[Condition, str], ...]] = field(default_factory=dict)
    _only: dict[int, tuple[Condition, ...]] = field(default_factory=dict)
    _unsound: set[int] = field(default_factory=set)
    _varies: dict[int, bool] = field(default_factory=dict)
    _read: dict[str, Condition | Fault] = field(default_factory=dict)

    def __post_init__(self) -> None:
        names = "|".join(re.escape(name) for name in sorted(self.options.choices, key=len, reverse=True))
        self._opening = re.compile(f"(?:{names}) ") if names else None
        for key, value in self.script.tree.items():
            if key not in SECTIONS_OF_OPTIONS:
                self._scan(value, (key,))
        self.options.note_unused(self.used)

    def _scan(self, tree: Raw, path: Path) -> bool:
        """Find and remember every keyed value and every `only` at or under a place; tell whether there is any."""
        known = self._varies.get(id(tree))
        if known is not None:
            return known
        self._varies[id(tree)] = False
        varies = isinstance(tree, Table) and self._scan_table(tree, path)
        for key, value in tree.items() if isinstance(tree, Table) else enumerate(tree):
            if isinstance(value, (Table, Row)) and self._scan(value, (*path, key)):
                varies = True
        self._varies[id(tree)] = varies
        return varies

    def _scan_table(self, table: Table, path: Path) -> bool:
        if ONLY in table and isinstance(table[ONLY], (str, Row)):
            self._only[id(table)] = self._conditions_of_only(table, path)
            return True
        if self._opening is None or not any(map(self._opening.match, table)):
            return False
        read = {key: self._condition(key) for key in table}
        conditions = tuple((one, key) for key, one in read.items() if isinstance(one, Condition))
        for key, one in read.items():
            if isinstance(one, Fault) and conditions:
                self._unsound.add(id(table))
                self._take(one, (*path, key), table.keys_at[key])
        self._by_condition[id(table)] = conditions
        return bool(conditions)

    def _conditions_of_only(self, table: Table, path: Path) -> tuple[Condition, ...]:
        """The conditions of `only`; none, so that the entry stays, where they cannot be read."""
        written, at = table[ONLY], table.values_at[ONLY]
        texts = (written,) if isinstance(written, str) else written
        conditions: list[Condition] = []
        for number, text in enumerate(texts):
            condition = self._condition(text) if isinstance(text, str) else fault("only not a condition")
            if isinstance(condition, Condition):
                conditions.append(condition)
            else:
                self._take(condition, (*path, ONLY), written.values_at[number] if isinstance(written, Row) else at)
                return ()
        return tuple(conditions)

    def _condition(self, text: str) -> Condition | Fault:
        known = self._read.get(text)
        if known is None:
            known = self._read[text] = read_condition(text, self.options.choices)
            if isinstance(known, Condition):
                self.used.update(option for option, _ in known.asked)
        return known

    def _take(self, one: Fault, path: Path, place: Place) -> None:
        self.script.faults.append(self.script.placed(one.on(path), place))

    def tree_of(self, variant: Variant) -> Resolved:
        """The raw tree of one variant: what does not vary is the very same object in every variant."""
        resolution = _Resolution(self, variant)
        for key, value in self.script.tree.items():
            if key not in SECTIONS_OF_OPTIONS:
                resolution.put(resolution.result.tree, key, value, self.script.tree, (key,))
        return resolution.result


@dataclass
class Resolved:
    """The raw tree of one variant, with the faults in answering what varies, and the places left without a value."""

    tree: Table = field(default_factory=Table)
    faults: list[Fault] = field(default_factory=list)
    lost: set[Path] = field(default_factory=set)


class _Resolution:
    """Answers every keyed value for one variant."""

    def __init__(self, keyed: Keyed, variant: Variant) -> None:
        self.keyed = keyed
        self.variant = variant
        self.result = Resolved()
        self.known: dict[int, Raw] = {}

    def put(self, into: Table, key: str, value: Raw, source: Table, path: Path) -> None:
        """Write an entry into a table, with its value answered, unless it is not there in this variant."""
        chosen, place = self._chosen(value, source.values_at[key], path)
        if chosen is not None:
            into.put(key, self._answered(chosen, path), source.keys_at[key], place)

    def _chosen(self, value: Raw, place: Place, path: Path) -> tuple[Raw, Place]:
        """Follow keyed values to the one that holds, and drop what `only` leaves out."""
        while isinstance(value, Table):
            conditions = self.keyed._by_condition.get(id(value))
            if not conditions:
                only = self.keyed._only.get(id(value))
                is_absent = bool(only) and not any(one.holds(self.variant.answers) for one in only or ())
                return (None, place) if is_absent else (value, place)
            matching = [key for condition, key in conditions if condition.holds(self.variant.answers)]
            if len(matching) != 1:
                self._hole_or_overlap(value, place, matching, path)
                return None, place
            place = value.values_at[matching[0]]
            value = value[matching[0]]
        return value, place

    def _hole_or_overlap(self, table: Table, place: Place, matching: list[str], path: Path) -> None:
        self.result.lost.add(path)
        if id(table) in self.keyed._unsound:
            return
        answers = ", ".join(f"{option} {choice}" for option, choice in self.variant.answers.items())
        kind = "overlap" if matching else "hole"
        one = fault(kind, path=path, found=listed(matching or table), answers=answers)
        at = table.keys_at[matching[1]] if matching else place
        self.result.faults.append(self.keyed.script.placed(one, at))

    def _answered(self, value: Raw, path: Path) -> Raw:
        if not self.keyed._varies.get(id(value)):
            return value
        if id(value) not in self.known:
            answered = self._table(value, path) if isinstance(value, Table) else self._row(value, path)
            self.known[id(value)] = answered
        return self.known[id(value)]

    def _table(self, table: Table, path: Path) -> Table:
        answered = Table(table.place)
        for key, inner in table.items():
            if key != ONLY or id(table) not in self.keyed._only:
                self.put(answered, key, inner, table, (*path, key))
        return answered

    def _row(self, row: Row, path: Path) -> Row:
        items: list[Raw] = []
        places: list[Place] = []
        for index, inner in enumerate(row):
            chosen, place = self._chosen(inner, row.values_at[index], (*path, index))
            if chosen is not None:
                items.append(self._answered(chosen, (*path, index)))
                places.append(place)
        return Row.of(items, places, row.place)
