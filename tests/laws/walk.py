"""Random walks over what the judge allows, told at once to the watcher, and the watcher's own word on each act."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from random import Random

from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.act import Act, Hold, LetOff, TakeOff, TakePieces, Turn
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Answer, Judge
from layshaft.plan.state import Condition, State
from layshaft.plan.step import PlannedStep
from tests.laws.watcher import ENERGY, TRAVEL, Scene, Watcher, all_loose, jumps, newly_loose, without_piece

MOST_UNKNOWN = 4


def judge_of(unit: Unit) -> Judge:
    """A judge over a unit as drawn."""
    bench = Bench(unit)
    return Judge(bench, Loads(bench, Sizes(unit)))


def scene_of(bench: Bench, state: State) -> Scene:
    """A state of the planner as the watcher sees it."""
    said = dict(state.conditions)
    held = (state.session.load, state.session.release) if state.session else None
    return Scene(
        frozenset(bench.parts(state.detached)),
        state.attitude,
        held,
        state.partial,
        frozenset(name for name, one in said.items() if one in (Condition.BROKEN, Condition.MISSING)),
        frozenset(name for name, one in said.items() if one is Condition.MISSING),
        frozenset(name for name, one in said.items() if one in (Condition.UNKNOWN, Condition.NOT_FOUND)),
    )


def after(watcher: Watcher, scene: Scene, act: Act) -> Scene:
    """What an act makes of a scene, worked out apart from the planner."""
    match act:
        case TakeOff(part=part):
            return replace(without_piece(scene, part, 0), off=scene.off | {part})
        case TakePieces(part=part, off=off):
            if off >= watcher.count(part):
                return after(watcher, scene, TakeOff(part))
            return without_piece(scene, part, off)
        case Turn(attitude=attitude):
            return replace(scene, attitude=attitude)
        case Hold(load=load, release=release):
            return replace(scene, held=(load, release))
        case LetOff():
            return replace(scene, held=None)


def faults(watcher: Watcher, scene: Scene, act: Act) -> list[str]:
    """What the watcher has against an act: nothing where it may be done."""
    match act:
        case TakeOff(part=part, way=way):
            return [*_out(watcher, scene, part, [way]), *_dangers(watcher, scene, act, part)]
        case TakePieces(part=part):
            return [*_out(watcher, scene, part, range(len(watcher.ways[part]))), *_dangers(watcher, scene, act, part)]
        case Turn():
            held = ["something is held"] if scene.held else []
            return held + [f"{part} drops" for part in all_loose(watcher, after(watcher, scene, act))]
        case Hold(load=load, release=release):
            return list(_holding(watcher, scene, load, release))
        case LetOff():
            return [] if scene.held else ["nothing is held"]


def _out(watcher: Watcher, scene: Scene, part: str, ways: range | list[int]) -> list[str]:
    if part in scene.off or part in scene.missing:
        return ["off already"]
    told = []
    for number in ways:
        way = watcher.ways[part][number]
        wanted = way.get("attitude")
        is_up = not wanted or watcher.root(scene.off, part) != watcher.base or scene.attitude in wanted
        if is_up and watcher.is_open(part, way, scene.off, scene.gone):
            return []
        told.append(f"way {number} is not open")
    return told or ["no way"]


def _dangers(watcher: Watcher, scene: Scene, act: Act, part: str) -> Iterator[str]:
    then = after(watcher, scene, act)
    own = None
    if scene.held is not None:
        own = scene.held[0]
        if part not in watcher.loads[own]["releases"][scene.held[1]].get("reach", ()):
            yield "not in reach"
    yield from (f"{jump}" for jump in jumps(watcher, scene, then) if jump.is_felt and jump.load != own)
    yield from (f"{one} drops" for one in newly_loose(watcher, scene, then))


def _holding(watcher: Watcher, scene: Scene, load: str, release: int) -> Iterator[str]:
    if scene.held is not None:
        yield "something is held"
    spring = watcher.loads[load]["springs"][0]
    way = watcher.loads[load]["releases"][release]
    if not watcher.is_open(spring, {"behind": way.get("behind", [])}, scene.off, scene.gone):
        yield "something is in the way"
    faces = [way.get("pushes", ""), way.get("stands on", "")]
    faces += way.get("reach", []) if way["kind"] in ("own thread", "by hand under cover") else []
    if any(face.split(" ")[0] in scene.missing for face in faces):
        yield "what it presses on is not there"
    wanted = way.get("attitude")
    if wanted and watcher.root(scene.off, spring) == watcher.base and scene.attitude not in wanted:
        yield "attitude"
    if not any(watcher.rest(scene, gone)[load].is_loaded for gone in scene.readings()):
        yield "free already"
    held = replace(scene, held=(load, release))
    if scene.held is None and not all(watcher.has_room(held, gone) for gone in scene.readings()):
        yield "no room"


def is_bounded(state: State, answer: Answer) -> bool:
    """Where springs act on each other the most they can let go is an outer bound: refused for that alone is allowed."""
    own = state.session.load if state.session else None
    others = [step for step in answer.lets_go if step.load != own]
    is_alone = {reason.id for reason in answer.reasons} == {"lets go"}
    return is_alone and all(step.energy <= ENERGY and step.travel <= TRAVEL for step in others)


@dataclass(frozen=True)
class Asked:
    """An act that was asked about: in what state, and what the judge and the watcher say."""

    state: State
    scene: Scene
    act: Act
    answer: Answer


class Walker:
    """Walks one unit at random; every third walk sets out from a unit that is broken here and there."""

    def __init__(self, text: str, unit: Unit, seed: int) -> None:
        self.watcher = Watcher(text, {"size": "small"})
        self.judge = judge_of(unit)
        self.bench = self.judge.bench
        self.unit = unit
        self.chance = Random(seed)
        self.everything = self._everything()
        self.retainers = sorted({part for stop in unit.stops.values() for part in stop.by})

    def _everything(self) -> list[Act]:
        parts = self.unit.parts
        acts: list[Act] = []
        for name in self.bench.movable_in_book_order:
            acts += [TakeOff(name, way) for way in range(len(parts[name].ways))]
        acts += [TakePieces(name, off) for name in parts for off in range(1, parts[name].count + 1)
                 if off < 3 and parts[name].count > 1]
        acts += [Turn(attitude) for attitude in self.unit.attitudes]
        for name, load in self.unit.loads.items():
            acts += [Hold(name, at) for at in range(len(load.releases))] * 2
        acts += [LetOff()] * (1 + len(acts) // 8)
        return acts

    def outset(self, number: int) -> State:
        """A whole unit, or one with parts broken, missing or not looked at."""
        state = State(attitude=self.unit.starts)
        if number % 3 == 0:
            return state
        for condition in (Condition.BROKEN, Condition.MISSING, Condition.UNKNOWN):
            pool = self.retainers if self.chance.random() < 0.7 else sorted(self.bench.names)
            for part in self.chance.sample(pool, min(len(pool), self.chance.choice([0, 0, 1, 2]))):
                if part != self.unit.base and state.condition(part) is Condition.WHOLE:
                    state = state.with_condition(part, condition)
        return state

    def walk(self, steps: int, number: int) -> Iterator[Asked]:
        """So many allowed acts, or as many as there are until all is apart; refusals on the way too."""
        state = self.outset(number)
        while steps > 0:
            for act in self.chance.sample(self.everything, len(self.everything)):
                answer = self.judge.may_i(state, act)
                yield Asked(state, scene_of(self.bench, state), act, answer)
                if answer.is_yes:
                    break
            else:
                return
            steps -= 1
            state = self.judge.after(state, act)
            if state.session is None and self.chance.random() < 0.02:
                state = self._looked(state)

    def _looked(self, state: State) -> State:
        """Someone looks at a part, or learns that nobody has."""
        if not self.retainers:
            return state
        part = self.chance.choice(self.retainers)
        seen = self.chance.choice([Condition.WHOLE, Condition.UNKNOWN, Condition.BROKEN])
        if self.bench.unknown(state).bit_count() >= MOST_UNKNOWN and seen is Condition.UNKNOWN:
            return state
        return state.with_condition(part, seen)


def acts_of(step: PlannedStep) -> tuple[Act, ...]:
    """A step of a teardown, or one of an assembly run backwards, as acts; none for checks and preparations."""
    match step.kind:
        case "take off" | "fit":
            first = TakeOff(step.parts[0], step.way or 0)
            off = (*(TakeOff(part) for part in reversed(step.parts[1:])), first)
            return off if step.load is None else (Hold(step.load, step.release or 0), *off, LetOff())
        case "hold" | "let home":
            return (Hold(step.load or "", step.release or 0),)
        case "let off" | "compress":
            return (LetOff(),)
        case "turn":
            return (Turn(step.attitude),)
    return ()
