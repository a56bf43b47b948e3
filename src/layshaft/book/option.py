"""Options and variants: what a book leaves open, what each variant answers, and the raw tree of one variant."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.reader import Manuscript, Place, Raw, Row, Table

ONLY = "only"
CUES = "cues"
SOLE_VARIANT = "standard"


@dataclass(frozen=True)
class Condition:
    """Which choices of which options a value holds for: every option named has to have one of its choices."""

    asked: tuple[tuple[str, frozenset[str]], ...]

    def holds(self, answers: Mapping[str, str]) -> bool:
        """Whether a variant's answers meet it."""
        return all(answers.get(option) in choices for option, choices in self.asked)


def read_condition(text: str, known: Mapping[str, Sequence[str]]) -> Condition | Fault:
    """Read `OPTION CHOICE [or CHOICE ..] [and OPTION CHOICE ..]`."""
    asked: list[tuple[str, frozenset[str]]] = []
    for clause in text.split(" and "):
        clause = clause.strip()
        option = max((name for name in known if clause.startswith(name + " ")), key=len, default=None)
        if option is None:
            word = clause.split(" ")[0]
            return fault(
                "not a condition",
                found=text,
                needed=f"`OPTION CHOICE`, where OPTION is one of "
                f"{listed(known) or 'the options of this book, which has none'}",
                try_=nearest_try(word, known),
            )
        choices = [choice.strip() for choice in clause[len(option) + 1 :].split(" or ")]
        for choice in choices:
            if choice not in known[option]:
                return fault(
                    "unknown choice",
                    found=choice,
                    option=option,
                    needed=listed(known[option]),
                    try_=nearest_try(choice, known[option]),
                )
        asked.append((option, frozenset(choices)))
    return Condition(tuple(asked))


@dataclass(frozen=True)
class Variant:
    """One combination of choices, and how to tell it from the others."""

    name: str
    answers: dict[str, str]
    cues: tuple[str, ...] = ()


@dataclass
class Options:
    """The options of a book, its variants, and every place in its tree where they matter."""

    script: Manuscript
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    variants: tuple[Variant, ...] = ()
    used: set[str] = field(default_factory=set)
    _keyed: dict[int, tuple[tuple[Condition, str], ...]] = field(default_factory=dict)
    _only: dict[int, tuple[Condition, ...]] = field(default_factory=dict)
    _varying: set[int] = field(default_factory=set)
    _scanned: dict[int, bool] = field(default_factory=dict)
    _read: dict[str, Condition | Fault] = field(default_factory=dict)

    @classmethod
    def of(cls, script: Manuscript) -> Options:
        """Read a book's options and variants, and mark every value that depends on them."""
        options = cls(script)
        options._read_choices()
        options._read_variants()
        names = "|".join(re.escape(name) for name in sorted(options.choices, key=len, reverse=True))
        options._opening = re.compile(f"(?:{names}) ") if names else None
        for key, value in script.tree.items():
            if key not in ("options", "variants"):
                options._scan(value, (key,))
        options._varying = {at for at, varies in options._scanned.items() if varies}
        options._note_unused()
        return options

    _opening: re.Pattern[str] | None = None

    # What the book says its options and variants are.

    def _add(self, id: str, place: Place, path: Path, **told: Any) -> None:
        self.script.add(id, place, path, **told)

    def _read_choices(self) -> None:
        tree = self.script.tree
        written = tree.get("options")
        if written is None:
            return
        if not isinstance(written, Table):
            self._add("options not a table", tree.values_at["options"], ("options",))
            return
        for name, choices in written.items():
            path, at = ("options", name), written.values_at[name]
            if name in (CUES, ONLY):
                self._add("option name taken", written.keys_at[name], path, found=name)
            elif not isinstance(choices, Row) or not choices or not all(isinstance(one, str) for one in choices):
                self._add("choices not a list", at, path, name=name)
            else:
                for index, choice in enumerate(choices):
                    if choice in choices[:index]:
                        self._add("choice twice", choices.values_at[index], (*path, index), found=choice, name=name)
                self.choices[name] = tuple(dict.fromkeys(choices))

    def _read_variants(self) -> None:
        tree = self.script.tree
        written = tree.get("variants")
        if written is None:
            if self.choices:
                self._add("no variants", tree.keys_at["options"], ("options",))
            else:
                self.variants = (Variant(SOLE_VARIANT, {}),)
            return
        if not isinstance(written, Table) or not written:
            self._add("variants not a table", tree.values_at["variants"], ("variants",))
            return
        self.variants = tuple(variant for name in written if (variant := self._variant(name, written)) is not None)
        seen: dict[tuple[tuple[str, str], ...], str] = {}
        for variant in self.variants:
            answers = tuple(sorted(variant.answers.items()))
            if answers in seen:
                self._add(
                    "variants alike",
                    written.keys_at[variant.name],
                    ("variants", variant.name),
                    found=variant.name,
                    other=seen[answers],
                )
            seen.setdefault(answers, variant.name)

    def _variant(self, name: str, written: Table) -> Variant | None:
        answers_as_written, path = written[name], ("variants", name)
        if not isinstance(answers_as_written, Table):
            self._add("variant not a table", written.values_at[name], path, name=name)
            return None
        answers: dict[str, str] = {}
        sound = True
        for option, choice in answers_as_written.items():
            if option == CUES:
                continue
            at = answers_as_written.values_at[option]
            if option not in self.choices:
                self._add(
                    "unknown option",
                    answers_as_written.keys_at[option],
                    (*path, option),
                    found=option,
                    needed=listed(self.choices),
                    try_=nearest_try(option, self.choices),
                )
                sound = False
            elif isinstance(choice, Row) and len(choice) > 1:
                self._add(
                    "answered twice",
                    at,
                    (*path, option),
                    name=name,
                    option=option,
                    found=listed(str(one) for one in choice),
                    needed=f"one of {listed(self.choices[option])}",
                )
                sound = False
            elif choice not in self.choices[option]:
                shown = choice if isinstance(choice, str) else "a list or a table"
                self._add(
                    "unknown choice",
                    at,
                    (*path, option),
                    found=shown,
                    option=option,
                    needed=listed(self.choices[option]),
                    try_=nearest_try(shown, self.choices[option]),
                )
                sound = False
            else:
                answers[option] = choice
        for option in self.choices:
            if option not in answers_as_written:
                self._add(
                    "left open",
                    written.keys_at[name],
                    path,
                    name=name,
                    option=option,
                    needed=f"`{option}:` with one of {listed(self.choices[option])}",
                )
                sound = False
        return Variant(name, answers, self._cues(answers_as_written, path)) if sound else None

    def _cues(self, written: Table, path: Path) -> tuple[str, ...]:
        cues = written.get(CUES, Row())
        if isinstance(cues, str):
            return (cues,)
        if isinstance(cues, Row) and all(isinstance(one, str) for one in cues):
            return tuple(cues)
        self._add("cues not a list", written.values_at[CUES], (*path, CUES))
        return ()

    def _note_unused(self) -> None:
        written = self.script.tree.get("options")
        for name in self.choices:
            if name not in self.used and isinstance(written, Table):
                self._add("option unused", written.keys_at[name], ("options", name), found=name)

    # Where the tree depends on them.

    def _scan(self, tree: Raw, path: Path) -> bool:
        """Find and remember every keyed value and every `only` at or under a place; tell whether there is any."""
        if not isinstance(tree, (Table, Row)):
            return False
        known = self._scanned.get(id(tree))
        if known is not None:
            return known
        self._scanned[id(tree)] = False
        varies = self._scan_table(tree, path) if isinstance(tree, Table) else False
        for key, value in tree.items() if isinstance(tree, Table) else enumerate(tree):
            if isinstance(value, (Table, Row)) and self._scan(value, (*path, key)):
                varies = True
        self._scanned[id(tree)] = varies
        return varies

    def _scan_table(self, table: Table, path: Path) -> bool:
        if ONLY in table and self._scan_only(table, path):
            return True
        if self._opening is None or not any(self._opening.match(key) for key in table):
            return False
        read = {key: self._condition(key) for key in table}
        if not any(isinstance(condition, Condition) for condition in read.values()):
            return False
        conditions: list[tuple[Condition, str]] = []
        for key, condition in read.items():
            if isinstance(condition, Condition):
                self.used.update(option for option, _ in condition.asked)
                conditions.append((condition, key))
            else:
                self.script.faults.append(self.script.placed(self._pathed(condition, (*path, key)), table.keys_at[key]))
        self._keyed[id(table)] = tuple(conditions)
        return True

    def _scan_only(self, table: Table, path: Path) -> bool:
        written = table[ONLY]
        texts = (written,) if isinstance(written, str) else written
        at = table.values_at[ONLY]
        if not isinstance(texts, tuple) or not all(isinstance(text, str) for text in texts):
            self._add("only not a condition", at, (*path, ONLY), found="a table")
            return False
        conditions: list[Condition] = []
        for number, text in enumerate(texts):
            condition = self._condition(text)
            if isinstance(condition, Condition):
                self.used.update(option for option, _ in condition.asked)
                conditions.append(condition)
            else:
                place = written.values_at[number] if isinstance(written, Row) else at
                self.script.faults.append(self.script.placed(self._pathed(condition, (*path, ONLY)), place))
        self._only[id(table)] = tuple(conditions)
        return True

    @staticmethod
    def _pathed(one: Fault, path: Path) -> Fault:
        return Fault(one.id, one.sentence, path, one.found, one.needed, one.try_, one.kind)

    def _condition(self, text: str) -> Condition | Fault:
        known = self._read.get(text)
        if known is None:
            known = self._read[text] = read_condition(text, self.choices)
        return known

    # The tree of one variant.

    def resolve(self, variant: Variant, found: list[Fault]) -> Table:
        """The raw tree of one variant: parts that do not vary are the very same objects in every variant."""
        tree = Table()
        memo: dict[int, Raw] = {}
        for key, value in self.script.tree.items():
            if key in ("options", "variants"):
                continue
            self._put(tree, key, value, self.script.tree, variant, found, memo, (key,))
        return tree

    def _put(
        self,
        into: Table,
        key: str,
        value: Raw,
        source: Table,
        variant: Variant,
        found: list[Fault],
        memo: dict[int, Raw],
        path: Path,
    ) -> None:
        chosen, place = self._chosen(value, source.values_at[key], variant, found, path)
        if chosen is not None:
            into.put(key, self._resolved(chosen, variant, found, memo, path), source.keys_at[key], place)

    def _chosen(self, value: Raw, place: Place, variant: Variant, found: list[Fault], path: Path) -> tuple[Raw, Place]:
        """Follow keyed values to the one that holds, and drop what `only` leaves out."""
        while isinstance(value, Table):
            keyed = self._keyed.get(id(value))
            if keyed is None:
                only = self._only.get(id(value))
                absent = only is not None and not any(one.holds(variant.answers) for one in only)
                return (None, place) if absent else (value, place)
            matching = [key for condition, key in keyed if condition.holds(variant.answers)]
            if len(matching) != 1:
                found.append(self._hole_or_overlap(value, place, matching, variant, path))
                return None, place
            place = value.values_at[matching[0]]
            value = value[matching[0]]
        return value, place

    def _hole_or_overlap(self, table: Table, place: Place, matching: list[str], variant: Variant, path: Path) -> Fault:
        answers = ", ".join(f"{option} {choice}" for option, choice in variant.answers.items())
        if not matching:
            made = fault("hole", path=path, found=listed(table), answers=answers, variants=(variant.name,))
            return self.script.placed(made, place)
        made = fault("overlap", path=path, found=listed(matching), answers=answers, variants=(variant.name,))
        return self.script.placed(made, table.keys_at[matching[1]])

    def _resolved(self, value: Raw, variant: Variant, found: list[Fault], memo: dict[int, Raw], path: Path) -> Raw:
        if id(value) not in self._varying:
            return value
        if id(value) in memo:
            return memo[id(value)]
        resolved: Raw
        if isinstance(value, Table):
            resolved = Table(value.place)
            for key, inner in value.items():
                if key != ONLY or id(value) not in self._only:
                    self._put(resolved, key, inner, value, variant, found, memo, (*path, key))
        else:
            items: list[Raw] = []
            places: list[Place] = []
            for index, inner in enumerate(value):
                chosen, place = self._chosen(inner, value.values_at[index], variant, found, (*path, index))
                if chosen is not None:
                    items.append(self._resolved(chosen, variant, found, memo, (*path, index)))
                    places.append(place)
            resolved = Row.of(items, places, value.place)
        memo[id(value)] = resolved
        return resolved
