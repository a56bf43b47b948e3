"""Lower bounds by taking all but one setting as free.

Let one setting (an attitude, a press session, a tool) be dear and every other free. Then the greedy order,
which makes all that can be made without the dear one before it is come back to, makes at its k-th visit at
least what any order has made by then: fewest visits, and the lightest unit at each. A turn goes into one
attitude, a set-up belongs to one session and a change to one tool, so these bounds may be added up.
Fall rules and the choice between ways are left out here, which can only lower a bound.
"""

from layshaft.plan.sequence.table import Table


class Visits:
    """Visits that every order must still pay to each setting, from a set of moves made."""

    def __init__(self, table: Table, goal: int, barred: frozenset[int]) -> None:
        """Keep the ways as flat rows, without those barred; `goal` is what must be made."""
        self.table = table
        self.goal = goal
        self.rows = [
            (row.bit, row.attitudes, row.above, 0 if row.number in barred else row.sessions, 1 << row.tool, row.move)
            for row in table.rows
        ]
        self.every_session = (1 << len(table.sessions)) - 1
        self.every_tool = (1 << len(table.tools) + 1) - 1
        self._known: dict[tuple[str, int, int], int | None] = {}

    def spread(self, made: int, attitudes: int, sessions: int, tools: int) -> int:
        """All that can be made with these settings, each free."""
        table = self.table
        rows = self.rows
        first = made
        front = table.front(made)
        freed: list[int] = []
        todo = [number for number in front if rows[number][4] & tools and rows[number][3] & sessions]
        is_moving = bool(todo)
        while is_moving:
            is_moving = False
            is_open = self._open(made, attitudes) & sessions
            rest = []
            for number in todo:
                bit, stands, above, inside, _, move = rows[number]
                if made & bit:
                    continue
                if inside & is_open and (stands & attitudes or above & made):
                    made |= bit
                    fresh = table.freed(move, made)
                    freed += fresh
                    rest += [n for n in fresh if rows[n][4] & tools and rows[n][3] & sessions]
                    is_moving = True
                else:
                    rest.append(number)
            todo = rest
        if made != first:
            table.keep_front(made, front, freed)
        return made

    def spread_all(self, made: int) -> int:
        """All that can ever be made, fall rules aside."""
        return self.spread(made, self.table.every_attitude, self.every_session, self.every_tool)

    def _open(self, made: int, attitudes: int) -> int:
        found = 0
        for number, row in enumerate(self.table.sessions):
            if (row.attitudes & attitudes or row.above & made) and self.table.is_met(row.clauses, made):
                found |= 1 << number
        return found

    def count(self, kind: str, index: int, made: int, is_in: bool) -> int | None:
        """What the visits to this setting cost at least: grams for an attitude, a number for the others.

        None: what is wanted can never be made.
        """
        if is_in:
            made = self._spread_in(kind, index, made)
        made = self._spread_out(kind, index, made)
        key = (kind, index, made)
        if key not in self._known:
            self._known[key] = self._count_from(kind, index, made)
        return self._known[key]

    def _count_from(self, kind: str, index: int, made: int) -> int | None:
        total = 0
        while self.goal & ~made:
            total += self.table.mass(made) if kind == "attitude" else 1
            after = self._spread_out(kind, index, self._spread_in(kind, index, made))
            if after == made:
                return None
            made = after
        return total

    def _spread_in(self, kind: str, index: int, made: int) -> int:
        every = self.table.every_attitude
        if kind == "attitude":
            return self.spread(made, 1 << index, self.every_session, self.every_tool)
        if kind == "session":
            return self.spread(made, every, 1 << index, self.every_tool)
        return self.spread(made, every, self.every_session, 1 | 1 << index)

    def _spread_out(self, kind: str, index: int, made: int) -> int:
        every = self.table.every_attitude
        if kind == "attitude":
            return self.spread(made, every & ~(1 << index), self.every_session, self.every_tool)
        if kind == "session":
            return self.spread(made, every, self.every_session & ~(1 << index), self.every_tool)
        return self.spread(made, every, self.every_session, self.every_tool & ~(1 << index))
