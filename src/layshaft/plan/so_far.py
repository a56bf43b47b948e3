"""What a job's record says has happened on the bench, replayed into the state the unit is in now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.book.definition import Done, Job, Noticed
from layshaft.plan.act import Hold, LetOff, TakeOff, TakePieces, Turn
from layshaft.plan.bench import Bench
from layshaft.plan.happened import LOST, Event, Happened, Seen, Stuck, ZeroProved, take_down, what_now
from layshaft.plan.load import Loads
from layshaft.plan.loaded import Loaded, is_in_doubt
from layshaft.plan.phrase import at_most_joules, how
from layshaft.plan.state import Condition, State
from layshaft.plan.teardown import start_state
from layshaft.plan.telling import lowered


@dataclass(frozen=True, slots=True)
class Jolt:
    """A load let go with nothing to hold it, by an entry of `done` counted from 0: at most so much [J]."""

    entry: int
    load: str
    energy: float
    sentence: str


@dataclass(frozen=True, slots=True)
class Against:
    """Something that the book does not allow at that moment, by an entry of `done` counted from 0: why not."""

    entry: int
    sentence: str


@dataclass(frozen=True, slots=True)
class SoFar:
    """The state now, everything that happened on the way, and what to do first."""

    state: State
    happened: tuple[Happened, ...]
    now: tuple[str, ...]
    jolts: tuple[Jolt, ...] = ()
    against: tuple[Against, ...] = ()

    @property
    def taken_off(self) -> tuple[str, ...]:
        """The parts that came off, in the order they did."""
        return tuple(one.event.part for one in self.happened if isinstance(one.event, TakeOff))


def so_far(bench: Bench, loads: Loads, job: Job) -> SoFar:
    """Replay what was noticed at intake and what was done since; nothing is refused."""
    state = start_state(bench.unit)
    for noticed in job.intake.noticed:
        state = _noticed(bench, loads, state, noticed)
    happened: list[Happened] = []
    jolts: list[Jolt] = []
    against: list[Against] = []
    for entry, done in enumerate(job.done):
        for event in _events(state, done):
            found = take_down(bench, loads, state, event)
            happened.append(found)
            jolts += _jolts(bench, entry, state, found)
            against += (Against(entry, told) for told in _against(bench, loads, state, found))
            state = found.state
    told = (jolt.sentence for jolt in jolts)
    now = (*what_now(bench, loads, state), *_to_prove(bench, loads, state), *told)
    return SoFar(state, tuple(happened), now, tuple(jolts), tuple(against))


def _jolts(bench: Bench, entry: int, before: State, found: Happened) -> Iterator[Jolt]:
    """What an event let go that no release way held: nobody knows what it struck."""
    held = before.session.load if before.session is not None else None
    slipped = held if isinstance(found.event, TakeOff | TakePieces) and found.state.session is None else None
    for step in found.lets_go:
        if step.greatest_energy < 0.1 or (step.load == held and step.load != slipped):
            continue
        most = at_most_joules(step.greatest_energy)
        if step.load == slipped and before.session is not None:
            release = bench.unit.loads[slipped].releases[before.session.release]
            told = (
                f"On record: {_told(bench, found.event)} while {slipped} was held {how(release)}, which does not reach "
                f"that, let go up to {most} of it. Look for what it struck. If it was let off first, write `let off` "
                f"before it."
            )
        else:
            told = (
                f"On record: {_told(bench, found.event)} let go up to {most} of {step.load} with nothing to hold it. "
                f"Look for what it struck, and at what caught it."
            )
        yield Jolt(entry, step.load, step.greatest_energy, told)


def _against(bench: Bench, loads: Loads, before: State, found: Happened) -> Iterator[str]:
    """What the book has otherwise where a load is held: off out of reach, turned, held as it stands, let off too soon.

    What is held already, and what waits for a part that nobody wrote down, is known from the entries alone.
    """
    match found.event:
        case TakeOff() | TakePieces() | Turn():
            yield from (reason.sentence for reason in found.reasons if reason.id == "held load")
        case Hold():
            asked = ("attitude", "held", "lost", "no room")
            yield from (reason.sentence for reason in found.reasons if reason.id in asked)
        case LetOff() if before.session is not None:
            load = before.session.load
            now, surely = loads.could_be_loaded(found.state)[load], loads.surely_held(found.state)[load]
            if is_in_doubt(now, surely):
                yield f"{load}: let off onto {_doubtful(bench, loads, found.state, now)}."


def _doubtful(bench: Bench, loads: Loads, state: State, loaded: Loaded) -> str:
    """What a load hangs on that may not hold it: too few pieces, and what nobody has looked at."""
    doubt = loads.in_doubt(state)
    told = []
    for part in dict.fromkeys(part for stop in loaded.held_by for part in bench.stop_parts.get(stop, ())):
        if not doubt & bench.bit(part):
            continue
        count, off, lost = bench.unit.parts[part].count, state.off_count(part), state.lost_count(part)
        are = "left" if lost == off else "whole"
        few = f", {count - lost} of {count} {are}, which is too few by the book"
        left = few if 0 < lost < count else ", which nobody has looked at"
        told.append(f"{part} {lowered(bench.unit.parts[part].name)}{left}")
    return " and ".join(told) or "what nobody knows"


def _told(bench: Bench, event: Event) -> str:
    match event:
        case TakeOff(part=part) | TakePieces(part=part):
            return f"taking off {part} {lowered(bench.unit.parts[part].name)}"
        case Seen(part=part, condition=condition):
            return f"{part} {lowered(bench.unit.parts[part].name)}, found {condition.value},"
    return "what was done"


def _to_prove(bench: Bench, loads: Loads, state: State) -> Iterator[str]:
    """Loads of a unit being taken down that should be free by now, with the spring still in and zero not proved."""
    now = loads.could_be_loaded(state)
    for name, loaded in loads.could_be_loaded(start_state(bench.unit)).items():
        springs = bench.mask(bench.unit.loads[name].springs)
        is_done = now[name].is_loaded or name in state.proved_free or not springs & ~state.detached
        if loaded.is_loaded and not is_done:
            yield (
                f"{name}: free by now, but nobody has shown it. Prove zero by parts that rock freely, and record it "
                f"as `zero proved`."
            )


def _noticed(bench: Bench, loads: Loads, state: State, noticed: Noticed) -> State:
    """What was noticed casts the same doubt as what is seen later; screws of which enough are left still hold.

    Pieces that are missing are off; broken ones may still be in, and hold or not.
    """
    count = bench.unit.parts[noticed.part].count
    known = Condition(noticed.is_)
    pieces = noticed.pieces or count
    if known in LOST and pieces < count:
        fewer = _fewer(state, noticed.part, known, pieces)
        if noticed.part not in bench.sits_apart and loads.hold_without(fewer, noticed.part):
            return fewer
        if fewer.off_count(noticed.part) < count:
            state, known = fewer, Condition.UNKNOWN
    return take_down(bench, loads, state, Seen(noticed.part, known, noticed.pieces)).state


def _fewer(state: State, part: str, known: Condition, pieces: int) -> State:
    if known is Condition.MISSING:
        return state.with_partial(part, state.off_count(part) + pieces)
    return state.with_broken(part, state.lost_count(part) - state.off_count(part) + pieces)


def _events(state: State, done: Done) -> Iterator[Event]:
    if done.off is not None:
        yield TakeOff(done.off, (done.way or 1) - 1)
    if done.partly is not None:
        yield TakePieces(done.partly, state.off_count(done.partly) + (done.pieces_off or 1))
    if done.turned is not None:
        yield Turn(done.turned)
    if done.held is not None:
        yield Hold(done.held, (done.release or 1) - 1)
    if done.let_off is not None:
        yield LetOff()
    if done.stuck is not None and done.to is not None:
        yield Stuck(done.stuck, done.to)
    if done.seen is not None and done.is_ is not None:
        yield Seen(done.seen, Condition(done.is_))
    if done.zero_proved is not None:
        yield ZeroProved(done.zero_proved)
