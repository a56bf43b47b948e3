"""The shop itself: its settings as text and the few that change often as forms, and everything that changed."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from layshaft.book.sheet_check import check_shop_text
from layshaft.shop.ledger.desk import people_now, settings_now, shop_of
from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Event, Person
from layshaft.shop.ledger.setting import counted_up, is_same_revision, with_keys
from layshaft.shop.ledger.stock import change_settings
from layshaft.web.page import asks_for, page

SHOWN = 200
"""So many changes are told."""
LONGEST = 1_000_000
"""Signs that a text of settings may have."""


@require_GET
@asks_for("look around")
def shop(request: HttpRequest) -> HttpResponse:
    """What the shop is, and what changed in it, the last first."""
    settings = settings_now()
    events = Event.objects.select_related("by")[:SHOWN]
    told = {
        "settings": settings,
        "shop": shop_of(settings, people_now()).content,
        "events": events,
        "here": Person.objects.filter(is_here=True),
        "today": timezone.localdate().isoformat(),
    }
    return page(request, "shop.html", told)


@require_http_methods(["GET", "POST"])
@asks_for("change settings")
def settings(request: HttpRequest) -> HttpResponse:
    """The settings as text, checked before they are taken."""
    if request.method == "GET":
        return _page(request)
    text = request.POST.get("text", "").replace("\r\n", "\n")
    try:
        if len(text) > LONGEST:
            raise Refused("long", f"The settings are longer than {LONGEST} signs: nothing was taken.")
        return _take(request, text)
    except Refused as refusal:
        told = refusal.sentence
        more: dict[str, Any] = {"text": text[:LONGEST], "why": request.POST.get("why", "")}
        if refusal.id == "settings faults":
            more["faults"] = check_shop_text(text, "settings").faults
            told = f"Nothing was taken: {len(more['faults'])} to mend, told below by line."
        return _page(request, {"told": told, **more}, 409)


def _page(request: HttpRequest, more: dict[str, Any] | None = None, status: int = 200) -> HttpResponse:
    now = settings_now()
    shop = shop_of(now, people_now()).content
    percent = _decimal(shop.tax.percent) if shop.tax is not None else ""
    rate = str(shop.labour_rate).split()[0]
    told = {"settings": now, "shop": shop, "text": now.text, "rate": rate, "percent": percent, **(more or {})}
    return page(request, "settings.html", told, status)


def _decimal(figure: Fraction) -> str:
    return format(Decimal(figure.numerator) / Decimal(figure.denominator), "f")


def _take(request: HttpRequest, text: str) -> HttpResponse:
    why = " ".join(request.POST.get("why", "").split())
    if not why:
        raise Refused("why", "Why are they changed? A few words are missing.")
    expected = request.POST.get("expected", "")
    if not (expected.isascii() and expected.isdigit() and len(expected) < 10):
        raise Refused("seen", "This page has lost its stamp. Open it again, and send it once more.")
    before = settings_now().text
    if text != before and is_same_revision(text, before):
        text = counted_up(text)
    change_settings(text, why[:200], request.person, int(expected))
    return HttpResponseRedirect(reverse("settings"))


@require_POST
@asks_for("change settings")
def few(request: HttpRequest) -> HttpResponse:
    """Units, labour rate, currency and tax, changed where they stand in the text."""
    sent = request.POST
    currency, rate = sent.get("currency", "").strip(), sent.get("rate", "").strip()
    percent, on = sent.get("percent", "").strip(), sent.get("on", "")
    changed = {
        "currency": currency,
        "labour rate": f"{rate} {currency}",
        "units": sent.get("units", ""),
        "tax": f"{{percent: {percent}, on: {on}}}" if percent else "",
    }
    text = ""
    try:
        _refuse_signs(changed.values())
        text = with_keys(settings_now().text, changed)
        return _take(request, text)
    except Refused as refusal:
        told = refusal.sentence
        if refusal.id == "settings faults":
            told = f"Nothing was changed. {' '.join(_first_lines(text))}"
        return _page(request, {"told": told, "typed": sent}, 409)


def _refuse_signs(typed: Iterable[str]) -> None:
    """Keep a form from writing more of the text than its own keys."""
    for text in typed:
        inner = text.removeprefix("{").removesuffix("}")
        if len(text) > 100 or not all(sign.isalnum() or sign in " .,:€$£%" for sign in inner):
            raise Refused("typed", "One of the figures has signs in it that no figure has: type it anew.")


def _first_lines(text: str) -> list[str]:
    faults = check_shop_text(text, "settings").faults
    told = ((one.sentence, f"Needed: {one.needed}." if one.needed else "") for one in faults[:3])
    return [" ".join(text for text in pair if text) for pair in told]
