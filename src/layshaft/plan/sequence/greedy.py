"""An order for problems too large to prove: setting by setting, always the one that lets most be done for its cost.

The bound is what no order can be below: each tool that some move cannot do without is taken up once, and every move
takes its quickest way. A dead end, which falls can make, is told as no order found.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from layshaft.plan.sequence.problem import Clauses, Cost, Enter, Leave, Make, Problem, Step, Turn, Way


@dataclass
class _Walk:
    problem: Problem
    wanted: int
    made: int
    attitude: str
    tool: str | None
    session: int | None
    steps: list[Step] = field(default_factory=list)

    def __post_init__(self) -> None:
        moves = self.problem.moves
        self.above: list[int] = []
        for move in moves:
            bits, parent = 0, move.parent
            while parent != -1:
                bits |= 1 << parent
                parent = moves[parent].parent
            self.above.append(bits)
        self.needs = [[_masks(way.needs) for way in move.ways] for move in moves]
        self.entry = [_masks(one.needs) for one in self.problem.sessions]
        self.falls = [(fall, _masks(fall.needs)) for fall in self.problem.falls]

    def is_open(self, move: int, way: int) -> bool:
        """Whether only the setting can keep a way from being used now."""
        return all(clause & self.made for clause in self.needs[move][way])

    def fits(self, move: int, way: Way, attitude: str, session: int | None, tool: str | None) -> bool:
        if (session is not None) if way.session is None else (session not in way.session):
            return False
        if way.attitudes is not None and attitude not in way.attitudes and not self.above[move] & self.made:
            return False
        return way.tool is None or way.tool == tool

    def falling(self, made: int, attitude: str) -> set[int]:
        return {
            fall.move
            for fall, clauses in self.falls
            if not (made >> fall.move & 1 or self.above[fall.move] & made)
            and (fall.attitudes is None or attitude in fall.attitudes)
            and all(clause & made for clause in clauses)
        }

    def ready(self) -> list[tuple[int, int]]:
        """Every way that is open, whatever the setting."""
        to_do = self.wanted & ~self.made
        left = (move for move in range(len(self.problem.moves)) if to_do >> move & 1)
        return [(move, way) for move in left for way in range(len(self.needs[move])) if self.is_open(move, way)]

    def sweep(self) -> bool:
        """Make all that the setting lets be made; whether anything was."""
        was = self.made
        is_moving = True
        while is_moving:
            is_moving = False
            for move, way in self.ready():
                found = self.problem.moves[move].ways[way]
                if self.made >> move & 1 or not self.fits(move, found, self.attitude, self.session, self.tool):
                    continue
                after = self.made | 1 << move
                if self.falls and self.falling(after, self.attitude) - self.falling(self.made, self.attitude):
                    continue
                self.made = after
                self.steps.append(Make(move, way))
                is_moving = True
        return self.made != was

    def settings(self) -> list[tuple[tuple[int, ...], str, int | None, str | None]]:
        """Every setting that would let something be made, the cheapest and most useful first."""
        useful: dict[tuple[str, int | None, str | None], int] = {}
        for move, index in self.ready():
            way = self.problem.moves[move].ways[index]
            sessions: list[int | None] = [None] if way.session is None else [*sorted(way.session)]
            for session in sessions:
                for attitude in self._stands(move, way, session):
                    tool = self.tool if way.tool is None else way.tool
                    useful[attitude, session, tool] = useful.get((attitude, session, tool), 0) + 1
        ranked = []
        for (attitude, session, tool), count in useful.items():
            is_press = session is not None and session != self.session and self.problem.sessions[session].is_press
            cost = (attitude != self.attitude, is_press, tool != self.tool, session != self.session, -count)
            ranked.append((tuple(int(part) for part in cost), attitude, session, tool))
        return sorted(ranked, key=lambda one: (one[0], one[1], -1 if one[2] is None else one[2], one[3] or ""))

    def _stands(self, move: int, way: Way, session: int | None) -> list[str]:
        allowed = set(self.problem.attitudes)
        if way.attitudes is not None and not self.above[move] & self.made:
            allowed &= way.attitudes
        if session is not None and session != self.session:
            one = self.problem.sessions[session]
            if not all(clause & self.made for clause in self.entry[session]):
                return []
            is_out = one.parent != -1 and (1 << one.parent | self.above[one.parent]) & self.made
            if one.attitudes is not None and not is_out:
                allowed &= one.attitudes
        elif session is not None:
            allowed &= {self.attitude}
        return [self.attitude] if self.attitude in allowed else sorted(allowed)

    def go(self, attitude: str, session: int | None, tool: str | None) -> bool:
        """Change to a setting; False where turning would let something fall."""
        if attitude != self.attitude and self.falling(self.made, attitude) - self.falling(self.made, self.attitude):
            return False
        if self.session is not None and (session != self.session or attitude != self.attitude):
            self.steps.append(Leave(self.session))
            self.session = None
        if attitude != self.attitude:
            self.steps.append(Turn(attitude))
            self.attitude = attitude
        if session is not None and session != self.session:
            self.steps.append(Enter(session))
        self.session, self.tool = session, tool
        return True


def _masks(clauses: Clauses) -> list[int]:
    return [sum(1 << at for at in set(clause)) for clause in clauses]


def greedy(problem: Problem, wanted: int, made: int) -> tuple[Step, ...] | None:
    """Steps that make all that is wanted, or nothing where the walk ends before."""
    walk = _Walk(problem, wanted, made, problem.start, problem.tool, problem.session)
    walk.sweep()
    while wanted & ~walk.made:
        for _, attitude, session, tool in walk.settings():
            if walk.go(attitude, session, tool) and walk.sweep():
                break
        else:
            return None
    if walk.session is not None:
        walk.steps.append(Leave(walk.session))
    return tuple(walk.steps)


def plain_bound(problem: Problem, wanted: int) -> Cost:
    """A cost that no order is below: quickest ways, and each tool without which some move cannot be made."""
    moves = [move for at, move in enumerate(problem.moves) if wanted >> at & 1]
    tools = set()
    for move in moves:
        used = {way.tool for way in move.ways}
        if len(used) == 1:
            tools |= used
    tools -= {None, problem.tool}
    risk = sum(min((way.risk for way in move.ways), default=0) for move in moves)
    minutes = sum(min((way.minutes for way in move.ways), default=0) for move in moves)
    return Cost(risk, 0, 0, len(tools), minutes)


