"""Checking one file of any kind: a book, a shop file with the books on the shelf, or a job file with what it quotes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from layshaft.book import FaultReport, check_book
from layshaft.book.sheet import SheetFaults, load_job
from layshaft.book.sheet_check import check_shop_beside, check_shop_text
from layshaft.shop.replay import check_job_replayed
from layshaft.shop.shelf import Desk, Shelf, kind_of, open_desk, read_file


def with_shop(report: FaultReport, desk: Desk) -> FaultReport:
    """A job's report with that of its shop file, where that has a fault; a faulty book is not opened at all."""
    shop = check_shop_beside(desk.shop, (desk.book,))
    return report if shop.is_clean else replace(report, beside=(shop,))


def check_file(path: Path, books: tuple[Path, ...] = (), shop: Path | None = None) -> FaultReport:
    """Every fault of a file, by the kind that its first key says; `shop` is the shop file of a job."""
    data = read_file(path)
    kind = kind_of(data)
    if kind == "shop":
        return check_shop_text(data, str(path), Shelf.around(path, books).books())
    if kind == "job":
        try:
            load_job(data, str(path))
        except SheetFaults as faults:
            return faults.report
        desk = open_desk(path, shop, books)
        return with_shop(check_job_replayed(desk.job, desk.book, desk.shop.content), desk)
    return check_book(data, str(path))
