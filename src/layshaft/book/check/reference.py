"""Every name in a unit leads somewhere: parts, faces, tools, attitudes, directions, packs, results, shafts."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.check.subject import Subject
from layshaft.book.definition import Term, Unit
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.reference import Reference


def check_references(subject: Subject) -> Iterator[Fault]:
    """Each name that leads nowhere, with the nearest that would."""
    known = _known(subject.unit)
    for path, reference in subject.references:
        for one in _check(subject.unit, known, path, reference):
            is_elsewhere = one.id == "unknown name" and any(one.found in names for names in subject.named.values())
            yield fault("absent name", path=path, found=one.found) if is_elsewhere else one


def _known(unit: Unit) -> dict[str, Collection[str]]:
    train = unit.train
    return {
        "attitude": unit.attitudes,
        "axis": unit.axes,
        "coupling": train.couplings if train else (),
        "load": unit.loads,
        "pack": unit.packs,
        "part": unit.parts,
        "proof": unit.proofs,
        "range": train.ranges if train else (),
        "result": unit.results,
        "shaft": (*train.shafts, train.case) if train else (),
        "tool": unit.tools,
    }


def _check(unit: Unit, known: dict[str, Collection[str]], path: Path, reference: Reference) -> Iterator[Fault]:
    subject, name = reference.subject, reference.value
    if subject in known:
        # Without a train, what plates turn with is only a word that tells them apart.
        if name not in known[subject] and not (subject == "shaft" and unit.train is None):
            yield _unknown(subject, name, known[subject], path)
    elif subject == "face":
        yield from _check_face(unit, name, path)
    elif subject == "part or face":
        if name not in unit.parts:
            yield from _check_face(unit, name, path)
    elif subject == "own face":
        if isinstance(name, str):
            yield from _check_face_of(unit, str(path[1]), name, path)
    elif subject == "direction":
        yield from _check_direction(unit, name, path)
    elif subject == "link":
        yield from _check_link(unit, name, path)


def _unknown(subject: str, name: str, known: Collection[str], path: Path) -> Fault:
    if not known:
        return fault(
            "names nothing", path=path, found=name, needed=f"a {subject} of this book, which has none", what=subject
        )
    return fault(
        "unknown name",
        path=path,
        found=name,
        needed=f"a {subject} of this book, as {listed(list(known)[:4])}",
        try_=nearest_try(name, known),
        what=subject,
    )


def _check_face(unit: Unit, name: str, path: Path) -> Iterator[Fault]:
    part, _, face = name.partition(" ")
    if part not in unit.parts:
        yield _unknown("part", part, unit.parts, path)
    elif not face:
        faces = listed(f"{part} {one}" for one in unit.parts[part].faces)
        yield fault("not a face", path=path, found=name, needed=f"`PART face`, as {faces}" if faces else "`PART face`")
    else:
        yield from _check_face_of(unit, part, face, path)


def _check_face_of(unit: Unit, part: str, face: str, path: Path) -> Iterator[Fault]:
    faces = unit.parts[part].faces
    if face not in faces:
        yield fault(
            "unknown face",
            path=path,
            found=face,
            needed=listed(faces) or "a face, but this part has none",
            try_=nearest_try(face, faces),
            part=part,
        )


def _check_direction(unit: Unit, name: str, path: Path) -> Iterator[Fault]:
    part = str(path[1]) if path[0] == "parts" else unit.stops[str(path[1])].a.partition(" ")[0]
    definition = unit.parts.get(part)
    axis = unit.axes.get(unit.axis_of(part)) if definition is not None else None
    if axis is None:
        return
    known = [axis.start, axis.end, *(unit.openings if path[0] == "parts" else ())]
    if name not in known:
        yield fault(
            "unknown direction",
            path=path,
            found=name,
            needed=f"one of {listed(known)}",
            try_=nearest_try(name, known),
            part=part,
        )


def _check_link(unit: Unit, term: Term, path: Path) -> Iterator[Fault]:
    if term.kind == "pack" and term.name not in unit.packs:
        yield _unknown("pack", str(term.name), unit.packs, path)
    elif term.kind == "result" and term.name not in unit.results:
        yield _unknown("result", str(term.name), unit.results, path)
    elif term.kind == "distance":
        part = str(term.part)
        if part not in unit.parts:
            yield _unknown("part", part, unit.parts, path)
        else:
            for face in (str(term.from_), str(term.to)):
                yield from _check_face_of(unit, part, face, path)
