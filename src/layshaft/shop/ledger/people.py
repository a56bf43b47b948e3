"""People and their PINs: the owner by a one-time link, everyone else by the owner; a guesser locks out nobody else."""

from __future__ import annotations

import re

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction
from django.utils import timezone

from layshaft.shop.ledger.fault import Refused
from layshaft.shop.ledger.models import Event, Person, Role

_PIN = re.compile(r"[0-9]{4,8}")
_TOO_EASY = frozenset({"1234", "0000", "1111", "4321", "12345", "123456"})


def add_person(name: str, role: str, pin: str, by: Person | None) -> Person:
    """Someone new, with a key made from the name."""
    name = " ".join(name.split())
    if not name:
        raise Refused("name", "A name is missing.")
    if role not in Role.values:
        raise Refused("role", f"There is no role `{role}`: {', '.join(Role.values)}.")
    _refuse_pin(pin)
    with transaction.atomic():
        person = Person.objects.create(key=_free_key(name), name=name, role=role, pin=make_password(pin))
        Event.objects.create(at=timezone.now(), by=by, about=f"person {person.key}", now=role, why="taken on")
    return person


def change_person(person: Person, by: Person, *, role: str | None = None, is_here: bool | None = None) -> None:
    """Another role, or gone; the last owner stays one."""
    role = person.role if role is None else role
    is_here = person.is_here if is_here is None else is_here
    if role not in Role.values:
        raise Refused("role", f"There is no role `{role}`: {', '.join(Role.values)}.")
    with transaction.atomic():
        others = Person.objects.filter(role=Role.OWNER, is_here=True).exclude(pk=person.pk)
        if (role != Role.OWNER or not is_here) and person.role == Role.OWNER and not others.exists():
            raise Refused("last owner", "A shop needs an owner: make another one first.")
        was = f"{person.role}, {'here' if person.is_here else 'gone'}"
        person.role, person.is_here = role, is_here
        person.save(update_fields=("role", "is_here"))
        now = f"{role}, {'here' if is_here else 'gone'}"
        Event.objects.create(at=timezone.now(), by=by, about=f"person {person.key}", was=was, now=now)


def set_pin(person: Person, pin: str, by: Person) -> None:
    """Another PIN; which one is on no record."""
    _refuse_pin(pin)
    with transaction.atomic():
        person.pin = make_password(pin)
        person.save(update_fields=("pin",))
        Event.objects.create(at=timezone.now(), by=by, about=f"person {person.key}", now="another PIN")


def is_pin(person: Person, pin: str) -> bool:
    """Whether a PIN is someone's, who still signs here."""
    return person.is_here and bool(person.pin) and check_password(pin, person.pin)


def _refuse_pin(pin: str) -> None:
    if not _PIN.fullmatch(pin):
        raise Refused("pin", "A PIN is four to eight digits.")
    if pin in _TOO_EASY:
        raise Refused("pin", f"{pin} is what anyone would try first: take another PIN.")


def _free_key(name: str) -> str:
    base = re.sub(r"[^a-z0-9]+", "-", name.split()[-1].casefold()).strip("-") or "person"
    key, more = base[:36], 2
    while Person.objects.filter(key=key).exists():
        key, more = f"{base[:32]}-{more}", more + 1
    return key
