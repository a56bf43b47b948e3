"""Who is at this screen: a name and a PIN; and the first owner, by a link that the start command prints once."""

from __future__ import annotations

from urllib.parse import quote

from django.core import signing
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_http_methods, require_POST

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.guess import is_locked, note_guess
from layshaft.shop.ledger.models import Person, Role
from layshaft.shop.ledger.people import add_person, is_pin
from layshaft.shop.ledger.stock import first_settings
from layshaft.web.page import PERSON, page

FIRST = "first owner"


def first_token() -> str:
    """The token of the first owner's link; it is worth nothing once there is an owner."""
    return signing.dumps("owner", salt=FIRST)


@require_http_methods(["GET", "POST"])
def who(request: HttpRequest) -> HttpResponse:
    """Tap a name, type a PIN."""
    people = Person.objects.filter(is_here=True)
    if not people.exists():
        return page(request, "no_owner.html")
    then = _then(request)
    told = ""
    chosen = None
    if request.method == "POST":
        chosen = get_object_or_404(people, key=request.POST.get("name", ""))
        told = _sign_in(request, chosen, request.POST.get("pin", ""))
        if not told:
            return HttpResponseRedirect(then)
    return page(request, "who.html", {"people": people, "then": then, "told": told, "chosen": chosen})


def _sign_in(request: HttpRequest, person: Person, pin: str) -> str:
    """Sign someone in, or say why not."""
    device = request.session.session_key or _device(request)
    if is_locked(person, device):
        return "Too many wrong PINs for this name on this screen. Wait a quarter of an hour, or use another screen."
    is_right = is_pin(person, pin)
    note_guess(person, device, is_right)
    if not is_right:
        return "That is not this person's PIN."
    request.session.cycle_key()
    request.session[PERSON] = person.pk
    return ""


def _device(request: HttpRequest) -> str:
    request.session.save()
    return str(request.session.session_key)


def _then(request: HttpRequest) -> str:
    then = request.POST.get("then") or request.GET.get("then") or reverse("where")
    is_ours = url_has_allowed_host_and_scheme(then, allowed_hosts={request.get_host()})
    return then if is_ours and then.startswith("/") else reverse("where")


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """Nobody is at this screen any more; whoever comes next goes on at the page that was left."""
    then = _then(request)
    request.session.flush()
    return HttpResponseRedirect(f"{reverse('who')}?then={quote(then)}")


@require_http_methods(["GET", "POST"])
def first(request: HttpRequest, token: str) -> HttpResponse:
    """The first owner of a new shop."""
    try:
        signing.loads(token, salt=FIRST, max_age=60 * 60 * 24)
    except signing.BadSignature:
        return page(request, "refused.html", {"sentence": "This link is no longer good. Start the shop again."}, 403)
    if Person.objects.exists():
        return HttpResponseRedirect(reverse("who"))
    told = ""
    if request.method == "POST":
        try:
            person = add_person(request.POST.get("name", ""), Role.OWNER, request.POST.get("pin", ""), None)
            first_settings(request.POST.get("shop", ""), request.POST.get("units", "metric"), person)
        except Refused as refusal:
            told = refusal.sentence
        else:
            request.session.cycle_key()
            request.session[PERSON] = person.pk
            return HttpResponseRedirect(reverse("where"))
    return page(request, "first.html", {"told": told, "name": request.POST.get("name", ""), "token": token})
