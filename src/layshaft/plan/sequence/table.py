"""A problem turned into whole numbers: sets of moves are bits of one int, and so are attitudes and sessions.

A cost is one int as well: its fields lie side by side, the first in rank highest, each wide enough
never to overflow, so that adding and comparing packed costs is adding and comparing by rank.
"""

from functools import reduce
from operator import or_
from typing import NamedTuple

from layshaft.plan.sequence.problem import Clauses, Cost, Problem

OUTSIDE = 0
FRONTS = 200_000
"""How many sets of moves made are remembered with the ways that are free then."""

FREED = 40
"""The work of freeing a way, as a multiple of looking at one that is free: measured, only the scale matters."""

ORDER_RANK = ("risk", "turns", "presses", "tools", "minutes")
REACH_RANK = ("risk", "minutes", "moves", "turns", "presses", "tools")


class WayRow(NamedTuple):
    """One way of one move, as bits; `number` counts through the ways of all moves."""

    number: int
    move: int
    way: int
    bit: int
    clauses: tuple[int, ...]
    attitudes: int
    above: int
    sessions: int
    tool: int
    minutes: int
    risk: int


class Waiting(NamedTuple):
    """A way that names a move: its clauses that do, and the others."""

    number: int
    bit: int
    own: tuple[int, ...]
    others: tuple[int, ...]


class SessionRow(NamedTuple):
    """One session as bits; row 0 stands for no session at all."""

    clauses: tuple[int, ...]
    attitudes: int
    above: int
    is_press: bool
    minutes: int
    energy: float


class FallRow(NamedTuple):
    """One fall rule as bits."""

    gone: int
    clauses: tuple[int, ...]
    attitudes: int


class Nearing(NamedTuple):
    """A fall rule that a move can bring nearer: its clauses that name the move, and the others."""

    gone: int
    own: tuple[int, ...]
    others: tuple[int, ...]
    attitudes: int


def bits(indices: tuple[int, ...] | frozenset[int]) -> int:
    """The set of these moves as one int."""
    return reduce(or_, (1 << i for i in indices), 0)


def indices(moves: int) -> list[int]:
    """The moves of a set, lowest first."""
    found = []
    while moves:
        low = moves & -moves
        found.append(low.bit_length() - 1)
        moves ^= low
    return found


def _masks(needs: Clauses) -> tuple[int, ...]:
    return tuple(sorted({bits(clause) for clause in needs}, key=int.bit_count))


class Table:
    """All of a problem as bits, with the packing of its costs."""

    def __init__(self, problem: Problem, rank: tuple[str, ...] = ORDER_RANK) -> None:
        """Number everything once; `rank` names the cost fields from the most to the least important."""
        self.problem = problem
        self.count = len(problem.moves)
        self.start_made = bits(problem.made)
        self.every_attitude = (1 << len(problem.attitudes)) - 1
        self.attitude_number = {name: i for i, name in enumerate(problem.attitudes)}
        names = {way.tool for move in problem.moves for way in move.ways if way.tool is not None}
        self.tools: tuple[str, ...] = tuple(sorted(names))
        self.tool_number = {name: i + 1 for i, name in enumerate(self.tools)}
        self.start_tool = self.tool_number.get(problem.tool or "", 0)
        self.start_session = OUTSIDE if problem.session is None else problem.session + 1
        self.above = tuple(self._above(i) for i in range(self.count))
        self.rows: list[WayRow] = []
        self.ways = tuple(self._rows(i) for i in range(self.count))
        self.waiting = self._waiting()
        self._bits = [row.bit for row in self.rows]
        self.effort = 0
        self._fronts: dict[int, list[int]] = {}
        self._kept: dict[int, tuple[list[int], list[int]]] = {}
        self.sessions = (SessionRow((), self.every_attitude, 0, False, 0, 0.0), *self._session_rows())
        self.falls = tuple(
            FallRow(1 << f.move | self.above[f.move], _masks(f.needs), self.attitude_bits(f.attitudes))
            for f in problem.falls
        )
        self.fall_movers = reduce(or_, (c for f in self.falls for c in f.clauses), 0)
        self.nearing = self._nearing()
        self.falls_of: list[list[FallRow]] = [[] for _ in range(self.count)]
        for fall, row in zip(problem.falls, self.falls, strict=True):
            self.falls_of[fall.move].append(row)
        self.heavy = tuple(
            (1 << i | self.above[i], m.mass) for i, m in enumerate(problem.moves) if m.mass
        )
        self.heavy_moves = bits(tuple(i for i, m in enumerate(problem.moves) if m.mass))
        self._masses: dict[int, int] = {}
        self._pack_fields(rank)

    def _above(self, index: int) -> int:
        found = 0
        parent = self.problem.moves[index].parent
        while parent != -1:
            found |= 1 << parent
            parent = self.problem.moves[parent].parent
        return found

    def attitude_bits(self, names: frozenset[str] | None) -> int:
        """These attitudes as one int; None stands for all of them."""
        if names is None:
            return self.every_attitude
        return bits(tuple(self.attitude_number[name] for name in names))

    def _rows(self, index: int) -> tuple[WayRow, ...]:
        first = len(self.rows)
        self.rows.extend(
            WayRow(
                first + number,
                index,
                number,
                1 << index,
                _masks(way.needs),
                self.attitude_bits(way.attitudes),
                self.above[index],
                1 if way.session is None else bits(tuple(s + 1 for s in way.session)),
                0 if way.tool is None else self.tool_number[way.tool],
                way.minutes,
                way.risk,
            )
            for number, way in enumerate(self.problem.moves[index].ways)
        )
        return tuple(self.rows[first:])

    def _waiting(self) -> list[list[Waiting]]:
        """For each move, the ways that name it in a clause."""
        found: list[list[Waiting]] = [[] for _ in range(self.count)]
        for row in self.rows:
            for index in indices(reduce(or_, row.clauses, 0)):
                own = tuple(clause for clause in row.clauses if clause >> index & 1)
                others = tuple(clause for clause in row.clauses if not clause >> index & 1)
                found[index].append(Waiting(row.number, row.bit, own, others))
        return found

    def _nearing(self) -> list[list[Nearing]]:
        """For each move, the fall rules that name it in a clause."""
        found: list[list[Nearing]] = [[] for _ in range(self.count)]
        for gone, clauses, attitudes in self.falls:
            for index in indices(reduce(or_, clauses, 0)):
                own = tuple(clause for clause in clauses if clause >> index & 1)
                others = tuple(clause for clause in clauses if not clause >> index & 1)
                found[index].append(Nearing(gone, own, others, attitudes))
        return found

    def brought_nearer(self, move: int, made: int, attitude: int = 0, soon: int = 0) -> list[int]:
        """Fall rules of which a move not yet made would newly meet a clause, each as the moves that end it.

        Left out are those that moves of `soon` end, unless the part falls in this attitude (a bit) too.
        """
        after = made | 1 << move
        found = []
        for gone, own, _, attitudes in self.nearing[move]:
            if not gone & after and (attitudes & attitude or not gone & soon):
                for clause in own:
                    if not clause & made:
                        found.append(gone)
                        break
        return found

    def lets_fall(self, move: int, made: int, attitude: int) -> bool:
        """Whether a move not yet made would make a fall rule come true in this attitude (a bit)."""
        after = made | 1 << move
        for gone, own, others, attitudes in self.nearing[move]:
            if attitudes & attitude and not gone & after and self.is_met(others, made):
                for clause in own:
                    if not clause & made:
                        return True
        return False

    def every_move_order(self) -> list[int]:
        """Moves in an order in which each can be made after those before it, settings aside."""
        made = 0
        found: list[int] = []
        todo = [row.number for row in self.rows if not row.clauses]
        while todo:
            fresh = []
            for number in todo:
                row = self.rows[number]
                if not row.bit & made:
                    made |= row.bit
                    found.append(row.move)
                    fresh += self.freed(row.move, made)
            todo = fresh
        return found

    def front(self, made: int) -> list[int]:
        """The ways, by number, whose clauses hold, of moves not yet made."""
        found = self._fronts.get(made)
        if found is None:
            kept = self._kept.pop(made, None)
            if kept is None:
                found = [r.number for r in self.rows if not r.bit & made and self.is_met(r.clauses, made)]
            else:
                found = [number for part in kept for number in part if not self._bits[number] & made]
            if len(self._fronts) > FRONTS:
                self._fronts.clear()
            self._fronts[made] = found
        return found

    def keep_front(self, made: int, front: list[int], freed: list[int]) -> None:
        """Remember which front, with which ways freed since, led to these moves made."""
        self.effort += len(front) + FREED * len(freed)
        if made not in self._fronts:
            if len(self._kept) > FRONTS:
                self._kept.clear()
            self._kept[made] = (front, freed)

    def step(self, made: int, move: int) -> int:
        """The moves made when one more is made, its front carried along."""
        after = made | 1 << move
        if after not in self._fronts and after not in self._kept:
            self.keep_front(after, self.front(made), self.freed(move, after))
        return after

    def freed(self, move: int, made: int) -> list[int]:
        """The ways that this move, made last, has freed."""
        before = made & ~(1 << move)
        found = []
        for number, bit, own, others in self.waiting[move]:
            for clause in own:
                if not clause & before:
                    break
            else:
                continue
            if bit & made:
                continue
            for clause in others:
                if not clause & made:
                    break
            else:
                found.append(number)
        return found

    def _session_rows(self) -> list[SessionRow]:
        rows = []
        for session in self.problem.sessions:
            above = 0 if session.parent == -1 else 1 << session.parent | self.above[session.parent]
            attitudes = self.attitude_bits(session.attitudes)
            rows.append(
                SessionRow(
                    _masks(session.needs), attitudes, above, session.is_press, session.minutes, session.energy
                )
            )
        return rows

    def _pack_fields(self, rank: tuple[str, ...]) -> None:
        changes = 2 * self.count + 4
        mass = self.problem.base_mass + sum(move.mass for move in self.problem.moves)
        slowest = sum(max((w.minutes for w in ways), default=0) for ways in self.ways)
        slowest += changes * max((s.minutes for s in self.sessions), default=0)
        most = {
            "risk": sum(max((w.risk for w in ways), default=0) for ways in self.ways),
            "turns": changes * mass,
            "presses": changes,
            "tools": changes,
            "minutes": slowest,
            "moves": self.count,
        }
        self.rank = rank
        self.most = most
        self.shift: dict[str, int] = {}
        self.width: dict[str, int] = {}
        shift = 0
        for name in reversed(rank):
            self.shift[name] = shift
            self.width[name] = most[name].bit_length() + 2
            shift += self.width[name]
        self.never = 1 << (shift + 2)

    def pack(self, name: str, amount: int = 1) -> int:
        """This much of one cost field as a packed cost."""
        return amount << self.shift[name]

    def field(self, packed: int, name: str) -> int:
        """One cost field out of a packed cost."""
        return packed >> self.shift[name] & ((1 << self.width[name]) - 1)

    def unpack(self, packed: int) -> Cost:
        """A packed cost as a cost."""
        return Cost(*(self.field(packed, name) for name in Cost._fields))

    def rounded_up(self, packed: int) -> int:
        """The least possible cost that is not below this one: no field can hold more than its most."""
        for place, name in enumerate(self.rank):
            if place and self.field(packed, name) > self.most[name]:
                above = self.shift[self.rank[place - 1]]
                return self.rounded_up(((packed >> above) + 1) << above)
        return packed

    def mass(self, made: int) -> int:
        """The mass still in the unit, with its base."""
        found = self._masses.get(made)
        if found is None:
            found = self.problem.base_mass + sum(m for gone, m in self.heavy if not gone & made)
            self._masses[made] = found
        return found

    def is_met(self, clauses: tuple[int, ...], made: int) -> bool:
        """Whether each clause names a move already made."""
        return all(clause & made for clause in clauses)

    def falling(self, made: int, attitude: int) -> int:
        """The fall rules, as bits, that are true in this attitude (a bit of its own)."""
        found = 0
        for number, (gone, clauses, attitudes) in enumerate(self.falls):
            if attitudes & attitude and not gone & made and self.is_met(clauses, made):
                found |= 1 << number
        return found
