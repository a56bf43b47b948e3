"""Where a press or a compressor bears: not on what has to come off, not on the spring, not on one part twice."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from layshaft.book.check.load import installed_length, reached
from layshaft.book.check.subject import Subject, part_of
from layshaft.book.definition import Load, Release
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault

_PRESSED = ("press", "spring compressor")
_KEYS = {"pushes": "pushes", "stands_on": "stands on"}


def check_press_stands(subject: Subject) -> Iterator[Fault]:
    """Every release way whose force cannot be put where the book says."""
    for name, load in subject.unit.loads.items():
        for at, release in enumerate(load.releases):
            path = ("loads", name, "releases", at)
            found = list(_stand_faults(subject, path, load, release))
            yield from found
            # What nothing holds, or what others lean on, is told or known elsewhere.
            if not found and installed_length(subject, load)[0] != inf and not subject.leaning.get(name):
                yield from _side_faults(subject, path, load, release)


def _stand_faults(subject: Subject, path: Path, load: Load, release: Release) -> Iterator[Fault]:
    for attribute, key in _KEYS.items():
        face = getattr(release, attribute)
        part = part_of(face) if face is not None else None
        if part is None:
            continue
        here = (*path, key)
        holder = next((one for one in release.reach if _comes_with(subject, part, one)), None)
        if release.kind == "spring compressor" and part in _gripped(load):
            continue
        if part in load.springs:
            yield fault("bears on the spring", path=here, found=part, key=key)
        elif holder is not None:
            yield fault("bears on what comes off", path=here, found=part, key=key, holder=holder)
        elif key == "pushes" and part == subject.unit.base:
            yield fault("pushes the base", path=here, found=part)
    pushed, floor = release.pushes, release.stands_on
    if pushed is not None and floor is not None and part_of(pushed) == part_of(floor):
        yield fault("pushes what it stands on", path=(*path, "stands on"), found=part_of(floor))


def _gripped(load: Load) -> tuple[str, ...]:
    """Where the jaws of a compressor may take a spring: by itself, or at a seat that comes off while they hold it."""
    return (*load.springs, *(part_of(seat) for seat in load.seats or ()))


def _comes_with(subject: Subject, part: str, holder: str) -> bool:
    """Whether a part is the one that is taken off, or lies in it and goes along."""
    tree = subject.tree
    return tree.index[holder] in tree.chain(tree.index[part])


def _side_faults(subject: Subject, path: Path, load: Load, release: Release) -> Iterator[Fault]:
    """A push that no contact leads to either seat, or that does not come through to what it is to go back into."""
    if release.kind not in _PRESSED or release.pushes is None or release.stands_on is None or load.seats is None:
        return
    first, second = (part_of(seat) for seat in load.seats)
    pushed, floor = part_of(release.pushes), part_of(release.stands_on)
    if pushed in load.springs or floor in load.springs:
        return
    contacts = _contacts(subject, load)
    toward_end, toward_start = reached(pushed, contacts), reached(pushed, [(b, a) for a, b in contacts])
    ends = ((first, second, toward_end), (second, first, toward_start))
    ahead = [far for near, far, reached in ends if near in reached]
    if not ahead:
        yield fault(
            "push leads nowhere", path=(*path, "pushes"), found=pushed, seats=f"{load.seats[0]} and {load.seats[1]}"
        )
        return
    ways = [contacts if far == second else [(b, a) for a, b in contacts] for far in ahead]
    if not any(floor in reached(far, way) for way, far in zip(ways, ahead, strict=True)):
        yield fault("push comes not through", path=(*path, "stands on"), found=floor, far=" or ".join(ahead))


def _contacts(subject: Subject, load: Load) -> list[tuple[str, str]]:
    """Which part passes a push toward the axis end on to which, every stop whole."""
    seat = load.seats[0] if load.seats is not None else ""
    layout = subject.layout(subject.unit.axis_of(part_of(seat))).layout
    return [(part_of(str(stop.b)), part_of(str(stop.a))) for stop in layout.stops]
