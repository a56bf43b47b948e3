"""Plates that alternate in a pack: laid by turns in one step that says which goes first, and never kind by kind.

An order moves each kind of plate by itself. Here the two moves of an alternating pair are put next to each other, held
against the order's checker, and told as the one piece of work that they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from layshaft.book.definition import Unit
from layshaft.book.size import pack_pieces
from layshaft.plan import sequence
from layshaft.plan.sequence import Order, Problem
from layshaft.plan.step import PlannedStep

Named = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Laying:
    """How two kinds of plate that alternate are laid: from the inner end of the pack outward."""

    pack: str
    first: str
    second: str
    last: str
    on: str | None
    under: str | None
    from_: str
    pieces: int

    @property
    def sentence(self) -> str:
        """Which goes first, what follows, which ends, and against what."""
        on = f", on {self.on}" if self.on else ""
        under = f", under {self.under}" if self.under else ""
        turns = f"; then {self.second} and {self.first} by turns, one of each" if self.pieces > 2 else ""
        return f"Pack {self.pack}, laid from the {self.from_}: {self.first} first{on}{turns}; {self.last} last{under}."


def layings(unit: Unit, ways: Mapping[str, int]) -> tuple[Laying, ...]:
    """How each alternating pair is laid of which a part is fitted, by the way that it goes in."""
    found = []
    for name, pack in unit.packs.items():
        for item in pack.order:
            pair = item.alternate or ()
            fitted = next((part for part in pair if part in ways), None)
            if fitted is not None:
                found.append(_laying(unit, name, frozenset(pair), fitted, ways[fitted]))
    return tuple(found)


def _laying(unit: Unit, name: str, pair: frozenset[str], fitted: str, way: int) -> Laying:
    axis = unit.axes[unit.axis_of(fitted)]
    pieces = [part for part, _ in pack_pieces(unit, unit.packs[name])]
    is_from_end = unit.parts[fitted].ways[way].toward != axis.end
    if is_from_end:
        pieces.reverse()
    places = [at for at, part in enumerate(pieces) if part in pair]
    first, last = places[0], places[-1]
    (second,) = pair - {pieces[first]}
    on = pieces[first - 1] if first else None
    under = pieces[last + 1] if last + 1 < len(pieces) else None
    start = axis.end if is_from_end else axis.start
    return Laying(name, pieces[first], second, pieces[last], on, under, start, len(places))


def side_by_side(problem: Problem, order: Order, pairs: Sequence[tuple[int, int]]) -> Order:
    """The order with the moves of each pair next to each other, where risk, turns and presses allow."""
    for pair in pairs:
        order = next(_joined_orders(problem, order, pair), order)
    return order


def _joined_orders(problem: Problem, order: Order, pair: tuple[int, int]) -> Iterator[Order]:
    made = [at for at, step in enumerate(order.steps) if isinstance(step, sequence.Make) and step.move in pair]
    if len(made) != 2:
        return
    early, late = made
    if late == early + 1:
        yield order
    # Either the later move is brought forward or the earlier one put off.
    for source, place in ((late, early + 1), (early, late - 1)):
        rest = [*order.steps[:source], *order.steps[source + 1 :]]
        is_forward = place < source
        rest.insert(place if is_forward else late - 1, order.steps[source])
        found = sequence.replay(problem, tuple(rest))
        if found.is_legal and found.cost[:3] <= order.cost[:3]:
            is_proved = order.is_proved and found.cost <= order.cost
            yield replace(order, steps=tuple(rest), cost=found.cost, is_proved=is_proved)


def laid_by_turns(unit: Unit, steps: Sequence[PlannedStep], named: Named) -> list[PlannedStep]:
    """The steps of fitting with each alternating pair told as one; one kind alone says what it lies between."""
    fits = {step.parts[0]: step for step in steps if step.kind == "fit"}
    ways = {part: step.way for part, step in fits.items() if step.way is not None}
    told = list(steps)
    for laying in layings(unit, ways):
        at = [place for place, step in enumerate(told) if step.kind == "fit" and step.parts[0] in _pair(laying)]
        if len(at) == 2 and at[1] == at[0] + 1 and _is_alike(told[at[0]], told[at[1]]):
            told[at[0] : at[1] + 1] = [_as_one(unit, laying, told[at[0]], told[at[1]], named)]
            continue
        for place in at:
            told[place] = replace(told[place], cautions=(*told[place].cautions, laying.sentence))
    return told


def _pair(laying: Laying) -> tuple[str, str]:
    return laying.first, laying.second


def _is_alike(one: PlannedStep, other: PlannedStep) -> bool:
    is_plain = all(step.torque is None and step.load is None for step in (one, other))
    return is_plain and (one.attitude, one.tool, one.support) == (other.attitude, other.tool, other.support)


def _as_one(unit: Unit, laying: Laying, one: PlannedStep, other: PlannedStep, named: Named) -> PlannedStep:
    own = {step.parts[0]: step for step in (one, other)}
    first, second = own[laying.first], own[laying.second]
    place = first.what.removeprefix(named(laying.first))
    why = (text for step in (first, second) for text in step.why if text.partition(" ")[0] not in own)
    turns = [f"{part}: {step.way_round}" for part, step in own.items() if step.way_round]
    notes = [f"{step.parts[0]}: {note}" for step in (first, second) for note in step.notes]
    return replace(
        first,
        what=f"{named(laying.first)} and {named(laying.second)}, by turns, {laying.first} first{place}",
        parts=_pair(laying),
        minutes=first.minutes + second.minutes,
        why=tuple(dict.fromkeys(why)) or ("nothing that comes later is in its way",),
        along=(*first.along, *second.along),
        way_round="; ".join(turns) or None,
        notes=(laying.sentence, *notes, *_prepared(unit, laying)),
        cautions=tuple(dict.fromkeys((*first.cautions, *second.cautions))),
    )


def _prepared(unit: Unit, laying: Laying) -> Iterator[str]:
    """What had to start earlier for these plates, such as a soak."""
    for one in unit.preparations.values():
        parts = [part for part in _pair(laying) if part in one.parts]
        if parts and one.before == "fitting" and one.elapsed.si:
            yield f"{' and '.join(parts)}: not before {one.elapsed.text} of: {one.what.rstrip('.')}."
