"""How long a path of stops lets a load get, every size at its worst and shared sizes counted once."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from fractions import Fraction

from layshaft.book.definition import Release, Stop, Unit
from layshaft.book.size import ZERO, Form, Sizes, Span

MARGIN = Fraction(5, 1000)
"""Travel beyond the longest free length where a book does not say, so that parts are seen to rock [m] (common
practice, no source)."""
KEEP_FROM_SOLID = Fraction(2, 1000)
"""Left before the coils touch where the book does not say [m] (common practice, no source)."""


def keep_from_solid(release: Release) -> Fraction:
    """What a release way leaves before the coils touch [m]."""
    return release.keep_from_solid.high if release.keep_from_solid is not None else KEEP_FROM_SOLID


def path_span(unit: Unit, sizes: Sizes, load: str, stops: Iterable[Hashable]) -> Span:
    """The length [m] that a path of stops lets a load between seats get."""
    seats = unit.loads[load].seats
    assert seats is not None
    total = _place(sizes, seats[1]).add(_place(sizes, seats[0]), -1)
    plain = Span.exactly(ZERO)
    for name in stops:
        stop = unit.stops[str(name)]
        axis = unit.axes[unit.axis_of(stop.a.partition(" ")[0])]
        sign = -1 if stop.toward == axis.start else 1
        total.add(_place(sizes, stop.a), sign).add(_place(sizes, stop.b), -sign)
        form = _gap_form(sizes, stop)
        if form is None:
            plain = plain.plus(sizes.stop_gap(str(name)))
        else:
            total.add(form)
    return sizes.worst(total).plus(plain)


def _place(sizes: Sizes, face: str) -> Form:
    part, _, name = face.partition(" ")
    return sizes.place(part, name)


def _gap_form(sizes: Sizes, stop: Stop) -> Form | None:
    return sizes.chain(stop.at_most) if isinstance(stop.at_most, tuple) else None
