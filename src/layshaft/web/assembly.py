"""Putting together and proving, one move at a time, and the release once nothing is open."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from layshaft.plan.proof_outcome import failed_proofs
from layshaft.plan.step import PlannedStep
from layshaft.plan.telling import telling_of
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job, Person
from layshaft.shop.ledger.putting import Putting, body_of
from layshaft.shop.ledger.putting_check import MOVED_ON, depths_in, putting_of, refuse_proof
from layshaft.shop.ledger.release import stands_against
from layshaft.shop.ledger.right import may
from layshaft.shop.ledger.under_load import asks_for_second
from layshaft.web.page import asks_for, page
from layshaft.web.sent import send

TICKS = {"read": "read", "lined_up": "lined up", "in_stages": "in stages", "anyway": "anyway"}
"""What is ticked on the page, and how it stands on record."""


@require_GET
@asks_for("look around")
def assembly(request: HttpRequest, number: str) -> HttpResponse:
    """The page of the move that comes now."""
    return _page(request, find_job(number))


def _page(request: HttpRequest, job: Job, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    putting = putting_of(job)
    step = putting.next
    told = {
        "job": job,
        "putting": putting,
        "step": step,
        "in_already": list(reversed(putting.lines)),
        "released": putting.released,
        "against_release": stands_against(putting) if may(request.person.role, "release") or step is None else (),
        "masters": [one for one in Person.objects.filter(is_here=True) if may(one.role, "countersign")],
        **(_of_step(putting, step, job, request.person) if step is not None else {}),
        **(more or {}),
    }
    return page(request, "assembly.html", told, status)


def _of_step(putting: Putting, step: PlannedStep, job: Job, person: Person) -> dict[str, Any]:
    unit, asked = putting.stand.unit, putting.depth_asked(step)
    proof = unit.proofs[step.proof] if step.proof else None
    failed = failed_proofs(unit, putting.stand.desk.content, telling_of(putting.stand.desk.shop))
    last = [line for line in putting.stand.desk.lines if line.kind == "proved" and line.body["proof"] == step.proof]
    return {
        "against": putting.against(step),
        "photos": job.photos.filter(part__in=step.parts) if step.parts else (),
        "plan_told": putting.plan_told(step),
        "asks_read": step.load is not None and step.kind in ("compress", "fit"),
        "line_up": putting.to_line_up(step),
        "seated": [(part, unit.parts[part].name) for part in putting.to_see_seated(step)],
        "depth": asked,
        "depths": ("before letting off", "after")[: depths_in(asked)] if depths_in(asked) > 1 else ("",),
        "proof": proof,
        "last_proof": last[-1] if last else None,
        "why_again": next((one.sentence for one in failed if one.proof == step.proof), ""),
        "wants_figure": putting.wants_figure(step),
        "gauges": [name for name, one in putting.stand.desk.shop.gauges.items() if proof and one.class_ == proof.gauge],
        "second": asks_for_second(job, "fitted", body_of(step), person) if step.kind != "prove" else "",
    }


@require_POST
@asks_for("write on the bench")
def assembled(request: HttpRequest, number: str) -> HttpResponse:
    """The move that the page showed was made."""
    job = find_job(number)
    sent = request.POST
    try:
        step = _shown(request, job)
        body = body_of(step) | {"words": sent.get("words", "").strip()}
        body |= {name: True for field, name in TICKS.items() if sent.get(field) == "yes"}
        body |= {"seated": sent.getlist("seated")} if sent.getlist("seated") else {}
        depths = [text.strip() for text in sent.getlist("depth") if text.strip()]
        body |= {"depth": depths} if depths else {}
        body |= {"torque": sent.get("torque", "").strip()}
        send(request, number, "prepared" if step.kind == "prepare" else "fitted", body)
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence, "typed": sent}, 409)
    return HttpResponseRedirect(reverse("assembly", args=(number,)))


def _shown(request: HttpRequest, job: Job) -> PlannedStep:
    """The step that the page showed, if it still is the one that comes now."""
    step = putting_of(job).next
    if step is None or request.POST.get("step") != step.what or request.POST.get("seen") != str(job.entries):
        raise Refused("moved on", MOVED_ON)
    return step


@require_POST
@asks_for("prove")
def proved(request: HttpRequest, number: str) -> HttpResponse:
    """The proof that the page showed was made, and how it came out."""
    job = find_job(number)
    sent = request.POST
    try:
        step = _shown(request, job)
        if step.proof is None:
            raise Refused("moved on", MOVED_ON)
        gauge, words = sent.get("gauge", "").strip(), sent.get("words", "").strip()
        body = {"proof": step.proof, "figure": sent.get("figure", "").strip(), "outcome": sent.get("outcome", "")}
        body |= {"words": "; ".join(text for text in (f"with {gauge}" if gauge else "", words) if text)}
        refuse_proof(putting_of(job), step, body)
        send(request, number, "proved", body)
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence, "typed": sent}, 409)
    return HttpResponseRedirect(reverse("assembly", args=(number,)))


@require_POST
@asks_for("write on the bench")
def apart(request: HttpRequest, number: str) -> HttpResponse:
    """It came apart again, as far as before one of its moves."""
    job = find_job(number)
    entry, words = request.POST.get("entry", ""), request.POST.get("words", "").strip()
    try:
        if not (entry.isascii() and entry.isdigit() and len(entry) < 10):
            raise Refused("entry", "How far did it come apart? Choose a move.")
        if not words:
            raise Refused("why", "Why did it come apart again? A few words are missing.")
        putting = putting_of(job)
        entries = putting.back_to(int(entry))
        lines = [line for line in putting.lines if line.number in entries]
        loads = list(dict.fromkeys(line.body["load"] for line in lines if line.body.get("load")))
        if loads and request.POST.get("zero") != "yes":
            told = f"{', '.join(loads)} had to be let off for that"
            raise Refused("load", f"{told}: say that it was, by its release way, and shown free.")
        send(request, number, "taken out", {"entries": list(entries), "loads": loads or None, "words": words})
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence}, 409)
    return HttpResponseRedirect(reverse("assembly", args=(number,)))


@require_POST
@asks_for("release")
def release(request: HttpRequest, number: str) -> HttpResponse:
    """Someone who may releases the unit, with nothing open."""
    try:
        send(request, number, "released", {"words": request.POST.get("words", "").strip()})
    except Refused as refusal:
        return _page(request, find_job(number), {"told": refusal.sentence}, 409)
    return HttpResponseRedirect(reverse("assembly", args=(number,)))
