"""Ways to let a load go: each complete, inside its own limits, and reaching something that frees the load."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import inf

from layshaft.book.check.load import installed_length, paths_between, stop_parts
from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Load, Release, SpringData
from layshaft.book.fault import Fault, Path
from layshaft.book.length import MARGIN, keep_from_solid
from layshaft.book.message import fault
from layshaft.book.spring import greatest_energy, greatest_force, greatest_speed, longest_free, solid_length
from layshaft.quantity import ENERGY, FORCE, LENGTH, SPEED, Show, is_more

SHOW = Show()
_ASKED: dict[str, tuple[str, ...]] = {
    "press": ("pushes", "stands on", "over"),
    "spring compressor": ("tool", "over"),
    "long screws": ("thread engaged",),
    "own thread": ("thread engaged",),
    "by hand under cover": ("limits",),
}

_IDLE: dict[str, tuple[str, ...]] = {
    "press": ("thread engaged", "limits"),
    "spring compressor": ("thread engaged", "limits"),
    "long screws": ("limits",),
    "own thread": ("limits",),
    "by hand under cover": ("over", "most over", "keep from solid", "thread engaged"),
}


def check_releases(subject: Subject) -> Iterator[Fault]:
    """Every fault in every way to let a load go; the load's own data is taken to be whole."""
    for name, load in subject.unit.loads.items():
        installed, _ = installed_length(subject, load)
        length = None if installed == inf else Fraction(installed)
        leans = subject.leaning.get(name, ())
        shortest = _solid(subject, load) if leans else subject.shortest(name)
        is_wound = load.seats is None and any(data.kind == "torsion" for data in _spring_data(subject, load))
        for at, release in enumerate(load.releases):
            path = ("loads", name, "releases", at)
            yield from _check_asked(path, release)
            yield from _check_idle(path, release)
            if is_wound and release.kind != "by hand under cover":
                yield fault("wound release", path=(*path, "kind"), found=release.kind)
            yield from _check_tool(subject, path, release)
            yield from _check_press(subject, path, load, release, None if leans else length, shortest)
            yield from _check_thread(subject, path, load, release, shortest)
            yield from _check_by_hand(subject, path, load, release, None if shortest == inf else Fraction(shortest))
            yield from _check_reach(subject, path, name, load, release)


def _spring_data(subject: Subject, load: Load) -> Iterator[SpringData]:
    return (data for part in load.springs if (data := subject.unit.parts[part].spring) is not None)


def _solid(subject: Subject, load: Load) -> Fraction:
    """The shortest a load can be: what is counted on where other springs push on it and no stop tells its length."""
    data = _spring_data(subject, load)
    return min((solid for one in data if (solid := solid_length(one)) is not None), default=Fraction(0))


def _solid_of(subject: Subject, part: str) -> Fraction | None:
    data = subject.unit.parts[part].spring
    return solid_length(data) if data is not None else None


def _given(release: Release) -> frozenset[str]:
    fields = Release.model_fields.items()
    return frozenset(str(field.alias) for name, field in fields if getattr(release, name) not in (None, ()))


def _check_asked(path: Path, release: Release) -> Iterator[Fault]:
    given = _given(release)
    for key in (*_ASKED[release.kind], "reach"):
        if key not in given:
            yield fault("release incomplete", path=path, found=release.kind, needed=f"`{key}: ..`", key=key)


def _check_idle(path: Path, release: Release) -> Iterator[Fault]:
    """Keys that another kind of release asks for: here nothing would ever be held against them."""
    given = _given(release)
    for key in _IDLE[release.kind]:
        if key in given:
            yield fault("key without meaning", path=(*path, key), found=key, where=f"for a release `{release.kind}`")


def _check_tool(subject: Subject, path: Path, release: Release) -> Iterator[Fault]:
    """Whether the tool that takes the force is rated for one."""
    tool = subject.unit.tools.get(release.tool) if release.tool else None
    if tool is None or release.tool is None or release.kind not in ("press", "spring compressor", "long screws"):
        return
    if tool.rating is None:
        yield fault("tool without rating", path=(*path, "tool"), found=release.tool)
    elif tool.rating.dimension != FORCE:
        yield fault("tool rated for lifting", path=(*path, "tool"), found=str(tool.rating), tool=release.tool)


def _check_press(
    subject: Subject, path: Path, load: Load, release: Release, length: Fraction | None, least: Fraction | float
) -> Iterator[Fault]:
    """Whether coils and tool bear what is pressed: as drawn to the most, and from the shortest as far as it has to."""
    if length is None or least == inf or (release.over is None and release.kind != "long screws"):
        return
    solids = {part: solid for part in load.springs if (solid := _solid_of(subject, part)) is not None}
    if length <= max(solids.values(), default=Fraction(0)):
        return
    most = release.most_over or release.over
    if most is not None and release.over is not None:
        if release.over.nominal > most.nominal:
            yield fault("over and most over", path=(*path, "most over"), found=f"{release.over} over, {most} at most")
        for part, solid in solids.items():
            yield from _check_solid(path, release, part, solid, (length - most.nominal, Fraction(least)))
    yield from _check_rating(subject, path, load, release, Fraction(least), max(solids.values(), default=None))


def _check_solid(
    path: Path, release: Release, part: str, solid: Fraction, lengths: tuple[Fraction, Fraction]
) -> Iterator[Fault]:
    """Whether coils stay clear at the most as drawn, and, every size at its worst, where the retainers come out."""
    drawn, least = lengths
    most = release.most_over or release.over
    assert release.over is not None
    pressed, key = least - release.over.high, "over"
    keep = release.keep_from_solid.nominal if release.keep_from_solid else Fraction(0)
    if drawn < solid + keep:
        found, key = f"{SHOW.show(drawn, LENGTH, 'down')} long when pressed {most} over", _most_key(release)
    elif pressed < solid + (keep := keep_from_solid(release)):
        found = f"{SHOW.show(pressed, LENGTH, 'down')} long at the shortest when pressed {release.over} over"
    else:
        return
    needed = f"at least {SHOW.show(solid + keep, LENGTH, 'up')}, its solid length and what keeps from it"
    yield fault("pressed solid", path=(*path, key), part=part, found=found, needed=needed)


def _most_key(release: Release) -> str:
    return "most over" if release.most_over else "over"


def _check_rating(
    subject: Subject, path: Path, load: Load, release: Release, least: Fraction, solid: Fraction | None
) -> Iterator[Fault]:
    """Whether the tool bears the load pressed to the most that a plan lets it: from the shortest, short of solid."""
    tool = subject.unit.tools.get(release.tool) if release.tool else None
    rating = tool.rating if tool is not None else None
    if rating is None or rating.dimension != FORCE:
        return
    over = release.over.high if release.over is not None else Fraction(0)
    most = release.most_over.high if release.most_over is not None else over
    if solid is not None:
        most = min(most, least - solid - keep_from_solid(release))
    force = greatest_force(subject.unit, load, least - max(over, most))
    if force is not None and is_more(force, rating.low):
        yield fault(
            "tool overloaded",
            path=(*path, "tool"),
            found=f"up to {SHOW.show(force, FORCE, 'up')}",
            needed=f"no more than the rating of `{release.tool}`, {rating}",
        )


def _check_thread(
    subject: Subject, path: Path, load: Load, release: Release, length: Fraction | float
) -> Iterator[Fault]:
    """Whether the thread still holds when the longest spring is free, from the shortest that it can be held at."""
    free = longest_free(subject.unit, load)
    engaged = release.thread_engaged
    if release.kind not in ("own thread", "long screws") or engaged is None or free is None or length == inf:
        return
    over = release.over.high if release.over else 0
    travel = free - Fraction(length) + over + (release.margin.high if release.margin else MARGIN)
    if engaged.low <= travel:
        yield fault(
            "thread too short",
            path=(*path, "thread engaged"),
            found=str(engaged),
            needed=f"more than {SHOW.show(travel, LENGTH, 'up')}, the way to the longest free length and the margin",
        )


def _check_by_hand(
    subject: Subject, path: Path, load: Load, release: Release, length: Fraction | None
) -> Iterator[Fault]:
    limits = release.limits
    if release.kind != "by hand under cover" or limits is None:
        return
    energy = greatest_energy(subject.unit, load, length)
    if energy is None:
        return
    if is_more(energy, limits.energy.low):
        yield fault(
            "too much for a hand",
            path=(*path, "limits", "energy"),
            found=SHOW.show(energy, ENERGY, "up"),
            needed=f"at most {limits.energy}",
        )
    speed = greatest_speed(subject.unit, load, energy)
    if is_more(speed, limits.speed.low):
        yield fault(
            "too much for a hand",
            path=(*path, "limits", "speed"),
            found=SHOW.show(speed, SPEED, "up"),
            needed=f"at most {limits.speed}",
        )


def _check_reach(subject: Subject, path: Path, name: str, load: Load, release: Release) -> Iterator[Fault]:
    """Whether what is taken off in a session breaks any way between the seats, or parts the spring from them."""
    tree, unit = subject.tree, subject.unit
    ends = [part_of(seat) for seat in load.seats or ()] + list(load.wound_between or ())
    leant = subject.leaning.get(name, ())
    paths = paths_between(subject, load) | {str(stop) for way in leant for stop in way.stops}
    if not paths and (load.wound_between is None or load.wound is None):
        return
    frees = tree.mask(tree.parting(tree.index[part] for part in (*load.springs, *ends)))
    for stop in paths:
        frees |= tree.mask(tree.parting(tree.index[part] for part in stop_parts(unit, stop)))
    reach = [(at, part) for at, part in enumerate(release.reach)]
    idle = [(at, part) for at, part in reach if not frees >> tree.index[part] & 1]
    if reach and len(idle) == len(reach):
        yield fault("release frees nothing", path=(*path, "reach"), found=", ".join(release.reach))
        return
    for at, part in idle:
        yield fault("reach not in path", path=(*path, "reach", at), found=part)
