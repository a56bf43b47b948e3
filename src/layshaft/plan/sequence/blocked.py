"""Why some move can never be made: the circle of mutual needs, or the session that lacks."""

from dataclasses import dataclass

from layshaft.plan.sequence.problem import Clauses, Problem, Session, Way


@dataclass(frozen=True)
class Blocked:
    """The moves that can never be made, and one reason for it.

    `circle` names moves of which each waits for the next and the last for the first; it is empty where
    `move` is held by something else, told in `lacks`.
    """

    moves: tuple[str, ...]
    circle: tuple[str, ...]
    move: str
    lacks: str


class _Greedy:
    """All that can be made when turning, sessions and tools are free and nothing falls."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.made = set(problem.made)
        is_moving = True
        while is_moving:
            is_moving = False
            for index, move in enumerate(problem.moves):
                if index not in self.made and any(self.is_open(index, way) for way in move.ways):
                    self.made.add(index)
                    is_moving = True

    def is_met(self, needs: Clauses) -> bool:
        return all(any(move in self.made for move in clause) for clause in needs)

    def is_lifted_out(self, parent: int) -> bool:
        while parent != -1:
            if parent in self.made:
                return True
            parent = self.problem.moves[parent].parent
        return False

    def attitudes(self, names: frozenset[str] | None, parent: int) -> frozenset[str]:
        """The attitudes in which this is possible: all of them on the bench."""
        every = frozenset(self.problem.attitudes)
        return every if names is None or self.is_lifted_out(parent) else names & every

    def is_open(self, index: int, way: Way) -> bool:
        if not self.is_met(way.needs):
            return False
        stands = self.attitudes(way.attitudes, self.problem.moves[index].parent)
        if way.session is None:
            return bool(stands)
        sessions = (self.problem.sessions[s] for s in way.session)
        return any(self.is_met(s.needs) and stands & self.attitudes(s.attitudes, s.parent) for s in sessions)

    def waits_for(self, index: int) -> tuple[list[int], str]:
        """The moves that this one waits for by its first way that waits for any, else what it lacks."""
        lacks = "it has no way out"
        for way in self.problem.moves[index].ways:
            sessions = [self.problem.sessions[s] for s in sorted(way.session or ())]
            for needs in (way.needs, *(s.needs for s in sessions)):
                for clause in needs:
                    if clause and not any(move in self.made for move in clause):
                        return [move for move in clause if move not in self.made], ""
            lacks = _name_lack(way, sessions)
        return [], lacks


def _name_lack(way: Way, sessions: list[Session]) -> str:
    if any(not clause for clause in way.needs):
        return "it needs any of nothing"
    if way.session is None:
        return "it has no attitude in which it can be made"
    if not sessions:
        return "it names no session in which it can be made"
    names = ", ".join(session.id for session in sessions)
    return f"session {names} cannot be had in an attitude that the move allows"


def blocked(problem: Problem) -> Blocked | None:
    """What can never be made, and why; None where every move can be made (fall rules aside)."""
    greedy = _Greedy(problem)
    stuck = [index for index in range(len(problem.moves)) if index not in greedy.made]
    if not stuck:
        return None
    names = tuple(problem.moves[i].id for i in stuck)
    best: list[int] = []
    lack: tuple[int, str] | None = None
    for first in stuck:
        trail: list[int] = []
        index = first
        while index not in trail:
            trail.append(index)
            waits, lacks = greedy.waits_for(index)
            if not waits:
                lack = lack or (index, lacks)
                break
            index = min(waits)
        else:
            circle = trail[trail.index(index):]
            if not best or len(circle) < len(best):
                best = circle
    if lack is not None:
        return Blocked(names, (), problem.moves[lack[0]].id, lack[1])
    return Blocked(names, tuple(problem.moves[i].id for i in best), problem.moves[best[0]].id, "")
