"""A checker that walks an order step by step, by the rules as they are written, and adds up its cost.

It shares nothing with the solvers but the data, so that neither can hide the other's mistake.
"""

from dataclasses import dataclass, field

from layshaft.plan.sequence.problem import (
    Clauses,
    Cost,
    Enter,
    Leave,
    Make,
    Move,
    Problem,
    Session,
    Step,
    Turn,
    Way,
)


@dataclass(frozen=True)
class Replay:
    """What became of an order: whether it is legal, else the first step that is not, and why."""

    is_legal: bool
    cost: Cost
    fault_at: int | None = None
    reason: str | None = None


@dataclass
class _Bench:
    problem: Problem
    made: set[int]
    attitude: str
    session: int | None
    tool: str | None
    cost: list[int] = field(default_factory=lambda: [0, 0, 0, 0, 0])

    def is_met(self, needs: Clauses) -> bool:
        return all(any(move in self.made for move in clause) for clause in needs)

    def is_lifted_out(self, parent: int) -> bool:
        while parent != -1:
            if parent in self.made:
                return True
            parent = self.problem.moves[parent].parent
        return False

    def mass(self) -> int:
        inside = (
            move.mass
            for index, move in enumerate(self.problem.moves)
            if index not in self.made and not self.is_lifted_out(move.parent)
        )
        return self.problem.base_mass + sum(inside)

    def falling(self, attitude: str) -> set[int]:
        found = set()
        for number, fall in enumerate(self.problem.falls):
            if fall.move in self.made or self.is_lifted_out(self.problem.moves[fall.move].parent):
                continue
            if (fall.attitudes is None or attitude in fall.attitudes) and self.is_met(fall.needs):
                found.add(number)
        return found

    def name_fall(self, numbers: set[int]) -> str:
        return self.problem.moves[self.problem.falls[min(numbers)].move].id


def _turn(bench: _Bench, step: Turn) -> str | None:
    if bench.session is not None:
        return "the unit is held in a session"
    if step.attitude not in bench.problem.attitudes:
        return f"there is no attitude {step.attitude!r}"
    if step.attitude == bench.attitude:
        return "the unit stands so already"
    falling = bench.falling(step.attitude)
    if falling:
        return f"{bench.name_fall(falling)} would fall"
    bench.cost[1] += bench.mass()
    bench.attitude = step.attitude
    return None


def _enter(bench: _Bench, step: Enter) -> str | None:
    if bench.session is not None:
        return "another session is still open"
    if not 0 <= step.session < len(bench.problem.sessions):
        return f"there is no session {step.session}"
    session = bench.problem.sessions[step.session]
    if not bench.is_met(session.needs):
        return f"session {session.id} cannot begin yet"
    if not _stands_right(bench, session, session.parent):
        return f"session {session.id} wants another attitude"
    bench.session = step.session
    bench.cost[2] += session.is_press
    bench.cost[4] += session.minutes
    return None


def _stands_right(bench: _Bench, rule: Way | Session, parent: int) -> bool:
    if rule.attitudes is None or bench.attitude in rule.attitudes:
        return True
    return bench.is_lifted_out(parent)


def _leave(bench: _Bench, step: Leave) -> str | None:
    if bench.session is None or bench.session != step.session:
        return f"session {step.session} is not open"
    bench.session = None
    return None


def _make(bench: _Bench, step: Make) -> str | None:
    if not 0 <= step.move < len(bench.problem.moves):
        return f"there is no move {step.move}"
    move = bench.problem.moves[step.move]
    if step.move in bench.made:
        return f"{move.id} has been made already"
    if not 0 <= step.way < len(move.ways):
        return f"{move.id} has no way {step.way}"
    way = move.ways[step.way]
    reason = _why_not(bench, move, way)
    if reason:
        return reason
    before = bench.falling(bench.attitude)
    bench.made.add(step.move)
    fresh = bench.falling(bench.attitude) - before
    if fresh:
        return f"{move.id} lets {bench.name_fall(fresh)} fall"
    bench.cost[0] += way.risk
    bench.cost[4] += way.minutes
    if way.tool is not None and way.tool != bench.tool:
        bench.tool = way.tool
        bench.cost[3] += 1
    return None


def _why_not(bench: _Bench, move: Move, way: Way) -> str | None:
    if not bench.is_met(way.needs):
        return f"{move.id} is still held"
    if way.session is None and bench.session is not None:
        return f"{move.id} cannot be made in a session"
    if way.session is not None and bench.session not in way.session:
        return f"{move.id} wants a session that is not open"
    if not _stands_right(bench, way, move.parent):
        return f"{move.id} wants another attitude"
    return None


def replay(problem: Problem, steps: tuple[Step, ...], targets: frozenset[int] | None = None) -> Replay:
    """Walk the steps; in the end every move (or every target) must have been made, optional ones aside."""
    bench = _Bench(problem, set(problem.made), problem.start, problem.session, problem.tool)
    for number, step in enumerate(steps):
        if isinstance(step, Turn):
            reason = _turn(bench, step)
        elif isinstance(step, Enter):
            reason = _enter(bench, step)
        elif isinstance(step, Leave):
            reason = _leave(bench, step)
        else:
            reason = _make(bench, step)
        if reason:
            return Replay(False, Cost(*bench.cost), number, reason)
    wanted = targets
    if wanted is None:
        wanted = frozenset(i for i, move in enumerate(problem.moves) if not move.is_optional)
    missing = sorted(wanted - bench.made)
    if missing:
        return Replay(False, Cost(*bench.cost), len(steps), f"{problem.moves[missing[0]].id} was never made")
    return Replay(True, Cost(*bench.cost))
