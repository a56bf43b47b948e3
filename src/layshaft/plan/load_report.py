"""What to know before a tool is picked up: what is loaded, what holds it, what each removal lets go, what falls.

What nobody has looked at counts as gone for what still holds, and as whole for whether a load is free.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layshaft.mechanics import cut
from layshaft.plan.act import TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.freeing import freeing_sets, holding_parts
from layshaft.plan.held import Held, Leaving, drafted_note, held_at, lightest_leaving, most_let_go
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.loaded import LetGo, Loaded, is_in_doubt
from layshaft.plan.may import Judge
from layshaft.plan.piece_share import PieceShare, piece_shares
from layshaft.plan.state import Condition, State


@dataclass(frozen=True, slots=True)
class Removal:
    """Taking one part off now would let a load go, as drawn (`lets_go`) and by at most `energy` [J]."""

    part: str
    lets_go: LetGo
    energy: float
    still: Held | None
    """How the load is held after it, if at all."""
    of_all: float
    """What it and every other load would let go with it at most, taken together [J]."""
    speed: float
    """What the lightest body that could leave cannot pass with all of that [m/s]."""
    is_open: bool
    """Nothing but the load keeps it from coming off now."""


@dataclass(frozen=True, slots=True)
class LoadReport:
    """One load as the unit stands now, at its worst over what nobody has looked at."""

    load: str
    now: Loaded
    held: Held
    """The same as bands, every size at its worst."""
    surely: Loaded
    """The same with all that nobody has looked at counted as gone: only what this says holds can be leaned on."""
    leaving: Leaving
    speed: float
    removals: tuple[Removal, ...]
    freeing: cut.Cuts
    releases: tuple[str, ...]
    """The kinds of release way that the book gives."""
    notes: tuple[str, ...]
    shares: tuple[PieceShare, ...] = ()
    """What it hangs on of which pieces are off already, with what each that is left carries."""

    @property
    def is_sure(self) -> bool:
        """What holds the load does not hang on a part that nobody has looked at."""
        return not is_in_doubt(self.now, self.surely)


@dataclass(frozen=True, slots=True)
class Fall:
    """A part that nothing holds against its weight as the unit stands, with what it carries and their mass [kg]."""

    part: str
    along: tuple[str, ...]
    mass: float


def load_report(bench: Bench, loads: Loads, state: State) -> tuple[LoadReport, ...]:
    """Every load that is or could be loaded in a state, the greatest energy first."""
    lengths = Lengths(loads)
    now, surely = loads.could_be_loaded(state), loads.surely_held(state)
    removals = _removals(bench, lengths, state)
    helds = {
        name: held_at(loads.springs[name], lengths.in_state(name, state))
        for name, loaded in now.items()
        if loaded.is_loaded
    }
    shares = piece_shares(bench, state, now, {name: held.force.high for name, held in helds.items()})
    found = []
    for name, held in helds.items():
        definition = bench.unit.loads[name]
        leaving = lightest_leaving(bench.unit, definition)
        found.append(
            LoadReport(
                name,
                now[name],
                held,
                surely[name],
                leaving,
                leaving.speed(held.energy.high),
                tuple(removal for removal in removals if removal.lets_go.load == name),
                _freeing(bench, loads, state, name),
                tuple(dict.fromkeys(release.kind for release in definition.releases)),
                drafted_note(bench, name),
                tuple(share for share in shares if name in share.loads),
            )
        )
    return tuple(sorted(found, key=lambda report: -report.held.energy.high))


def _freeing(bench: Bench, loads: Loads, state: State, load: str) -> cut.Cuts:
    """What frees a load; nothing is said of it where a part is lost that its spring stood on."""
    lost = (part for part, known in state.conditions if known is Condition.NOT_FOUND)
    if holding_parts(bench, loads, state, load) & bench.mask(lost):
        return cut.Cuts((), (), True)
    return freeing_sets(bench, loads, state, load)


def _removals(bench: Bench, lengths: Lengths, state: State) -> list[Removal]:
    """Every part whose removal would let something go; parts that no holding path hangs on are not tried."""
    loads = lengths.loads
    matters = 0
    for name in bench.unit.loads:
        matters |= holding_parts(bench, loads, state, name)
    found = []
    judge = Judge(bench, loads)
    for part in bench.parts(matters & bench.movable & ~state.detached & ~bench.gone(state)):
        after = replace(state, detached=state.detached | bench.bit(part)).with_partial(part, 0)
        alone = [_removal(lengths, judge, state, after, part, step) for step in loads.let_go(state, after)]
        found += _together(bench, alone)
    return found


def _together(bench: Bench, removals: list[Removal]) -> list[Removal]:
    """What one part lets go of several loads at once: all of it may go into the lightest body of any."""
    if len(removals) < 2:
        return removals
    unit = bench.unit
    of_all = sum(removal.energy for removal in removals)
    leaving = [lightest_leaving(unit, unit.loads[removal.lets_go.load]) for removal in removals]
    speed = max(one.speed(of_all) for one in leaving)
    return [replace(removal, of_all=of_all, speed=speed) for removal in removals]


def _removal(lengths: Lengths, judge: Judge, state: State, after: State, part: str, step: LetGo) -> Removal:
    loads = lengths.loads
    facts = loads.springs[step.load]
    before = lengths.in_state(step.load, state)
    still = None
    if step.still.is_loaded:
        still = held_at(facts, lengths.in_state(step.load, after))
    energy = max(step.greatest_energy, most_let_go(facts, before, still.length if still is not None else None))
    leaving = lightest_leaving(loads.bench.unit, loads.bench.unit.loads[step.load])
    ways = range(len(loads.bench.unit.parts[part].ways))
    answers = [judge.may_i(state, TakeOff(part, way)) for way in ways]
    is_open = any(all(reason.id == "lets go" for reason in answer.reasons) for answer in answers)
    return Removal(part, step, energy, still, energy, leaving.speed(energy), is_open)


def fall_report(bench: Bench, loads: Loads, state: State) -> tuple[Fall, ...]:
    """What would fall by its weight as the unit stands now."""
    return tuple(_falls(bench, Judge(bench, loads).falling(state), state))


def _falls(bench: Bench, parts: tuple[str, ...], state: State) -> Iterator[Fall]:
    for part in parts:
        carried = tuple(bench.parts(bench.carried(state.detached, part)))
        along = tuple(name for name in carried if name != part)
        mass = sum(bench.unit.parts[name].mass.si_high * bench.unit.parts[name].count for name in carried)
        yield Fall(part, along, mass)
