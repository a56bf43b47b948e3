"""The press: a load against its travel, every state of its release, what the press shows, what still holds."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.http import require_GET

from layshaft.drawing.load_curve import LoadCurve, draw_load_curve, load_curve
from layshaft.plan.phrase import how
from layshaft.plan.press import PressPlan
from layshaft.plan.press_figure import figures
from layshaft.plan.press_text import Teller
from layshaft.plan.press_use import DOWN
from layshaft.plan.ram import RamFit
from layshaft.plan.step import Kind
from layshaft.quantity import LENGTH
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.press_way import PressWay, home_of, other_ways, planned_ways, way_of
from layshaft.shop.ledger.standing import Standing, standing_of
from layshaft.web.page import asks_for, page

WIDE, NARROW = 960.0, 354.0
"""The widths of the two pictures: for a tablet, and for a phone held upright."""


@require_GET
@asks_for("look around")
def press(request: HttpRequest, number: str) -> HttpResponse:
    """The load that comes next, and which come after it."""
    job = find_job(number)
    stand = standing_of(job)
    ways = planned_ways(stand)
    return _page(request, job, stand, ways[0] if ways else None)


@require_GET
@asks_for("look around")
def press_way(request: HttpRequest, number: str, load: str, way: int) -> HttpResponse:
    """One release way of one load."""
    job = find_job(number)
    stand = standing_of(job)
    found = way_of(stand, load, way - 1)
    if found is None:
        raise Refused("no job", f"Nothing that is left on this job lets {load} go in that way.")
    return _page(request, job, stand, found)


def _page(request: HttpRequest, job: Job, stand: Standing, way: PressWay | None) -> HttpResponse:
    shown = None if way is None else (way.load, way.release)
    told: dict[str, Any] = {
        "job": job,
        "stand": stand,
        "way": way,
        "others": [_link(stand, *use.use.way) for use in planned_ways(stand) if use.use.way != shown],
        "instead": [_link(stand, *use) for use in other_ways(stand) if use != shown],
        **(_told(stand, way) if way is not None else {}),
    }
    return page(request, "press.html", told)


def _link(stand: Standing, load: str, release: int) -> tuple[str, int, str]:
    return load, release + 1, how(stand.unit.loads[load].releases[release])


def _told(stand: Standing, way: PressWay) -> dict[str, Any]:
    plan, lines = way.use.plan, Teller(stand.bench, stand.show).plan(way.use.plan)
    told = {"how": how(stand.unit.loads[way.load].releases[way.release]), "lines": lines}
    if not isinstance(plan, PressPlan):
        return {**told, "refused": plan.sentences, "presses": _presses(stand, plan.rams)}
    is_home = way.when != DOWN
    curve = load_curve(plan, way.now, is_home=is_home)
    kind: Kind = "compress" if is_home else "hold"
    return {
        **told,
        "lead": figures(plan, kind, stand.show).strip(),
        "to_free": "" if is_home or not plan.taken.is_pressed else figures(plan, "let off", stand.show),
        "wide": _drawn(curve, stand, WIDE, 20.0),
        "narrow": _drawn(curve, stand, NARROW, 17.0),
        "home": Teller(stand.bench, stand.show).home(home_of(stand, way)) if is_home else (),
        "presses": _presses(stand, plan.rams),
    }


def _drawn(curve: LoadCurve, stand: Standing, width: float, size: float) -> SafeString:
    """A picture for one width of page; all names in it are escaped by the drawing."""
    return mark_safe(draw_load_curve(curve, stand.show, width=width, size=size, id_=f"-{width:.0f}"))


def _presses(stand: Standing, rams: tuple[RamFit, ...]) -> list[tuple[str, str]]:
    """Each press of the shop: what it has left, or why it is not for this load."""
    found = []
    for at, ram in enumerate(rams):
        left = stand.show.show(max(0.0, ram.stroke_left), LENGTH, "down")
        taken = "The plan is made for this one. " if not at else "It would do, too. "
        fits = f"{taken}Stroke left on its ram beyond the travel: {left}."
        found.append((ram.press, fits if ram.fits else f"Not this one: {'; '.join(ram.faults)}."))
    return found
