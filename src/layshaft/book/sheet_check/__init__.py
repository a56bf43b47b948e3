"""What shop and job files have to agree on, with themselves, with each other and with a book."""

from __future__ import annotations

from collections.abc import Iterable

from layshaft.book.book import Book
from layshaft.book.definition import Job, Shop, Unit
from layshaft.book.fault import FaultReport
from layshaft.book.sheet import Sheet, SheetFaults, load_job, load_shop
from layshaft.book.sheet_check.event import event_faults
from layshaft.book.sheet_check.happening import happening_faults
from layshaft.book.sheet_check.line import book_line_faults, narrow_shop, split_line, strange_line_faults
from layshaft.book.sheet_check.look import look_faults
from layshaft.book.sheet_check.order import order_faults
from layshaft.book.sheet_check.quote import quote_faults, variant_faults
from layshaft.book.sheet_check.reading import reading_faults
from layshaft.book.sheet_check.selective import unread_size_faults
from layshaft.book.sheet_check.shop import shop_faults
from layshaft.book.sheet_check.subject import Subject
from layshaft.quantity import nearest

__all__ = [
    "check_job",
    "check_job_beside",
    "check_job_text",
    "check_shop",
    "check_shop_beside",
    "check_shop_lines",
    "check_shop_text",
    "narrow_shop",
    "split_line",
    "unit_of",
]


def check_shop(sheet: Sheet[Shop]) -> FaultReport:
    """Every fault and note of a shop file by itself."""
    return sheet.report(list(shop_faults(sheet.content)))


def check_shop_lines(sheet: Sheet[Shop], book: Book) -> FaultReport:
    """Every fault and note of a shop's drawer and prices as far as they are of one book's parts."""
    return sheet.report(list(book_line_faults(sheet.content, book)))


def check_shop_beside(sheet: Sheet[Shop], books: Iterable[Book]) -> FaultReport:
    """Every fault and note of a shop file by itself, and of what it sells for some books."""
    lines = [one for book in books for one in check_shop_lines(sheet, book).found]
    return FaultReport.of(sheet.name, [*check_shop(sheet).found, *lines])


def unit_of(sheet: Sheet[Job], book: Book) -> Unit:
    """The unit a job is of; raise `SheetFaults` where the book has no such variant."""
    report = sheet.report(list(variant_faults(sheet.content, book)))
    if not report.is_clean:
        raise SheetFaults(report)
    return book.unit(sheet.content.variant)


def check_job(sheet: Sheet[Job], unit: Unit, shop: Shop) -> FaultReport:
    """Every fault and note of a job beside the unit and the shop it was done with."""
    subject = Subject(sheet.content, unit, shop)
    checks = (
        quote_faults,
        look_faults,
        reading_faults,
        unread_size_faults,
        event_faults,
        order_faults,
        happening_faults,
    )
    return sheet.report([one for check in checks for one in check(subject)])


def check_shop_text(text: str | bytes, name: str, books: Iterable[Book] = ()) -> FaultReport:
    """Read a shop file and report every fault and note of it, by itself and beside the books it sells for."""
    try:
        sheet = load_shop(text, name)
    except SheetFaults as faults:
        return faults.report
    known = tuple(books)
    strange = sheet.report(list(strange_line_faults(sheet.content, known))).found if known else ()
    return FaultReport.of(name, [*check_shop_beside(sheet, known).found, *strange])


def check_job_text(text: str | bytes, name: str, book: Book, shop: Shop) -> FaultReport:
    """Read a job file and report every fault and note of it beside its book and its shop."""
    try:
        sheet = load_job(text, name)
    except SheetFaults as faults:
        return faults.report
    return check_job_beside(sheet, book, shop)


def check_job_beside(sheet: Sheet[Job], book: Book, shop: Shop) -> FaultReport:
    """Every fault and note of a job; one of a variant that is not there is checked as the nearest that is."""
    wrong = sheet.report(list(variant_faults(sheet.content, book)))
    variant = sheet.content.variant
    near = variant if variant in book.variants else nearest(variant, tuple(book.variants))
    if near is None:
        return wrong
    beside = check_job(sheet, book.unit(near), shop).found
    return FaultReport.of(wrong.file, [*wrong.found, *(one for one in beside if one.id != "another variant")])
