"""Unit books: which revisions are here, a new one handed in with what its check says, any of them to take away."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from layshaft.book import check_book
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import BookRevision, Job
from layshaft.shop.ledger.stock import add_book
from layshaft.web.page import asks_for, page

LARGEST = 2_000_000
"""Bytes that a book may have."""


@require_GET
@asks_for("look around")
def books(request: HttpRequest) -> HttpResponse:
    """Every revision of every book."""
    return _page(request)


def _page(request: HttpRequest, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    rows = list(BookRevision.objects.defer("text").select_related("by"))
    used = set(Job.objects.values_list("book", flat=True).distinct())
    told = {"rows": [(row, row.pk in used) for row in rows], **(more or {})}
    return page(request, "books.html", told, status)


@require_http_methods(["POST"])
@asks_for("add books")
def add(request: HttpRequest) -> HttpResponse:
    """A book handed in: taken if its check finds nothing to mend, else told by line."""
    sent = request.FILES.get("book")
    try:
        if sent is None:
            raise Refused("no file", "No file came with it: choose the book's file first.")
        if sent.size > LARGEST:
            raise Refused("large", f"The file has {sent.size} bytes; a book has at most {LARGEST}. Nothing was taken.")
        text = sent.read()
        report = check_book(text, "book.yaml")
        if not report.is_clean:
            told = f"Nothing was taken: {len(report.faults)} to mend, told below by line."
            return _page(request, {"told": told, "faults": report.faults}, 409)
        row = add_book(text, request.person)
    except Refused as refusal:
        return _page(request, {"told": refusal.sentence}, 409)
    return HttpResponseRedirect(f"{reverse('books')}#b{row.pk}")


@require_GET
@asks_for("look around")
def file(request: HttpRequest, revision: int) -> HttpResponse:
    """A revision as it was handed in."""
    row = get_object_or_404(BookRevision, pk=revision)
    answer = HttpResponse(bytes(row.text), content_type="application/yaml; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{_plain(row.book)}-{row.revision}.yaml"'
    return answer


def _plain(text: str) -> str:
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign in "-_") else "-" for sign in text)
