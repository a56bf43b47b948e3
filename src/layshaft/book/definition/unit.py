"""A whole unit of one variant: every option answered, every figure plain. This is what all later rooms read."""

from __future__ import annotations

from pydantic import Field

from layshaft.book.definition.base import (
    AttitudeName,
    Date,
    Definition,
    Flag,
    Mass,
    Name,
    PartId,
    PartName,
    Several,
    Temperature,
    Text,
    Whole,
)
from layshaft.book.definition.hold import Alignment, Axis, Load, Opening, Stop, Tool
from layshaft.book.definition.part import Part
from layshaft.book.definition.result import Pack, Result
from layshaft.book.definition.train import Train
from layshaft.book.definition.work import (
    Failure,
    Fluid,
    Group,
    Kit,
    MatingSet,
    Passage,
    Preparation,
    Proof,
    Task,
)


class Unit(Definition):
    """One variant of a unit book, with nothing left open."""

    id: Name
    name: Text
    maker: Text
    invented: Flag = False
    revision: Whole
    dated: Date
    about: Text | None = None
    variant: Name
    mass: Mass | None = None
    base: PartName
    starts: AttitudeName
    attitudes: Several[Name] = Field(min_length=1)
    reference_temperature: Temperature | None = None
    cues: Several[Text] = ()
    axes: dict[Name, Axis] = Field(min_length=1)
    openings: dict[Name, Opening] = Field(default_factory=dict)
    tools: dict[Name, Tool] = Field(default_factory=dict)
    parts: dict[PartId, Part] = Field(min_length=1)
    stops: dict[Name, Stop] = Field(default_factory=dict)
    loads: dict[Name, Load] = Field(default_factory=dict)
    alignments: dict[Name, Alignment] = Field(default_factory=dict)
    packs: dict[Name, Pack] = Field(default_factory=dict)
    results: dict[Name, Result] = Field(default_factory=dict)
    train: Train | None = None
    sets: dict[Name, MatingSet] = Field(default_factory=dict)
    groups: dict[Name, Group] = Field(default_factory=dict)
    kits: dict[Name, Kit] = Field(default_factory=dict)
    preparations: dict[Name, Preparation] = Field(default_factory=dict)
    tasks: dict[Name, Task] = Field(default_factory=dict)
    proofs: dict[Name, Proof] = Field(default_factory=dict)
    fluids: dict[Name, Fluid] = Field(default_factory=dict)
    passages: dict[Name, Passage] = Field(default_factory=dict)
    failures: dict[Name, Failure] = Field(default_factory=dict)
    cautions: Several[Text] = ()

    def axis_of(self, part: str) -> str:
        """The axis a part sits on: its own, or the first one of the unit."""
        return self.parts[part].axis or next(iter(self.axes))
