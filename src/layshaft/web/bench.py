"""The bench: one move at a time, as it stands now; what happened is always taken down."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from layshaft.plan.act import TakeOff
from layshaft.plan.may import Judge
from layshaft.plan.press import PressPlan
from layshaft.plan.press_text import Teller
from layshaft.plan.step import PlannedStep
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job, Person
from layshaft.shop.ledger.putting import Putting
from layshaft.shop.ledger.putting_check import putting_of
from layshaft.shop.ledger.right import may
from layshaft.shop.ledger.standing import Standing, standing_of
from layshaft.shop.ledger.under_load import asks_for_second
from layshaft.web.page import asks_for, page
from layshaft.web.sent import send

WENT = {
    "off": "came off",
    "partly": "came off in part",
    "broken": "was found broken",
    "missing": "was found missing",
    "whole": "was looked at and is whole",
    "not known": "is in doubt: nobody knows whether it is whole",
    "stuck": "came out stuck to another part",
}
"""What can have happened to a part, and how the page words it."""


@require_GET
@asks_for("look around")
def bench(request: HttpRequest, number: str) -> HttpResponse:
    """The page of the move that comes now."""
    return _page(request, find_job(number))


def _page(request: HttpRequest, job: Job, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    stand = standing_of(job)
    person: Person = request.person
    putting = putting_of(job)
    steps = stand.left.steps
    step = _next(stand, putting)
    told = {
        "job": job,
        "stand": stand,
        "step": step,
        "left": len(steps),
        "plan_told": tuple(_plan_of(stand, step)) if step else (),
        "pieces": _pieces(stand, step) if step else 0,
        "second": _why_second(job, step, person) if step else "",
        "masters": [one for one in Person.objects.filter(is_here=True) if may(one.role, "countersign")],
        "parts": [(name, stand.unit.parts[name].name) for name in _still_there(stand)],
        "prove": list(_to_prove(stand)),
        "putting": putting,
        "more_off": putting.is_begun and any(one.kind != "prepare" for one in steps),
        "all_parts": [(name, part.name) for name, part in stand.unit.parts.items()],
        "trays": _trays(stand),
        "went": WENT,
        "attitudes": stand.unit.attitudes,
        **(more or {}),
    }
    return page(request, "bench.html", told, status)


def _next(stand: Standing, putting: Putting) -> PlannedStep | None:
    """The move that comes now; none once it is being put together, whose loads no plan of taking down knows of."""
    if putting.is_begun:
        return None
    return next((one for one in stand.left.steps if one.kind != "prepare"), None)


def _plan_of(stand: Standing, step: PlannedStep) -> Iterator[str]:
    """The press plan that a step under load goes by, or its refusal."""
    for use in stand.presses:
        if step.kind in ("hold", "take off") and use.way == (step.load, step.release):
            yield from Teller(stand.bench, stand.show).plan(use.plan)


def _has_plan(stand: Standing, step: PlannedStep) -> bool:
    return any(use.way == (step.load, step.release) and isinstance(use.plan, PressPlan) for use in stand.presses)


def _pieces(stand: Standing, step: PlannedStep) -> int:
    """How many pieces of the step's part are still in, where it has several."""
    if step.kind != "take off" or step.load is not None:
        return 0
    part = step.parts[0]
    count = stand.unit.parts[part].count
    return count - stand.history.state.off_count(part) if count > 1 else 0


def _why_second(job: Job, step: PlannedStep, person: Person) -> str:
    body = next((body for body in bodies(step)), {})
    return asks_for_second(job, "done", body, person)


def _still_there(stand: Standing) -> Iterator[str]:
    state = stand.history.state
    return (name for name in stand.bench.movable_in_book_order if not state.detached & stand.bench.bit(name))


def _to_prove(stand: Standing) -> Iterator[str]:
    """Loads that should be free by now, with the spring still in and zero not proved."""
    state = stand.history.state
    now = stand.loads.could_be_loaded(state)
    for name, load in stand.unit.loads.items():
        is_in = bool(stand.bench.mask(load.springs) & ~state.detached)
        was_held = any(done.held == name for done in stand.desk.content.done)
        if was_held and is_in and not now[name].is_loaded and name not in state.proved_free and state.session is None:
            yield name


def _trays(stand: Standing) -> list[tuple[str, str, str]]:
    """What came off, the last first, with the way round it sat."""
    parts = stand.unit.parts
    off = (name for name in reversed(stand.history.taken_off) if name in parts)
    return [(name, parts[name].name, parts[name].way_round or "") for name in off]


def bodies(step: PlannedStep) -> Iterator[dict[str, Any]]:
    """What a step that was done puts on record: one entry, or three where one motion lets a load off."""
    held = {"held": step.load, "release": (step.release or 0) + 1}
    match step.kind:
        case "hold":
            yield held
        case "let off":
            yield {"let off": step.load}
        case "turn":
            yield {"turned": step.attitude}
        case "take off":
            off = {"off": step.parts[0], "way": (step.way or 0) + 1}
            if step.load is None:
                yield off
            else:
                yield from (held, off, {"let off": step.load})


@require_POST
@asks_for("write on the bench")
def done(request: HttpRequest, number: str) -> HttpResponse:
    """The move that the page showed was made, all of it or some pieces."""
    job = find_job(number)
    stand = standing_of(job)
    step = _next(stand, putting_of(job))
    if step is None or request.POST.get("step") != step.what or request.POST.get("seen") != str(job.entries):
        return _page(request, job, {"told": "The unit has moved on since this page was opened: look at it again."}, 409)
    try:
        _refuse_unread(request, stand, step)
        words = request.POST.get("words", "").strip()
        off = request.POST.get("pieces", "").strip()
        if off and off != str(_pieces(stand, step)):
            send(request, number, "done", {"partly": step.parts[0], "pieces off": _count(off), "words": words})
        else:
            for at, body in enumerate(bodies(step)):
                send(request, number, "done", {**body, "words": words if not at else ""}, at)
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence}, 409)
    return HttpResponseRedirect(reverse("bench", args=(number,)))


def _refuse_unread(request: HttpRequest, stand: Standing, step: PlannedStep) -> None:
    """A load is taken up only by someone who says that they have read how."""
    is_taken_up = step.load is not None and step.kind in ("hold", "take off")
    if is_taken_up and stand.history.state.session is None:
        if not _has_plan(stand, step):
            raise Refused("no plan", "There is no plan for this load: stop here, and read why on this page.")
        if request.POST.get("read") != "yes":
            raise Refused("plan not read", "Read the plan of this load first, and say so below it.")


def _count(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 0 < len(text) < 4):
        raise Refused("count", "How many pieces came off? A number is missing.")
    return int(text)


@require_POST
@asks_for("look around")
def may_i(request: HttpRequest, number: str) -> HttpResponse:
    """Whether a part may come off now, and if not, why not; nothing is written."""
    job = find_job(number)
    stand = standing_of(job)
    if putting_of(job).is_begun:
        raise Refused("put together", "It is being put together: say on that page how far it comes apart again first.")
    part = _part(stand, request.POST)
    judge = Judge(stand.bench, stand.loads)
    ways = range(max(1, len(stand.unit.parts[part].ways)))
    answers = [judge.may_i(stand.history.state, TakeOff(part, way)) for way in ways]
    is_yes = any(answer.is_yes for answer in answers)
    reasons = list(dict.fromkeys(reason.sentence for reason in answers[0].reasons))
    name = f"{part} {stand.unit.parts[part].name}"
    return _page(request, job, {"asked": name, "is_yes": is_yes, "reasons": reasons})


def _part(stand: Standing, sent: Mapping[str, Any]) -> str:
    part = str(sent.get("part", ""))
    if part not in stand.unit.parts:
        raise Refused("part", "Which part? Choose one.")
    return part


@require_POST
@asks_for("write on the bench")
def went(request: HttpRequest, number: str) -> HttpResponse:
    """Something happened that the page did not ask for; it is taken down whatever it was."""
    stand = standing_of(find_job(number))
    try:
        body = _happened(stand, request.POST)
        send(request, number, "done", {**body, "words": request.POST.get("words", "").strip()})
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence}, 409)
    return HttpResponseRedirect(reverse("bench", args=(number,)))


def _happened(stand: Standing, sent: Mapping[str, Any]) -> dict[str, Any]:
    if sent.get("turned"):
        return {"turned": sent["turned"]}
    if sent.get("zero"):
        return {"zero proved": sent["zero"]}
    part, what = _part(stand, sent), sent.get("what", "")
    if what not in WENT:
        raise Refused("what", "What happened to it? Choose one.")
    if what == "off":
        return {"off": part}
    if what == "partly":
        return {"partly": part, "pieces off": _count(str(sent.get("pieces", "")))}
    if what == "stuck":
        return {"stuck": part, "to": str(sent.get("to", ""))}
    return {"seen": part, "is": what}
