"""What each command does: it opens what was named, asks the rooms below, and writes what they answer.

Each returns whether all is well: no fault found, or the work done. Heavy imports stay inside.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from layshaft.cli.screen import tell
from layshaft.cli.stop import clearing_away

_OF_BOOKS = "A job says itself which variant it is and what it wants: --variant, --to and --open are for books."


class Misuse(Exception):
    """The command was understood, but names something that is not there."""


def run_check(given: argparse.Namespace) -> bool:
    """Write the report of one file."""
    from layshaft.shop.check import check_file

    report = check_file(Path(given.file), _folders(given), _path(given.shop))
    tell(report.json() if given.json else report.text())
    return report.is_clean


def run_teardown(given: argparse.Namespace) -> bool:
    """Write the order to take a unit apart: a whole one by its book, a job's from the state it is in."""
    from layshaft.shop.teardown import is_job, take_down_file

    if is_job(given.book):
        if given.variant or given.to or given.open:
            raise Misuse(_OF_BOOKS)
        found = take_down_file(Path(given.book), _path(given.shop), _folders(given))
        tell(_as_json(found.data) if given.json else found.text)
        return True
    if given.shop:
        raise Misuse(f"{given.book} is no job file: --shop is for the shop file of a job.")
    return _take_down_book(given)


def _take_down_book(given: argparse.Namespace) -> bool:
    from layshaft.plan.press_use import warned_by_book
    from layshaft.plan.teardown import order_teardown, start_state

    unit, bench, loads = _opened(given)
    start = start_state(unit)
    to = _parts(unit, given.to)
    plan = order_teardown(bench, loads, start, to, _parts(unit, given.open))
    reached = f" as far as {', '.join(to)}" if to else ""
    return _show(warned_by_book(bench, loads, plan, start), unit, f"teardown{reached}", given.json)


def run_assembly(given: argparse.Namespace) -> bool:
    """Write the order to put a unit together."""
    from layshaft.plan.assembly import order_assembly
    from layshaft.plan.press_use import warned_by_book
    from layshaft.plan.teardown import order_teardown, start_state

    unit, bench, loads = _opened(given)
    start = start_state(unit)
    down = order_teardown(bench, loads, start, _parts(unit, given.to), _parts(unit, given.open))
    plan = order_assembly(bench, loads, down.taken_off)
    return _show(warned_by_book(bench, loads, plan, start), unit, "assembly", given.json)


def run_rebuild(given: argparse.Namespace) -> bool:
    """Take a whole job through and write its build sheet."""
    from layshaft.shop.rebuild import rebuild_job

    with clearing_away():
        written = rebuild_job(Path(given.job), _path(given.out), _path(given.shop), _folders(given))
    tell(_as_json(written.data) if given.json else written.text)
    return True


def run_schema(given: argparse.Namespace) -> bool:
    """Write a JSON Schema."""
    from layshaft.book.schema import book_schema
    from layshaft.book.sheet_schema import job_schema, shop_schema

    tell(_as_json({"book": book_schema, "shop": shop_schema, "job": job_schema}[given.kind]()))
    return True


def run_completion(given: argparse.Namespace) -> bool:
    """Write a completion script."""
    from layshaft.cli.completion import completion_script

    tell(completion_script(given.shell))
    return True


def _as_json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)


def _path(text: str | None) -> Path | None:
    return None if text is None else Path(text)


def _folders(given: argparse.Namespace) -> tuple[Path, ...]:
    from layshaft.shop.shelf import folders_named

    return folders_named(given.books)


def _opened(given: argparse.Namespace) -> tuple[Any, Any, Any]:
    from layshaft.book.size import Sizes
    from layshaft.plan.bench import Bench
    from layshaft.plan.load import Loads
    from layshaft.shop.shelf import open_book

    book = open_book(given.book, _folders(given))
    unit = book.unit(_variant(book, given.variant))
    bench = Bench(unit)
    return unit, bench, Loads(bench, Sizes(unit).at_any_size())


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
    from layshaft.cli.part import find_part

    found = []
    for name in names:
        part, hint = find_part(unit, name)
        if part is None:
            raise Misuse(f"{unit.id} {unit.variant} has no part `{name}`.{hint}")
        found.append(part)
    return tuple(dict.fromkeys(found))


def _show(plan: Any, unit: Any, what: str, as_json: bool) -> bool:
    from layshaft.paper.data import plain
    from layshaft.paper.plan_text import plan_text
    from layshaft.paper.sheet import DEFER

    if as_json:
        tell(_as_json(plain(plan)))
    else:
        title = f"{unit.name}, {unit.variant}: {what}"
        tell(plan_text(plan, title) + "\n" + DEFER + (" Invented data." if unit.invented else ""))
    return True
