"""An entry of the record in a sentence; what has no words of its own here stands as it was written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Body = dict[str, Any]


def sentence_of(kind: str, body: Mapping[str, Any]) -> str:
    """What an entry says; nothing that stands in it is left out."""
    rest = dict(body)
    head = KINDS[kind](rest) if kind in KINDS else kind.capitalize()
    words = [str(rest.pop(key)) for key in ("words", "why") if key in rest]
    if "countersigned" in rest:
        words.append(f"countersigned by {rest.pop('countersigned')}")
    more = [f"{key} {_plain(value)}" for key, value in rest.items()]
    return "; ".join(text for text in (head, *more, *words) if text) + "."


def _plain(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(_plain(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _pieces(body: Body) -> str:
    if "pieces" in body:
        return f", piece {_plain(body.pop('pieces'))}"
    return f", piece {body.pop('piece')}" if "piece" in body else ""


def _look(body: Body) -> str:
    return f"{body.pop('part', '')}, {body.pop('look', '')}: {body.pop('grade', '')}{_pieces(body)}"


def _reading(body: Body) -> str:
    subject = [str(body.pop(key)) for key in ("part", "result", "reading") if key in body]
    gauge = f" by {body.pop('gauge')}" if "gauge" in body else ""
    again = ", read again and it is so" if body.pop("confirmed", False) else ""
    return f"{', '.join(subject)}{_pieces(body)}: {_plain(body.pop('figures', []))}{gauge}{again}"


def _done(body: Body) -> str:
    for key, say in DONE.items():
        if key in body:
            return say.format(_plain(body.pop(key)), is_=body.pop("is", ""))
    return "Done"


DONE = {
    "off": "{} came off",
    "partly": "{} came off in part",
    "held": "{} taken up by its release way",
    "let off": "{} let off",
    "turned": "The unit turned, and stands {}",
    "zero proved": "Shown that {} is free",
    "seen": "{} found {is_}",
    "stuck": "{} came out stuck",
}
"""What the done entries say, by the key that tells which one it is."""


def _settled(body: Body) -> str:
    return f"Entry {body.pop('entry', '')} {'counts' if body.pop('counts', False) else 'is put aside'}"


def _placed(body: Body) -> str:
    return f"It went from {body.pop('from', '')} to {body.pop('to', '')}"


def _choice(body: Body) -> str:
    by = f" by the {body.pop('by')}" if "by" in body else ""
    return f"Chosen{by}"


KINDS: dict[str, Callable[[Body], str]] = {
    "took in": lambda body: f"Taken in from {body.pop('customer', '')} as {body.pop('variant', '')}",
    "complaint": lambda body: "Complaint",
    "evidence": lambda body: "What came with it shows",
    "missing": lambda body: "Not with it",
    "noticed": lambda body: f"{body.pop('part', '')} noticed to be {body.pop('is', '')}{_pieces(body)}",
    "temperature": lambda body: f"It is {body.pop('temperature', '')}",
    "look": _look,
    "reading": _reading,
    "done": _done,
    "settled": _settled,
    "placed": _placed,
    "choice": _choice,
}
"""How each kind of entry begins; what it takes out of the body it has said."""
