"""A fault in a file someone wrote: where, what was found, what is needed, what to try; and the report of all."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any, Literal

MORE = "These are faults of form. What the names and figures of the file mean is looked at once they are mended."
"""What a report ends with that could not look at everything."""

Key = str | int
Path = tuple[Key, ...]


@dataclass(frozen=True)
class Fault:
    """One thing in a file that someone can correct; a note is one that need not be."""

    id: str
    sentence: str
    path: Path = ()
    found: str = ""
    needed: str = ""
    try_: str = ""
    kind: Literal["fault", "note"] = "fault"
    variants: tuple[str, ...] = ()
    file: str = ""
    line: int = 0
    column: int = 0
    line_text: str = ""

    def at(self, file: str, line: int, column: int, line_text: str) -> Fault:
        """The same fault, told where it is; line and column count from 1."""
        return replace(self, file=file, line=line, column=column, line_text=line_text)

    def on(self, path: Path) -> Fault:
        """The same fault, told of another path."""
        return replace(self, path=path)

    def text(self) -> str:
        """The fault as a person reads it."""
        lines = [f"{self.file}:{self.line}:{self.column}: {self.kind}: {self.id}", f"  {self.sentence}"]
        if self.line_text:
            gutter = str(self.line)
            shown, caret = _window(self.line_text, self.column, self.found)
            lines += [f"  {gutter} | {shown}", f"  {' ' * len(gutter)} | {caret}"]
        found = "" if self.found in self.sentence else self.found
        told = (("found", found), ("needed", self.needed), ("try", self.try_))
        lines += [f"  {label + ':':<8}{value}" for label, value in told if value]
        if self.variants:
            lines.append(f"  {'in:':<8}{', '.join(self.variants)}")
        return "\n".join(lines)

    def data(self) -> dict[str, Any]:
        """The fault as plain data for JSON."""
        return {
            "kind": self.kind,
            "id": self.id,
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "path": list(self.path),
            "sentence": self.sentence,
            "found": self.found,
            "needed": self.needed,
            "try": self.try_,
            "variants": list(self.variants),
            "written": self.line_text,
        }


_END_OF_VALUE = re.compile(r"[,}\]]|$")


def _window(line: str, column: int, found: str, width: int = 100) -> tuple[str, str]:
    """Cut a long line to the part around the place, and underline what was found there."""
    start = max(0, column - 1 - width // 2) if len(line) > width else 0
    shown = line[start : start + width].rstrip()
    first, length = column - 1, 1
    if found:
        end = _END_OF_VALUE.search(line, first)
        at = line.find(found, first, max(end.start() if end else first, first + len(found)))
        if at >= 0:
            first, length = at, len(found)
    length = max(1, min(length, start + len(shown) - first))
    return shown, " " * (first - start) + "^" * length


@dataclass(frozen=True)
class FaultReport:
    """Everything that was found in one file, in file order."""

    file: str
    found: tuple[Fault, ...] = field(default=())
    beside: tuple[FaultReport, ...] = field(default=())
    """Reports of faulty files that this one quotes."""
    is_partial: bool = False
    """Whether these faults kept the rest from being looked at: what names and figures mean comes after the form."""

    @classmethod
    def of(cls, file: str, found: Iterable[Fault], is_partial: bool = False) -> FaultReport:
        """Put faults in file order."""
        ordered = sorted(found, key=lambda one: (one.line, one.column, one.kind, one.id))
        return cls(file, tuple(ordered), is_partial=is_partial)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What has to be corrected before the file can be used."""
        return tuple(one for one in self.found if one.kind == "fault")

    @property
    def notes(self) -> tuple[Fault, ...]:
        """What is worth a look and stops nothing."""
        return tuple(one for one in self.found if one.kind == "note")

    @property
    def is_clean(self) -> bool:
        """Whether the file can be used."""
        return not self.faults and all(one.is_clean for one in self.beside)

    def text(self) -> str:
        """The whole report as a person reads it."""
        faults, notes = len(self.faults), len(self.notes)
        tally = f"{self.file}: {_counted(faults, 'fault')}, {_counted(notes, 'note')}"
        tally += f"\n{MORE}" if self.is_partial else ""
        beside = [one.text() for one in self.beside]
        return "\n\n".join([*beside, *(one.text() for one in self.found), tally])

    def data(self) -> dict[str, Any]:
        """The whole report as plain data."""
        data: dict[str, Any] = {"file": self.file, "clean": self.is_clean, "found": [one.data() for one in self.found]}
        data |= {"partial": True} if self.is_partial else {}
        return data | ({"beside": [one.data() for one in self.beside]} if self.beside else {})

    def json(self) -> str:
        """The whole report as JSON text."""
        return json.dumps(self.data(), ensure_ascii=False, indent=2)


def _counted(number: int, noun: str) -> str:
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"
