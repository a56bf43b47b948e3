"""The gear train: shafts, meshes, planetary sets, chains, couplings and ranges."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from layshaft.book.definition.base import (
    Angle,
    Count,
    CouplingName,
    Definition,
    Flag,
    Length,
    Name,
    Number,
    PackName,
    Pair,
    PartName,
    Several,
    ShaftName,
    Text,
    Torque,
    Whole,
)


class Wheel(Definition):
    """A toothed member on a shaft."""

    shaft: ShaftName
    teeth: Count
    part: PartName | None = None


class Planet(Definition):
    """Planets of a set; a compound planet has a second toothing that the `second` wheels run on."""

    teeth: Count
    count: Count
    second_teeth: Count | None = None
    part: PartName | None = None


class Planetary(Definition):
    """A planetary set: sun, ring, carrier, each free, held or driven; sun or ring may run on the second toothing."""

    sun: Wheel | None = None
    ring: Wheel | None = None
    carrier: ShaftName
    carrier_part: PartName | None = None
    planet: Planet
    sun_on: Literal["first", "second"] = "first"
    ring_on: Literal["first", "second"] = "first"
    transverse_module: Length | None = None
    normal_module: Length | None = None
    helix: Angle | None = None
    centre_distance: Length | None = None


class Mesh(Definition):
    """Two external wheels (or one internal) that mesh."""

    a: Wheel
    b: Wheel
    internal: Flag = False
    idlers: Whole = 0
    normal_module: Length | None = None
    helix: Angle | None = None
    centre_distance: Length | None = None


class ChainDrive(Definition):
    """Two sprockets joined by a chain: they turn the same way."""

    a: Wheel
    b: Wheel
    pitch: Length | None = None
    links: Count | None = None
    centre_distance: Length | None = None


class Coupling(Definition):
    """A clutch, brake, collar or one-way clutch between two shafts, or a shaft and the case."""

    kind: Literal["clutch", "brake", "one-way", "collar"]
    between: Pair[ShaftName]
    locks_when: Text | None = None
    pack: PackName | None = None
    part: PartName | None = None


class Range(Definition):
    """Which couplings are closed in a range, and the ratio that the counted turns must show."""

    closed: Several[CouplingName]
    drawn: Text | None = Field(default=None, description="counted turns, as in `7 in, 10 out`")
    about: Text | None = None


class Train(Definition):
    """The whole train; `case` is the shaft that never turns."""

    input: ShaftName
    output: ShaftName
    case: Name = "case"
    shafts: Several[Name] = Field(min_length=1)
    planetaries: dict[Name, Planetary] = Field(default_factory=dict)
    meshes: dict[Name, Mesh] = Field(default_factory=dict)
    chains: dict[Name, ChainDrive] = Field(default_factory=dict)
    couplings: dict[Name, Coupling] = Field(default_factory=dict)
    ranges: dict[Name, Range] = Field(default_factory=dict)
    worst_input_torque: Torque | None = None
    service_factor: Number | None = None
