"""Photos of a job: taken on the bench or as it comes in, shown by part."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from layshaft.shop.ledger.desk import book_of, find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.photo import LARGEST, SIDES, keep_photo, photo_path
from layshaft.web.page import asks_for, page


@require_GET
@asks_for("look around")
def photos(request: HttpRequest, number: str) -> HttpResponse:
    """All photos of a job, the last first."""
    return _page(request, find_job(number))


def _page(request: HttpRequest, job: Job, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    parts = book_of(job.book).unit(job.variant).parts
    shown = [(one, parts[one.part].name if one.part in parts else "") for one in job.photos.select_related("by")]
    told = {
        "job": job,
        "photos": shown[::-1],
        "parts": [(name, part.name) for name, part in parts.items()],
        **(more or {}),
    }
    return page(request, "photos.html", told, status)


@require_http_methods(["POST"])
@asks_for("take a photo")
def add(request: HttpRequest, number: str) -> HttpResponse:
    """A photo was sent; it goes back to where it was sent from."""
    job = find_job(number)
    sent, part = request.FILES.get("photo"), request.POST.get("part", "")
    try:
        if sent is None:
            raise Refused("no file", "No photo came with it: take or choose one first.")
        if sent.size > LARGEST:
            raise Refused("large", f"The photo has {sent.size} bytes; at most {LARGEST} are taken. Send a smaller one.")
        if part and part not in book_of(job.book).unit(job.variant).parts:
            raise Refused("part", "Of which part is it? Choose one of the list, or none.")
        words = " ".join(request.POST.get("words", "").split())
        keep_photo(job, sent.read(), request.person, part=part, words=words)
    except Refused as refusal:
        return _page(request, job, {"told": refusal.sentence}, 409)
    back = "bench" if request.POST.get("then") == "bench" else "photos"
    return HttpResponseRedirect(reverse(back, args=(number,)))


@require_GET
@asks_for("look around")
def picture(request: HttpRequest, number: str, digest: str, size: str) -> HttpResponse:
    """One picture of this job, and of no other."""
    return picture_of(find_job(number), digest, size)


def picture_of(job: Job, digest: str, size: str) -> HttpResponse:
    """A picture as it lies there, if it is one of the job's."""
    if size not in SIDES or not job.photos.filter(digest=digest).exists():
        raise Http404
    try:
        content = photo_path(digest, size).read_bytes()
    except FileNotFoundError:
        raise Http404 from None
    answer = HttpResponse(content, content_type="image/jpeg")
    answer["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer
