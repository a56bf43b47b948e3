"""The order to put a unit together: never the teardown alone run backwards.

The precedence is the teardown's, with the tools, attitudes and times of fitting. Checks that can be done only between
two parts are part of the ordering. Pressing home has steps of its own; soaking and warming start first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass

from layshaft.book.definition import Proof
from layshaft.plan import sequence
from layshaft.plan.alignment import lined_up_under, lined_up_with
from layshaft.plan.bench import Bench
from layshaft.plan.caution import (
    cautions_for_fitting,
    cautions_for_hold,
    cautions_for_pressing_home,
    cautions_for_turn,
)
from layshaft.plan.compile import Compiled
from layshaft.plan.filling import with_fluids
from layshaft.plan.hanging import kept_in
from layshaft.plan.load import Loads
from layshaft.plan.one_motion import in_one_motion
from layshaft.plan.pack_laying import laid_by_turns, side_by_side
from layshaft.plan.phrase import how, listed
from layshaft.plan.preparation import preparations
from layshaft.plan.proof_move import covers, due_proofs, with_proofs
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.remark import with_tools_told
from layshaft.plan.sequence import Order
from layshaft.plan.sequence.search import OutOfBudget
from layshaft.plan.state import State
from layshaft.plan.step import Plan, PlannedStep, numbered
from layshaft.plan.taken import beside_now
from layshaft.plan.teardown import TOO_WIDE
from layshaft.plan.telling import lowered
from layshaft.plan.tidy import fitted_late, loose_parts, without_loose_turns

BENCH = "bench"


@dataclass(frozen=True, slots=True)
class Fitted:
    """What goes in for a part of `count`: so many new, so many used from the drawer, the rest its own; which size."""

    new: int = 0
    used: int = 0
    count: int = 1
    size: str | None = None
    is_settled: bool = True
    is_sized: bool = True
    """Whether each place of it has a size, where it comes in several and a limit rests on that."""

    @property
    def words(self) -> tuple[str, ...]:
        """What a step says of it."""
        new = "new" if self.new >= self.count else f"{self.new} of {self.count} new"
        told = (
            new if self.new else "",
            f"{self.used} from the drawer, used" if self.used else "",
            self.size or "",
            "" if self.is_settled else "not settled yet",
            "" if self.is_sized else "no size chosen yet",
        )
        return tuple(word for word in told if word)


def order_assembly(
    bench: Bench,
    loads: Loads,
    opened: Iterable[str],
    fitted: Mapping[str, Fitted] | None = None,
) -> Plan:
    """The best order to put the opened parts back, with checks where they can still be done.

    Others are opened for it only where they have to be: a part seen broken may have come out by a way that a whole one
    does not go in by.
    """
    chosen = dict(fitted or {})
    try:
        return _freed_first(bench, loads, frozenset(opened), chosen, opens_more=False)
    except NoAnswer:
        return _freed_first(bench, loads, frozenset(opened), chosen, opens_more=True)


def _freed_first(
    bench: Bench, loads: Loads, names: frozenset[str], fitted: dict[str, Fitted], *, opens_more: bool
) -> Plan:
    """The order in which a load that pushes back on another goes home after it, where there is one; else any."""
    whole = State(attitude=bench.unit.starts)
    compiled = Compiled(bench, loads, whole, names, is_assembly=True, only=names, opens_more=opens_more)
    if compiled.is_pushed_back:
        apart = Compiled(
            bench, loads, whole, names, is_assembly=True, only=names, opens_more=opens_more, frees_first=True
        )
        with suppress(NoAnswer):
            return _ordered(apart, fitted)
    return _ordered(compiled, fitted)


def _ordered(compiled: Compiled, fitted: dict[str, Fitted]) -> Plan:
    bench = compiled.bench
    proofs = due_proofs(bench, compiled.only or frozenset())
    between = tuple(name for name in proofs if bench.unit.proofs[name].before)
    try:
        problem = with_proofs(compiled, between)
        order = without_loose_turns(compiled, sequence.order_moves(problem), problem=problem)
        order = fitted_late(problem, order, _late(compiled))
        order = side_by_side(problem, order, (*_alternating(compiled), *_drawn_on(compiled)))
    except sequence.NoOrder as refusal:
        found = refusal.blocked
        where = found.move if found else "the checks"
        raise NoAnswer(f"The planner finds no order to put it together: {where} stands in the way.") from None
    except OutOfBudget:
        raise NoAnswer(TOO_WIDE) from None
    return _Builder(compiled, order, proofs, between, fitted).plan()


def _late(compiled: Compiled) -> frozenset[int]:
    parts = compiled.bench.unit.parts
    return frozenset(number for name, number in compiled.move_index.items() if parts[name].fit_late)


def _alternating(compiled: Compiled) -> tuple[tuple[int, int], ...]:
    """The moves of plates that alternate in a pack, two by two."""
    at = compiled.move_index
    pairs = (item.alternate for pack in compiled.bench.unit.packs.values() for item in pack.order)
    return tuple((at[pair[0]], at[pair[1]]) for pair in pairs if pair and pair[0] in at and pair[1] in at)


def _drawn_on(compiled: Compiled) -> Iterator[tuple[int, int]]:
    """The moves of parts that are drawn on by a nut or a screw, each with the move of that."""
    at = compiled.move_index
    for name, number in at.items():
        fits = (way.fit for way in compiled.bench.unit.parts[name].ways if way.fit is not None)
        by = {fit.drawn_on_by for fit in fits if fit.drawn_on_by is not None}
        yield from ((number, at[one]) for one in by if one in at)


class _Builder:
    def __init__(
        self,
        compiled: Compiled,
        order: Order,
        proofs: tuple[str, ...],
        between: tuple[str, ...],
        fitted: dict[str, Fitted],
    ) -> None:
        self.compiled = compiled
        self.bench = compiled.bench
        self.unit = compiled.bench.unit
        self.order = order
        self.proofs = proofs
        self.between = between
        self.fitted = fitted
        self.pressed = frozenset(
            compiled.session_ways[step.session][0] for step in order.steps if isinstance(step, sequence.Enter)
        )

    def plan(self) -> Plan:
        opened = self.compiled.only or frozenset(self.unit.parts)
        fits = laid_by_turns(self.unit, in_one_motion(self.unit, self._reversed()), self._counted)
        steps = [*preparations(self.unit, opened, "fitting"), *with_fluids(self.unit, opened, self._placed(fits))]
        told = numbered(with_tools_told(self.unit, steps))
        return Plan(told, self.order.cost, self.order.bound, self.order.is_proved)

    def _reversed(self) -> list[PlannedStep]:
        """The forward order run backwards: what was off goes on, what was let off is compressed."""
        told: list[PlannedStep] = []
        attitude = self.unit.starts
        detached = 0
        session: tuple[str, int] | None = None
        taken: tuple[str, ...] = ()
        for step in self.order.steps:
            match step:
                case sequence.Turn(attitude=turned):
                    told.append(self._turn(turned, attitude, detached))
                    attitude = turned
                case sequence.Enter(session=number):
                    session = self.compiled.session_ways[number]
                    taken = self._taken(*session, State(detached, attitude))
                    told.append(self._let_home(*session, taken, self._stands(session[0], detached, attitude)))
                case sequence.Leave():
                    assert session is not None
                    told.append(self._compress(*session, taken, self._stands(session[0], detached, attitude)))
                case sequence.Make(move=move, way=way) if move < len(self.compiled.move_parts):
                    used = self.compiled.ways_used[move][way]
                    told.append(self._fit(used.part, used.way, detached, attitude))
                    detached |= self.bench.bit(used.part)
                case sequence.Make():
                    continue
        told.reverse()
        return told

    def _turn(self, turned: str, before: str, detached: int) -> PlannedStep:
        parts = self.unit.parts.items()
        mass = sum(part.mass.si * part.count for name, part in parts if self.bench.is_in_unit(detached, name))
        loose = loose_parts(self.compiled, detached)
        caution = cautions_for_turn(self.unit, mass, loose, kept_in(self.bench, State(detached, before), loose))
        return PlannedStep(
            0,
            "turn",
            f"Turn the unit from {turned} to {before}",
            attitude=before,
            why=(f"what comes next goes in {before}",),
            cautions=caution,
        )

    def _taken(self, load: str, index: int, state: State) -> tuple[str, ...]:
        return (load, *beside_now(self.compiled.loads, load, index, state).alike)

    def _stands(self, load: str, detached: int, attitude: str) -> str:
        """How the unit stands while a load is pressed home; nothing where that is done on the bench, apart from it."""
        return attitude if self.bench.is_in_unit(detached, self.unit.loads[load].springs[0]) else ""

    def _compress(self, load: str, index: int, taken: tuple[str, ...], attitude: str) -> PlannedStep:
        release = self.unit.loads[load].releases[index]
        home = release.home
        splines = tuple(home.splines) if home else ()
        notes = (*splines, *(text for one in taken for text in lined_up_under(self.unit, one)))
        minutes = home.time if home and home.time else release.time
        return PlannedStep(
            0,
            "compress",
            f"Compress {listed(taken)} from free {how(release)}",
            load=load,
            release=index,
            attitude=attitude,
            tool=release.tool,
            minutes=minutes.si / 60,
            why=("its retainers go in only while it is held",),
            notes=notes,
            cautions=cautions_for_pressing_home(self.unit, taken, release),
        )

    def _let_home(self, load: str, index: int, taken: tuple[str, ...], attitude: str) -> PlannedStep:
        release = self.unit.loads[load].releases[index]
        home = release.home
        stages = [stage.text for stage in home.stages] if home else []
        how_far = f", stopping after {listed(stages)} to look at them again" if stages else " in small steps"
        depth = (f"Record: {home.depth}",) if home and home.depth else ()
        seats = tuple(f"{part} seen seated all round before anything moves" for part in release.reach)
        return PlannedStep(
            0,
            "let home",
            f"Let {listed(taken)} off onto the retainers{how_far}",
            load=load,
            release=index,
            attitude=attitude,
            tool=release.tool,
            why=("the retainers take the load now",),
            notes=(*seats, *depth),
            cautions=cautions_for_hold(self.unit, taken, release)[:1],
        )

    def _fit(self, part: str, index: int, detached: int, attitude: str) -> PlannedStep:
        definition = self.unit.parts[part]
        way = definition.ways[index]
        in_unit = self.bench.is_in_unit(detached, part)
        along = tuple(self.bench.parts(self.bench.carried(detached, part) & ~self.bench.bit(part)))
        fit = way.fit
        time = fit.time if fit and fit.time else way.time
        tool = None if fit and fit.by_hand else fit.tool if fit and fit.tool else way.tool
        is_alike = not fit or (fit.tool is None and fit.attitude is None)
        place = "" if in_unit else f", into {definition.lies_in} on the bench"
        own = (definition.lube, definition.sealant, fit.note if fit else None, definition.note)
        lined = lined_up_with(self.bench, part, detached, self.pressed)
        return PlannedStep(
            0,
            "fit",
            f"{self._counted(part)}{place}",
            parts=(part,),
            way=index,
            attitude=attitude if in_unit else "",
            tool=tool,
            support=way.support if is_alike else None,
            minutes=time.si / 60,
            why=self._why(part, index, detached),
            along=along,
            way_round=definition.way_round,
            notes=(*(text for text in own if text), *lined),
            cautions=self._wrong_way(part) + cautions_for_fitting(self.bench, part, way, along),
            torque=self._torque(part),
        )

    def _counted(self, part: str) -> str:
        """How many of which part, and which of them."""
        definition = self.unit.parts[part]
        count = f"{definition.count} " if definition.count > 1 else ""
        words = self.fitted.get(part, Fitted()).words
        return f"{count}{part} {definition.name}" + (f" ({', '.join(words)})" if words else "")

    def _wrong_way(self, part: str) -> tuple[str, ...]:
        costs = self.unit.parts[part].wrong_way_costs
        return (f"Wrong way round: {costs}.",) if costs else ()

    def _torque(self, part: str) -> str | None:
        fastener = self.unit.parts[part].fastener
        if fastener is None:
            return None
        angle = f"then {fastener.angle} further" if fastener.angle is not None else None
        words = [fastener.torque.text, angle, fastener.lube, fastener.pattern, fastener.sealant]
        named = " ".join(word for word in (fastener.size, fastener.property_class) if word)
        return f"{named}: " + ", ".join(word for word in words if word)

    def _why(self, part: str, index: int, detached: int) -> tuple[str, ...]:
        """What could not go in after it, or is still out so that it can: the part itself, or what it lies in."""
        later: dict[str, list[str]] = {}
        for clause in self.bench.needs[(part, index)]:
            for holder in clause.asked:
                out = self._out_of_way(holder, detached & clause.events)
                if out is not None:
                    later.setdefault(out, []).append(holder)
        told = tuple(self._later(out, holders) for out, holders in later.items())
        return told[:3] or ("nothing that comes later is in its way",)

    def _out_of_way(self, holder: str, still_out: int) -> str | None:
        """What keeps something out of the way until later: itself or what it lies in; nothing where it is there."""
        chain = self.bench.tree.chain(self.bench.index[holder])
        return next((self.bench.names[at] for at in chain if 1 << at & still_out), None)

    def _later(self, out: str, holders: list[str]) -> str:
        brings = "" if out in holders else f" and brings {listed([self._named(holder) for holder in holders])}"
        return f"{self._named(out)} goes in after it{brings}"

    def _named(self, part: str) -> str:
        return f"{part} {lowered(self.unit.parts[part].name)}"

    def _placed(self, steps: list[PlannedStep]) -> list[PlannedStep]:
        """Each check as early as it can be made, so that what fails is not stripped of more than it has to be.

        One that is made elsewhere than on the bench waits for the end, where nothing has to be before it.
        """
        for name in self.proofs:
            proof = self.unit.proofs[name]
            at = self._earliest(steps, proof)
            steps.insert(at, self._proof(name, proof, steps[at:]))
        return steps

    def _earliest(self, steps: list[PlannedStep], proof: Proof) -> int:
        wanted = set(proof.after) if proof.before else {*proof.after, *proof.when_opened}
        last = max((at for at, step in enumerate(steps) if step.kind == "fit" and wanted & {*step.parts}), default=-1)
        if not proof.before and (last < 0 or proof.place != BENCH):
            return len(steps)
        at = last + 1
        while at < len(steps) and steps[at].kind == "prove":
            at += 1
        return self._outside_session(steps, at)

    def _outside_session(self, steps: list[PlannedStep], at: int) -> int:
        is_held = False
        for step in steps[:at]:
            if step.kind in ("compress", "let home"):
                is_held = step.kind == "compress"
        while is_held and at < len(steps):
            is_held = steps[at].kind != "let home"
            at += 1
        return at

    def _proof(self, name: str, proof: Proof, later: list[PlannedStep]) -> PlannedStep:
        covered = covers(self.compiled, proof)
        why = "everything is in"
        if covered:
            why = f"can be done only before {listed(covered)} {'goes' if len(covered) == 1 else 'go'} in"
        elif any(step.kind == "fit" for step in later):
            why = "what it needs is in: if it fails, nothing that comes later has to come off again"
        return PlannedStep(
            0,
            "prove",
            f"{proof.name}: {proof.how}",
            minutes=proof.time.si / 60,
            tool=proof.gauge,
            why=(why,),
            notes=(f"Proves: {proof.proves}", f"Does not prove: {proof.does_not_prove}"),
            cautions=(proof.caution,) if proof.caution else (),
            proof=name,
        )

