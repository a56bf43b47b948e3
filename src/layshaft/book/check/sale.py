"""How parts are bought: what they are sold in or as has to agree among all places of one sold part."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.check.subject import Subject
from layshaft.book.circle import circles
from layshaft.book.definition import Part, Selective
from layshaft.book.definition.part import sold_id
from layshaft.book.fault import Fault
from layshaft.book.message import fault


def check_serving(subject: Subject) -> Iterator[Fault]:
    """Parts that are served in each other in a circle."""
    served = {name: (part.served_in,) for name, part in subject.unit.parts.items() if part.served_in is not None}
    for circle in circles(served):
        chain = ", ".join(f"{name} in {served[name][0]}" for name in circle)
        yield fault("served in itself", path=("parts", circle[0], "served in"), found=chain)


def check_sales(subject: Subject) -> Iterator[Fault]:
    """Places of one sold part that do not agree, and ids that are themselves sold as another."""
    parts = subject.unit.parts
    for name, part in parts.items():
        if part.sold_as is None:
            continue
        path = ("parts", name)
        sold = parts.get(part.sold_as)
        if sold is not None and sold.sold_as not in (None, part.sold_as):
            yield fault(
                "sold as another in turn",
                path=(*path, "sold as"),
                found=part.sold_as,
                needed=f"`{sold.sold_as}`, or another id that is bought",
                other=sold.sold_as,
            )
            continue
        first = _first_of(parts, part.sold_as)
        if _comes_in(parts, parts[first]) != _comes_in(parts, part):
            key = "served in" if part.served_in is not None else "sold as"
            yield fault(
                "sold in two ways",
                path=(*path, key),
                found=_told(part),
                part=name,
                other=first,
                how=_told(parts[first]),
                sold=part.sold_as,
            )
        elif _sizes(parts[first].selective) != _sizes(part.selective):
            key = "selective" if part.selective is not None else "sold as"
            yield fault("sizes differ", path=(*path, key), found=name, other=first, sold=part.sold_as)


def _first_of(parts: dict[str, Part], sold: str) -> str:
    """The place that the others are held against: the one with the id itself, or else the first in the book."""
    return sold if sold in parts else next(name for name in parts if sold_id(parts, name) == sold)


def _comes_in(parts: dict[str, Part], part: Part) -> str | None:
    return None if part.served_in is None else sold_id(parts, part.served_in)


def _told(part: Part) -> str:
    return "sold by itself" if part.served_in is None else f"served in {part.served_in}"


def _sizes(selective: Selective | None) -> tuple[object, ...] | None:
    if selective is None:
        return None
    tolerance = selective.size_tolerance
    return (None if tolerance is None else tolerance.nominal, *(size.nominal for size in selective.sizes))
