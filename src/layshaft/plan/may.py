"""May I? Whether something may be done to a unit as it is now, and if not, why not, in figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layshaft.book.definition import Release, Way
from layshaft.plan.act import Act, Hold, LetOff, TakeOff, TakePieces, Turn
from layshaft.plan.at_worst import at_worst
from layshaft.plan.bench import Bench, Clause, face_part
from layshaft.plan.length import Lengths
from layshaft.plan.load import Loads
from layshaft.plan.loaded import LetGo, Loaded
from layshaft.plan.phrase import any_way, how, joules
from layshaft.plan.state import Condition, Session, State
from layshaft.plan.telling import lowered


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that stands in the way: a word id, the parts it is about, and a sentence."""

    id: str
    about: tuple[str, ...]
    sentence: str


@dataclass(frozen=True, slots=True)
class Answer:
    """Whether an act may be done, what stands against it, what it lets go and what stays loaded after it."""

    act: Act
    reasons: tuple[Reason, ...]
    lets_go: tuple[LetGo, ...] = ()
    still_loaded: tuple[Loaded, ...] = ()

    @property
    def is_yes(self) -> bool:
        """Nothing stands against it."""
        return not self.reasons


class Judge:
    """Answers for one unit with the sizes of one job."""

    def __init__(self, bench: Bench, loads: Loads) -> None:
        self.bench = bench
        self.loads = loads
        self.lengths = Lengths(loads)

    def may_i(self, state: State, act: Act) -> Answer:
        """Whether an act may be done now."""
        match act:
            case TakeOff(part=part, way=way):
                return self._take_off(state, act, part, way)
            case TakePieces(part=part, off=off):
                return self._take_pieces(state, act, part, off)
            case Turn(attitude=attitude):
                return Answer(act, tuple(self._turn(state, attitude)))
            case Hold(load=load, release=release):
                return Answer(act, tuple(self._hold(state, load, release)))
            case LetOff():
                return self._let_off(state, act)

    def after(self, state: State, act: Act) -> State:
        """The state that an act leads to, whether it may be done or not."""
        match act:
            case TakeOff(part=part):
                return replace(state, detached=state.detached | self.bench.bit(part)).with_partial(part, 0)
            case TakePieces(part=part, off=off):
                if off >= self.bench.unit.parts[part].count:
                    return self.after(state, TakeOff(part))
                return state.with_partial(part, off)
            case Turn(attitude=attitude):
                return replace(state, attitude=attitude)
            case Hold(load=load, release=release):
                return replace(state, session=Session(load, release))
            case LetOff():
                return replace(state, session=None)

    def ways_now(self, state: State, part: str) -> tuple[int, ...]:
        """The ways a part may leave by at this moment."""
        ways = range(len(self.bench.unit.parts[part].ways))
        return tuple(way for way in ways if self.may_i(state, TakeOff(part, way)).is_yes)

    def _take_off(self, state: State, act: Act, part: str, index: int) -> Answer:
        reasons = self._own_reasons(state, part, index)
        if any(reason.id in ("no way", "off already") for reason in reasons):
            return Answer(act, tuple(reasons))
        after = self.after(state, act)
        lets_go = self.loads.let_go(state, after)
        reasons += self._load_reasons(state, part, lets_go)
        if not reasons:
            reasons += self._fall_reasons(state, after)
        return Answer(act, tuple(reasons), lets_go, self._still(state, after))

    def _own_reasons(self, state: State, part: str, index: int) -> list[Reason]:
        definition = self.bench.unit.parts[part]
        if index >= len(definition.ways):
            return [Reason("no way", (part,), f"{self._named(part)} does not come out by itself.")]
        if state.detached & self.bench.bit(part) or state.condition(part) is Condition.MISSING:
            return [Reason("off already", (part,), f"{self._named(part)} is off already.")]
        way = definition.ways[index]
        reasons = [self._need_reason(state, part, way, clause) for clause in self._unmet(state, part, index)]
        if way.attitude and self._is_bound(state, part) and state.attitude not in way.attitude:
            wanted = " or ".join(way.attitude)
            sentence = f"{self._named(part)} comes out {wanted}; the unit stands {state.attitude}."
            reasons.append(Reason("attitude", (part,), sentence))
        return reasons

    def _is_bound(self, state: State, part: str) -> bool:
        return self.bench.is_in_unit(state.detached, part)

    def _unmet(self, state: State, part: str, index: int) -> list[Clause]:
        gone = self.bench.gone(state)
        return [clause for clause in self.bench.needs[(part, index)] if not clause.is_met(state.detached, gone)]

    def _need_reason(self, state: State, part: str, way: Way, clause: Clause) -> Reason:
        held_by = {need.part: need.how for need in (*way.held_by, *way.behind) if need.kind == "part"}
        names = " or ".join(self._named(holder) for holder in clause.asked)
        hows = [held_by.get(holder) for holder in clause.asked]
        how = f" ({hows[0]})" if len(hows) == 1 and hows[0] else ""
        partly = [holder for holder in clause.asked if state.off_count(holder)]
        left = "".join(
            f"; {self.bench.unit.parts[holder].count - state.off_count(holder)} of "
            f"{self.bench.unit.parts[holder].count} are still in"
            for holder in partly
        )
        return Reason("held", clause.asked, f"{self._named(part)} waits for {names}{how}{left}.")

    def _load_reasons(self, state: State, part: str, lets_go: tuple[LetGo, ...]) -> list[Reason]:
        if state.session is not None:
            return self._session_reasons(state, part, lets_go)
        return [self._let_go_reason(state, step) for step in lets_go]

    def _session_reasons(self, state: State, part: str, lets_go: tuple[LetGo, ...]) -> list[Reason]:
        assert state.session is not None
        release = self._release(state.session)
        if part in release.reach:
            others = [step for step in lets_go if step.load != state.session.load]
            return [self._let_go_reason(state, step) for step in others]
        reach = ", ".join(self._named(name) for name in release.reach) or "nothing"
        return [
            Reason(
                "held load",
                (part,),
                f"{state.session.load}: held {how(release)} now; only {reach} may come off until it is let off.",
            )
        ]

    def _let_go_reason(self, state: State, step: LetGo) -> Reason:
        ways = any_way(self.bench.unit.loads[step.load].releases)
        then = f"Take it up {ways} first." if ways else "The book gives no way to let it go: stop here."
        if step.still.is_loaded:
            holders = self._holders(step.still)
            holds = "hold" if len(holders) > 1 else "holds"
            among = " between them" if len(holders) > 1 else ""
            rest = f"{', '.join(holders)} still {holds} {joules(step.still.energy)}{among}"
        else:
            rest = "nothing holds it after that"
        sentence = f"{step.load}: lets go {joules(step.energy)}; {rest}. {then}"
        return Reason("lets go", (step.load,), sentence)

    def _holders(self, loaded: Loaded) -> tuple[str, ...]:
        parts: dict[str, None] = {}
        for stop in loaded.held_by:
            for part in self.bench.stop_parts.get(stop, ()):
                parts[part] = None
        seats = self.bench.unit.loads[loaded.load].springs
        names = [lowered(self.bench.unit.parts[name].name) for name in parts if name not in seats]
        return tuple(names[:6]) or ("the release way",)

    def _fall_reasons(self, before: State, after: State) -> list[Reason]:
        leaning = self.bench.leaning_on(after.detached & ~before.detached)
        fallen = [part for part in self.falling(after, leaning) if self._is_let_fall(before, after, part)]
        return [
            Reason("falls", (part,), f"{self._named(part)} would fall out: the unit stands {after.attitude}.")
            for part in fallen
        ]

    def _is_let_fall(self, before: State, after: State, part: str) -> bool:
        """Whether an act takes away something that held a part, which nothing may hold then."""
        gone = self.bench.gone(before)
        for index in range(len(self.bench.unit.parts[part].ways)):
            if after.attitude in self.bench.falls_in[(part, index)]:
                for clause in self.bench.needs[(part, index)]:
                    if clause.is_met(after.detached, gone) and not clause.is_met(before.detached, gone):
                        return True
        return False

    def falling(self, state: State, among: int = -1) -> tuple[str, ...]:
        """The parts, of all or some (as bits), that nothing surely holds and that point to the floor."""
        gone = self.bench.gone(state) | self.bench.unknown(state)
        found = []
        for name in self.bench.parts(self.bench.movable & among & ~state.detached):
            if not self.bench.is_in_unit(state.detached, name) or state.condition(name) is Condition.MISSING:
                continue
            for index in range(len(self.bench.unit.parts[name].ways)):
                if state.attitude not in self.bench.falls_in[(name, index)]:
                    continue
                if all(clause.is_met(state.detached, gone) for clause in self.bench.needs[(name, index)]):
                    found.append(name)
                    break
        return tuple(found)

    def _take_pieces(self, state: State, act: Act, part: str, off: int) -> Answer:
        definition = self.bench.unit.parts[part]
        if definition.count < 2 or not 0 < off <= definition.count:
            sentence = f"{self._named(part)} has {definition.count}; {off} of them cannot be off."
            return Answer(act, (Reason("count", (part,), sentence),))
        reasons = self._own_reasons(state, part, 0)
        for index in range(1, len(definition.ways)):
            if not reasons:
                break
            reasons = self._own_reasons(state, part, index)
        after = self.after(state, act)
        lets_go = self.loads.let_go(state, after)
        reasons += self._load_reasons(state, part, lets_go)
        if not reasons and off == definition.count:
            reasons += self._fall_reasons(state, after)
        return Answer(act, tuple(reasons), lets_go, self._still(state, after))

    def _turn(self, state: State, attitude: str) -> list[Reason]:
        if attitude not in self.bench.unit.attitudes:
            known = ", ".join(self.bench.unit.attitudes)
            return [Reason("attitude", (), f"The unit does not stand {attitude}; it stands {known}.")]
        if state.session is not None:
            held = how(self._release(state.session))
            return [Reason("held load", (), f"{state.session.load}: held {held} now; let it off before turning.")]
        turned = replace(state, attitude=attitude)
        return [
            Reason("falls", (part,), f"{self._named(part)} would fall out when it stands {attitude}.")
            for part in self.falling(turned)
        ]

    def _hold(self, state: State, load: str, index: int) -> list[Reason]:
        releases = self.bench.unit.loads[load].releases
        if index >= len(releases):
            return [Reason("no release", (load,), f"{load}: the book gives no such release way. Stop here.")]
        if state.session is not None:
            held = state.session.load
            return [Reason("held load", (held,), f"{held}: held already; one load at a time.")]
        release = releases[index]
        reasons = []
        gone = self.bench.gone(state)
        for clause in self.release_clauses(load, index):
            if not clause.is_met(state.detached, gone):
                names = " or ".join(self._named(part) for part in clause.asked)
                sentence = f"{load}: taken up {how(release)} only when {names} is out of the way."
                reasons.append(Reason("held", clause.asked, sentence))
        wrong = self.stands_wrong(state, load, index)
        if wrong is not None:
            reasons.append(wrong)
        reasons += self._lost_reasons(state, load, release)
        if not self.loads.could_be_loaded(state)[load].is_loaded:
            reasons.append(Reason("free", (load,), f"{load}: free already."))
        if not reasons and not self.loads.has_room(replace(state, session=Session(load, index))):
            sentence = f"{load}: cannot be pressed that far; another stop is in the way, or its coils touch."
            reasons.append(Reason("no room", (load,), sentence))
        return reasons

    def stands_wrong(self, state: State, load: str, index: int) -> Reason | None:
        """Why a release way cannot be used as the unit stands."""
        release = self.bench.unit.loads[load].releases[index]
        bound = self._is_bound(state, self.bench.unit.loads[load].springs[0])
        if not release.attitude or not bound or state.attitude in release.attitude:
            return None
        wanted = " or ".join(release.attitude)
        return Reason("attitude", (load,), f"{load}: let go {wanted}; the unit stands {state.attitude}.")

    def lost_for(self, state: State, release: Release) -> tuple[str, ...]:
        """The parts that a release way presses on, or turns out, and that are not there."""
        is_by_thread = release.kind in ("own thread", "by hand under cover")
        faces = (release.pushes, release.stands_on, *(release.reach if is_by_thread else ()))
        lost = (Condition.MISSING, Condition.NOT_FOUND)
        parts = dict.fromkeys(face_part(face) for face in faces if face is not None)
        return tuple(part for part in parts if state.condition(part) in lost)

    def why_lost(self, state: State, load: str, index: int) -> tuple[str, ...]:
        """Why a release way cannot take a load up for parts that are missing, in sentences."""
        release = self.bench.unit.loads[load].releases[index]
        return tuple(reason.sentence for reason in self._lost_reasons(state, load, release))

    def _lost_reasons(self, state: State, load: str, release: Release) -> Iterator[Reason]:
        for part in self.lost_for(state, release):
            sentence = (
                f"{load}: cannot be taken up {how(release)}, for {self._named(part)} is missing. Find out from outside "
                f"its line what the spring stands on, and ask the maker; `zero proved` once it is shown free."
            )
            yield Reason("lost", (part,), sentence)

    def release_clauses(self, load: str, index: int) -> tuple[Clause, ...]:
        """What has to be out of the way before a load can be taken up by a release way."""
        definition = self.bench.unit.loads[load]
        spring = definition.springs[0]
        return tuple(
            clause for need in definition.releases[index].behind for clause in self.bench.clauses(spring, need)
        )

    def _let_off(self, state: State, act: Act) -> Answer:
        if state.session is None:
            return Answer(act, (Reason("nothing held", (), "No load is held by a release way now."),))
        after = self.after(state, act)
        return Answer(act, (), (), self._still(state, after))

    def _still(self, before: State, after: State) -> tuple[Loaded, ...]:
        touched = {step.load for step in self.loads.let_go(before, after)}
        if before.session is not None:
            touched.add(before.session.load)
        now = self.loads.could_be_loaded(after)
        still = (loaded for name, loaded in now.items() if loaded.is_loaded and name in touched)
        return tuple(at_worst(self.lengths, after, loaded) for loaded in still)

    def _release(self, session: Session) -> Release:
        return self.bench.unit.loads[session.load].releases[session.release]

    def _named(self, part: str) -> str:
        return f"{part} {lowered(self.bench.unit.parts[part].name)}"
