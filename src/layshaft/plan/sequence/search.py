"""Best-first search over closed states, each level guided by the exact costs to go of the levels below it.

A level's own search gives the exact cost to go from a state. It is kept; so is, for every state the search
looked at, the better bound it proved on the way. A state is dropped when another has made all its moves and
more, stands in the same attitude and session, and cost no more, a change of tool included where the tools in
hand differ: what the dropped state can do, the other can do too at no higher cost (see ``level`` for why;
where fall rules are half met, the other must not have met more of them).
"""

from collections.abc import Callable
from heapq import heappop, heappush

from layshaft.plan.sequence.fan import Fan, Link
from layshaft.plan.sequence.level import Level, State
from layshaft.plan.sequence.table import Table

STATE = 500
LINK = 200
RIVAL = 1
"""What a state, a link and a state held against it cost beside closing it, as multiples of looking at one free way."""


class OutOfBudget(Exception):
    """The states that were allowed have been looked at and nothing is proved."""


class Budget:
    """How much work may still be done, over all levels: a count, so that the same problem ends the same way."""

    def __init__(self, table: Table, allowance: int) -> None:
        """Take the table that counts the work, and how much there may be of it."""
        self.table = table
        self.limit = table.effort + allowance

    def renew(self, allowance: int) -> None:
        """Allow so much from now on."""
        self.limit = self.table.effort + allowance

    def spend(self, links: int) -> None:
        """Count a state that was looked at, with the links found; stop where it was one too many."""
        self.table.effort += STATE + LINK * links
        if self.table.effort > self.limit:
            raise OutOfBudget


Bound = Callable[[State, int], int]


class Search:
    """Exact costs to go at one level, or bounds on them where only "more than that" is asked."""

    def __init__(self, level: Level, bounds: list[Bound], budget: Budget) -> None:
        """Take the level, lower bounds on the cost to go of its closed states (cheap first), and the budget.

        A bound is told how much is enough: above that it need not be sharp.
        """
        self.level = level
        self.bounds = bounds
        self.budget = budget
        self.never = level.table.never
        self.exact: dict[State, int] = {}
        self.proved: dict[State, int] = {}
        self._judged: dict[State, tuple[int, int]] = {}
        self._tried: set[State] = set()
        self._starts: dict[State, tuple[State, int]] = {}

    def value(self, state: State, limit: int) -> int:
        """The least cost from here to the end if that is within the limit, else some bound above the limit."""
        start = self.level.state(*state)
        found = self._starts.get(start)
        if found is None:
            after, own, _ = self.level.close(start)
            found = self._starts[start] = (self.level.reached(after, start), own)
        closed, own = found
        if closed not in self.exact and self.proved.get(closed, 0) + own <= limit:
            # Asked a second time, it is searched to the end: limits that grow by grams would never get there.
            self.run(closed, self.never - 1 if closed in self._tried else limit - own)
            self._tried.add(closed)
        exact = self.exact.get(closed)
        return own + (self.proved.get(closed, 0) if exact is None else exact)

    def known(self, state: State) -> int:
        """What has been proved so far about the cost from here to the end."""
        start = self.level.state(*state)
        made, own, _ = self.level.close(start)
        closed = self.level.reached(made, start)
        return own + self.exact.get(closed, self.proved.get(closed, 0))

    def run(self, start: State, limit: int) -> list[Link]:
        """Search from a closed state; the links of a cheapest path, empty where none is within the limit."""
        return _Run(self, start, limit).links

    def estimate(self, state: State, enough: int) -> int:
        """A bound on the cost to go: bounds are tried, cheap first, until one is above `enough`."""
        known = self.exact.get(state)
        if known is not None:
            return known
        best, place = self._judged.get(state, (0, 0))
        best = max(best, self.proved.get(state, 0))
        while best <= enough and place < len(self.bounds):
            found = self.bounds[place](state, enough)
            best = max(best, found)
            if found <= enough:
                place += 1
        self._judged[state] = (best, place)
        return best


class _Run:
    """One search from one state."""

    def __init__(self, search: Search, start: State, limit: int) -> None:
        self.search = search
        self.limit = limit
        self.level = search.level
        self.cost: dict[State, int] = {start: 0}
        self.came: dict[State, tuple[State, Link]] = {}
        self.looked: dict[State, int] = {}
        self.ranks: dict[tuple[int, int], list[tuple[int, int, int, int]]] = {}
        self.heap: list[tuple[int, int, int, State]] = []
        self.serial = 0
        self.popped = 0
        self.links: list[Link] = []
        self._push(start, 0)
        self._go(start)

    def _push(self, state: State, total: int) -> None:
        self.serial += 1
        heappush(self.heap, (total, -state.made.bit_count(), self.serial, state))

    def _go(self, start: State) -> None:
        try:
            self._go_on(start)
        except OutOfBudget:
            # States come off the heap by rising cost, so none is left that is cheaper than the last.
            self.search.proved[start] = max(self.search.proved.get(start, 0), self.popped)
            raise

    def _go_on(self, start: State) -> None:
        search = self.search
        while self.heap:
            total, _, _, state = heappop(self.heap)
            self.popped = total
            if total > self.limit:
                search.proved[start] = total
                self._learn(total)
                return
            cost = self.cost[state]
            if self.looked.get(state, search.never) <= cost:
                continue
            to_go = search.estimate(state, total - cost)
            if to_go >= search.never:
                self.looked[state] = cost
                continue
            if cost + to_go > total:
                self._push(state, cost + to_go)
                continue
            self.looked[state] = cost
            if state in search.exact or self.level.is_goal(state.made):
                self._finish(start, state, cost + search.exact.get(state, 0))
                return
            if not self._is_outdone(state, cost):
                self._look(state, cost, total)
        search.exact[start] = search.never

    def _look(self, state: State, cost: int, total: int) -> None:
        links = Fan(self.level, state).links
        self.search.budget.spend(len(links))
        for link in links:
            after = cost + link.cost
            if after < self.cost.get(link.state, self.search.never):
                self.cost[link.state] = after
                self.came[link.state] = (state, link)
                self._push(link.state, max(total, after))

    def _is_outdone(self, state: State, cost: int) -> bool:
        """Whether a state looked at before can do all that this one can, for no more."""
        made, attitude, session, tool = state
        met, hot = self._fall_marks(made)
        rank = self.ranks.setdefault((attitude, session), [])
        self.level.table.effort += RIVAL * len(rank)
        change = self.level.tool_cost
        for other_made, other_tool, other_cost, other_hot in rank:
            if made & ~other_made or other_hot & ~met:
                continue
            if other_cost + (change if tool and other_tool != tool else 0) <= cost:
                return True
        rank.append((made, tool, cost, hot))
        return False

    def _fall_marks(self, made: int) -> tuple[int, int]:
        """Clauses of fall rules that are met, and those of them whose rule still matters."""
        met = hot = 0
        place = 1
        for gone, clauses, _ in self.level.table.falls:
            for clause in clauses:
                if clause & made:
                    met |= place
                    if not gone & made:
                        hot |= place
                place <<= 1
        return met, hot

    def _finish(self, start: State, end: State, total: int) -> None:
        search = self.search
        self._learn(total)
        state = end
        search.exact.setdefault(end, 0)
        while state != start:
            state, link = self.came[state]
            self.links.append(link)
            search.exact[state] = total - self.cost[state]
        self.links.reverse()

    def _learn(self, total: int) -> None:
        """No way from the start is cheaper than `total`: so none is from the states on the way."""
        proved = self.search.proved
        for state, cost in self.looked.items():
            if total - cost > proved.get(state, 0):
                proved[state] = total - cost
