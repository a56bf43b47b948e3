"""The sequencing problem as plain data: moves with their ways, sessions, falls, and what an order costs.

Nothing here knows a book or a part. Moves, sessions and falls are numbered by their place in the
tuples of a :class:`Problem`. How an order is found is in ``order``; how it is checked, in ``replay``.

Rules that the data stand for:

* Clauses (``needs``) are "all of any of": every clause must name at least one move already made.
* A part is *in the unit* while neither it nor any of its ancestors has been moved. Attitude binds a
  way only while the part's assembly is the unit, that is while no ancestor has been moved.
* Turning costs the mass of all that is still in the unit. It can be done only outside a session.
* Inside a session only ways that name it can be used; entering a press session costs one set-up,
  leaving is free, and entering again costs the same again.
* A hand move (tool ``None``) leaves the tool in hand as it is. Taking up the first tool counts as
  one change, so the count equals the number of times a tool is reached for.
* A step is illegal that makes a fall rule come true: turning into an attitude in which it is true,
  or making a move after which it is true and before which it was not.
"""

from dataclasses import dataclass
from typing import NamedTuple

Clauses = tuple[tuple[int, ...], ...]


class Cost(NamedTuple):
    """What an order costs, in the rank by which whole orders are compared."""

    risk: int
    turns: int
    presses: int
    tools: int
    minutes: int


@dataclass(frozen=True)
class Way:
    """One way of making a move: when it is possible, with what, how long it takes (tenths of a minute)."""

    needs: Clauses = ()
    attitudes: frozenset[str] | None = None
    session: frozenset[int] | None = None
    tool: str | None = None
    minutes: int = 0
    risk: int = 0


@dataclass(frozen=True)
class Move:
    """A part that comes off, whole, by one of its ways; `parent` is the move of the assembly it sits in."""

    id: str
    ways: tuple[Way, ...]
    parent: int = -1
    mass: int = 0
    is_optional: bool = False


@dataclass(frozen=True)
class Session:
    """A stretch of work under a load release; `parent` is the move of the assembly that is worked on."""

    id: str
    needs: Clauses = ()
    attitudes: frozenset[str] | None = None
    is_press: bool = True
    minutes: int = 0
    energy: float = 0.0
    parent: int = -1


@dataclass(frozen=True)
class Fall:
    """Once the clauses hold, a part still in the unit would fall in these attitudes (None: any)."""

    move: int
    needs: Clauses
    attitudes: frozenset[str] | None = None


@dataclass(frozen=True)
class Problem:
    """All moves of a unit and the state it stands in now."""

    moves: tuple[Move, ...]
    sessions: tuple[Session, ...] = ()
    falls: tuple[Fall, ...] = ()
    attitudes: tuple[str, ...] = ("as it stands",)
    start: str = "as it stands"
    base_mass: int = 0
    made: frozenset[int] = frozenset()
    tool: str | None = None
    session: int | None = None

    def __post_init__(self) -> None:
        """Refuse numbers that point nowhere, so that no solver has to."""
        count = len(self.moves)
        if self.start not in self.attitudes or len(set(self.attitudes)) != len(self.attitudes):
            raise ValueError(f"start attitude {self.start!r} must be one of {self.attitudes}, each once")
        if self.session is not None and not 0 <= self.session < len(self.sessions):
            raise ValueError(f"session {self.session} is not one of {len(self.sessions)}")
        for index in self.made:
            _expect_move(index, count, "made")
        for index, move in enumerate(self.moves):
            self._check_move(index, move)
        for session in self.sessions:
            _expect_clauses(session.needs, count, f"session {session.id}")
            self._expect_attitudes(session.attitudes, f"session {session.id}")
            if session.parent != -1:
                _expect_move(session.parent, count, f"session {session.id}")
        for fall in self.falls:
            _expect_move(fall.move, count, "fall")
            _expect_clauses(fall.needs, count, f"fall of {self.moves[fall.move].id}")
            self._expect_attitudes(fall.attitudes, f"fall of {self.moves[fall.move].id}")

    def _check_move(self, index: int, move: Move) -> None:
        seen = {index}
        parent = move.parent
        while parent != -1:
            _expect_move(parent, len(self.moves), f"parent of {move.id}")
            if parent in seen:
                raise ValueError(f"move {move.id} sits inside itself")
            seen.add(parent)
            parent = self.moves[parent].parent
        if move.mass < 0:
            raise ValueError(f"move {move.id} has a negative mass")
        for way in move.ways:
            _expect_clauses(way.needs, len(self.moves), f"move {move.id}")
            self._expect_attitudes(way.attitudes, f"move {move.id}")
            if way.minutes < 0 or way.risk < 0:
                raise ValueError(f"move {move.id} has negative minutes or risk")
            if any(not 0 <= s < len(self.sessions) for s in way.session or ()):
                raise ValueError(f"move {move.id} names a session that is not there")

    def _expect_attitudes(self, names: frozenset[str] | None, where: str) -> None:
        unknown = sorted((names or frozenset()) - set(self.attitudes))
        if unknown:
            raise ValueError(f"{where}: attitude {unknown[0]!r} is not one of {self.attitudes}")


def _expect_move(index: int, count: int, where: str) -> None:
    if not 0 <= index < count:
        raise ValueError(f"{where}: move {index} is not one of {count}")


def _expect_clauses(needs: Clauses, count: int, where: str) -> None:
    for clause in needs:
        for index in clause:
            _expect_move(index, count, where)


@dataclass(frozen=True)
class Turn:
    """Turn the unit into this attitude."""

    attitude: str


@dataclass(frozen=True)
class Enter:
    """Begin this session."""

    session: int


@dataclass(frozen=True)
class Leave:
    """End this session."""

    session: int


@dataclass(frozen=True)
class Make:
    """Make this move by this of its ways."""

    move: int
    way: int


Step = Turn | Enter | Leave | Make


@dataclass(frozen=True)
class Order:
    """Steps from the state now to the end, their cost, and a cost that no order can be below."""

    steps: tuple[Step, ...]
    cost: Cost
    bound: Cost
    is_proved: bool
