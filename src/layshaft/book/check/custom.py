"""The trade's own knowledge around the parts: attitudes, sets, groups, kits, preparations, proofs, the whole mass."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layshaft.book.check.subject import Subject
from layshaft.book.definition import Unit
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed
from layshaft.book.unlike import unlike
from layshaft.quantity import MASS, Show
from layshaft.quantity.fault import edits

SHOW = Show()
MOST_SLIPS = 2
"""So many letters amiss are a slip of the pen (own choice)."""
MASS_TOLERANCE = Fraction(2, 100)
"""By how much the whole mass may differ from the sum of the parts: oil and sealant weigh too (own choice)."""


def check_customs(subject: Subject) -> Iterator[Fault]:
    """Every fault in what a book says around its parts."""
    unit = subject.unit
    yield from _check_attitudes(unit)
    yield from _check_sets(unit)
    yield from _check_kits(unit)
    for name, preparation in unit.preparations.items():
        if preparation.hands.nominal > preparation.elapsed.nominal:
            yield fault(
                "hands over elapsed",
                path=("preparations", name, "hands"),
                found=f"{preparation.hands} of work in {preparation.elapsed}",
            )
    for name, proof in unit.proofs.items():
        for part in proof.after:
            if part in proof.before:
                yield fault("before and after", path=("proofs", name, "before"), found=part)
        result = unit.results.get(proof.result) if proof.result else None
        told = (result.limit or result.drawn) if result is not None else None
        if proof.limit and told:
            here: Path = ("proofs", name, "limit")
            own = proof.limit.dimension
            wrong = unlike(here, str(proof.limit), own, told.dimension, f"as `{proof.result}` is")
            yield from (wrong,) if wrong else ()
    yield from _check_gauges(unit)
    yield from _check_mass(unit)


def _check_gauges(unit: Unit) -> Iterator[Fault]:
    """A class of gauge that is asked for once only, and is nearly the name of another: no shop may know it."""
    asked: dict[str, list[Path]] = {}
    for part, definition in unit.parts.items():
        for name, plan in definition.readings.items():
            asked.setdefault(plan.gauge, []).append(("parts", part, "readings", name, "gauge"))
    for name, result in unit.results.items():
        if result.read is not None:
            asked.setdefault(result.read.gauge, []).append(("results", name, "read", "gauge"))
    for name, proof in unit.proofs.items():
        if proof.gauge is not None:
            asked.setdefault(proof.gauge, []).append(("proofs", name, "gauge"))
    common = [gauge for gauge, paths in asked.items() if len(paths) > 1]
    for gauge, paths in asked.items():
        near = next((one for one in common if edits(gauge, one) <= MOST_SLIPS), None) if len(paths) == 1 else None
        if near is not None:
            yield fault("gauge class alone", path=paths[0], found=gauge, near=near)


def _check_attitudes(unit: Unit) -> Iterator[Fault]:
    for at, attitude in enumerate(unit.attitudes):
        if attitude in unit.attitudes[:at]:
            yield fault("listed twice", path=("attitudes", at), found=attitude)
    ends = {end for axis in unit.axes.values() for end in (axis.start, axis.end)}
    for name in unit.openings:
        if name in ends:
            yield fault("opening named as end", path=("openings", name), found=name)
    for name, axis in unit.axes.items():
        if axis.start == axis.end:
            yield fault("axis ends alike", path=("axes", name, "end"), found=axis.end)
        for attitude in axis.start_is_up:
            if attitude in axis.end_is_up:
                yield fault("both ends up", path=("axes", name, "end is up"), found=attitude)


def _check_sets(unit: Unit) -> Iterator[Fault]:
    for name, mating in unit.sets.items():
        for at, part in enumerate(mating.members):
            if part in mating.members[:at]:
                yield fault("listed twice", path=("sets", name, "members", at), found=part)
        if len(set(mating.members)) == 1 and unit.parts[mating.members[0]].count == 1:
            yield fault("set of one", path=("sets", name, "members"), found=mating.members[0])


def _check_kits(unit: Unit) -> Iterator[Fault]:
    for name, kit in unit.kits.items():
        for part, number in kit.holds.items():
            if number > unit.parts[part].count:
                yield fault(
                    "kit holds more",
                    path=("kits", name, "holds", part),
                    found=f"{number} of {part}",
                    needed=f"the {unit.parts[part].count} that this variant has",
                )


def _check_mass(unit: Unit) -> Iterator[Fault]:
    total = sum((part.mass.nominal * part.count for part in unit.parts.values()), Fraction(0))
    if unit.mass is not None and abs(total - unit.mass.nominal) > MASS_TOLERANCE * unit.mass.nominal:
        yield fault(
            "mass", path=("mass",), found=unit.mass.text, needed=f"{SHOW.show(total, MASS)}, the sum of its parts"
        )


def check_groups(subject: Subject) -> Iterator[Fault]:
    """Groups listed as lifting together that do not lie together."""
    tree = subject.tree
    for name, group in subject.unit.groups.items():
        lead = tree.index[group.lead]
        carried = tree.carried(0, lead) | 1 << lead
        listed_ones = tree.mask_of(group.members) | 1 << lead
        missing, more = tree.names(listed_ones & ~carried), tree.names(carried & ~listed_ones)
        if missing:
            yield fault(
                "group not together",
                path=("groups", name, "members"),
                found=listed(missing),
                lead=group.lead,
                needed=f"`lies in` {group.lead}, or in what lies in it",
            )
        if more:
            yield fault("group carries more", path=("groups", name, "members"), found=listed(more), lead=group.lead)
