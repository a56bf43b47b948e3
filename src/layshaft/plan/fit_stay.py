"""Places that nobody asks a size for, because the built unit was read: the unit's own piece stays, or it is named."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from fractions import Fraction

from layshaft.gauging.window import is_inside
from layshaft.plan.drawer import SelectivePlace
from layshaft.plan.figure import listed
from layshaft.plan.fit_demand import Asker
from layshaft.plan.judgement import Judgement, OpenPoint
from layshaft.plan.measured import Measured
from layshaft.plan.wanted import LOOK_MINUTES


def staying_pieces(
    measured: Measured, places: Mapping[str, SelectivePlace], asker: Asker, chosen: Collection[str]
) -> dict[str, Fraction]:
    """The unit's own piece at each place without a size, where the built unit meets every limit that rests on it."""
    found = {}
    for name, place in places.items():
        own = next((one.size for one in place.own if one.place == name), None)
        limited = asker.limits_of(name)
        is_met = are_shown_inside(measured, limited)
        if own is not None and is_met and name not in chosen and not place.is_refused:
            found[name] = own
    return found


def are_shown_inside(measured: Measured, results: Collection[str]) -> bool:
    """Whether the built unit shows each of these limits met, one at least: nothing is to be tried for them any more."""
    return bool(results) and all(_is_shown_inside(measured, one) for one in results)


def _is_shown_inside(measured: Measured, result: str) -> bool:
    figure, limit = measured.used("", result, is_new=True), measured.unit.results[result].limit
    return figure is not None and not figure.missing and limit is not None and is_inside(figure.value, limit)


def shown_words(asker: Asker, place: str) -> str:
    """Why a piece stays."""
    return f"stays: {listed(asker.limits_of(place))} inside on the built unit"


def sizes_to_name(asker: Asker, left: Iterable[str]) -> Iterator[OpenPoint]:
    """What has to be said of each place without a size whose results the built unit was read for."""
    for name in left:
        place, limited = asker.places[name], asker.limits_of(name)
        if not limited or place.is_refused or not set(limited) <= asker.read_built:
            continue
        title = f"{name} {asker.unit.parts[place.part].name}"
        yield OpenPoint(
            part=place.part,
            kind="choice",
            name=f"size at {name}",
            pieces=(),
            how="",
            gauge=None,
            minutes=LOOK_MINUTES,
            sentence=f"Name the size that is in for {title}, as a choice of the job: {listed(limited)} was read on the "
            "built unit, and nothing says what with.",
            decides=tuple(limited),
        )


def unmoved_sentences(
    asker: Asker, judgements: Mapping[str, Judgement], left: Iterable[str]
) -> Iterator[tuple[str, str]]:
    """That a part that is used again stays, where no limit rests on its size."""
    for name in left:
        part = asker.places[name].part
        judged = judgements.get(part)
        if judged is not None and judged.verdict == "reuse" and not asker.limits_of(name):
            yield name, f"{name} {asker.unit.parts[part].name}: its own stays; no limit of the book rests on its size."
