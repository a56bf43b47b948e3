"""Taking a unit in, and one job's own page: what came, where it is, what was written."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from layshaft.shop.ledger.desk import book_of, find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.fold import Line, standing
from layshaft.shop.ledger.intake import TakenIn, take_in
from layshaft.shop.ledger.models import BookRevision, Person, Place
from layshaft.shop.ledger.standing import standing_of
from layshaft.web.page import asks_for, page
from layshaft.web.sent import key_of, send
from layshaft.web.sentence import sentence_of


def newest_books() -> list[BookRevision]:
    """The newest revision of each unit book."""
    newest: dict[str, BookRevision] = {}
    for row in BookRevision.objects.defer("text").order_by("name", "-revision"):
        newest.setdefault(row.book, row)
    return list(newest.values())


@require_http_methods(["GET", "POST"])
@asks_for("take a job in")
def new_job(request: HttpRequest) -> HttpResponse:
    """The form, and what it sends."""
    told = ""
    if request.method == "POST":
        try:
            return _take_in(request)
        except Refused as refusal:
            told = refusal.sentence
    units, faulty = [], []
    for book in newest_books():
        try:
            units.append((book, list(book_of(book).variants)))
        except Refused as refusal:
            faulty.append((book, refusal.sentence))
    context: dict[str, Any] = {"units": units, "faulty": faulty, "told": told, "typed": request.POST}
    return page(request, "new_job.html", context, 200 if not told else 409)


def _take_in(request: HttpRequest) -> HttpResponse:
    sent = request.POST
    book, _, variant = sent.get("unit", "").partition(" ")
    if not (book.isascii() and book.isdigit()):
        raise Refused("unit", "Which unit is it? Choose one.")
    taken = TakenIn(
        book=get_object_or_404(BookRevision, pk=int(book)), variant=variant, customer=sent.get("customer", ""),
        reach=sent.get("reach", ""), serial=sent.get("serial", ""), complaint=sent.get("complaint", ""),
        key=key_of(request),
    )  # fmt: skip
    job = take_in(taken, request.person)
    lines = [("complaint", sent.get("complaint", "").strip()), ("evidence", sent.get("evidence", "").strip())]
    lines.append(("missing", sent.get("missing", "").strip()))
    for at, (kind, words) in enumerate(lines, 1):
        if words:
            send(request, job.number, kind, {"words": words}, at)
    return HttpResponseRedirect(reverse("job", args=(job.number,)))


@require_GET
@asks_for("look around")
def job(request: HttpRequest, number: str) -> HttpResponse:
    """One job: what came in, where it is, what is open, and everything that was written."""
    found = find_job(number)
    stand = standing_of(found)
    names = dict(Person.objects.values_list("key", "name"))
    stands = standing(stand.desk.lines)
    lines = [_said(line, stands[line.number], names) for line in reversed(stand.desk.lines)]
    asked = request.GET.get("entry", "")
    told = {
        "job": found, "stand": stand, "places": Place.values, "intake": stand.desk.content.intake,
        "days": [(day, list(of_day)) for day, of_day in groupby(lines, lambda line: line["at"][:10])],
        "waiting": [line for line in lines if line["stands"] == "waits" or str(line["number"]) == asked],
    }  # fmt: skip
    return page(request, "job.html", told)


def _said(line: Line, stands: str, names: dict[str, str]) -> dict[str, Any]:
    """One entry as the page tells it."""
    return {
        "number": line.number, "at": line.at, "by": names.get(line.by, line.by), "waits": line.waits,
        "stands": stands, "told": sentence_of(line.kind, line.body),
        "may_settle": line.kind not in ("took in", "settled"),
    }  # fmt: skip


@require_POST
@asks_for("move a unit")
def place(request: HttpRequest, number: str) -> HttpResponse:
    """Say where a unit is now."""
    found = find_job(number)
    body = {"from": found.place, "to": request.POST.get("to", ""), "why": request.POST.get("why", "").strip()}
    send(request, number, "placed", body)
    return HttpResponseRedirect(reverse("job", args=(number,)))


@require_POST
@asks_for("settle a doubt")
def settle(request: HttpRequest, number: str, entry: int) -> HttpResponse:
    """Say whether an entry that waits, or any other, counts."""
    body = {"entry": entry, "counts": request.POST.get("counts") == "yes", "why": request.POST.get("why", "").strip()}
    send(request, number, "settled", body)
    return HttpResponseRedirect(reverse("job", args=(number,)))
