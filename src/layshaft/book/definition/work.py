"""Proofs, preparations, tasks, mating sets, groups, kits, fluids, passages: the trade's own knowledge of parts."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from layshaft.book.definition.base import (
    AnyLimit,
    Count,
    Definition,
    Duration,
    Flag,
    Name,
    PartName,
    ProofName,
    RangeName,
    ResultName,
    Several,
    Text,
)


class Proof(Definition):
    """A check on the built unit: after which parts are in, before which go on, what it proves and what it does not."""

    name: Text
    after: Several[PartName] = ()
    before: Several[PartName] = ()
    how: Text
    result: ResultName | None = None
    settles: Several[ResultName] = ()
    range_: RangeName | None = None
    limit: AnyLimit | None = None
    expects: Text | None = None
    gauge: Name | None = None
    proves: Text
    does_not_prove: Text
    when_opened: Several[PartName] = ()
    on_loose_unit: Flag = False
    time: Duration
    place: Name = "bench"
    caution: Text | None = None
    as_found_before: Several[PartName] = ()


class Preparation(Definition):
    """Work that has to start early: a soak, a cooling down, a warming up."""

    what: Text
    parts: Several[PartName] = Field(min_length=1)
    before: Literal["fitting", "measuring"] = "fitting"
    hands: Duration
    elapsed: Duration
    caution: Text | None = None


class Task(Definition):
    """Labour that is no move: taking in, washing, measuring, papers."""

    what: Text
    stage: Literal["take in", "clean", "inspect", "findings", "order", "fit", "prove", "hand over"]
    hands: Duration
    by_parts: Flag = False
    spread: Duration | None = None
    waits: Duration | None = None
    place: Name = "bench"


class MatingSet(Definition):
    """Parts that belong together."""

    members: Several[PartName] = Field(min_length=1)
    rule: Literal["renew together", "keep together", "mark together"]
    order: Text | None = None
    about: Text | None = None


class Group(Definition):
    """Advice about what lifts together; what really lifts is worked out."""

    lead: PartName
    members: Several[PartName] = Field(min_length=1)
    about: Text | None = None


class Kit(Definition):
    """A kit as sold: how many of which part it holds."""

    name: Text
    holds: dict[PartName, Count] = Field(min_length=1)


class Fluid(Definition):
    """What goes in, and how much."""

    what: Text
    amount: Text
    change_after: Text | None = None
    needed_by: Several[ProofName] = ()
    through: PartName | None = None
    when_opened: Several[PartName] = ()


class Passage(Definition):
    """A passage to be flushed and counted."""

    where: Text
    openings: Count
    in_part: PartName


class Failure(Definition):
    """A known failure: what is found, what it does, where its pieces go."""

    part: PartName
    found: Text
    effect: Text
    look_for: Text | None = None
