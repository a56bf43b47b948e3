"""Text to a raw tree of tables, rows and texts, each with its place; every fault of the writing itself.

Nothing is guessed from how a word looks: every value stays the text it was written as, until a definition says
what it is. So `2026-10-01`, `012`, `1_0`, `12:30` and `yes` arrive as they stand.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError

from layshaft.book.fault import Fault, Key, Path
from layshaft.book.message import fault

MOST_BYTES = 2_000_000
MOST_DEPTH = 40
MOST_REPEATED = 20_000
MOST_OF_A_KIND = 20
VERSION = 1
_UNSEEN = re.compile(
    "[\\x00-\\x09\\x0b-\\x1f\\x7f-\\x9f\\xad\\u200b-\\u200f\\u2028-\\u202e\\u2060-\\u206f\\ud800-\\udfff\\ufeff\\ufffe\\uffff]"
)
_JOINER = "\u200d"
"""Joins several pictures into one; not every program shows the same for it."""
_NOTHING = frozenset(("", "~", "null", "Null", "NULL"))

Place = tuple[int, int]
Raw = Any


class Table(dict[str, Raw]):
    """A mapping as written, with the place of each key and of each value."""

    __slots__ = ("keys_at", "place", "values_at")

    def __init__(self, place: Place = (0, 0)) -> None:
        super().__init__()
        self.place = place
        self.keys_at: dict[str, Place] = {}
        self.values_at: dict[str, Place] = {}

    def put(self, key: str, value: Raw, key_at: Place, value_at: Place) -> None:
        """Write an entry with its places."""
        self[key] = value
        self.keys_at[key] = key_at
        self.values_at[key] = value_at


class Row(tuple[Raw, ...]):
    """A list as written, with the place of each item."""

    place: Place
    values_at: tuple[Place, ...]

    @classmethod
    def of(cls, items: list[Raw], places: list[Place], place: Place) -> Row:
        """Put items and their places together."""
        row = cls(items)
        row.place = place
        row.values_at = tuple(places)
        return row


@dataclass
class Manuscript:
    """One file as written: its name, its lines, its raw tree, and the faults found so far."""

    name: str
    text: str = ""
    lines: list[str] = field(default_factory=list)
    tree: Table = field(default_factory=Table)
    faults: list[Fault] = field(default_factory=list)
    lost: set[Path] = field(default_factory=set)

    def add(self, id: str, place: Place, path: Path = (), **told: str) -> None:
        """Take down a fault at a place."""
        self.faults.append(self.placed(fault(id, path=path, variants=(), **told), place))

    def tell(self, id: str, path: Path, *, at_key: bool = False, **told: str) -> None:
        """Take down a fault at what a path leads to in the file."""
        self.add(id, place_of(self.tree, path, at_key=at_key), path, **told)

    def placed(self, one: Fault, place: Place) -> Fault:
        """A fault told at a place that counts from 0."""
        line, column = place
        written = self.lines[line] if line < len(self.lines) else ""
        return one.at(self.name, line + 1, column + 1, written)

    def located(self, one: Fault, tree: Raw) -> Fault:
        """A fault told where its path leads in a tree: a missing key at what it is missing from."""
        path = one.path[:-1] if one.id == "missing key" or one.path[-1:] == ("[key]",) else one.path
        is_of_key = path != one.path or (bool(path) and one.found == path[-1])
        return self.placed(one, place_of(tree, path, at_key=is_of_key))


def place_of(tree: Raw, path: Path, *, at_key: bool = False) -> Place:
    """The place of what a path leads to; of the last thing it does lead to where it breaks off.

    What stands under its key is told at the key.
    """
    place: Place = tree.place if isinstance(tree, (Table, Row)) else (0, 0)
    for depth, key in enumerate(path):
        step = _step(tree, key)
        if step is None:
            continue
        tree, key_at, value_at = step
        is_below = isinstance(tree, (Table, Row)) and key_at[0] < value_at[0]
        place = key_at if is_below or (at_key and depth == len(path) - 1) else value_at
    return place


def _step(tree: Raw, key: Key) -> tuple[Raw, Place, Place] | None:
    if isinstance(tree, Table):
        name = tuple(tree)[key] if isinstance(key, int) and key < len(tree) else key
        if isinstance(name, str) and name in tree:
            return tree[name], tree.keys_at[name], tree.values_at[name]
    if isinstance(tree, Row) and isinstance(key, int) and key < len(tree):
        return tree[key], tree.values_at[key], tree.values_at[key]
    return None


def read(source: str | bytes, name: str, first_key: str) -> Manuscript:
    """Read a file's text into its raw tree; `first_key` is what the file has to begin with, as in `layshaft book`."""
    script = Manuscript(name)
    text = _decoded(source, script)
    if text is None:
        return script
    script.text = text
    script.lines = text.split("\n")
    text = _seen(text, script)
    _Composer(script).compose(text)
    if not any(one.id in FATAL for one in script.faults):
        _check_first_key(script, first_key)
    return script


KINDS = frozenset(["layshaft book", "layshaft shop", "layshaft job"])
"""What the first key of a file says that it is."""

FATAL = frozenset(
    [
        "too large", "not utf-8", "not yaml", "too deep", "alias growth", "not a table", "empty file",
        "wrong kind of file", "another kind of file", "newer version", "version",
    ]
)  # fmt: skip
"""Faults after which nothing that could still be said of a file would help."""


def _decoded(source: str | bytes, script: Manuscript) -> str | None:
    data = source.encode("utf-8", "surrogatepass") if isinstance(source, str) else source
    if len(data) > MOST_BYTES:
        script.add("too large", (0, 0), found=f"{len(data):,} bytes", needed=f"at most {MOST_BYTES:,} bytes")
        return None
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or data[:4] in (b"\x00\x00\xfe\xff", b"\x00"):
        script.add("not utf-8", (0, 0), found="text in UTF-16 or UTF-32")
        return None
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start)
        column = error.start - data.rfind(b"\n", 0, error.start) - 1
        script.add("not utf-8", (line, column), found=f"byte {data[error.start]:#04x}")
        return None
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def _seen(text: str, script: Manuscript) -> str:
    """Tell every tab and unseen sign, and read on with blanks in their place."""
    written = script.lines
    hits = [(number, hit) for number, line in enumerate(written) if (hit := _UNSEEN.search(line))]
    if not hits:
        return text
    script.lines = [_UNSEEN.sub(" ", line) for line in written]
    for number, hit in hits[:MOST_OF_A_KIND]:
        sign = hit.group()
        if sign == "\t":
            script.add("tab", (number, hit.start()))
        else:
            name = unicodedata.name(sign, "").lower()
            script.add(
                "unseen sign",
                (number, hit.start()),
                found=f"U+{ord(sign):04X}" + (f", {name}" if name else ""),
                try_="write the picture it joins in words" if sign == _JOINER else "",
            )
    return "\n".join(script.lines)


_PROBLEMS = {
    "did not find expected ',' or ']'": "no `,` or `]` where one is due",
    "did not find expected ',' or '}'": "no `,` or `}` where one is due",
    "did not find expected key": "something that is no key of the table",
    "did not find expected '-' indicator": "something that is no item of the list",
    "did not find expected node content": "a sign that no value can begin with unless it is in quotes",
    "found character that cannot start any token": "a sign that no value can begin with unless it is in quotes",
    "mapping values are not allowed in this context": "a `: ` in the middle of a text that is not in quotes",
    "could not find expected ':'": "a line without the `:` that a key needs",
    "found unexpected end of stream": "the end of the file",
    "found unexpected document indicator": "`---` or `...`",
}
_CONTEXTS = {
    "flow sequence": "the list",
    "flow mapping": "the table in braces",
    "flow node": "the brackets or braces",
    "block mapping": "the table",
    "block collection": "the list",
    "quoted scalar": "the text in quotes",
    "simple key": "the key",
}


class _Composer:
    """Builds the raw tree from the parser's events."""

    def __init__(self, script: Manuscript) -> None:
        self.script = script
        self.anchors: dict[str, tuple[Raw, int]] = {}
        self.written = 0
        self.repeated = 0

    def compose(self, text: str) -> None:
        try:
            self._documents(text)
        except MarkedYAMLError as error:
            self._not_yaml(error)
        except YAMLError as error:
            self.script.add("not yaml", (0, 0), found=str(error).splitlines()[0])
        except _StopReading:
            pass

    def _not_yaml(self, error: MarkedYAMLError) -> None:
        mark = error.problem_mark or error.context_mark
        last = max(0, len(self.script.lines) - 1)
        place = (min(mark.line, last), mark.column if mark.line <= last else 0) if mark else (0, 0)
        found = _PROBLEMS.get(error.problem or "", error.problem or "text that cannot be read")
        if error.context and error.context_mark:
            what = next((said for word, said in _CONTEXTS.items() if word in error.context), "what was")
            found += f", in {what} begun on line {error.context_mark.line + 1}"
        self.script.add("not yaml", place, found=found)

    def _documents(self, text: str) -> None:
        reader = YAML(typ="safe", pure=False)
        self.events = iter(reader.parse(text))
        documents = 0
        for event in self.events:
            if type(event).__name__ != "DocumentStartEvent":
                continue
            documents += 1
            if documents > 1:
                self.script.add("second document", _at(event))
                raise _StopReading
            self._document()
        if not documents:
            self.script.add("empty file", (0, 0))

    def _document(self) -> None:
        event = next(self.events)
        value = self._node(event, (), 0)
        if isinstance(value, Table):
            self.script.tree = value
        elif value is None:
            self.script.add("empty file", (0, 0))
        else:
            kind = "a list" if isinstance(value, Row) else "a single value"
            self.script.add("not a table", _at(event), found=kind)

    def _node(self, event: Any, path: Path, depth: int) -> Raw:
        kind = type(event).__name__
        if kind == "AliasEvent":
            return self._alias(event, path)
        if event.tag is not None:
            self.script.add("tag", _at(event), path, found=str(event.tag))
        before = self.written
        self.written += 1
        if kind == "ScalarEvent":
            value: Raw = event.value
            if event.implicit[0] and event.style in ("", None) and value in _NOTHING:
                value = None
        else:
            if depth >= MOST_DEPTH:
                self.script.add("too deep", _at(event), path, needed=f"at most {MOST_DEPTH} levels")
                raise _StopReading
            value = (self._table if kind == "MappingStartEvent" else self._row)(event, path, depth)
        if event.anchor:
            self.anchors[event.anchor] = (value, self.written - before)
        return value

    def _alias(self, event: Any, path: Path) -> Raw:
        if event.anchor not in self.anchors:
            self.script.add("unknown alias", _at(event), path, found=f"*{event.anchor}")
            return None
        value, size = self.anchors[event.anchor]
        self.written += size
        self.repeated += size
        if self.repeated > MOST_REPEATED:
            self.script.add("alias growth", _at(event), path, found=f"more than {MOST_REPEATED:,} repeated values")
            raise _StopReading
        return value

    def _table(self, start: Any, path: Path, depth: int) -> Table:
        table = Table(_at(start))
        for event in self.events:
            if type(event).__name__ == "MappingEndEvent":
                break
            key_at = _at(event)
            if type(event).__name__ != "ScalarEvent":
                self.script.add("key not text", key_at, path)
                self._node(event, path, depth + 1)
                self._node(next(self.events), path, depth + 1)
                continue
            key = event.value
            if event.tag is not None or event.anchor:
                self.script.add("tag", key_at, path, found=str(event.tag or f"&{event.anchor}"))
            value_event = next(self.events)
            value_at = _at(value_event)
            value = self._node(value_event, (*path, key), depth + 1)
            if key in table:
                first = table.keys_at[key][0] + 1
                self.script.add("duplicate key", key_at, (*path, key), found=key, first=str(first))
                continue
            if key.strip() == "":
                self.script.add("key not text", key_at, path)
                continue
            if value is None:
                self.script.lost.add((*path, key))
                if type(value_event).__name__ != "AliasEvent":
                    is_bare = start.flow_style and value_at == _end(event)
                    told = "comma in braces" if is_bare else "nothing written"
                    self.script.add(told, key_at, (*path, key), found=f"`{key}`")
                continue
            table.put(key, value, key_at, value_at)
        return table

    def _row(self, start: Any, path: Path, depth: int) -> Row:
        items: list[Raw] = []
        places: list[Place] = []
        for event in self.events:
            if type(event).__name__ == "SequenceEndEvent":
                break
            value = self._node(event, (*path, len(items)), depth + 1)
            if value is None:
                if type(event).__name__ != "AliasEvent":
                    self.script.add("nothing written", _at(event), (*path, len(items)), found="a list item")
                continue
            items.append(value)
            places.append(_at(event))
        return Row.of(items, places, _at(start))


class _StopReading(Exception):
    """Reading cannot go on."""


def _at(event: Any) -> Place:
    return event.start_mark.line, event.start_mark.column


def _end(event: Any) -> Place:
    return event.end_mark.line, event.end_mark.column


def _check_first_key(script: Manuscript, first_key: str) -> None:
    tree = script.tree
    first = next(iter(tree), "")
    if first_key not in tree:
        script.add(
            "another kind of file" if first in KINDS else "wrong kind of file",
            tree.keys_at.get(first, (0, 0)),
            (first,) if first else (),
            found=first or "nothing",
            needed=f"`{first_key}: {VERSION}`",
            key=first_key,
            kind=first_key.removeprefix("layshaft "),
            other=first.removeprefix("layshaft "),
        )
        return
    if first != first_key:
        script.add("first key", tree.keys_at[first_key], (first_key,), found=first, needed=f"`{first_key}: {VERSION}`")
    version = tree[first_key]
    if version != str(VERSION):
        newer = isinstance(version, str) and version.isdecimal() and int(version) > VERSION
        script.add(
            "newer version" if newer else "version",
            tree.values_at[first_key],
            (first_key,),
            found=version if isinstance(version, str) else "a list or a table",
            needed=str(VERSION),
        )
