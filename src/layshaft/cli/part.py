"""Parts as a caller names them: by id, or by the name that stands in the book where it is one part's alone."""

from __future__ import annotations

from layshaft.book.definition import Unit
from layshaft.plan.telling import lowered
from layshaft.quantity import nearest
from layshaft.quantity.fault import edits

MOST_TOLD = 6


def find_part(unit: Unit, word: str) -> tuple[str | None, str]:
    """The part that is meant; or none, and what there is that comes near."""
    if word in unit.parts:
        return word, ""
    named = word.casefold()
    exact = [name for name, part in unit.parts.items() if part.name.casefold() == named]
    if len(exact) == 1:
        return exact[0], ""
    words = named.split()
    within = [name for name, part in unit.parts.items() if all(one in part.name.casefold() for one in words)]
    found = exact or within
    if found:
        more = f" and {len(found) - MOST_TOLD} more" if len(found) > MOST_TOLD else ""
        return None, f" Parts called so: {', '.join(_told(unit, name) for name in found[:MOST_TOLD])}{more}."
    # An id with one letter or figure wrong is a slip; with two it can be any part.
    near = nearest(word, tuple(unit.parts))
    if near is not None and edits(named, near.casefold()) <= 1:
        return None, f" Did you mean {_told(unit, near)}?"
    return None, ""


def _told(unit: Unit, name: str) -> str:
    return f"{name} ({lowered(unit.parts[name].name)})"
