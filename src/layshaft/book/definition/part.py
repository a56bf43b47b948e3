"""A part: what it is, where its faces are, how it comes out, what to look for and what to measure."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from layshaft.book.definition.base import (
    Angle,
    AnyLimit,
    AttitudeName,
    AxisName,
    Count,
    Definition,
    Direction,
    Duration,
    FaceOrLength,
    Flag,
    Force,
    Length,
    Mass,
    Name,
    NumberOrBand,
    OneOrSeveral,
    OwnFace,
    PartId,
    PartName,
    Pressure,
    Several,
    SpringRate,
    Text,
    ToolName,
    Torque,
    TorsionRate,
    Whole,
)
from layshaft.book.definition.need import Needs

Verdict = Literal["reuse", "rework", "renew", "measure again", "ask"]


class Fitting(Definition):
    """What is different when the part goes back in."""

    tool: ToolName | None = None
    attitude: OneOrSeveral[AttitudeName] | None = None
    time: Duration | None = None
    note: Text | None = None
    caution: Text | None = None
    by_hand: Flag = False
    drawn_on_by: PartName | None = None


class Way(Definition):
    """One way for a part to leave what it lies in."""

    toward: Direction
    held_by: Needs = ()
    behind: Needs = ()
    on_bench: Flag = False
    tool: ToolName | None = None
    attitude: OneOrSeveral[AttitudeName] | None = None
    time: Duration
    support: ToolName | None = None
    caution: Text | None = None
    note: Text | None = None
    fit: Fitting | None = None


class SpringTest(Definition):
    """The load a spring gives at a length: the figure that decides about it."""

    length: Length
    load: Force


class SpringData(Definition):
    """A spring, by its wire or by its rate; free length always, since it bounds how far the spring can open."""

    kind: Literal["helical", "wave", "disc", "torsion"]
    free_length: Length | None = None
    free_angle: Angle | None = None
    wire: Length | None = None
    mean_diameter: Length | None = None
    active_coils: NumberOrBand | None = None
    total_coils: NumberOrBand | None = None
    shear_modulus: Pressure | None = None
    rate: SpringRate | None = None
    angular_rate: TorsionRate | None = None
    solid_length: Length | None = None
    test: SpringTest | None = None
    mark: Text | None = None


class Selective(Definition):
    """Sizes to choose from: the distance between two faces that the choice sets."""

    from_: OwnFace
    to: OwnFace
    sizes: Several[Length] = Field(min_length=1)
    size_tolerance: Length | None = None


class Rework(Definition):
    """A repair that brings a part back inside its limit: measured again after it."""

    how: Text
    down_to: AnyLimit | None = None
    then_read_again: Several[Name] | None = None
    time: Duration | None = None


class ReadingPlan(Definition):
    """What to measure on a part, how often, with which class of gauge, and the limits."""

    how: Text
    gauge: Name
    from_: OwnFace | None = None
    to: OwnFace | None = None
    places: Count = 1
    decides: Literal["worst", "mean", "range", "min", "max"] = "worst"
    new: AnyLimit | None = None
    reuse: AnyLimit | None = None
    rework: Rework | None = None
    load: Force | None = None
    why: Text | None = None
    optional: Flag = False
    time: Duration | None = None
    before: Several[PartName] = ()


class Mending(Definition):
    """What to do about a grade that says rework, and which reading of the part tells afterwards that it is done."""

    how: Text
    measure: Name | None = None
    then_read_again: Several[Name] | None = None
    time: Duration | None = None


class LookPlan(Definition):
    """What to look for, graded in plain words; each grade carries its verdict."""

    how: Text
    grades: dict[Name, Verdict] = Field(min_length=1)
    rework: Mending | None = None
    why: Text | None = None
    optional: Flag = False
    time: Duration | None = None


class Fastening(Definition):
    """How a fastener is tightened."""

    size: Name
    torque: Torque
    lube: Text | None = None
    sealant: Text | None = None
    pattern: Text | None = None
    property_class: Name | None = None
    angle: Angle | None = None


class Step(Definition):
    """A stretch of a part's outline: a ring of given diameters between two faces."""

    from_: FaceOrLength
    to: FaceOrLength
    inner: Length
    outer: Length
    kind: Literal["ring", "pillars", "rollers", "teeth"] = "ring"


class Odds(Definition):
    """How many of these were seen, and how many were used again."""

    seen: Whole
    reused: Whole


class Part(Definition):
    """One part of a unit; a count above one means so many alike, each with looks, readings and a state of its own."""

    name: Text
    class_: Name
    count: Count = 1
    mass: Mass
    axis: AxisName | None = None
    lies_in: PartName | None = None
    faces: dict[Name, Length] = Field(default_factory=dict)
    shape: Several[Step] = ()
    ways: Several[Way] = ()
    fit_late: Flag = False
    stays_together: Text | None = None
    stays: Text | None = None
    way_round: Text | None = None
    wrong_way_costs: Text | None = None
    renew: Literal["always"] | None = None
    served_in: PartName | None = None
    sold_as: PartId | None = None
    spring: SpringData | None = None
    selective: Selective | None = None
    readings: dict[Name, ReadingPlan] = Field(default_factory=dict)
    looks: dict[Name, LookPlan] = Field(default_factory=dict)
    fastener: Fastening | None = None
    lube: Text | None = None
    sealant: Text | None = None
    rating: Force | None = None
    odds: Odds | None = None
    comeback_cost: Text | None = None
    note: Text | None = None
    caution: Text | None = None


def sold_id(parts: Mapping[str, Part], name: str) -> str:
    """What a part is bought, priced and kept in the drawer by: its own id, or the one it shares with other places."""
    return parts[name].sold_as or name


def sold_ids(parts: Mapping[str, Part]) -> tuple[str, ...]:
    """Every id that something is bought by, in the order of the book; what comes only with another is among them."""
    return tuple(dict.fromkeys(sold_id(parts, name) for name in parts))


def sold_name(parts: Mapping[str, Part], sold: str) -> str:
    """What is bought by an id is called: the words that the names of its places begin with alike."""
    names = [part.name for name, part in parts.items() if sold_id(parts, name) == sold]
    words = [[word.rstrip(",;:") for word in name.split()] for name in names]
    alike = 0
    while alike < min(map(len, words)) and len({tuple(one[: alike + 1]) for one in words}) == 1:
        alike += 1
    return " ".join(names[0].split()[:alike]).rstrip(",;:") or names[0]
