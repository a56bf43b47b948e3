"""The `layshaft` command: thin, over the same functions as everything else. Results go to stdout, refusals to stderr.

Exit codes: 0 done, 1 the file has faults or the question has no answer, 2 the command was not understood.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from layshaft import __version__

DONE, FAULTY, MISUSED = 0, 1, 2

_ABOUT = """\
Works out the rebuild of a geared driveline unit from its book and one job's looks and readings.
It informs trained people; maker's data, the equipment's rating and local codes come first.
"""

_EXAMPLES = """\
examples:
  layshaft check books/overtop/book.yaml          every fault of a file, with its line
  layshaft teardown overtop --variant OT6         the order to take it apart, and why
  layshaft teardown overtop --variant OT6 --to OT-053
                                                  the least work that reaches one part
  layshaft assembly overtop --variant OT6         the order to put it together
  layshaft rebuild books/demo/job.yaml --out out  the whole job, with its build sheet
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    _speak_utf8()
    parser = build_parser()
    given = parser.parse_args(argv)
    if given.run is None:
        parser.print_help()
        return MISUSED
    try:
        return int(given.run(given))
    except KeyboardInterrupt:
        _complain("Stopped.")
        return FAULTY
    except BrokenPipeError:
        return DONE
    finally:
        _finish()


def _finish() -> None:
    """Send off what was printed; a reader that went away early, as `head` does, is no fault."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _speak_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def build_parser() -> argparse.ArgumentParser:
    """The whole command line, as help and completion show it."""
    parser = _parser("layshaft", _ABOUT, _EXAMPLES)
    parser.add_argument("--version", action="version", version=f"layshaft {__version__}")
    parser.set_defaults(run=None)
    commands = parser.add_subparsers(metavar="COMMAND")
    _add_check(commands)
    _add_order(commands, "teardown", "the order to take a unit apart, or to reach parts of it", run_teardown)
    _add_order(commands, "assembly", "the order to put a unit together, with its checks", run_assembly)
    _add_rebuild(commands)
    _add_schema(commands)
    _add_completion(commands)
    return parser


def _parser(name: str, about: str, examples: str = "") -> argparse.ArgumentParser:
    shape = argparse.RawDescriptionHelpFormatter
    return argparse.ArgumentParser(name, description=about, epilog=examples, formatter_class=shape, allow_abbrev=False)


Run = Callable[[argparse.Namespace], int]


def _command(commands: Any, name: str, about: str, run: Run) -> argparse.ArgumentParser:
    shape = argparse.RawDescriptionHelpFormatter
    made: argparse.ArgumentParser = commands.add_parser(
        name, help=about, description=about[0].upper() + about[1:] + ".", formatter_class=shape, allow_abbrev=False
    )
    made.set_defaults(run=run)
    return made


def _json_flag(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="as JSON, for other programs")


def _books_flag(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--books", action="append", default=[], metavar="FOLDER", help="look for books here first")


def _add_check(commands: Any) -> None:
    parser = _command(commands, "check", "every fault of a unit book, shop file or job file", run_check)
    parser.add_argument("file", metavar="FILE", help="the file to read")
    _json_flag(parser)
    _books_flag(parser)


def _add_order(commands: Any, name: str, about: str, run: Run) -> None:
    parser = _command(commands, name, about, run)
    parser.add_argument("book", metavar="BOOK", help="a book's file, its folder, or its id")
    parser.add_argument("--variant", metavar="NAME", help="which variant; may be left out where there is one")
    parser.add_argument("--to", action="append", default=[], metavar="PART", help="only as far as this; repeatable")
    parser.add_argument("--open", action="append", default=[], metavar="PART", help="take this apart too; repeatable")
    _json_flag(parser)
    _books_flag(parser)


def _add_rebuild(commands: Any) -> None:
    parser = _command(commands, "rebuild", "a whole job: verdicts, fits, orders, price, build sheet", run_rebuild)
    parser.add_argument("job", metavar="JOB", help="the job file")
    parser.add_argument("--shop", metavar="FILE", help="the shop file, where it is not beside the job")
    parser.add_argument("--out", metavar="FOLDER", help="where the build sheet goes (default: beside the job)")
    _json_flag(parser)
    _books_flag(parser)


def _add_schema(commands: Any) -> None:
    parser = _command(commands, "schema", "the JSON Schema of a file, for editors", run_schema)
    parser.add_argument("kind", choices=("book", "shop", "job"), help="which kind of file")


def _add_completion(commands: Any) -> None:
    parser = _command(commands, "completion", "a script that lets a shell complete this command", run_completion)
    parser.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="which shell")


def run_check(given: argparse.Namespace) -> int:
    """Print the report of one file."""
    from layshaft.shop.check import check_file

    return _guarded(lambda: _report(check_file(Path(given.file), _folders(given)), given.json))


def _report(report: Any, as_json: bool) -> int:
    print(report.json() if as_json else report.text())
    return DONE if report.is_clean else FAULTY


def run_teardown(given: argparse.Namespace) -> int:
    """Print the order to take a unit apart."""
    from layshaft.plan.press_use import warned_by_book
    from layshaft.plan.teardown import order_teardown, start_state

    def work() -> int:
        unit, bench, loads = _opened(given)
        start = start_state(unit)
        plan = order_teardown(bench, loads, start, _parts(unit, given.to), _parts(unit, given.open))
        reached = f" as far as {', '.join(given.to)}" if given.to else ""
        told = warned_by_book(bench, loads, plan, start)
        return _show(told, unit, f"teardown{reached}", given.json)

    return _guarded(work)


def run_assembly(given: argparse.Namespace) -> int:
    """Print the order to put a unit together."""
    from layshaft.plan.assembly import order_assembly
    from layshaft.plan.press_use import warned_by_book
    from layshaft.plan.teardown import order_teardown, start_state

    def work() -> int:
        unit, bench, loads = _opened(given)
        start = start_state(unit)
        down = order_teardown(bench, loads, start, _parts(unit, given.to), _parts(unit, given.open))
        plan = order_assembly(bench, loads, down.taken_off)
        return _show(warned_by_book(bench, loads, plan, start), unit, "assembly", given.json)

    return _guarded(work)


def run_rebuild(given: argparse.Namespace) -> int:
    """Take a whole job through and write its build sheet."""
    from layshaft.shop.rebuild import rebuild_job

    def work() -> int:
        job = Path(given.job)
        shop = Path(given.shop) if given.shop else None
        written = rebuild_job(job, Path(given.out) if given.out else None, shop, _folders(given))
        print(json.dumps(written.data, ensure_ascii=False, indent=1) if given.json else written.text)
        return DONE

    return _guarded(work)


def run_schema(given: argparse.Namespace) -> int:
    """Print a JSON Schema."""
    from layshaft.book.schema import book_schema
    from layshaft.book.sheet_schema import job_schema, shop_schema

    made = {"book": book_schema, "shop": shop_schema, "job": job_schema}[given.kind]()
    print(json.dumps(made, ensure_ascii=False, indent=1))
    return DONE


def run_completion(given: argparse.Namespace) -> int:
    """Print a completion script."""
    import shtab

    print(shtab.complete(build_parser(), shell=given.shell))
    return DONE


def _folders(given: argparse.Namespace) -> tuple[Path, ...]:
    return tuple(Path(folder) for folder in given.books)


def _opened(given: argparse.Namespace) -> tuple[Any, Any, Any]:
    from layshaft.book.size import Sizes
    from layshaft.plan.bench import Bench
    from layshaft.plan.load import Loads
    from layshaft.shop.shelf import open_book

    book = open_book(given.book, _folders(given))
    unit = book.unit(_variant(book, given.variant))
    bench = Bench(unit)
    return unit, bench, Loads(bench, Sizes(unit))


def _variant(book: Any, name: str | None) -> str:
    from layshaft.quantity import nearest

    known = tuple(book.variants)
    if name is None and len(known) == 1:
        return str(known[0])
    if name in known:
        return str(name)
    listed = ", ".join(known)
    if name is None:
        raise Misuse(f"{book.id} has the variants {listed}. Say which with --variant.")
    near = nearest(name, known)
    hint = f" Did you mean {near}?" if near else ""
    raise Misuse(f"{book.id} has no variant `{name}`; it has {listed}.{hint}")


def _parts(unit: Any, names: Sequence[str]) -> tuple[str, ...]:
    from layshaft.quantity import nearest

    for name in names:
        if name not in unit.parts:
            near = nearest(name, tuple(unit.parts))
            hint = f" Did you mean {near} ({unit.parts[near].name.lower()})?" if near else ""
            raise Misuse(f"{unit.id} {unit.variant} has no part `{name}`.{hint}")
    return tuple(names)


class Misuse(Exception):
    """The command was understood, but names something that is not there."""


def _show(plan: Any, unit: Any, what: str, as_json: bool) -> int:
    from layshaft.paper.data import plain
    from layshaft.paper.plan_text import plan_text
    from layshaft.paper.sheet import DEFER

    if as_json:
        print(json.dumps(plain(plan), ensure_ascii=False, indent=1))
        return DONE
    print(plan_text(plan, f"{unit.name}, {unit.variant}: {what}"))
    print(DEFER + (" Invented data." if unit.invented else ""))
    return DONE


def _guarded(work: Callable[[], int]) -> int:
    from layshaft.book.book import BookFaults
    from layshaft.book.sheet import SheetFaults
    from layshaft.plan.refusal import NoAnswer
    from layshaft.shop.shelf import ShelfFault

    try:
        return work()
    except Misuse as error:
        _complain(str(error))
        return MISUSED
    except ShelfFault as error:
        _complain(str(error))
        return MISUSED
    except (BookFaults, SheetFaults) as error:
        _complain(error.report.text())
        return FAULTY
    except NoAnswer as error:
        _complain(str(error))
        return FAULTY


def _complain(sentence: str) -> None:
    print(sentence, file=sys.stderr)
