"""Options and variants: what a book leaves open, and what each of its variants answers.

How values depend on them is in `keyed`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from layshaft.book.fault import Fault, Key
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.reader import Manuscript, Raw, Row, Table

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
    answers: Mapping[str, str]
    cues: tuple[str, ...] = ()


@dataclass
class Options:
    """The options of a book and its variants, as far as they can be read."""

    script: Manuscript
    choices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    variants: tuple[Variant, ...] = ()
    is_readable: bool = True

    @classmethod
    def of(cls, script: Manuscript) -> Options:
        """Read a book's options and variants; every fault goes into the manuscript."""
        options = cls(script)
        options._read_choices()
        if options.is_readable:
            options._read_variants()
        return options

    def note_unused(self, used: Collection[str]) -> None:
        """Note every option that nothing depends on."""
        for name in self.choices:
            if name not in used:
                self.script.tell("option unused", ("options", name), at_key=True, found=name)

    def _read_choices(self) -> None:
        written = self.script.tree.get("options")
        if written is None:
            return
        if not isinstance(written, Table):
            self._refuse("options not a table", "options")
            return
        for name, choices in written.items():
            if name in (CUES, ONLY):
                self._refuse("option name taken", "options", name, at_key=True, found=name)
            elif not isinstance(choices, Row) or not choices or not all(isinstance(one, str) for one in choices):
                self._refuse("choices not a list", "options", name, name=name)
            else:
                for index, choice in enumerate(choices):
                    if choice in choices[:index]:
                        self.script.tell("choice twice", ("options", name, index), found=choice, name=name)
                self.choices[name] = tuple(dict.fromkeys(choices))

    def _refuse(self, id: str, *path: Key, at_key: bool = False, **told: str) -> None:
        """Take down a fault after which values that depend on options cannot be told from others."""
        self.script.tell(id, path, at_key=at_key, **told)
        self.is_readable = False

    def _read_variants(self) -> None:
        written = self.script.tree.get("variants")
        if written is None:
            if self.choices:
                self.script.tell("no variants", ("options",), at_key=True)
            else:
                self.variants = (Variant(SOLE_VARIANT, {}),)
        elif not isinstance(written, Table) or not written:
            self.script.tell("variants not a table", ("variants",))
        else:
            read = (self._variant(name, answers) for name, answers in written.items())
            self.variants = tuple(variant for variant in read if variant is not None)
            self._note_alike()

    def _note_alike(self) -> None:
        seen: dict[frozenset[tuple[str, str]], str] = {}
        for variant in self.variants:
            other = seen.setdefault(frozenset(variant.answers.items()), variant.name)
            if other != variant.name:
                path = ("variants", variant.name)
                self.script.tell("variants alike", path, at_key=True, found=variant.name, other=other)

    def _variant(self, name: str, written: Raw) -> Variant | None:
        if not isinstance(written, Table):
            self.script.tell("variant not a table", ("variants", name), name=name)
            return None
        told = len(self.script.faults)
        answers = {
            option: choice
            for option, choice in written.items()
            if option != CUES and self._is_answer(name, option, choice)
        }
        for option in self.choices:
            if option not in written:
                needed = f"`{option}:` with one of {listed(self.choices[option])}"
                self.script.tell("left open", ("variants", name), at_key=True, name=name, option=option, needed=needed)
        cues = self._cues(name, written)
        return Variant(name, answers, cues) if len(self.script.faults) == told else None

    def _is_answer(self, name: str, option: str, choice: Raw) -> bool:
        path = ("variants", name, option)
        known = self.choices.get(option)
        if known is None:
            needed, near = listed(self.choices), nearest_try(option, self.choices)
            self.script.tell("unknown option", path, at_key=True, found=option, needed=needed, try_=near)
            return False
        if isinstance(choice, Row) and len(choice) > 1:
            found, needed = listed(str(one) for one in choice), f"one of {listed(known)}"
            self.script.tell("answered twice", path, name=name, option=option, found=found, needed=needed)
            return False
        if choice not in known:
            found = choice if isinstance(choice, str) else "a list or a table"
            near = nearest_try(found, known)
            self.script.tell("unknown choice", path, found=found, option=option, needed=listed(known), try_=near)
            return False
        return True

    def _cues(self, name: str, written: Table) -> tuple[str, ...]:
        cues = written.get(CUES, Row())
        if isinstance(cues, str):
            return (cues,)
        if isinstance(cues, Row) and all(isinstance(one, str) for one in cues):
            return tuple(cues)
        self.script.tell("cues not a list", ("variants", name, CUES))
        return ()
