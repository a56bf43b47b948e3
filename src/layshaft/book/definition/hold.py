"""Axes, tools, stops and loads: what holds what, what is pushed by which spring, and how it may be let go."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field, field_validator

from layshaft.book.definition.base import (
    Angle,
    Count,
    Definition,
    Duration,
    Energy,
    Force,
    Length,
    Mass,
    Name,
    Speed,
    Text,
)
from layshaft.book.definition.need import Need
from layshaft.book.definition.term import ChainTerm

ReleaseKind = Literal["press", "spring compressor", "long screws", "own thread", "by hand under cover"]


def _tuple(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def _one_or_several(value: Any) -> Any:
    return (value,) if isinstance(value, str) else _tuple(value)


class Axis(Definition):
    """A straight line that parts sit along; coordinates grow from its start to its end."""

    start: Name
    end: Name
    start_is_up: tuple[Name, ...] = ()
    end_is_up: tuple[Name, ...] = ()
    place: tuple[Length, Length] | None = None

    @field_validator("start_is_up", "end_is_up", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _one_or_several(value)

    @field_validator("place", mode="before")
    @classmethod
    def _pair(cls, value: Any) -> Any:
        return _tuple(value)


class Opening(Definition):
    """A named opening that parts can leave by."""

    about: Text | None = None
    faces_down: tuple[Name, ...] = ()

    @field_validator("faces_down", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _one_or_several(value)


class Tool(Definition):
    """A tool, with what has to be known to use it."""

    about: Text | None = None
    rating: Force | Mass | None = None
    own: bool = False


class Stop(Definition):
    """A directed stop: face `b` may sit at most so far beyond face `a`, toward one end of the axis.

    Every part named in `by`, and the parts of both faces, have to be there and whole for the stop to hold.
    """

    a: Name
    b: Name
    toward: Name
    at_most: Length | tuple[ChainTerm, ...]
    by: tuple[Name, ...] = ()
    packs: tuple[Name, ...] = ()
    rating: Force | None = None
    rated_count: Count | None = None
    about: Text | None = None

    @field_validator("by", "packs", "at_most", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _tuple(value)


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
    reach: tuple[Name, ...] = ()
    behind: tuple[Need, ...] = ()
    attitude: tuple[Name, ...] | None = None
    thread_engaged: Length | None = None
    limits: HandLimit | None = None
    time: Duration
    caution: Text | None = None
    home: Home | None = None

    @field_validator("reach", mode="before")
    @classmethod
    def _names(cls, value: Any) -> Any:
        return _tuple(value)

    @field_validator("behind", mode="before")
    @classmethod
    def _needs(cls, value: Any) -> Any:
        if isinstance(value, dict):
            return tuple({key: how} for key, how in value.items())
        return _tuple(value)

    @field_validator("attitude", mode="before")
    @classmethod
    def _attitudes(cls, value: Any) -> Any:
        return _one_or_several(value)


class Home(Definition):
    """What pressing home asks for beyond the release run backwards."""

    splines: tuple[Text, ...] = ()
    stages: tuple[Length, ...] = ()
    depth: Text | None = None
    time: Duration | None = None

    @field_validator("splines", "stages", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _tuple(value)


class Load(Definition):
    """A spring, or several alike, between two seats, and every controlled way to let it go."""

    springs: tuple[Name, ...] = Field(min_length=1)
    seats: tuple[Name, Name] | None = None
    wound: Angle | None = None
    wound_between: tuple[Name, Name] | None = None
    could_leave: tuple[Name, ...] = ()
    confirmed_by: tuple[Name, ...] = ()
    releases: tuple[Release, ...] = ()
    about: Text | None = None
    caution: Text | None = None

    @field_validator("springs", "seats", "wound_between", "could_leave", "confirmed_by", "releases", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _tuple(value)

    @property
    def is_confirmed(self) -> bool:
        """Two different named people have confirmed the load's data on a real unit."""
        return len(set(self.confirmed_by)) >= 2


class Alignment(Definition):
    """What has to line up, with which tool, while which load goes home, and what proves it."""

    parts: tuple[Name, ...] = Field(min_length=1)
    tool: Name | None = None
    while_load: Name | None = None
    before: tuple[Name, ...] = ()
    how: Text
    proved_by: Text
    turn_at_most: Angle | None = None

    @field_validator("parts", "before", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        return _tuple(value)


Release.model_rebuild()
