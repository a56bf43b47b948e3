"""Price and order: the estimate and what it has become, the customer's word, what to buy and what stock covers."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from layshaft.paper.price_row import order_rows, price_row
from layshaft.paper.wording import worded
from layshaft.plan.rebuild import Rebuild
from layshaft.plan.telling import Telling, telling_of
from layshaft.shop.ledger.choosing import choices_by
from layshaft.shop.ledger.desk import find_job
from layshaft.shop.ledger.estimate import estimate_of, has_findings
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Job
from layshaft.shop.ledger.standing import Standing, standing_of
from layshaft.shop.ledger.write import CUSTOMER
from layshaft.shop.ledger.yes import HOW, within, yes_body, yeses
from layshaft.web.page import asks_for, page
from layshaft.web.sent import send


@require_GET
@asks_for("look around")
def price(request: HttpRequest, number: str) -> HttpResponse:
    """What it costs as it stands, and what has to come."""
    return _page(request, find_job(number))


def _page(request: HttpRequest, job: Job, told: str = "", status: int = 200) -> HttpResponse:
    stand = standing_of(job)
    rebuilt, telling = stand.rebuilt, telling_of(stand.desk.shop)
    given = list(yeses(stand.desk.lines))
    judged = rebuilt.judgements.items()
    is_within, sentence = within(rebuilt.price, given[-1] if given else None)
    context: dict[str, Any] = {
        "job": job,
        "told": told,
        "typed": request.POST,
        "price": rebuilt.price,
        "estimate": estimate_of(stand) if has_findings(stand) else None,
        "row": worded(price_row(rebuilt), telling),
        "is_within": is_within,
        "agreed": sentence,
        "yeses": [(one, _name(stand, one.by)) for one in given],
        "hows": HOW,
        "choosable": _choosable(rebuilt),
        "chosen": _chosen(stand),
        "found": worded(_found(rebuilt), telling),
        "always": sum(one.verdict == "renew" and rebuilt.unit.parts[name].renew == "always" for name, one in judged),
        "orders": _orders(rebuilt, telling),
        "covered": _covered(rebuilt, telling),
        "order": rebuilt.order,
        "missing": worded([one.sentence for one in rebuilt.order.open], telling),
        "slowest": " and ".join(rebuilt.order.waits_for),
    }
    return page(request, "price.html", context, status)


def _found(rebuilt: Rebuild) -> list[str]:
    """What was found that asks for a new part, beside those that every job renews."""
    parts = rebuilt.unit.parts
    return [
        f"{name} {judged.reason}"
        for name, judged in rebuilt.judgements.items()
        if judged.verdict == "renew" and parts[name].renew != "always"
    ]


def _choosable(rebuilt: Rebuild) -> list[tuple[str, str, str]]:
    """Parts that a customer can have a word on, those first that wait for one or are to be renewed."""
    parts = rebuilt.unit.parts
    judged = [
        (name, one)
        for name, one in rebuilt.judgements.items()
        if parts[name].renew != "always" and one.carried_from is None
    ]
    judged.sort(key=lambda pair: (not pair[1].is_undecided, pair[1].verdict != "renew"))
    return [(name, parts[name].name, one.verdict) for name, one in judged]


def _chosen(stand: Standing) -> list[str]:
    """What was chosen on this job beside sizes, in a sentence each."""
    told = []
    for part, line in choices_by(stand.desk.lines, "renew", "keep").items():
        by = str(line.body.get("by", line.by))
        who = "the customer" if by == CUSTOMER else _name(stand, by)
        what = "renewed" if "renew" in line.body else "kept"
        why = f": {line.body['why']}" if line.body.get("why") else ""
        told.append(f"{part} {stand.unit.parts[part].name} is {what}, as {who} said (entry {line.number}){why}.")
    return told


def _name(stand: Standing, key: str) -> str:
    people = stand.desk.shop.people
    return people[key].name if key in people else key


def _orders(rebuilt: Rebuild, telling: Telling) -> list[tuple[str, list[Any]]]:
    """What is ordered, source by source, and last what nobody has a price for."""
    rows = worded(order_rows(rebuilt, telling), telling)
    bought, left = rows[: len(rebuilt.order.bought)], rows[len(rebuilt.order.bought) :]
    found: dict[str, list[Any]] = {}
    for one, row in zip(rebuilt.order.bought, bought, strict=True):
        lead = f", takes {one.offer.lead.text}" if one.offer.lead is not None else ""
        found.setdefault(one.offer.source, []).append({**row, "lead": lead})
    return [*sorted(found.items()), *([("From somewhere, not known yet", left)] if left else [])]


def _covered(rebuilt: Rebuild, telling: Telling) -> list[str]:
    """What the drawer gives."""
    return [
        f"{one.pieces} × {one.part} {one.name}"
        + (f", {telling.size(one.size)}" if one.size is not None else "")
        + (", used ones kept with their figures" if one.is_reclaimed else "")
        for one in rebuilt.order.taken
    ]


@require_POST
@asks_for("record a yes")
def yes(request: HttpRequest, number: str) -> HttpResponse:
    """The customer says yes to the price that the page showed."""
    job, sent = find_job(number), request.POST
    try:
        if sent.get("seen") != str(job.entries):
            raise Refused("moved on", "Something was written on this job meanwhile. Look at the price again first.")
        stand = standing_of(job)
        up_to, words = sent.get("up_to", ""), sent.get("words", "")
        made = stand.rebuilt.price
        body = yes_body(made, stand.desk.version, sent.get("who", ""), sent.get("how", ""), up_to, words)
        send(request, number, "accepted", body)
    except Refused as refusal:
        return _page(request, find_job(number), refusal.sentence, 409)
    return HttpResponseRedirect(reverse("price", args=(number,)))


@require_POST
@asks_for("choose")
def word(request: HttpRequest, number: str) -> HttpResponse:
    """The customer wants a part renewed or kept, whatever the verdict."""
    sent = request.POST
    try:
        if sent.get("what") not in ("renew", "keep"):
            raise Refused("what", "What does the customer want: that it is renewed, or that it is kept?")
        if not sent.get("part"):
            raise Refused("part", "Which part? Choose one.")
        why = sent.get("why", "").strip()
        send(request, number, "choice", {sent["what"]: sent["part"], "why": why, "by": CUSTOMER})
    except Refused as refusal:
        return _page(request, find_job(number), refusal.sentence, 409)
    return HttpResponseRedirect(reverse("price", args=(number,)))
