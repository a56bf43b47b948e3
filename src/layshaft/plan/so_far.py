"""What a job's record says has happened on the bench, replayed into the state the unit is in now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from layshaft.book.definition import Done, Job, Noticed
from layshaft.plan.act import Hold, LetOff, TakeOff, TakePieces, Turn
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Event, Happened, Seen, Stuck, take_down, what_now
from layshaft.plan.load import Loads
from layshaft.plan.state import Condition, State
from layshaft.plan.teardown import start_state


@dataclass(frozen=True, slots=True)
class SoFar:
    """The state now, everything that happened on the way, and what to do first."""

    state: State
    happened: tuple[Happened, ...]
    now: tuple[str, ...]

    @property
    def taken_off(self) -> tuple[str, ...]:
        """The parts that came off, in the order they did."""
        return tuple(one.event.part for one in self.happened if isinstance(one.event, TakeOff))


def so_far(bench: Bench, loads: Loads, job: Job) -> SoFar:
    """Replay what was noticed at intake and what was done since; nothing is refused."""
    state = start_state(bench.unit)
    for noticed in job.intake.noticed:
        state = _noticed(bench, state, noticed)
    happened = []
    for done in job.done:
        for event in _events(bench, state, done):
            found = take_down(bench, loads, state, event)
            happened.append(found)
            state = found.state
    return SoFar(state, tuple(happened), what_now(bench, loads, state))


def _noticed(bench: Bench, state: State, noticed: Noticed) -> State:
    """A part with several pieces of which only some are gone still holds with the others."""
    count = bench.unit.parts[noticed.part].count
    pieces = noticed.pieces or count
    known = Condition(noticed.is_)
    if known in (Condition.MISSING, Condition.BROKEN) and pieces < count:
        return state.with_partial(noticed.part, pieces)
    return state.with_condition(noticed.part, known)


def _events(bench: Bench, state: State, done: Done) -> Iterator[Event]:
    if done.off is not None:
        yield TakeOff(done.off, (done.way or 1) - 1)
    if done.partly is not None:
        yield TakePieces(done.partly, done.pieces_off or 1)
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
