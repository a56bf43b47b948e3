"""Why a size is bought although one is on hand, and why no size is chosen for a selective part."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from layshaft.book.definition import Shop, Unit
from layshaft.plan.drawer import SelectivePlace
from layshaft.plan.result import ResultValue
from layshaft.plan.telling import Telling

if TYPE_CHECKING:
    from layshaft.plan.fit import FitFailure
    from layshaft.plan.fit_demand import Asker

MOST_POINTS = 3
"""How many readings that a choice waits for are told beside it; all of them stand among what is open."""


def bought_sentences(
    sizes: Mapping[str, Fraction],
    instead: Mapping[str, ResultValue],
    values: Mapping[str, ResultValue],
    telling: Telling,
) -> tuple[str, ...]:
    """What would be less sure with what is on hand."""
    worse = [name for name, one in instead.items() if _rank(one) > _rank(values[name])]
    if not worse:
        return ()
    told = ", ".join(f"{name} {telling.size(size)}" for name, size in sizes.items())
    return (
        f"With what is on hand ({told}) it would be less sure: {' '.join(instead[name].sentence for name in worse)}",
    )


def _rank(value: ResultValue) -> int:
    return {"outside": 2, "not sure": 1, "open": 1}.get(value.verdict or "", 0)


def unchosen_sentences(
    unit: Unit, shop: Shop, asker: Asker, unchosen: Iterable[str], missed: Sequence[tuple[FitFailure, ...]]
) -> dict[str, str]:
    """Why no size is chosen, for each place."""
    failing = [one.result for failures in missed for one in failures]
    return {
        name: f"{name} {unit.parts[asker.places[name].part].name}: no size chosen; "
        + (_refused(asker.places[name], shop) or _why(asker, name, failing))
        for name in unchosen
    }


def _refused(place: SelectivePlace, shop: Shop) -> str:
    """That the size someone chose is nowhere to be had, where it is so."""
    choice = place.choice
    if choice is None or choice.size is None or not place.is_refused:
        return ""
    person = shop.people.get(choice.by)
    by = choice.by if person is None else person.name
    return f"{by} chose {choice.size.text}, which is no listed size, and there is no piece of it for this place."


def _why(asker: Asker, place: str, failing: Sequence[str]) -> str:
    demands = asker.demands
    limited = asker.limits_of(place)
    if not limited:
        return "no limit of the book rests on its size."
    missed = [name for name in limited if name in failing]
    if missed:
        return f"no size on the list brings {_named(missed)} inside."
    read = [name for name in limited if name in asker.read_built]
    if len(read) == len(limited):
        return f"{_named(read)} {_are(read)} read on the built unit: name the size in it as a choice of the job."
    refused = dict.fromkeys(one for name in limited for one in demands.refused.get(name, ()))
    if refused:
        return f"{_named(name for name in limited if name in demands.refused)} waits for a size of {_named(refused)}."
    waiting = [name for name in limited if name in demands.waiting]
    if waiting:
        points = list(dict.fromkeys(point.sentence for name in waiting for point in demands.waiting[name]))
        more = len(points) - MOST_POINTS
        told = " ".join([*points[:MOST_POINTS], *([f"And {more} more."] if more > 0 else [])])
        return f"{_named(waiting)} {'waits' if len(waiting) == 1 else 'wait'} for this: {told}"
    tied = [name for name in limited if name in demands.checked]
    if tied:
        return (
            f"{_named(tied)} {_are(tied)} no sum in it: take a size, write it as a choice of "
            "the job, and see what it gives."
        )
    if failing:
        return f"it goes with the sizes behind {_named(dict.fromkeys(failing))}, and no set of sizes meets every limit."
    return f"nothing that is on hand or listed brings {_named(limited)} inside."


def _are(names: Sequence[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _named(names: Iterable[str]) -> str:
    return " and ".join(names)
