"""Who guesses PINs: a name is locked on the screen that guesses, and after many more on all screens, for a while."""

from __future__ import annotations

from datetime import timedelta

from django.utils import timezone

from layshaft.shop.ledger.models import Guess, Person

WRONG_HERE = 5
"""Wrong PINs in a row that lock a name on one screen."""
WRONG_ANYWHERE = 40
"""Wrong PINs within the time that lock a name on every screen: a screen's name can be thrown away."""
LOCKED_FOR = timedelta(minutes=15)


def is_locked(person: Person, device: str) -> bool:
    """Whether a name may not be tried now."""
    since = timezone.now() - LOCKED_FOR
    recent = Guess.objects.filter(person=person, at__gte=since)
    last = list(recent.filter(device=device).order_by("-at", "-pk").values_list("is_right", flat=True)[:WRONG_HERE])
    if len(last) == WRONG_HERE and not any(last):
        return True
    return recent.filter(is_right=False).count() >= WRONG_ANYWHERE


def note_guess(person: Person, device: str, is_right: bool) -> None:
    """Take down a try."""
    Guess.objects.create(person=person, device=device, at=timezone.now(), is_right=is_right)
