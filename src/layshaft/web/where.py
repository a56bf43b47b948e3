"""Where things are: every unit by its place, and a search that finds anything."""

from __future__ import annotations

from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from layshaft.shop.ledger.models import Job, Place
from layshaft.web.page import asks_for, page

SHOWN = 200
"""So many units of one place are told; a shop that has more looks for one by name."""


@require_GET
@asks_for("look around")
def where(request: HttpRequest) -> HttpResponse:
    """The page that the shop opens with."""
    asked = " ".join(request.GET.get("for", "").split())
    if asked:
        return page(request, "found.html", {"asked": asked, "jobs": find(asked)[:SHOWN]})
    here = [place for place in Place if place is not Place.GONE]
    jobs = list(Job.objects.filter(place__in=here).select_related("book")[: SHOWN * len(here)])
    places = [(place.value, [job for job in jobs if job.place == place]) for place in here]
    return page(request, "where.html", {"places": places, "is_empty": not jobs and not Job.objects.exists()})


def find(asked: str) -> QuerySet[Job]:
    """Jobs that every word of a search is found in: number, customer, serial, unit, complaint."""
    found = Job.objects.select_related("book")
    for word in asked.casefold().split():
        found = found.filter(Q(number__icontains=word) | Q(summary__contains=word))
    return found
