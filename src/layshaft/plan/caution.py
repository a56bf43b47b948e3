"""The cautions that belong to a step; maker's data, the equipment's rating and local codes come before them."""

from __future__ import annotations

from layshaft.book.definition import Release, Unit, Way
from layshaft.plan.bench import Bench

PRESS_WORK = (
    "Face shield on. Press centred and guarded; stand clear of the line of the spring; no hand inside while the "
    "ram moves. Stay within the rating of press and fixture.",
    "Let off in small steps to the longest free length; a ram that creeps does not hold: never leave it loaded.",
)
THREAD_WORK = (
    "Face shield on. Turn the screws a little each in turn; stop if one goes slack early.",
    "The thread must still be engaged when the spring is free.",
)
UNDER_COVER = ("Eye protection on; a cloth or hand over the bore: small springs and balls leave fast.",)
COMPRESSOR = ("Face shield on. Compress evenly; keep the line of the spring clear.",)
HEAVY = 20.0

_BY_KIND = {
    "press": PRESS_WORK,
    "spring compressor": COMPRESSOR,
    "long screws": THREAD_WORK,
    "own thread": (*UNDER_COVER, THREAD_WORK[1]),
    "by hand under cover": UNDER_COVER,
}


def cautions_for_hold(unit: Unit, load: str, release: Release) -> tuple[str, ...]:
    """What to mind when a load is taken up or let off."""
    definition = unit.loads[load]
    drafted = () if definition.is_confirmed else ("Load data drafted, not yet confirmed by two people on a real unit.",)
    own = tuple(text for text in (release.caution, definition.caution) if text)
    return (*_BY_KIND[release.kind], *own, *drafted)


def cautions_for_move(bench: Bench, part: str, way: Way, along: tuple[str, ...]) -> tuple[str, ...]:
    """What to mind when a part is taken off or fitted."""
    parts = bench.unit.parts
    mass = sum(parts[name].mass.si * parts[name].count for name in (part, *along))
    found = [text for text in (way.caution, parts[part].caution) if text]
    if way.support:
        found.append(f"Carry it on the {way.support}: it falls when nothing holds it. Hands out of the way.")
    if mass > HEAVY:
        found.append(f"{mass:.0f} kg: two people or a hoist.")
    return tuple(found)
