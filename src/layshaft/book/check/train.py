"""The gear train: sets that can be put together, and ranges that turn as they are drawn."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import cos

from layshaft.book.check.subject import Subject
from layshaft.book.definition import Planetary, Range, Train
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.book.turning import network
from layshaft.mechanics import planet, speed
from layshaft.mechanics.train import Train as Network
from layshaft.quantity import LENGTH, Show

SHOW = Show()
MOST_SHIFTED = 2
"""By how many teeth a set with shifted teeth may miss closing, where its centre distance is told: beyond that neither
mesh would be left enough tooth (own choice, from the common bounds on profile shift of about half a module each)."""
_BACKWARDS = (
    "every mesh of wheels side by side turns backwards; so does a bevel pair here, whose sense depends on which way "
    "one looks"
)
_TURNS = re.compile(r"([0-9]+) in, (-?[0-9]+) out")


def check_train(subject: Subject) -> Iterator[Fault]:
    """Every fault in the gear train; what it names is taken to be there."""
    train = subject.unit.train
    if train is None:
        return
    for name, gearset in train.planetaries.items():
        yield from _check_planets(name, gearset)
    built = network(train)
    for name, gear_range in train.ranges.items():
        yield from _check_range(train, built, name, gear_range)


def _check_planets(name: str, gearset: Planetary) -> Iterator[Fault]:
    path = ("train", "planetaries", name)
    planets = gearset.planet
    compound = planets.second_teeth
    for key, on, wheel in (("sun on", gearset.sun_on, gearset.sun), ("ring on", gearset.ring_on, gearset.ring)):
        if on == "second" and compound is None and wheel is not None:
            yield fault("no second toothing", path=(*path, key), found=name)
            return
    if gearset.sun is not None and gearset.ring is not None:
        sun, ring = gearset.sun.teeth, gearset.ring.teeth
        sun_planet, ring_planet = toothings(gearset)
        if gearset.sun_on == gearset.ring_on:
            closing = abs(planet.ring_closure(sun, sun_planet, ring))
            if closing > (MOST_SHIFTED if gearset.centre_distance else 0):
                yield fault(
                    "ring does not close",
                    path=(*path, "ring", "teeth"),
                    found=str(ring),
                    needed=f"{sun + 2 * sun_planet}: sun {sun} and twice planet {sun_planet}",
                    try_=(
                        f"count again: {closing} teeth are more than any shift makes up"
                        if closing > MOST_SHIFTED
                        else ""
                    ),
                )
        if not planet.is_evenly_spaceable(planets.count, sun, -ring, sun_planet, ring_planet):
            places = abs(planet.planet_places(sun, -ring, sun_planet, ring_planet))
            yield fault(
                "planets cannot be spaced",
                path=(*path, "planet", "count"),
                found=f"{planets.count} planets",
                needed=f"a number that goes into {places}, the places round the sun where a planet fits",
            )
    yield from _check_neighbours(name, gearset)


def toothings(gearset: Planetary) -> tuple[int, int]:
    """The teeth of the planet where the sun meshes and where the ring meshes."""
    first, second = gearset.planet.teeth, gearset.planet.second_teeth or gearset.planet.teeth
    return (first if gearset.sun_on == "first" else second), (first if gearset.ring_on == "first" else second)


def _check_neighbours(name: str, gearset: Planetary) -> Iterator[Fault]:
    """Whether neighbouring planets keep clear of each other by their tips.

    References
    ----------
    Tip diameter = pitch diameter and twice the normal module, a full-depth tooth: common practice, no source.
    """
    if gearset.planet.count < 2 or (gearset.sun is None and gearset.centre_distance is None):
        return
    normal = gearset.normal_module.si if gearset.normal_module else None
    helix = gearset.helix.si if gearset.helix else 0.0
    transverse = gearset.transverse_module.si if gearset.transverse_module else normal / cos(helix) if normal else None
    if transverse is None:
        return
    teeth = toothings(gearset)[0]
    sun = gearset.sun.teeth if gearset.sun else 0
    centre = gearset.centre_distance.si if gearset.centre_distance else (sun + teeth) * transverse / 2
    tip = teeth * transverse + 2 * (normal or transverse * cos(helix))
    gap = float(planet.neighbour_tip_gap(centre, gearset.planet.count, tip))
    if gap <= 0:
        yield fault(
            "planets foul",
            path=("train", "planetaries", name, "planet", "count"),
            found=f"{SHOW.show(-gap, LENGTH)} of overlap",
            needed="a gap between neighbouring tips",
        )


def _check_range(train: Train, built: Network | None, name: str, gear_range: Range) -> Iterator[Fault]:
    path = ("train", "ranges", name)
    drawn = _TURNS.fullmatch(gear_range.drawn) if gear_range.drawn is not None else None
    if gear_range.drawn is not None and (drawn is None or int(drawn[1]) == 0):
        yield fault("turns not read", path=(*path, "drawn"), found=gear_range.drawn)
    if built is None:
        return
    given = {train.input: Fraction(1)}
    if train.case in built.shafts:
        given[train.case] = Fraction(0)
    if train.input not in built.shafts or train.output not in built.shafts:
        return
    try:
        turned = speed.solve_speeds(built, gear_range.closed, given)[train.output]
    except speed.TieUp as refusal:
        yield fault("tie-up", path=(*path, "closed"), found=", ".join(refusal.couplings) or "the gears alone")
        return
    if drawn is None:
        return
    if turned is None:
        yield fault("nothing drives", path=(*path, "closed"), found=gear_range.drawn or "")
    elif int(drawn[1]) and turned != Fraction(int(drawn[2]), int(drawn[1])):
        yield fault(
            "turns otherwise",
            path=(*path, "drawn"),
            found=gear_range.drawn or "",
            needed=f"{turned.denominator} in, {turned.numerator} out",
            try_=_BACKWARDS if turned == -Fraction(int(drawn[2]), int(drawn[1])) else "",
        )
