"""The words of the command line, with help that teaches by example."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable
from typing import Any

from layshaft import __version__
from layshaft.cli import command

NAME = "layshaft"
CALLED = "LAYSHAFT_CALLED"
"""The environment variable in which start.py says how this command was called, so that examples run as printed."""

_ABOUT = """\
Works out the rebuild of a geared driveline unit from its book and one job's looks and readings.
It informs trained people; maker's data, the equipment's rating and local codes come first.
"""

EXAMPLES = {
    "check": {
        "check books/demo/job.yaml": "every fault of the demo job, each with its line",
        "check books/overtop/book.yaml --json": "the same of a unit book, for another program",
    },
    "teardown": {
        "teardown overtop --variant OT6": "the order to take it apart, and why",
        "teardown overtop --variant OT6 --to OT-053": "the least work that reaches one part",
        "teardown books/demo/job.yaml": "what is left to take down of the demo job's unit, as it is now",
    },
    "assembly": {
        "assembly overtop --variant OT6": "the order to put it together, with its checks",
        "assembly books/twinpath/book.yaml --json": "the same of another book, for another program",
    },
    "rebuild": {
        "rebuild books/demo/job.yaml --out sheets": "the demo job, its build sheet in the folder sheets",
        "rebuild books/demo/job.yaml --out sheets --shop books/demo/shop.yaml": "with a shop file named",
    },
    "schema": {"schema job": "what an editor needs to check job files while you type"},
    "completion": {"completion bash": "a script for bash; README.md says where to put it"},
}
_CODES = "exit codes: 0 done, 1 faults in a file or no answer, 2 not understood, not there or not to be read or written"

Run = Callable[[argparse.Namespace], bool]


def build_parser(called: str | None = None) -> argparse.ArgumentParser:
    """The whole command line; `called` is what people type to get here."""
    name = called or os.environ.get(CALLED) or NAME
    if "%" in name:  # argparse would fill in what it takes for a place
        name = NAME
    first = {words: told for some in EXAMPLES.values() for words, told in list(some.items())[:1]}
    parser = argparse.ArgumentParser(
        name,
        description=_ABOUT,
        epilog=f"{_shown(name, first)}\n{name} COMMAND --help tells more of each.\n{_CODES}\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"layshaft {__version__}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(metavar="COMMAND")
    _add_check(commands, name)
    _add_order(commands, name, "teardown", "the order to take a unit apart, reach parts of it, or go on with a job")
    _add_order(commands, name, "assembly", "the order to put a unit together, with its checks")
    _add_rebuild(commands, name)
    _add_schema(commands, name)
    _add_completion(commands, name)
    return parser


def _shown(name: str, examples: dict[str, str]) -> str:
    lines = ["examples:"]
    for words, told in examples.items():
        lines += [f"  {name} {words}", f"      {told}"]
    return "\n".join(lines)


def _command(commands: Any, called: str, name: str, about: str, run: Run) -> argparse.ArgumentParser:
    made: argparse.ArgumentParser = commands.add_parser(
        name,
        help=about,
        description=about[0].upper() + about[1:] + ".",
        epilog=_shown(called, EXAMPLES[name]) + "\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.set_defaults(run=run)
    return made


def _filled(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError("nothing stands here; name something")
    return text


def _json_flag(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="as JSON, for other programs")


def _books_flag(parser: argparse.ArgumentParser) -> None:
    told = "look for books here first"
    parser.add_argument("--books", action="append", default=[], metavar="FOLDER", type=_filled, help=told)


def _shop_flag(parser: argparse.ArgumentParser) -> None:
    about = "a job's shop file, where it is not beside the job"
    parser.add_argument("--shop", metavar="FILE", type=_filled, help=about)


def _add_check(commands: Any, called: str) -> None:
    about = "every fault of a unit book, shop file or job file"
    parser = _command(commands, called, "check", about, command.run_check)
    parser.add_argument("file", metavar="FILE", type=_filled, help="the file to read")
    _json_flag(parser)
    _books_flag(parser)
    _shop_flag(parser)


def _add_order(commands: Any, called: str, name: str, about: str) -> None:
    run = {"teardown": command.run_teardown, "assembly": command.run_assembly}[name]
    parser = _command(commands, called, name, about, run)
    takes_jobs = name == "teardown"
    told = "a book's file, its folder, or its id" + (", or a job's file" if takes_jobs else "")
    parser.add_argument("book", metavar="BOOK", type=_filled, help=told)
    told = "which variant; may be left out where there is one"
    parser.add_argument("--variant", metavar="VARIANT", type=_filled, help=told)
    for flag, told in {"--to": "only as far as this", "--open": "take this apart too"}.items():
        told += "; repeatable"
        parser.add_argument(flag, action="append", default=[], metavar="PART", type=_filled, help=told)
    _json_flag(parser)
    _books_flag(parser)
    if takes_jobs:
        _shop_flag(parser)


def _add_rebuild(commands: Any, called: str) -> None:
    about = "a whole job: verdicts, fits, orders, price, build sheet"
    parser = _command(commands, called, "rebuild", about, command.run_rebuild)
    parser.add_argument("job", metavar="JOB", type=_filled, help="the job file")
    _shop_flag(parser)
    told = "where the build sheet goes (default: beside the job)"
    parser.add_argument("--out", metavar="FOLDER", type=_filled, help=told)
    _json_flag(parser)
    _books_flag(parser)


def _add_schema(commands: Any, called: str) -> None:
    parser = _command(commands, called, "schema", "the JSON Schema of a file, for editors", command.run_schema)
    parser.add_argument("kind", choices=("book", "shop", "job"), help="which kind of file")


def _add_completion(commands: Any, called: str) -> None:
    about = "a script that lets a shell complete this command"
    parser = _command(commands, called, "completion", about, command.run_completion)
    parser.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="which shell")
