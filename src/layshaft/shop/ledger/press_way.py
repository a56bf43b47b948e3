"""The press plans of a job as it stands: those that what is left asks for, and other release ways of their loads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from layshaft.plan.caution import cautions_for_hold
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.press_home import HomePlan, plan_home
from layshaft.plan.press_use import DOWN, UP, PressUse
from layshaft.plan.so_far import so_far
from layshaft.plan.state import State
from layshaft.plan.step import PlannedStep
from layshaft.shop.ledger.standing import Standing


@dataclass(frozen=True, slots=True)
class PressWay:
    """One release way of a load, with its plan or refusal."""

    use: PressUse
    when: str
    """Taking down or putting together."""
    is_planned: bool
    """Whether what is left of the job asks for it."""
    now: int | None
    """Which state of its plan the unit is in, where that is known."""
    cautions: tuple[str, ...]

    @property
    def load(self) -> str:
        """The load."""
        return self.use.plan.load

    @property
    def release(self) -> int:
        """The number of the release way."""
        return self.use.plan.release


def planned_ways(stand: Standing) -> tuple[PressWay, ...]:
    """What is held now, then what is left of taking down asks for; after that what putting together asks for."""
    held = _held_now(stand)
    first = [_planned(stand, held, DOWN, stand.left.steps)] if held is not None else []
    downs = [use for use in stand.presses if held is None or use.way != held.way]
    if first or downs:
        return (*first, *(_planned(stand, use, DOWN, stand.left.steps) for use in downs))
    ups = (use for use in stand.rebuilt.presses if UP in use.when)
    return tuple(_planned(stand, use, UP, stand.rebuilt.assembly.steps) for use in ups)


def _held_now(stand: Standing) -> PressUse | None:
    """The way that holds a load now, planned from the unit as it was when it was taken up."""
    session, content = stand.history.state.session, stand.desk.content
    if session is None:
        return None
    taken_up = (at for at, done in enumerate(content.done) if done.held == session.load)
    at = max(taken_up, default=len(content.done))
    before = so_far(stand.bench, stand.loads, content.model_copy(update={"done": content.done[:at]})).state
    return PressUse(_plan(stand, session.load, session.release, before), (DOWN,), stand.show)


def _plan(stand: Standing, load: str, release: int, state: State) -> PressPlan | Refusal:
    shop, free = stand.desk.shop, replace(state, session=None)
    return plan_press(stand.bench, stand.loads, load, release, shop.presses, free, stand.show, shop.hand_cover)


def other_ways(stand: Standing) -> Iterator[tuple[str, int]]:
    """The book's other release ways of what has to be taken down still and is not held yet."""
    if stand.history.state.session is not None:
        return
    used = {use.way for use in stand.presses}
    for load in dict.fromkeys(load for load, _ in used):
        ways = range(len(stand.unit.loads[load].releases))
        yield from ((load, way) for way in ways if (load, way) not in used)


def way_of(stand: Standing, load: str, release: int) -> PressWay | None:
    """One release way: as planned where it is, else from the unit as it is now; nothing where there is none such."""
    for way in planned_ways(stand):
        if (way.load, way.release) == (load, release):
            return way
    if (load, release) not in other_ways(stand):
        return None
    plan = _plan(stand, load, release, stand.history.state)
    taken = (load, *plan.taken.others) if isinstance(plan, PressPlan) else (load,)
    cautions = cautions_for_hold(stand.unit, taken, stand.unit.loads[load].releases[release])
    use = PressUse(plan, (DOWN,), stand.show)
    return PressWay(use, DOWN, False, _now(stand, use), cautions)


def home_of(stand: Standing, way: PressWay) -> HomePlan | Refusal:
    """How a load goes home by a release way, at the sizes that go in."""
    loads, shop = Loads(stand.bench, stand.rebuilt.fit.built), stand.desk.shop
    return plan_home(stand.bench, loads, way.load, way.release, shop.presses, stand.show, shop.hand_cover)


def _planned(stand: Standing, use: PressUse, when: str, steps: Iterable[PlannedStep]) -> PressWay:
    told = (caution for step in steps if (step.load, step.release) == use.way for caution in step.cautions)
    return PressWay(replace(use, when=(when,)), when, True, _now(stand, use), tuple(dict.fromkeys(told)))


def _now(stand: Standing, use: PressUse) -> int | None:
    """Held, it is at the last state that has come about, the retainers off so far counted; else at the first."""
    state, plan = stand.history.state, use.plan
    if not isinstance(plan, PressPlan):
        return None
    if state.session is None:
        return 0 if any(report.load == plan.load for report in stand.loaded) else None
    if (state.session.load, state.session.release) != use.way:
        return None
    off = state.detached
    come = [
        at
        for at, stage in enumerate(plan.stages)
        if stage.kind == "held" or (stage.part is not None and off & stand.bench.bit(stage.part))
    ]
    return max(come, default=0)
