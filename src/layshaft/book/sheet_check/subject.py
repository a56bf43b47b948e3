"""The job under check beside the unit and the shop it was done with, and what several checks ask."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from layshaft.book.definition import Job, Shop, Unit
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try

CUSTOMER = "customer"
"""Who may choose besides the people of the shop."""


@dataclass(frozen=True)
class Subject:
    """A job with its unit and its shop."""

    job: Job
    unit: Unit
    shop: Shop

    def unknown_part(self, part: str | None, path: Path) -> Iterator[Fault]:
        """A fault where a part is named that the unit does not have."""
        if part is not None:
            yield from in_book("part", part, self.unit.parts, path)

    def unknown_person(self, person: str | None, path: Path, *, or_customer: bool = False) -> Iterator[Fault]:
        """A fault where somebody is named who is not of the shop."""
        if person is not None and not (or_customer and person == CUSTOMER):
            known = [*self.shop.people, CUSTOMER] if or_customer else self.shop.people
            yield from in_shop("person", person, known, path)

    def misplaced_moment(self, moment: str | None, path: Path) -> Iterator[Fault]:
        """A fault or a note where something is dated outside the days of the job."""
        if moment is None:
            return
        if moment[:10] > self.job.today:
            yield fault("after today", path=path, found=moment, today=self.job.today)
        elif moment[:10] < self.job.opened:
            yield fault("before opened", path=path, found=moment, opened=self.job.opened)


def in_book(what: str, name: str, known: Collection[str], path: Path) -> Iterator[Fault]:
    """A fault where the book knows nothing of that name."""
    if name in known:
        return
    if known:
        needed = f"a {what} of this book, as {listed(list(known)[:4])}"
        yield fault("unknown name", path=path, found=name, needed=needed, try_=nearest_try(name, known), what=what)
    else:
        yield fault("names nothing", path=path, found=name, needed=f"a {what} of this book, which has none", what=what)


def in_shop(what: str, name: str, known: Collection[str], path: Path) -> Iterator[Fault]:
    """A fault where the shop knows nothing of that name."""
    if name not in known:
        needed = listed(known) or f"a {what} of this shop, which has none"
        yield fault("not in shop", path=path, found=name, needed=needed, try_=nearest_try(name, known), what=what)


def too_many(part: str, found: int, count: int, path: Path, word: str = "") -> Fault:
    """A fault where more pieces of a part are told of than there are."""
    return fault(
        "more pieces", path=path, found=f"{word}{found}", needed=f"at most {count}", part=part, count=str(count)
    )
