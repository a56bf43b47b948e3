"""Taking down what did happen. It is never refused: the unit is as it is, and what matters is what to do now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layshaft.plan.act import Act, Hold, TakeOff, TakePieces
from layshaft.plan.at_worst import at_worst
from layshaft.plan.bench import Bench, face_part
from layshaft.plan.freeing import holding_parts, retainers
from layshaft.plan.held_wrongly import rests_wrongly_held
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.loaded import LetGo, Loaded, is_in_doubt
from layshaft.plan.may import Judge, Reason
from layshaft.plan.phrase import any_way, at_most_joules, how
from layshaft.plan.state import Condition, State
from layshaft.plan.telling import lowered


@dataclass(frozen=True, slots=True)
class Seen:
    """Someone looked at a part and says how it is."""

    part: str
    condition: Condition
    pieces: int | None = None
    """How many of several, where that was said."""


@dataclass(frozen=True, slots=True)
class Stuck:
    """A part came out stuck to another one instead of staying where it lies."""

    part: str
    to: str


@dataclass(frozen=True, slots=True)
class ZeroProved:
    """Someone showed that a load is free: its parts rock at the longest free length."""

    load: str


LOST = (Condition.BROKEN, Condition.MISSING)
Event = Act | Seen | Stuck | ZeroProved


@dataclass(frozen=True, slots=True)
class Happened:
    """What an event leaves: the state, what it let go, what is loaded, what nobody knows, and what to do now."""

    event: Event
    state: State
    lets_go: tuple[LetGo, ...]
    loaded: tuple[Loaded, ...]
    unknown: tuple[str, ...]
    now: tuple[str, ...]
    reasons: tuple[Reason, ...] = ()
    """What stood against it at that moment."""


def take_down(bench: Bench, loads: Loads, state: State, event: Event) -> Happened:
    """The state after an event, whether it was allowed or not."""
    judge = Judge(bench, loads)
    reasons: tuple[Reason, ...] = ()
    match event:
        case Seen(part=part, condition=condition):
            after = state.with_condition(part, condition)
            lets_go = loads.jumped(state, after)
            if condition is Condition.WHOLE:
                after = after.with_broken(part, 0)
            if condition is Condition.MISSING and any(_stands_on(bench, loads, state, part)):
                after = state.with_condition(part, Condition.NOT_FOUND)
            elif _is_in_doubt(bench, loads, event, state, lets_go):
                caught = _doubt(bench, loads, state, after, lets_go)
                after = caught.with_condition(part, Condition.UNKNOWN)
            after = _doubt(bench, loads, state, after, lets_go)
        case Stuck(part=part, to=to):
            after = state.with_stuck(part, to)
            lets_go = ()
        case ZeroProved(load=load):
            after = replace(state, proved_free=state.proved_free | {load})
            lets_go = ()
        case _:
            answer = judge.may_i(state, event)
            after = judge.after(state, event)
            lets_go, reasons = answer.lets_go, answer.reasons
            if isinstance(event, TakeOff | TakePieces) and not answer.is_yes:
                if _slips(bench, state, event.part, lets_go):
                    after = replace(after, session=None)
                    lets_go = loads.let_go(state, after)
                after = _doubt(bench, loads, state, after, lets_go)
            if isinstance(event, Hold):
                after = replace(after, proved_free=after.proved_free - {event.load})
    after = _settled(bench, loads, after)
    lengths = Lengths(loads)
    now = loads.could_be_loaded(after).values()
    loaded = tuple(at_worst(lengths, after, one) for one in now if one.is_loaded)
    unknown = tuple(bench.parts(bench.unknown(after)))
    return Happened(event, after, lets_go, loaded, unknown, what_now(bench, loads, after), reasons)


def _stands_on(bench: Bench, loads: Loads, state: State, part: str) -> Iterator[str]:
    """The loads that may press on a part, or on whatever stands in its place: loaded, and zero not proved.

    They press on their seats, and through them on what those rest on. A ring or screw that only keeps others in leaves
    nothing to stand on when it is gone, unless it is a seat itself.
    """
    there = state.with_condition(part, Condition.WHOLE)
    for name, loaded in loads.could_be_loaded(there).items():
        if not loaded.is_loaded or name in state.proved_free:
            continue
        ends = {face_part(seat) for seat in bench.unit.loads[name].seats or ()}
        ends |= set(bench.unit.loads[name].wound_between or ())
        path = {member for stop in loaded.held_by for member in bench.stop_parts.get(stop, ())}
        if part in ends or part in path - retainers(bench.unit):
            yield name


def _settled(bench: Bench, loads: Loads, state: State) -> State:
    """A part that was not found under a spring is plainly missing once no spring can press on its place."""
    for part, known in state.conditions:
        if known is Condition.NOT_FOUND and not any(_stands_on(bench, loads, state, part)):
            state = state.with_condition(part, Condition.MISSING)
    return state


def _is_in_doubt(bench: Bench, loads: Loads, seen: Seen, before: State, lets_go: tuple[LetGo, ...]) -> bool:
    """Whether a part seen broken may hold all the same: at a place nobody named, or in pieces that nobody has tried.

    What still holds a load, or catches it later, may be a piece that jams; that the load is free is for a proof of
    zero to say.
    """
    if seen.condition is not Condition.BROKEN:
        return False
    is_all = seen.pieces == bench.unit.parts[seen.part].count
    return (seen.part in bench.sits_apart and not is_all) or bool(lets_go) or _may_hold(bench, loads, before, seen.part)


def _may_hold(bench: Bench, loads: Loads, before: State, part: str) -> bool:
    """Whether a part, were it whole, would hold a load that may be there, now or once others are off."""
    there = before.with_condition(part, Condition.WHOLE)
    live = (name for name, loaded in loads.could_be_loaded(there).items() if loaded.is_loaded)
    springs = {spring for load in bench.unit.loads.values() for spring in load.springs}
    return part not in springs and any(bench.bit(part) & holding_parts(bench, loads, there, name) for name in live)


def _slips(bench: Bench, state: State, part: str, lets_go: tuple[LetGo, ...]) -> bool:
    """Whether taking off a part that a release way does not reach leaves that with nothing to hold.

    So it is of the parts it presses on and stands on, and of those by which the spring is parted from a seat.
    """
    if state.session is None or part == bench.unit.base or state.detached & bench.bit(part):
        return False
    load = state.session.load
    release = bench.unit.loads[load].releases[state.session.release]
    if part in release.reach:
        return False
    ends = bench.mask(face_part(face) for face in (release.pushes, release.stands_on) if face is not None)
    is_free = any(step.load == load and not step.still.is_loaded for step in lets_go)
    return is_free or bool(ends & bench.carried(state.detached, part))


def _doubt(bench: Bench, loads: Loads, before: State, after: State, lets_go: tuple[LetGo, ...]) -> State:
    """After a jolt nobody knows whether what caught the spring is whole, until someone has looked."""
    then, now = loads.evaluate(before), loads.evaluate(after)
    for step in lets_go:
        for part in _caught_by(bench, then[step.load], now[step.load]):
            if after.condition(part) is Condition.WHOLE:
                after = after.with_condition(part, Condition.UNKNOWN)
    return after


def _caught_by(bench: Bench, then: Loaded, now: Loaded) -> tuple[str, ...]:
    """Who the stops that hold a load now name, and what of the reach of its release ways did not hold it before.

    Where there are none of either: the parts that held nothing of it before and hold others, else all, base apart.
    """
    held = {part for stop in then.held_by for part in bench.stop_parts.get(stop, ())}
    load = bench.unit.loads[now.load]
    stops = bench.unit.stops
    named = [part for stop in now.held_by if stop in stops for part in stops[stop].by]
    new = (part for stop in now.held_by if stop not in then.held_by for part in bench.stop_parts.get(stop, ()))
    found = tuple(dict.fromkeys(part for part in new if part not in (bench.unit.base, *load.springs)))
    reach = {part for release in load.releases for part in release.reach} - held
    holders = retainers(bench.unit) - held
    kept = (*named, *(part for part in found if part in reach))
    return kept or tuple(part for part in found if part in holders) or found


def what_now(bench: Bench, loads: Loads, state: State) -> tuple[str, ...]:
    """The first things to do in a state: what nobody knows under load comes before all else."""
    told = []
    judge = Judge(bench, loads)
    surely = loads.surely_held(state)
    for name, loaded in loads.could_be_loaded(state).items():
        is_held_now = state.session is not None and state.session.load == name
        if not loaded.is_loaded or is_held_now:
            continue
        if is_in_doubt(loaded, surely[name]):
            if name in state.proved_free:
                continue
            told.append(_not_sure(bench, judge, state, name, at_worst(Lengths(loads), state, loaded)))
        elif name in state.proved_free:
            told.append(_zero_is_wrong(bench, name, at_worst(Lengths(loads), state, loaded)))
    if state.session is not None:
        release = bench.unit.loads[state.session.load].releases[state.session.release]
        then = "take off what is in reach, then let off"
        if rests_wrongly_held(judge, state):
            then = "let it off onto what still holds it, and take nothing off as it stands"
        told.append(
            f"{state.session.load}: held {how(release)} now. Do not leave it so: {then}.{_held_wrongly(judge, state)}"
        )
    parts = bench.unit.parts
    told += [
        f"{part} {lowered(parts[part].name)} is loose and can fall: take it out or support it."
        for part in judge.falling(state)
    ]
    return tuple(told)


def _held_wrongly(judge: Judge, state: State) -> str:
    """A word on a load that is held as the book does not have it: it is let off as it stands all the same."""
    assert state.session is not None
    reason = judge.stands_wrong(state, state.session.load, state.session.release)
    return f" {reason.sentence} Do not turn it while it is held." if reason is not None else ""


_NO_SUCH_WAY = "No release way of the book can take it up as it is: ask its maker."
_NO_WAY = "The book gives no way to let it go: ask its maker."


def _when(bench: Bench, judge: Judge, state: State, load: str) -> str:
    """Whether a release way of a load can be got at now."""
    releases = range(len(bench.unit.loads[load].releases))
    clauses = [judge.release_clauses(load, index) for index in releases]
    gone = bench.gone(state)
    is_reached = any(all(clause.is_met(state.detached, gone) for clause in each) for each in clauses)
    return "before anything else" if is_reached else "as soon as it can be got at, with nobody in its line until then"


def _not_sure(bench: Bench, judge: Judge, state: State, name: str, loaded: Loaded) -> str:
    held_by = holding_parts(bench, judge.loads, state, name)
    unknown = bench.parts(bench.unknown(state))
    doubtful = [part for part in unknown if bench.bit(part) & held_by or _is_in_load(bench, name, part, loaded)]
    named = {part: f"{part} {lowered(bench.unit.parts[part].name)}" for part in doubtful}
    lost = [part for part in doubtful if state.condition(part) is Condition.NOT_FOUND]
    look = ", ".join(named[part] for part in doubtful if part not in lost)
    releases = bench.unit.loads[name].releases
    ways = any_way(tuple(release for release in releases if not judge.lost_for(state, release)))
    then = f"Take it up {ways} {_when(bench, judge, state, name)}." if ways else _NO_SUCH_WAY if releases else _NO_WAY
    looking = f" Look at {look} from outside its line." if look else ""
    gone = "".join(f" {named[part]} is missing: its spring may stand on whatever comes next." for part in lost)
    return (
        f"Stand clear of {name}: it may hold {at_most_joules(loaded.greatest_energy)} and nobody knows what holds it."
        f"{gone}{looking} {then}"
    )


def _zero_is_wrong(bench: Bench, name: str, loaded: Loaded) -> str:
    """Someone proved zero, yet by the book it cannot be free: the book, the record or the proof is wrong."""
    ways = any_way(bench.unit.loads[name].releases) or "as its maker says"
    return (
        f"Zero was proved of {name}, but by the book it is loaded, up to {at_most_joules(loaded.greatest_energy)}. "
        f"One of them is wrong: stand clear, take it up {ways} and look again."
    )


def _is_in_load(bench: Bench, name: str, part: str, loaded: Loaded) -> bool:
    held_by = {member for stop in loaded.held_by for member in bench.stop_parts.get(stop, ())}
    seats = (face_part(seat) for seat in bench.unit.loads[name].seats or ())
    return part in held_by or part in bench.unit.loads[name].springs or part in seats
