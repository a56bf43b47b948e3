"""Packs: plates that can alternate, members with both faces, a height that is the sum of them."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.check.load import pack_parts
from layshaft.book.check.subject import Subject
from layshaft.book.definition import Pack, Unit
from layshaft.book.fault import Fault
from layshaft.book.message import fault
from layshaft.book.nearness import listed
from layshaft.book.rounding import agrees
from layshaft.quantity import LENGTH, Show

SHOW = Show()


def check_packs(subject: Subject) -> Iterator[Fault]:
    """Counts that cannot alternate, members without faces or not in the pack, and drawn heights that are wrong."""
    for name, pack in subject.unit.packs.items():
        yield from _check_counts(subject.unit, name, pack)
        faceless = list(_check_members(subject.unit, name, pack))
        yield from faceless
        if pack.height is not None and not faceless:
            height = subject.sizes.nominal(subject.sizes.pack_height(name))
            if not agrees(pack.height, height):
                yield fault(
                    "pack height",
                    path=("packs", name, "height"),
                    found=pack.height.text,
                    needed=f"{SHOW.show_exact(height, LENGTH)}, the sum of its pieces",
                )


def _check_counts(unit: Unit, name: str, pack: Pack) -> Iterator[Fault]:
    placed: dict[str, int] = {}
    for at, item in enumerate(pack.order):
        for part in (item.part,) if item.part else item.alternate or ():
            if part in placed:
                yield fault("pack member twice", path=("packs", name, "order", at), found=part)
            placed[part] = at
        if item.alternate is not None:
            first, second = (unit.parts[part].count for part in item.alternate)
            if first - second not in (0, 1):
                found = f"{first} of {item.alternate[0]} and {second} of {item.alternate[1]}"
                yield fault(
                    "cannot alternate",
                    path=("packs", name, "order", at),
                    found=found,
                    needed=f"as many {item.alternate[0]} as {item.alternate[1]}, or one more",
                )


def _check_members(unit: Unit, name: str, pack: Pack) -> Iterator[Fault]:
    members = pack_parts(unit, name)
    for part in members:
        for face in pack.faces:
            if face not in unit.parts[part].faces:
                yield fault(
                    "pack face",
                    path=("packs", name, "order"),
                    found=part,
                    needed=f"a face `{face}` on {part}",
                    face=face,
                )
    for key, parts in (("lined", pack.lined), ("turns with", tuple(pack.turns_with))):
        for at, part in enumerate(parts):
            if part not in members:
                place = at if key == "lined" else part
                yield fault(
                    "not in pack", path=("packs", name, key, place), found=part, needed=f"one of {listed(members)}"
                )
