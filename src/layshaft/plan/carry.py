"""Verdicts that carry over: parts sold only in an assembly, and parts that belong together."""

from __future__ import annotations

from dataclasses import replace

from layshaft.book.definition import MatingSet, Part, Unit
from layshaft.plan.judgement import SEVERITY, UNSETTLED, Judgement, PieceJudgement


def carry_verdicts(unit: Unit, own: dict[str, Judgement]) -> dict[str, Judgement]:
    """Verdicts once assemblies and mating sets have been heard, in the book's order."""
    found = dict(own)
    kept = {part for part, judged in own.items() if judged.kept_by is not None}
    # Each round can only make verdicts worse, so it comes to rest.
    for _ in range(len(unit.parts) + 1):
        before = dict(found)
        _carry_up(unit, found)
        for name, group in unit.sets.items():
            _carry_set(unit, name, group, found, kept)
        _carry_down(unit, found)
        if found == before:
            break
    return found


def _carry_up(unit: Unit, found: dict[str, Judgement]) -> None:
    """A bad part that is not sold condemns the assembly it is served in; one not settled leaves that open."""
    for part, definition in unit.parts.items():
        assembly = definition.served_in
        if assembly is None or part not in found:
            continue
        judged = found[part]
        if judged.verdict == "renew" and judged.bought_as is None:
            found[part] = judged = replace(judged, bought_as=sold_as(unit, part))
        if assembly not in found or not (judged.verdict == "renew" or judged.is_undecided):
            continue
        above = found[assembly]
        carried = "open" if judged.verdict == "rework" else judged.verdict
        if SEVERITY[carried] <= SEVERITY[above.verdict]:
            continue
        name = unit.parts[assembly].name
        if judged.verdict == "renew":
            reason = f"{name}: {part} {definition.name} is sold only with it; {_bare(judged)}{_not_kept(above)}."
            found[assembly] = renewed(unit, above, reason, part)
        else:
            reason = f"{name}: waits for {part} {definition.name}, which is sold only with it; {_bare(judged)}."
            found[assembly] = replace(above, verdict=carried, reason=reason, is_open=True, carried_from=part)


def _carry_down(unit: Unit, found: dict[str, Judgement]) -> None:
    """What is served in a renewed assembly comes new with it."""
    for part, definition in unit.parts.items():
        assembly = definition.served_in
        if assembly is None or part not in found or assembly not in found:
            continue
        above, judged = found[assembly], found[part]
        if above.verdict == "renew" and judged.verdict != "renew":
            top = sold_as(unit, part) or assembly
            reason = f"{definition.name}: comes new with {top} {unit.parts[top].name}{_not_kept(judged)}."
            found[part] = replace(renewed(unit, judged, reason, assembly), bought_as=top)
        elif _follows(definition, judged):
            reason = f"{definition.name}: judged with {assembly} {unit.parts[assembly].name}, not by itself."
            pieces = tuple(PieceJudgement(at + 1, above.verdict, reason) for at in range(definition.count))
            found[part] = replace(
                judged,
                verdict=above.verdict,
                reason=reason,
                pieces=pieces,
                is_open=above.is_open,
                carried_from=assembly,
            )


def _follows(definition: Part, judged: Judgement) -> bool:
    """Whether nothing was asked of a part and nothing is known of it, so that its assembly speaks for it."""
    looks, readings = definition.looks.values(), definition.readings.values()
    asked = not (all(one.optional for one in looks) and all(one.optional for one in readings))
    known = judged.figures or judged.kept_by or (judged.words and judged.carried_from is None)
    return not asked and not known and judged.verdict in ("reuse", *UNSETTLED, "rework")


def _not_kept(judged: Judgement) -> str:
    return "" if judged.kept_by is None else f"; {judged.kept_by} chose to keep it, which that does not allow"


def _carry_set(unit: Unit, name: str, group: MatingSet, found: dict[str, Judgement], kept: set[str]) -> None:
    members = [part for part in group.members if part in found]
    bad = [part for part in members if found[part].verdict == "renew"]
    if not bad or group.rule == "mark together":
        return
    for part in members:
        judged = found[part]
        if judged.verdict == "renew":
            if group.rule == "renew together" and judged.renew_count < unit.parts[part].count:
                reason = f"{unit.parts[part].name}: {name} is a set, renewed together; {_bare(judged)}."
                found[part] = replace(renewed(unit, judged, reason, part), carried_from=judged.carried_from)
            continue
        if group.rule == "keep together" and part in kept:
            continue
        told = f"{unit.parts[part].name}: {name} is a set, and {bad[0]} {unit.parts[bad[0]].name} is renewed"
        if group.rule == "renew together":
            found[part] = renewed(unit, judged, f"{told}; renewed together.", bad[0])
        elif SEVERITY[judged.verdict] < SEVERITY["ask"]:
            found[part] = replace(
                judged,
                verdict="ask",
                reason=f"{told}; used parts of it stay together, so say whether this one stays.",
                is_open=True,
                carried_from=bad[0],
            )


def renewed(unit: Unit, judged: Judgement, reason: str, because: str) -> Judgement:
    """The verdict on a part that is renewed because another one is."""
    count = unit.parts[judged.part].count
    pieces = tuple(PieceJudgement(at + 1, "renew", reason) for at in range(count))
    return replace(
        judged, verdict="renew", reason=reason, pieces=pieces, renew_count=count, is_open=False, open=(),
        carried_from=because, bought_as=judged.bought_as or sold_as(unit, judged.part, is_own=False),
    )  # fmt: skip


def sold_as(unit: Unit, part: str, is_own: bool = True) -> str | None:
    """The part that is bought for this one: itself, or the assembly it is served in; without `is_own` never itself."""
    top = part
    seen = {part}
    while (above := unit.parts[top].served_in) is not None and above not in seen:
        top = above
        seen.add(above)
    return top if is_own or top != part else None


def _bare(judged: Judgement) -> str:
    return judged.reason.split(": ", 1)[-1].rstrip(".")
