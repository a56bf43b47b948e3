"""Who may do what: one table, asked by every page and by the writer."""

from __future__ import annotations

from layshaft.shop.ledger.models import Role

EVERYONE = frozenset(Role.values)
HANDS = frozenset({Role.OWNER, Role.REBUILDER, Role.APPRENTICE})
MASTERS = frozenset({Role.OWNER, Role.REBUILDER})
DESK = frozenset({Role.OWNER, Role.REBUILDER, Role.COUNTER})

RIGHTS: dict[str, frozenset[str]] = {
    "look around": EVERYONE,
    "take a job in": DESK,
    "move a unit": EVERYONE,
    "write on the bench": HANDS,
    "look and read": HANDS,
    "settle a doubt": MASTERS,
    "countersign": MASTERS,
    "choose": MASTERS,
    "prove": HANDS,
    "release": MASTERS,
    "record a yes": DESK,
    "change settings": frozenset({Role.OWNER}),
    "change people": frozenset({Role.OWNER}),
    "add books": MASTERS,
    "show a customer": DESK,
    "take a photo": EVERYONE,
}
"""For each thing that can be done, the roles that may."""

RIGHT_OF_KIND = {
    "complaint": "take a job in",
    "evidence": "take a job in",
    "missing": "take a job in",
    "noticed": "write on the bench",
    "wants": "choose",
    "temperature": "look and read",
    "look": "look and read",
    "reading": "look and read",
    "done": "write on the bench",
    "choice": "choose",
    "proved": "prove",
    "accepted": "record a yes",
    "placed": "move a unit",
    "note": "look around",
    "settled": "settle a doubt",
    "fitted": "write on the bench",
    "prepared": "write on the bench",
    "taken out": "write on the bench",
    "released": "release",
}
"""The right that each kind of entry asks for."""


def may(role: str, right: str) -> bool:
    """Whether a role has a right."""
    return role in RIGHTS[right]
