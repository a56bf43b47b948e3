"""Moves that every order must make on the way to what is wanted, and moves that could help at all."""

from layshaft.plan.sequence.table import Table, WayRow, indices


class Landmarks:
    """For each move, the moves without which it can never be made."""

    def __init__(self, table: Table) -> None:
        """Keep the table."""
        self.table = table
        self.every = (1 << table.count) - 1
        self._known: dict[int, list[int]] = {}

    def needed(self, targets: int, made: int) -> int:
        """The moves not yet made that every order makes which makes the targets, these among them."""
        if not (self.every & ~made) & ~targets:
            return targets & ~made
        before = self._known.get(made)
        if before is None:
            before = self._known[made] = self._settle(made)
        found = 0
        for index in indices(targets & ~made):
            found |= before[index]
        return found & ~made

    def _settle(self, made: int) -> list[int]:
        """The largest sets that agree with each other: a move needs what all its ways need."""
        table = self.table
        before = [0 if made >> i & 1 else -1 for i in range(table.count)]
        is_moving = True
        while is_moving:
            is_moving = False
            for index, ways in enumerate(table.ways):
                if made >> index & 1:
                    continue
                needed = -1
                for row in ways:
                    needed &= self._way(row, before)
                needed |= 1 << index
                if needed != before[index]:
                    before[index] = needed
                    is_moving = True
        return before

    def _way(self, row: WayRow, before: list[int]) -> int:
        found = _clauses(row.clauses, before)
        entered = -1
        for session in indices(row.sessions):
            entered &= _clauses(self.table.sessions[session].clauses, before)
        return found | entered


def _clauses(clauses: tuple[int, ...], before: list[int]) -> int:
    found = 0
    for clause in clauses:
        common = -1
        for index in indices(clause):
            common &= before[index]
        found |= common
    return found


def helpful(table: Table, targets: int) -> int:
    """Every move that some chain of needs, an assembly lifted out or a fall rule leads to from the targets."""
    found = 0
    fresh = targets
    while fresh:
        found |= fresh
        wanted = 0
        for index in indices(fresh):
            wanted |= table.above[index]
            for row in table.ways[index]:
                wanted |= _leads(table, row)
        for gone, clauses, _ in table.falls:
            if any(clause & (found | table.start_made) for clause in clauses):
                wanted |= gone
        fresh = wanted & ~found
    return found


def _leads(table: Table, row: WayRow) -> int:
    found = 0
    for clause in row.clauses:
        found |= clause
    for session in indices(row.sessions):
        found |= table.sessions[session].above
        for clause in table.sessions[session].clauses:
            found |= clause
    return found
