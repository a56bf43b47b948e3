"""Axes, tools, stops and loads: what holds what, what is pushed by which spring, and how it may be let go."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from layshaft.book.definition.base import (
    Angle,
    AttitudeName,
    Count,
    Definition,
    Direction,
    Duration,
    Energy,
    FaceName,
    Flag,
    Force,
    ForceOrMass,
    Length,
    LoadName,
    Name,
    OneOrSeveral,
    PackName,
    Pair,
    PartName,
    PartOrFace,
    Several,
    Speed,
    Text,
    ToolName,
)
from layshaft.book.definition.need import Needs
from layshaft.book.definition.term import Reach

ReleaseKind = Literal["press", "spring compressor", "long screws", "own thread", "by hand under cover"]


class Axis(Definition):
    """A straight line that parts sit along; coordinates grow from its start to its end."""

    start: Name
    end: Name
    start_is_up: OneOrSeveral[AttitudeName] = ()
    end_is_up: OneOrSeveral[AttitudeName] = ()
    place: Pair[Length] | None = None


class Opening(Definition):
    """A named opening that parts can leave by."""

    about: Text | None = None
    faces_down: OneOrSeveral[AttitudeName] = ()


class Tool(Definition):
    """A tool, with what has to be known to use it."""

    about: Text | None = None
    rating: ForceOrMass | None = None
    own: Flag = False


class Stop(Definition):
    """A directed stop: face `b` may sit at most so far beyond face `a`, toward one end of the axis.

    Every part named in `by`, and the parts of both faces, have to be there and whole for the stop to hold.
    """

    a: FaceName
    b: FaceName
    toward: Direction
    at_most: Reach
    by: Several[PartName] = ()
    packs: Several[PackName] = ()
    rating: Force | None = None
    rated_count: Count | None = None
    about: Text | None = None


class HandLimit(Definition):
    """Below these a spring may be let go by hand under a cover, with eye protection."""

    energy: Energy
    speed: Speed


class Release(Definition):
    """One way to let a load go under control."""

    kind: ReleaseKind
    tool: ToolName | None = None
    pushes: PartOrFace | None = None
    stands_on: PartOrFace | None = None
    over: Length | None = None
    most_over: Length | None = None
    keep_from_solid: Length | None = None
    margin: Length | None = None
    reach: Several[PartName] = ()
    behind: Needs = ()
    attitude: OneOrSeveral[AttitudeName] | None = None
    thread_engaged: Length | None = None
    limits: HandLimit | None = None
    time: Duration
    caution: Text | None = None
    home: Home | None = None


class Home(Definition):
    """What pressing home asks for beyond the release run backwards."""

    splines: Several[Text] = ()
    stages: Several[Length] = ()
    depth: Text | None = None
    time: Duration | None = None


class Load(Definition):
    """A spring, or several alike, between two seats, and every controlled way to let it go."""

    springs: Several[PartName] = Field(min_length=1)
    seats: Pair[FaceName] | None = None
    wound: Angle | None = None
    wound_between: Pair[PartName] | None = None
    could_leave: Several[PartName] = ()
    confirmed_by: Several[Name] = ()
    releases: Several[Release] = ()
    about: Text | None = None
    caution: Text | None = None

    @property
    def is_confirmed(self) -> bool:
        """Two different named people have confirmed the load's data on a real unit; one name spelt twice is one."""
        people = {"".join(sign for sign in name.casefold() if sign.isalnum()) for name in self.confirmed_by}
        return len(people) >= 2


class Alignment(Definition):
    """What has to line up, with which tool, while which load goes home, and what proves it."""

    parts: Several[PartName] = Field(min_length=1)
    tool: ToolName | None = None
    while_load: LoadName | None = None
    before: Several[PartName] = ()
    how: Text
    proved_by: Text
    turn_at_most: Angle | None = None


Release.model_rebuild()
