"""What a customer sees of one job, by its link: what was found, what becomes of each part, price; it sends nothing."""

from __future__ import annotations

from collections.abc import Iterator

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from layshaft.paper.price_row import price_row
from layshaft.shop.ledger.customer_link import end_link, job_of_link, make_link
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.putting_check import putting_of
from layshaft.shop.ledger.standing import Standing, standing_of
from layshaft.web.page import asks_for, page
from layshaft.web.photo import picture_of

PLAIN = {
    "renew": "has to be replaced",
    "rework": "is made good and goes back in",
    "ask": "waits for your answer",
    "measure again": "is measured once more before it is decided",
    "open": "is not decided yet",
    "reuse": "is good to go back in",
}
"""Each verdict in a customer's words, in the order in which they are told."""


@require_http_methods(["GET", "POST"])
@asks_for("show a customer")
def customer(request: HttpRequest, number: str) -> HttpResponse:
    """The links of a job, and a new one; its address is told this once."""
    job = find_job(number)
    address = ""
    if request.method == "POST":
        token = make_link(job, request.person)
        address = request.build_absolute_uri(reverse("shown", args=(token,)))
    links = job.links.select_related("by", "ended_by")
    return page(request, "customer.html", {"job": job, "links": links, "address": address})


@require_POST
@asks_for("show a customer")
def end(request: HttpRequest, number: str, link: int) -> HttpResponse:
    """A link shows nothing any more."""
    end_link(find_job(number), link, request.person)
    return HttpResponseRedirect(reverse("customer", args=(number,)))


@require_GET
def shown(request: HttpRequest, token: str) -> HttpResponse:
    """The customer's page."""
    job = job_of_link(token)
    told = {"job": job} if job is None else _told(job) | {"token": token}
    return _private(render(request, "shown.html", told, status=404 if job is None else 200))


def _told(job: Job) -> dict[str, object]:
    stand = standing_of(job)
    released = putting_of(job).released
    return {
        "job": job,
        "shop": stand.desk.shop,
        "intake": stand.desk.content.intake,
        "verdicts": list(_verdicts(stand)),
        "price": price_row(stand.rebuilt),
        "photos": list(job.photos.all()),
        "released": released[-1].at[:10] if released else "",
    }


def _verdicts(stand: Standing) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """For each outcome the parts that it is said of, with the reason where something is done about them."""
    parts = stand.unit.parts
    for verdict, words in PLAIN.items():
        judged = [(part, one) for part, one in stand.judgements.items() if one.verdict == verdict]
        if judged:
            yield words, [(parts[part].name, one.reason) for part, one in judged]


@require_GET
def shown_photo(request: HttpRequest, token: str, digest: str, size: str) -> HttpResponse:
    """A photo of that job."""
    job = job_of_link(token)
    if job is None:
        return _private(render(request, "shown.html", {"job": None}, status=404))
    return _private(picture_of(job, digest, size))


def _private(answer: HttpResponse) -> HttpResponse:
    answer["Cache-Control"] = "no-store"
    answer["Referrer-Policy"] = "no-referrer"
    answer["X-Robots-Tag"] = "noindex"
    return answer
