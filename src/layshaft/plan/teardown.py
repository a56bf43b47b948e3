"""The order to take a unit apart, or to reach some parts of it, worked out from what holds what."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import replace
from functools import cached_property

from layshaft.book.definition import Unit
from layshaft.plan import sequence
from layshaft.plan.act import Act, Hold, LetOff, TakeOff, Turn
from layshaft.plan.as_found import with_readings
from layshaft.plan.at_worst import at_worst
from layshaft.plan.bench import Bench
from layshaft.plan.caution import cautions_for_hold, cautions_for_move, cautions_for_turn
from layshaft.plan.compile import Compiled
from layshaft.plan.hanging import kept_in, left_hanging
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.loaded import Loaded, is_in_doubt
from layshaft.plan.may import Judge
from layshaft.plan.one_motion import in_one_motion
from layshaft.plan.phrase import at_most_joules, how, joules, listed, pushes
from layshaft.plan.preparation import preparations
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.remark import lifted_as_one, parted, with_tools_told
from layshaft.plan.sequence import Order
from layshaft.plan.sequence.search import OutOfBudget
from layshaft.plan.state import Condition, State
from layshaft.plan.step import Plan, PlannedStep, numbered
from layshaft.plan.taken import beside_now
from layshaft.plan.telling import lowered
from layshaft.plan.tidy import loose_parts, without_loose_turns

NOT_FOUND = "Noted as missing: take out what stands in its place."
TOO_WIDE = "No order was found within the search's budget; that does not mean that there is none. Ask for fewer parts."


def start_state(unit: Unit) -> State:
    """A unit as it comes onto the bench, whole and standing as the book says."""
    return State(attitude=unit.starts)


def order_teardown(
    bench: Bench,
    loads: Loads,
    state: State,
    targets: Iterable[str] = (),
    open_also: Iterable[str] = (),
) -> Plan:
    """The best order to take all apart, or the least work that reaches `targets`.

    Loads that push back on another are let go before that one where an order does so. `open_also` are parts the book
    leaves together, that have to come apart this time.
    """
    wanted = frozenset(targets)
    apart = wanted | frozenset(open_also)
    compiled = Compiled(bench, loads, state, apart)
    if compiled.is_pushed_back:
        with suppress(NoAnswer):
            return _planned(Compiled(bench, loads, state, apart, frees_first=True), wanted)
    try:
        return _planned(compiled, wanted)
    except NoAnswer as why:
        if not compiled.live_loads:
            raise
        try:
            return _planned(Compiled(bench, loads, state, apart, lets_down=True), wanted)
        except NoAnswer:
            raise why from None


def _planned(compiled: Compiled, wanted: frozenset[str]) -> Plan:
    try:
        order = _order(compiled, wanted)
    except sequence.NoOrder as refusal:
        raise NoAnswer(_why_not(compiled, refusal)) from None
    except OutOfBudget:
        raise NoAnswer(TOO_WIDE) from None
    return narrate(compiled, order, _measured(compiled, order, is_whole=not wanted), is_whole=not wanted)


def _measured(compiled: Compiled, order: Order, is_whole: bool) -> frozenset[str]:
    """What is at hand to be measured once an order is done: what came out, and in the end what stayed as well."""
    if is_whole:
        return frozenset(compiled.bench.names)
    moves = (compiled.move_parts[step.move] for step in order.steps if isinstance(step, sequence.Make))
    off = compiled.bench.mask(moves) & ~compiled.state.detached
    return frozenset(name for name in compiled.bench.names if compiled.bench.chain_masks[name] & off)


def _order(compiled: Compiled, wanted: frozenset[str]) -> Order:
    if not wanted:
        return without_loose_turns(compiled, sequence.order_moves(compiled.problem))
    reached = frozenset(compiled.move_index[part] for part in _movers(compiled, wanted))
    return without_loose_turns(compiled, sequence.reach(compiled.problem, reached), reached)


def _movers(compiled: Compiled, wanted: Iterable[str]) -> set[str]:
    movers = set()
    for part in wanted:
        if part not in compiled.move_index:
            name = lowered(compiled.bench.unit.parts[part].name)
            holder = compiled.bench.unit.parts[part].served_in or compiled.bench.unit.parts[part].lies_in
            where = f" It comes with {holder}." if holder else ""
            raise NoAnswer(f"{part} {name} does not come out by itself.{where}")
        movers.add(part)
    return movers


def _why_not(compiled: Compiled, refusal: sequence.NoOrder) -> str:
    """Why there is no order; under load the planner is stricter than "may I?", so there it speaks for itself only."""
    found, parts = refusal.blocked, compiled.bench.unit.parts
    waiting = (*found.circle, found.move) if found is not None else ()
    shared = tuple(_shared(compiled, waiting))
    if shared:
        return f"No order works: {' '.join(shared)}"
    says = "No order works" if not compiled.live_loads else "The planner finds no order that it can stand for"
    lost = tuple(_lost(compiled))
    if lost:
        return f"{says}: {' '.join(lost)}"
    more = f" Loaded: {', '.join(compiled.live_loads)}; ask of single moves." if compiled.live_loads else ""
    if found is None:
        return f"{says}: in each that was tried something would fall. The book's attitudes need a look.{more}"
    if found.circle:
        chain = " waits for ".join((*found.circle, found.circle[0]))
        return f"{says}: {chain}.{more}"
    name = lowered(parts[found.move].name) if found.move in parts else ""
    return f"{says}: {found.move} {name} cannot come out; {found.lacks}.{more}"


def _lost(compiled: Compiled) -> Iterator[str]:
    """Why loads cannot be taken up whose every release way wants a part that is missing."""
    for load in compiled.live_loads:
        ways = range(len(compiled.bench.unit.loads[load].releases))
        why = [compiled.judge.why_lost(compiled.state, load, way) for way in ways]
        if why and all(why):
            yield from why[0]


def _shared(compiled: Compiled, waiting: Iterable[str]) -> Iterator[str]:
    """Of parts that are in the way those that let several loads go at once: a release way holds one load."""
    in_the_way = frozenset(waiting)
    loads = compiled.bench.unit.loads
    for part in (part for part in compiled.move_parts if part in in_the_way):
        touched = compiled.touched(part)
        behind = [name for name in touched if any(part in release.reach for release in loads[name].releases)]
        if len(behind) > 1 and () not in compiled.sessions_for(part, touched):
            name = lowered(compiled.bench.unit.parts[part].name)
            yield (
                f"{listed(behind)} stand behind one part, {part} {name}. Taken off it lets go all of them, and no "
                f"release way holds them all. In the book, give one whose `pushes` and `stands on` hold the parts that "
                f"all of them press on, or write springs that come free together as one load, alike ones as one part "
                f"with its `count`."
            )


def _after_let_off(still: tuple[Loaded, ...]) -> tuple[str, ...]:
    if not still:
        return ("Zero is proved by parts that rock freely, not by a gauge or by the ram having moved.",)
    named = len(still) > 1
    return tuple(
        f"STILL LOADED: {f'{now.load}, ' * named}{joules(now.energy)}, at most {at_most_joules(now.greatest_energy)}."
        for now in still
    )


def narrate(
    compiled: Compiled, order: Order, measured: frozenset[str] = frozenset(), is_whole: bool = False
) -> Plan:
    """An order of the abstract problem told as steps at the bench, and what is prepared for measuring after it."""
    coming = (compiled.move_parts[step.move] for step in order.steps if isinstance(step, sequence.Make))
    teller = _Teller(compiled, frozenset(coming))
    told = [teller.tell(step) for step in order.steps]
    if teller.refused:
        raise NoAnswer(f"The planner finds no order that it can stand for: {teller.refused[0]}")
    there = _on(compiled)
    read = with_readings(teller.unit, in_one_motion(teller.unit, told), there)
    moved = with_tools_told(teller.unit, read)
    steps = numbered((*moved, *preparations(teller.unit, measured, "measuring")))
    return Plan(steps, order.cost, order.bound, order.is_proved, teller.together(is_whole))


def _on(compiled: Compiled) -> frozenset[str]:
    """The parts that are on and whole as far as is known."""
    away = compiled.state.detached | compiled.bench.gone(compiled.state)
    return frozenset(name for name in compiled.bench.names if not away & compiled.bench.bit(name))


class _Teller:
    def __init__(self, compiled: Compiled, coming: frozenset[str]) -> None:
        self.compiled = compiled
        self.coming = coming
        self.bench = compiled.bench
        self.unit = compiled.bench.unit
        self.judge = Judge(compiled.bench, compiled.loads)
        self.state = compiled.state
        self.refused: list[str] = []
        self.lengths = Lengths(compiled.loads)
        self.taken = self._held_at_start()

    def tell(self, step: sequence.Step) -> PlannedStep:
        """One step told; whatever "may I?" has against it is kept, for a plan never leans on the planner alone."""
        self.refused += [reason.sentence for reason in self.judge.may_i(self.state, self._act(step)).reasons]
        doubts, before = self._doubts(step), self.state
        told = self._told(step)
        hanging = left_hanging(self.bench, before, self.state)
        return replace(told, cautions=(*doubts, *hanging, *told.cautions))

    def _held_at_start(self) -> tuple[str, ...]:
        """The loads that a release way holds before the first step, its own first."""
        session = self.state.session
        if session is None:
            return ()
        held = self.compiled.loads.could_be_loaded(self.state)
        left = self.compiled.loads.could_be_loaded(replace(self.state, session=None))
        beside = (name for name, load in held.items() if load.is_loaded and left[name].length != load.length)
        return (session.load, *(name for name in beside if name != session.load))

    def _doubts(self, step: sequence.Step) -> tuple[str, ...]:
        """Loads that may be there and that nothing surely holds: told first of all, and where a step moves them."""
        if isinstance(step, sequence.Leave):
            return ()
        now, surely = self._worst(self.state), self.compiled.loads.surely_held(self.state)
        held = self.taken if self.state.session is not None else ()
        return tuple(
            f"Nobody knows what holds {name}, up to {at_most_joules(loaded.greatest_energy)}: stay clear of its line."
            for name, loaded in now.items()
            if name not in held and name not in self.state.proved_free and is_in_doubt(loaded, surely[name])
            if self._moves(step, loaded)
        )

    def _moves(self, step: sequence.Step, loaded: Loaded) -> bool:
        """Whether a step turns the unit, takes a load up or moves what belongs to it; the first one always counts."""
        if not isinstance(step, sequence.Make) or self.state == self.compiled.state:
            return True
        part = self.compiled.ways_used[step.move][step.way].part
        stops = (self.bench.stop_parts.get(stop, ()) for stop in loaded.held_by)
        about = {*self.unit.loads[loaded.load].springs, *(one for parts in stops for one in parts)}
        return bool(self.bench.carried(self.state.detached, part) & self.bench.mask(about))

    def _told(self, step: sequence.Step) -> PlannedStep:
        match step:
            case sequence.Turn(attitude=attitude):
                return self._turn(attitude)
            case sequence.Enter(session=session):
                return self._hold(*self.compiled.session_ways[session])
            case sequence.Leave():
                return self._let_off()
            case sequence.Make(move=move, way=way):
                return self._take_off(self.compiled.ways_used[move][way].part, self.compiled.ways_used[move][way].way)

    def _act(self, step: sequence.Step) -> Act:
        match step:
            case sequence.Turn(attitude=attitude):
                return Turn(attitude)
            case sequence.Enter(session=session):
                return Hold(*self.compiled.session_ways[session])
            case sequence.Leave():
                return LetOff()
            case sequence.Make(move=move, way=way):
                used = self.compiled.ways_used[move][way]
                return TakeOff(used.part, used.way)

    def _turn(self, attitude: str) -> PlannedStep:
        still = self._mass_in_unit()
        before = self.state.attitude
        self.state = self.judge.after(self.state, Turn(attitude))
        why = f"what comes next comes out {attitude}"
        loose = loose_parts(self.compiled, self.state.detached)
        caution = cautions_for_turn(self.unit, still, loose, kept_in(self.bench, self.state, loose))
        return PlannedStep(
            0, "turn", f"Turn the unit from {before} to {attitude}", attitude=attitude, why=(why,),
            notes=(f"{still:.1f} kg are still in it",), cautions=caution,
        )

    def _mass_in_unit(self) -> float:
        still_in = (name for name in self.unit.parts if self.bench.is_in_unit(self.state.detached, name))
        return float(sum(self.unit.parts[name].mass.si * self.unit.parts[name].count for name in still_in))

    def _hold(self, load: str, index: int) -> PlannedStep:
        release = self.unit.loads[load].releases[index]
        worst = self._worst(self.state)
        self.taken = (load, *beside_now(self.compiled.loads, load, index, self.state).alike)
        before = tuple(worst[name] for name in self.taken)
        self.state = self.judge.after(self.state, Hold(load, index))
        return PlannedStep(
            0, "hold", f"Take up {listed(self.taken)} {how(release)}", load=load, release=index,
            attitude=self._stands(load), tool=release.tool, minutes=release.time.si / 60,
            why=tuple(pushes(loaded) for loaded in before),
            instead=self._instead(load),
            cautions=cautions_for_hold(self.unit, self.taken, release),
            loaded_after=before,
        )

    def _stands(self, load: str) -> str:
        """How the unit stands while a load is taken up; nothing where that is done on the bench, apart from it."""
        is_inside = self.bench.is_in_unit(self.state.detached, self.unit.loads[load].springs[0])
        return self.state.attitude if is_inside else ""

    def _instead(self, load: str) -> str | None:
        release = self.unit.loads[load].releases[0]
        free = replace(self.state, session=None)
        told = []
        for part in release.reach:
            answer = self.judge.may_i(free, TakeOff(part))
            told += [f"{part} first: {reason.sentence}" for reason in answer.reasons if reason.id == "lets go"]
        return " ".join(told) or None

    def _let_off(self) -> PlannedStep:
        assert self.state.session is not None
        session = self.state.session
        self.state = self.judge.after(self.state, LetOff())
        worst = self._worst(self.state)
        still = tuple(worst[name] for name in self.taken if worst[name].is_loaded)
        release = self.unit.loads[session.load].releases[session.release]
        return PlannedStep(
            0, "let off", self._how_far(session.load, still), load=session.load, release=session.release,
            attitude=self._stands(session.load), tool=release.tool, notes=_after_let_off(still), loaded_after=still,
            cautions=cautions_for_hold(self.unit, self.taken, release)[:1],
        )

    def _how_far(self, load: str, still: tuple[Loaded, ...]) -> str:
        """How a load is let off, and those taken up with it: until free, or onto what still holds some of them."""
        names = tuple(loaded.load for loaded in still)
        free = tuple(name for name in self.taken if name not in names)
        if not names:
            end = "until it is slack" if self.unit.loads[load].seats is None else "to its longest free length"
            end = end if len(free) == 1 else "each to its longest free length"
            return f"Let {listed(free)} off in stages, {end}"
        is_are = "is" if len(names) == 1 else "are"
        it_they = "it" if len(names) == 1 else "they"
        onto = f"Let {listed(self.taken)} off onto what still holds "
        return onto + (f"{it_they}: {it_they} {is_are} not free" if not free else f"{listed(names)}: not free")

    def _take_off(self, part: str, index: int) -> PlannedStep:
        definition = self.unit.parts[part]
        way = definition.ways[index]
        along = tuple(self.bench.parts(self.bench.carried(self.state.detached, part) & ~self.bench.bit(part)))
        in_unit = self.bench.is_in_unit(self.state.detached, part)
        lost = (NOT_FOUND,) if self.state.condition(part) is Condition.NOT_FOUND else ()
        remarks = (*lost, *parted(self.bench, part, self.state.detached), *lifted_as_one(self.unit, part, along))
        off = self.state.off_count(part)
        remarks = (*((f"{off} of {definition.count} are off already.",) if off else ()), *remarks)
        self.state = self.judge.after(self.state, TakeOff(part, index))
        count = f"{definition.count - off} " if definition.count > 1 else ""
        place = "" if in_unit else ", on the bench"
        return PlannedStep(
            0, "take off", f"{count}{part} {definition.name}, toward {way.toward}{place}", parts=(part,),
            way=index, toward=way.toward, attitude=self.state.attitude if in_unit else "", tool=way.tool,
            support=way.support, minutes=way.time.si / 60, why=self._why(part), along=along,
            way_round=definition.way_round, notes=tuple(note for note in (way.note, definition.note, *remarks) if note),
            cautions=cautions_for_move(self.bench, part, way, along), loaded_after=self._bundle(part),
        )

    def _bundle(self, part: str) -> tuple[Loaded, ...]:
        """Loads that are still loaded inside what has just been lifted out."""
        inside = self.bench.carried(self.state.detached & ~self.bench.bit(part), part)
        return tuple(
            loaded
            for name, loaded in self._worst(self.state).items()
            if loaded.is_loaded and any(self.bench.bit(spring) & inside for spring in self.unit.loads[name].springs)
        )

    def _worst(self, state: State) -> dict[str, Loaded]:
        now = self.compiled.loads.could_be_loaded(state)
        return {name: at_worst(self.lengths, state, loaded) for name, loaded in now.items()}

    def _why(self, part: str) -> tuple[str, ...]:
        waiting = []
        for other, manner in self._waiting.get(part, ()):
            if other not in self.coming or self.state.detached & self.bench.bit(other) or other == part:
                continue
            name = lowered(self.unit.parts[other].name)
            waiting.append(f"{other} {name} waits for it" + (f" ({manner})" if manner else ""))
        return tuple(waiting[:4]) or ("it comes out now without disturbing anything else",)

    @cached_property
    def _waiting(self) -> dict[str, list[tuple[str, str]]]:
        """For each part those that it holds, each with how."""
        found: dict[str, dict[str, str]] = {}
        for other in self.compiled.move_parts:
            for way in self.unit.parts[other].ways:
                for need in (*way.held_by, *way.behind):
                    if need.kind == "part":
                        found.setdefault(need.part, {}).setdefault(other, need.how or "")
        return {part: list(others.items()) for part, others in found.items()}

    def together(self, is_whole: bool) -> tuple[tuple[str, ...], ...]:
        """What can stay together: the assemblies that are left, with more than one part.

        That of the base too where all that has to comes off; where only some parts are wanted it is the unit.
        """
        groups: dict[str, list[str]] = {}
        for name in self.bench.names:
            groups.setdefault(self.bench.root(self.state.detached, name), []).append(name)
        told = (root for root, group in groups.items() if len(group) > 1 and (is_whole or root != self.unit.base))
        return tuple(tuple(groups[root]) for root in told)
