"""Looks and readings of one part: the verdict lands with the entry, its reason beside the part."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from layshaft.book.definition import ReadingPlan
from layshaft.quantity import LENGTH, Limit, Show, usual_units
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job, Person, Role
from layshaft.shop.ledger.standing import Standing, standing_of
from layshaft.web.page import asks_for, page
from layshaft.web.sent import send


@require_GET
@asks_for("look around")
def readings(request: HttpRequest, number: str) -> HttpResponse:
    """Every part with its verdict, those that are off first, and what is still wanted of it."""
    job = find_job(number)
    stand = standing_of(job)
    off = set(stand.history.taken_off)
    rows = [_row(stand, name) for name in stand.unit.parts]
    trays = {
        "On the tray, still to be looked at or read": [row for row in rows if row["part"] in off and row["is_open"]],
        "On the tray, decided": [row for row in rows if row["part"] in off and not row["is_open"]],
        "Still in the unit": [row for row in rows if row["part"] not in off],
    }
    return page(request, "readings.html", {"job": job, "stand": stand, "trays": trays})


def _row(stand: Standing, name: str) -> dict[str, Any]:
    """One part in a list: its verdict, and whether it waits for a look or a reading that the book asks for."""
    judged = stand.judgements.get(name)
    part = stand.unit.parts[name]
    is_open = judged is None or judged.is_undecided
    return {
        "part": name,
        "name": part.name,
        "judged": judged,
        "reason": _reason(stand, name),
        "is_open": is_open and bool(part.looks or part.readings),
    }


def _reason(stand: Standing, name: str) -> str:
    """Why, without the part's name before it: the page says that already."""
    judged = stand.judgements.get(name)
    return judged.reason.removeprefix(f"{stand.unit.parts[name].name}: ") if judged else ""


def _next(stand: Standing, name: str) -> dict[str, Any] | None:
    """The next part on the tray that still waits, in the order in which they came off."""
    off = [part for part in stand.history.taken_off if part in stand.unit.parts]
    at = off.index(name) + 1 if name in off else 0
    rows = (_row(stand, part) for part in (*off[at:], *off[:at]) if part != name)
    return next((row for row in rows if row["is_open"]), None)


@require_GET
@asks_for("look around")
def part(request: HttpRequest, number: str, part: str) -> HttpResponse:
    """One part: its looks by grades, its readings by a gauge."""
    return _page(request, find_job(number), part)


def _page(
    request: HttpRequest, job: Job, name: str, more: dict[str, Any] | None = None, status: int = 200
) -> HttpResponse:
    stand = standing_of(job)
    if name not in stand.unit.parts:
        raise Refused("no job", f"This unit has no part {name}.")
    definition = stand.unit.parts[name]
    person: Person = request.person
    told = {
        "job": job,
        "name": name,
        "part": definition,
        "judged": stand.judgements.get(name),
        "looks": [(look, plan, _graded(stand, name, look)) for look, plan in definition.looks.items()],
        "reason": _reason(stand, name),
        "next": _next(stand, name),
        "readings": [
            (reading, plan, _read(stand, name, reading), units_of(plan, stand.show), _told(stand, name, reading))
            for reading, plan in definition.readings.items()
        ],
        "gauges": _gauges(stand, name),
        "shows_limits": person.role != Role.APPRENTICE,
        "pieces": range(1, definition.count + 1),
        **(more or {}),
    }
    return page(request, "part.html", told, status)


def _graded(stand: Standing, part: str, look: str) -> list[Any]:
    return [one for one in stand.desk.content.looks if (one.part, one.look) == (part, look)]


def _read(stand: Standing, part: str, reading: str) -> list[Any]:
    return [one for one in stand.desk.content.readings if (one.part, one.reading) == (part, reading)]


def _told(stand: Standing, part: str, reading: str) -> list[str]:
    """What the figures of one reading come to, a sentence each."""
    judged = stand.judgements.get(part)
    return [figure.sentence for figure in judged.figures if figure.reading == reading] if judged else []


def units_of(plan: ReadingPlan, show: Show) -> list[str]:
    """The units that a gauge for this reading may type in, the shop's own first."""
    limit = plan.reuse or plan.new
    dimension = limit.dimension if isinstance(limit, Limit) else LENGTH
    units = usual_units(dimension, show.system).split(" or ")
    return [*units, "thou"] if dimension == LENGTH else units


def _gauges(stand: Standing, part: str) -> dict[str, list[str]]:
    """For each reading the shop's gauges of the class it asks for."""
    gauges = stand.desk.shop.gauges.items()
    plans = stand.unit.parts[part].readings.items()
    return {reading: [name for name, gauge in gauges if gauge.class_ == plan.gauge] for reading, plan in plans}


@require_POST
@asks_for("look and read")
def look(request: HttpRequest, number: str, part: str) -> HttpResponse:
    """A look was graded."""
    sent = request.POST
    body: dict[str, Any] = {"part": part, "look": sent.get("look", ""), "grade": sent.get("grade", "")}
    pieces = [int(piece) for piece in sent.getlist("pieces") if piece.isascii() and piece.isdigit()]
    body |= {"pieces": pieces} if pieces else {}
    return _sent(request, number, part, "look", {**body, "words": sent.get("words", "").strip()})


@require_POST
@asks_for("look and read")
def reading(request: HttpRequest, number: str, part: str) -> HttpResponse:
    """Figures were typed: as many as the places, each with its unit."""
    sent = request.POST
    unit = sent.get("unit", "")
    figures = [_with_unit(text.strip(), unit) for text in sent.getlist("figure") if text.strip()]
    body: dict[str, Any] = {"part": part, "reading": sent.get("reading", ""), "figures": figures}
    body |= {"gauge": sent.get("gauge", "")}
    piece = sent.get("piece", "")
    body |= {"piece": int(piece)} if piece.isascii() and piece.isdigit() and piece != "1" else {}
    body |= {"confirmed": True} if sent.get("confirmed") == "yes" else {}
    return _sent(request, number, part, "reading", body)


def _with_unit(text: str, unit: str) -> str:
    """A figure as typed; a bare one, as a gauge sends it, gets the unit that the page shows armed."""
    is_bare = text[-1:].isdigit() or text.endswith(".")
    return f"{text} {unit}" if is_bare and unit else text


def _sent(request: HttpRequest, number: str, part: str, kind: str, body: dict[str, Any]) -> HttpResponse:
    try:
        send(request, number, kind, body)
    except Refused as refusal:
        return _page(request, find_job(number), part, {"told": refusal.sentence, "typed": body}, 409)
    return HttpResponseRedirect(reverse("part", args=(number, part)))
