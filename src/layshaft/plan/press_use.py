"""The press plans that a job's own steps ask for: each release way as it is used, its figures told with the steps.

Where there is no plan, the step that would need it warns before all else.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from layshaft.book.definition import Shop
from layshaft.plan.bench import Bench
from layshaft.plan.caution import UNDER_COVER
from layshaft.plan.lack import Lack
from layshaft.plan.load import Loads
from layshaft.plan.press import PressPlan, Refusal, plan_press
from layshaft.plan.press_figure import figures
from layshaft.plan.state import State
from layshaft.plan.step import Plan, PlannedStep
from layshaft.quantity import Show

DOWN, UP = "taking down", "putting together"
METRIC = Show()


@dataclass(frozen=True, slots=True)
class PressUse:
    """One release way that steps use, when, and its plan or refusal."""

    plan: PressPlan | Refusal
    when: tuple[str, ...]
    show: Show = METRIC

    @property
    def way(self) -> tuple[str, int]:
        """The load and the number of its release way."""
        return self.plan.load, self.plan.release


def uses_of(plan: Plan) -> tuple[tuple[str, int], ...]:
    """The release ways that a plan's steps use, in the order of the steps."""
    used = ((step.load, step.release) for step in plan.steps if step.load is not None and step.release is not None)
    return tuple(dict.fromkeys(used))


def press_uses(
    bench: Bench,
    loads: Loads,
    shop: Shop,
    down: tuple[Plan, State],
    up: tuple[Plan, State],
    show: Show,
    built: Loads | None = None,
    beyond: Mapping[str, tuple[Lack, ...]] | None = None,
) -> tuple[PressUse, ...]:
    """A plan for every release way used, from the state each plan starts from; alike ones are told once.

    `loads` are at the sizes as found, `built` at those that go in. Those `beyond` their book get no plan to go in.
    """
    found: list[PressUse] = []
    for when, (plan, state), sized in ((DOWN, down, loads), (UP, up, built or loads)):
        for load, release in uses_of(plan):
            then = _at_use(bench, plan, _unheld(state), (load, release))
            made = plan_press(bench, sized, load, release, shop.presses, then, show, shop.hand_cover)
            lacks = _beyond(made, beyond or {}) if when == UP else ()
            made = Refusal(load, release, lacks) if lacks else made
            same = next((at for at, use in enumerate(found) if use.plan == made), None)
            if same is None:
                found.append(PressUse(made, (when,), show))
            else:
                found[same] = replace(found[same], when=(*found[same].when, when))
    return tuple(found)


def _beyond(made: PressPlan | Refusal, beyond: Mapping[str, tuple[Lack, ...]]) -> tuple[Lack, ...]:
    """What of a plan's springs was read beyond its book, of those that it takes up beside its own too."""
    others = made.taken.others if isinstance(made, PressPlan) else made.others
    return tuple(lack for name in (made.load, *others) for lack in beyond.get(name, ()))


def _at_use(bench: Bench, plan: Plan, state: State, way: tuple[str, int]) -> State:
    """The state as a release way first takes its load up: off by then, or not in yet when it is let home.

    A load that is held from the start was taken up before any step.
    """
    used = [at for at, step in enumerate(plan.steps) if (step.load, step.release) == way]
    if any(step.kind in ("fit", "compress") for step in plan.steps):
        off = [step.parts for step in plan.steps[used[-1] + 1 :] if step.kind == "fit"]
    else:
        taken = next((at for at in used if plan.steps[at].kind != "let off"), 0)
        off = [step.parts for step in plan.steps[:taken] if step.kind == "take off"]
    names = [part for parts in off for part in parts]
    state = replace(state, detached=state.detached | bench.mask(names))
    return replace(state, partial=tuple(one for one in state.partial if one[0] not in names))


def _unheld(state: State) -> State:
    return replace(state, session=None)


def warned(plan: Plan, when: str, uses: Iterable[PressUse]) -> Plan:
    """The plan with the figures of the press plan at each step under load, and a warning where there is no plan."""
    used = {use.way: use for use in uses if when in use.when}
    return replace(plan, steps=tuple(_told(step, used) for step in plan.steps))


def _told(step: PlannedStep, used: dict[tuple[str, int], PressUse]) -> PlannedStep:
    if step.load is None or step.release is None or (step.load, step.release) not in used:
        return step
    use = used[step.load, step.release]
    if isinstance(use.plan, PressPlan):
        told = figures(use.plan, step.kind, use.show)
        return replace(step, notes=(told, *step.notes)) if told else step
    if step.kind not in ("hold", "compress", "take off", "fit"):
        return step
    return replace(step, cautions=(_warning(use.plan), *_without_hands(step.cautions)))


def _without_hands(cautions: tuple[str, ...]) -> tuple[str, ...]:
    """Cautions without how a hand goes about it: a load that there is no plan for is none for a hand."""
    return tuple(caution for caution in cautions if caution not in UNDER_COVER)


def _warning(refusal: Refusal) -> str:
    return f"Do not start: there is no plan for {refusal.load}. {' '.join(refusal.sentences)}"


def warned_by_book(bench: Bench, loads: Loads, plan: Plan, state: State) -> Plan:
    """As `warned`, for the book alone, whatever press a shop has."""
    made = (
        plan_press(bench, loads, load, release, None, _at_use(bench, plan, _unheld(state), (load, release)))
        for load, release in uses_of(plan)
    )
    return warned(plan, DOWN, [PressUse(one, (DOWN,)) for one in made])


def refusals(uses: Iterable[PressUse]) -> Iterator[str]:
    """Every load that no plan can be given for, in a sentence that stops the work."""
    for use in uses:
        if isinstance(use.plan, Refusal):
            when = " and ".join(use.when)
            yield f"{use.plan.load}, {when}: no plan, do not start. {' '.join(use.plan.sentences)}"
