"""Axes, tools, stops and loads: what holds what, what is pushed by which spring, and how it may be let go."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from layshaft.book.definition.base import (
    Angle,
    Count,
    Definition,
    Duration,
    Energy,
    Flag,
    Force,
    ForceOrMass,
    Length,
    Name,
    OneOrSeveral,
    Pair,
    Several,
    Speed,
    Text,
)
from layshaft.book.definition.need import Needs
from layshaft.book.definition.term import Reach

ReleaseKind = Literal["press", "spring compressor", "long screws", "own thread", "by hand under cover"]


class Axis(Definition):
    """A straight line that parts sit along; coordinates grow from its start to its end."""

    start: Name
    end: Name
    start_is_up: OneOrSeveral[Name] = ()
    end_is_up: OneOrSeveral[Name] = ()
    place: Pair[Length] | None = None


class Opening(Definition):
    """A named opening that parts can leave by."""

    about: Text | None = None
    faces_down: OneOrSeveral[Name] = ()


class Tool(Definition):
    """A tool, with what has to be known to use it."""

    about: Text | None = None
    rating: ForceOrMass | None = None
    own: Flag = False


class Stop(Definition):
    """A directed stop: face `b` may sit at most so far beyond face `a`, toward one end of the axis.

    Every part named in `by`, and the parts of both faces, have to be there and whole for the stop to hold.
    """

    a: Name
    b: Name
    toward: Name
    at_most: Reach
    by: Several[Name] = ()
    packs: Several[Name] = ()
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
    tool: Name | None = None
    pushes: Name | None = None
    stands_on: Name | None = None
    over: Length | None = None
    most_over: Length | None = None
    keep_from_solid: Length | None = None
    margin: Length | None = None
    reach: Several[Name] = ()
    behind: Needs = ()
    attitude: OneOrSeveral[Name] | None = None
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

    springs: Several[Name] = Field(min_length=1)
    seats: Pair[Name] | None = None
    wound: Angle | None = None
    wound_between: Pair[Name] | None = None
    could_leave: Several[Name] = ()
    confirmed_by: Several[Name] = ()
    releases: Several[Release] = ()
    about: Text | None = None
    caution: Text | None = None

    @property
    def is_confirmed(self) -> bool:
        """Two different named people have confirmed the load's data on a real unit."""
        return len(set(self.confirmed_by)) >= 2


class Alignment(Definition):
    """What has to line up, with which tool, while which load goes home, and what proves it."""

    parts: Several[Name] = Field(min_length=1)
    tool: Name | None = None
    while_load: Name | None = None
    before: Several[Name] = ()
    how: Text
    proved_by: Text
    turn_at_most: Angle | None = None


Release.model_rebuild()
