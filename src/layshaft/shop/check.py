"""Checking one file of any kind: a book, a shop file, or a job file against the book and shop it quotes."""

from __future__ import annotations

from pathlib import Path

from layshaft.book import FaultReport, check_book
from layshaft.book.sheet import SheetFaults, load_job, load_shop
from layshaft.shop.shelf import kind_of, read_file


def check_file(path: Path, books: tuple[Path, ...] = ()) -> FaultReport:
    """Every fault of a file, by the kind that its first key says."""
    data = read_file(path)
    kind = kind_of(data)
    if kind not in ("shop", "job"):
        return check_book(data, str(path))
    try:
        sheet = load_shop(data, str(path)) if kind == "shop" else load_job(data, str(path))
    except SheetFaults as faults:
        return faults.report
    return sheet.report([])
