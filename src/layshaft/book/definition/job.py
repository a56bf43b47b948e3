"""A job: one unit on the bench, what was noticed, looked at, read, done and chosen; the third kind of file."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from layshaft.book.definition.base import (
    AnyQuantity,
    Count,
    Date,
    Definition,
    Flag,
    Force,
    Name,
    Several,
    Temperature,
    Text,
    Whole,
    is_day,
    refuse_form,
)

_MOMENT = re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])(?:[ T]([01][0-9]|2[0-3]):[0-5][0-9])?")


def _read_moment(value: Any) -> str:
    if isinstance(value, str) and _MOMENT.fullmatch(value):
        if is_day(value[:10]):
            return value.replace("T", " ")
        raise refuse_form(value, "a day that the calendar has")
    raise refuse_form(value, "a day, with a time if it is known, as in `'2026-11-20 14:05'`,")


Moment = Annotated[
    str,
    BeforeValidator(_read_moment),
    WithJsonSchema({"type": "string", "description": "a day, with a time if it is known"}),
]
Known = Literal["whole", "broken", "missing", "not known"]


class Quoted(Definition):
    """Which book or shop file, and which revision of it, a job was done with."""

    id: Name
    revision: Whole


class Noticed(Definition):
    """Something seen on a part before it was taken out, or on the way; `pieces` where only so many of several."""

    part: Name
    is_: Known
    pieces: Count | None = None
    words: Text | None = None
    by: Name | None = None


class Intake(Definition):
    """What came in, and what was said and seen about it."""

    complaint: Text | None = None
    evidence: Several[Text] = ()
    missing: Several[Text] = ()
    noticed: Several[Noticed] = ()


class Look(Definition):
    """One look at a part, graded in the book's words; `pieces` where only some of several are meant, else all."""

    part: Name
    look: Name
    grade: Name
    pieces: Several[Count] = Field(default=(), min_length=1)
    words: Text | None = None
    by: Name | None = None
    at: Moment | None = None


class Reading(Definition):
    """Figures as typed, of a part's reading or of a result read directly.

    `per: place` gives the places of one piece, and `piece` says which; `per: piece` gives one figure a piece, from
    `piece` on, each the one that decides about its piece. `new` marks the part that goes in, not the one that came out.
    """

    part: Name | None = None
    reading: Name | None = None
    result: Name | None = None
    figures: Several[AnyQuantity] = Field(min_length=1)
    per: Literal["piece", "place"] = "place"
    piece: Count = 1
    new: Flag = False
    gauge: Name | None = None
    by: Name | None = None
    at: Moment | None = None
    temperature: Temperature | None = None
    load: Force | None = None
    confirmed: Flag = False


class Done(Definition):
    """One thing that happened on the bench, in the order it happened."""

    off: Name | None = None
    way: Count | None = None
    partly: Name | None = None
    pieces_off: Count | None = None
    turned: Name | None = None
    held: Name | None = None
    release: Count | None = None
    let_off: Name | None = None
    stuck: Name | None = None
    to: Name | None = None
    seen: Name | None = None
    is_: Known | None = None
    zero_proved: Name | None = None
    by: Name | None = None
    at: Moment | None = None
    countersigned: Name | None = None
    words: Text | None = None


class Choice(Definition):
    """What someone decided: to renew a part, to keep it, or which size to fit."""

    renew: Name | None = None
    keep: Name | None = None
    fit: Name | None = None
    size: AnyQuantity | None = None
    by: Name
    why: Text | None = None


class Customer(Definition):
    """Whose unit it is."""

    name: Text
    reach: Text | None = None


class Proved(Definition):
    """The outcome of a proof."""

    proof: Name
    figure: AnyQuantity | None = None
    outcome: Literal["held", "did not hold"] | None = None
    by: Name | None = None
    at: Moment | None = None
    words: Text | None = None


class Job(Definition):
    """One unit on the bench."""

    id: Name
    invented: Flag = False
    book: Quoted
    shop: Quoted
    variant: Name
    serial: Text | None = None
    customer: Customer | None = None
    comeback_of: Name | None = None
    paid_by: Literal["customer", "shop"] = "customer"
    opened: Date
    today: Date
    temperature: Temperature | None = None
    intake: Intake = Intake()
    wants: Several[Name] = ()
    looks: Several[Look] = ()
    readings: Several[Reading] = ()
    done: Several[Done] = ()
    choices: Several[Choice] = ()
    proved: Several[Proved] = ()
    accepted_by: Text | None = None
