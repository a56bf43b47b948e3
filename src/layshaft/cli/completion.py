"""Scripts that let a shell complete this command: words, files, and the books, variants and parts that are at hand.

The names of books are those on the shelf when the script is printed; print it again when a book comes in.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import shtab

from layshaft.cli.parser import NAME, build_parser

_BASH = """\
_layshaft_words() {{
  local IFS=$' \\t\\n'
  compgen -W "$2" -- "$1"
}}
_layshaft_books_or_file() {{ compgen -f -- "$1"; _layshaft_words "$1" "{book}"; }}
_layshaft_variants() {{ _layshaft_words "$1" "{variant}"; }}
_layshaft_parts() {{ _layshaft_words "$1" "{part}"; }}
_layshaft_any_file() {{ compgen -f -- "$1"; }}
_layshaft_any_dir() {{ compgen -d -- "$1"; }}
"""
_ZSH = """\
_layshaft_books_or_file() {{ _files; compadd -- {book}; }}
_layshaft_variants() {{ compadd -- {variant}; }}
_layshaft_parts() {{ compadd -- {part}; }}
"""
_FILE = {"bash": "_layshaft_any_file", "zsh": "_files", "tcsh": "f"}
_TAKEN = {
    "FILE": _FILE,
    "JOB": _FILE,
    "FOLDER": {"bash": "_layshaft_any_dir", "zsh": "_files -/", "tcsh": "d"},
    "BOOK": {"bash": "_layshaft_books_or_file", "zsh": "_layshaft_books_or_file", "tcsh": "f"},
    "VARIANT": {"bash": "_layshaft_variants", "zsh": "_layshaft_variants", "tcsh": "n"},
    "PART": {"bash": "_layshaft_parts", "zsh": "_layshaft_parts", "tcsh": "n"},
}
"""What completes an argument, by what help calls it."""


def completion_script(shell: str) -> str:
    """The script for one shell."""
    parser = build_parser(NAME)
    for action in _actions(parser):
        if action.metavar in _TAKEN:
            vars(action)["complete"] = _TAKEN[str(action.metavar)]
    words = {kind: " ".join(names) for kind, names in _names().items()}
    preamble = {"bash": _BASH.format(**words), "zsh": _ZSH.format(**words)}
    return str(shtab.complete(parser, shell=shell, preamble=preamble.get(shell, "")))


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for below in action.choices.values():
                yield from _actions(below)


def _names() -> dict[str, list[str]]:
    """The ids of the books at hand, and of the variants and parts in them; a faulty book lends no names."""
    from layshaft.book.book import BookFaults
    from layshaft.shop.shelf import Shelf, ShelfFault

    shelf = Shelf.around(Path("x"))
    found: dict[str, dict[str, None]] = {"book": {}, "variant": {}, "part": {}}
    for id in shelf.ids():
        try:
            book = shelf.book(id)
            units = [book.unit(variant) for variant in book.variants]
        except (BookFaults, ShelfFault):
            continue
        found["book"][id] = None
        found["variant"] |= dict.fromkeys(_words(book.variants))
        found["part"] |= dict.fromkeys(part for unit in units for part in unit.parts)
    return {kind: sorted(_words(names)) for kind, names in found.items()}


def _words(names: Iterable[Any]) -> list[str]:
    """Names that a shell reads as one plain word; another cannot be offered without quoting it."""
    return [str(name) for name in names if all(sign.isalnum() or sign in "-_.+" for sign in str(name))]
