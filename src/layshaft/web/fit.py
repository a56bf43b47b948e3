"""The fit: every pack and chain with its limit, every size with what it would give, and one size named by hand."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from layshaft.paper.fit_row import fit_lines, fit_rows, miss_lines, other_lines
from layshaft.paper.wording import capital, worded
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.telling import Telling, telling_of
from layshaft.shop.ledger.choosing import choices_by
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.standing import standing_of
from layshaft.web.page import asks_for, page
from layshaft.web.sent import send
from layshaft.web.size_row import place_rows


@require_GET
@asks_for("look around")
def fit(request: HttpRequest, number: str) -> HttpResponse:
    """What goes in, and what it gives."""
    return _page(request, find_job(number))


def _page(request: HttpRequest, job: Job, told: str = "", status: int = 200) -> HttpResponse:
    stand = standing_of(job)
    rebuilt, telling = stand.rebuilt, telling_of(stand.desk.shop)
    named = {part: line.number for part, line in choices_by(stand.desk.lines, "fit").items()}
    places = list(place_rows(rebuilt, telling, named))
    told_there = {capital(name) for row in places for name in row.moves}
    context: dict[str, Any] = {
        "job": job,
        "told": told,
        "lead": worded(fit_lines(rebuilt), telling),
        "misses": worded([*miss_lines(rebuilt, telling), *_failing(rebuilt)], telling),
        "places": places,
        "held_to": [f"{row.part} {row.chosen}" for row in places if row.named is not None],
        "rows": [row for row in worded(fit_rows(rebuilt), telling) if row["name"] not in told_there],
        "plates": _plates(rebuilt, telling),
        "others": [capital(line) for line in worded(other_lines(rebuilt, telling), telling)],
        "waiting": worded([point.sentence for point in rebuilt.fit.waiting], telling),
        "joint": _joint(rebuilt),
    }
    return page(request, "fit.html", context, status)


def _failing(rebuilt: Rebuild) -> list[str]:
    """What is outside once everything is chosen, and stands in no miss."""
    told = {one.result for miss in rebuilt.fit.misses for one in miss.failures}
    return [rebuilt.fit.values[name].sentence for name in rebuilt.fit.failing if name not in told]


def _plates(rebuilt: Rebuild, telling: Telling) -> list[str]:
    """The used plates taken from the drawer, each with its figure."""
    fit = rebuilt.fit
    return [
        f"{part} {rebuilt.unit.parts[part].name}: "
        + ", ".join(f"plate {at}, {telling.size(size)}" for at, size in zip(fit.pieces[part], figures, strict=True))
        for part, figures in fit.figures.items()
    ]


def _joint(rebuilt: Rebuild) -> str:
    """How much room there was to choose in, for all limits at once."""
    inside, failing = rebuilt.fit.sets_inside, rebuilt.fit.sets_failing
    if not inside:
        return ""
    first = f"{inside} set{'s' * (inside > 1)} of sizes meet{'s' * (inside == 1)} every single limit"
    across = f"; {failing} of them {'fails' if failing == 1 else 'fail'} one that goes across" if failing else ""
    return f"{first}{across}."


@require_POST
@asks_for("choose")
def named(request: HttpRequest, number: str) -> HttpResponse:
    """Somebody names the size of a part; all else is worked out anew around it."""
    sent = request.POST
    try:
        if not sent.get("size"):
            raise Refused("size", "Which size? Choose one of those listed.")
        body = {"fit": sent.get("part", ""), "size": sent["size"], "why": sent.get("why", "").strip()}
        send(request, number, "choice", body)
    except Refused as refusal:
        return _page(request, find_job(number), refusal.sentence, 409)
    return HttpResponseRedirect(reverse("fit", args=(number,)))


@require_POST
@asks_for("choose")
def given_up(request: HttpRequest, number: str) -> HttpResponse:
    """A named size is given up: the entry that named it is put aside, and stays on record."""
    job = find_job(number)
    part = request.POST.get("part", "")
    try:
        line = choices_by(standing_of(job).desk.lines, "fit").get(part)
        if line is None:
            raise Refused("no choice", "Nobody has named a size for this part.")
        why = request.POST.get("why", "").strip() or "the size is left to the reckoning again"
        send(request, number, "settled", {"entry": line.number, "counts": False, "why": why})
    except Refused as refusal:
        return _page(request, job, refusal.sentence, 409)
    return HttpResponseRedirect(reverse("fit", args=(number,)))
