"""The cautions that belong to a step; maker's data, the equipment's rating and local codes come before them."""

from __future__ import annotations

from collections.abc import Sequence

from layshaft.book.definition import Release, Unit, Way
from layshaft.plan.bench import Bench
from layshaft.plan.telling import lowered

PRESS_WORK = (
    "Face shield on. Press centred and guarded; stand clear of the line of the spring; no hand inside while the "
    "ram moves. Stay within the rating of press and fixture.",
    "Let off in small steps to the longest free length; a ram that creeps does not hold: never leave it loaded.",
)
THREAD_WORK = (
    "Face shield on. Turn the screws a little each in turn; stop if one goes slack early.",
    "The thread must still be engaged when the spring is free.",
)
OWN_THREAD = (
    "Face shield on. Stand clear of the line of the spring, hands and face too: a cloth or cover laid over it may "
    "catch what leaves, a hand never does. Turn evenly.",
    "Keep the thread engaged to the end of the release: it must still hold when the spring is free. Stop if it goes "
    "slack early or binds.",
)
UNDER_COVER = ("Eye protection on; a cloth or hand over the bore: small springs and balls leave fast.",)
COMPRESSOR = ("Face shield on. Compress evenly; keep the line of the spring clear.",)
HEAVY = 20.0
"""Kilograms above which a second pair of hands is asked for (common practice, no source; local rules come first)."""
MOST_NAMED = 4
"""Parts behind a loose one that are named; of more the number is told."""
DRAFTED = "Load data drafted, not yet confirmed by two people on a real unit."
PINCH = "Splines can find each other suddenly: a drop and a load step. Keep fingers out of the gap."

_BY_KIND = {
    "press": PRESS_WORK,
    "spring compressor": COMPRESSOR,
    "long screws": THREAD_WORK,
    "own thread": OWN_THREAD,
    "by hand under cover": UNDER_COVER,
}


def cautions_for_hold(unit: Unit, taken: Sequence[str], release: Release) -> tuple[str, ...]:
    """What to mind when loads are taken up together or let off."""
    return _cautions_for_loads(unit, taken, release, release.caution)


def _cautions_for_loads(unit: Unit, taken: Sequence[str], release: Release, said: str | None) -> tuple[str, ...]:
    loads = [unit.loads[name] for name in taken]
    drafted = () if all(load.is_confirmed for load in loads) else (DRAFTED,)
    own = tuple(text for text in (said, *(load.caution for load in loads)) if text)
    return (*_BY_KIND[release.kind], *own, *drafted)


def cautions_for_pressing_home(unit: Unit, taken: Sequence[str], release: Release) -> tuple[str, ...]:
    """What to mind when loads are taken up from free; what the book says of letting them go is told as such."""
    pinch = (PINCH,) if release.home is not None and release.home.splines else ()
    said = f"Of letting it go the book says: {release.caution}" if release.caution else None
    return (*_cautions_for_loads(unit, taken, release, said), *pinch)


def cautions_for_move(bench: Bench, part: str, way: Way, along: tuple[str, ...]) -> tuple[str, ...]:
    """What to mind when a part is taken off."""
    return _cautions(bench, part, along, way.caution, way.support)


def cautions_for_fitting(bench: Bench, part: str, way: Way, along: tuple[str, ...]) -> tuple[str, ...]:
    """What to mind when a part is fitted: words on taking off count only where there are none on fitting."""
    if way.fit is None:
        return _cautions(bench, part, along, way.caution, way.support)
    is_alike = way.fit.tool is None and way.fit.attitude is None
    return _cautions(bench, part, along, way.fit.caution, way.support if is_alike else None)


def _cautions(
    bench: Bench, part: str, along: tuple[str, ...], own: str | None, support: str | None
) -> tuple[str, ...]:
    parts = bench.unit.parts
    mass = sum(parts[name].mass.si * parts[name].count for name in (part, *along))
    found = [text for text in (own, parts[part].caution) if text]
    if support:
        found.append(f"Carry it on the {support}: it falls when nothing holds it. Hands out of the way.")
    return (*found, *_heavy(mass, ""))


def cautions_for_turn(
    unit: Unit, mass: float, loose: tuple[str, ...], kept_in: tuple[str, ...] = ()
) -> tuple[str, ...]:
    """What to mind when the unit is turned over with so many kilograms in it, parts loose, others kept in by those."""
    if not loose:
        return _heavy(mass, " to turn")
    names = _named(unit, loose)
    if kept_in:
        more = f" and {len(kept_in) - MOST_NAMED} more" if len(kept_in) > MOST_NAMED else ""
        names += f"; only that keeps in {_named(unit, kept_in[:MOST_NAMED])}{more}"
    return (*_heavy(mass, " to turn"), f"Loose in it: {names}. Hold or strap what could slide or drop while it turns.")


def _named(unit: Unit, parts: Sequence[str]) -> str:
    return ", ".join(f"{part} {lowered(unit.parts[part].name)}" for part in parts)


def _heavy(mass: float, what: str) -> tuple[str, ...]:
    return (f"{mass:.0f} kg{what}: two people or a hoist.",) if mass > HEAVY else ()
