"""Bounds on tool changes: a few tools dear, the others free, and the sum over groups of tools.

A change is a change to one tool. So with the tools shared out over groups, the changes that each group needs
by itself, in orders that are best in all that ranks above tools, may be added up. How good the sum is
depends on who is put with whom: tools that take turns along the holds belong together. Pairs are tried from
the state now, groups are built from the pairs that cost most, and the best few partitions are tried.
"""

from collections.abc import Callable
from itertools import combinations

from layshaft.plan.sequence.level import Level, State
from layshaft.plan.sequence.search import Bound, Budget, Search
from layshaft.plan.sequence.table import Table

GROUP = 4
TRIED = 8

Tools = tuple[int, ...]


class Toolset:
    """Searches in which only some tools are dear, each kept once made."""

    def __init__(
        self,
        table: Table,
        goal: int,
        level: Callable[[Tools], Level],
        below: Search,
        budget: Budget,
    ) -> None:
        """Take what makes a level for a group of tools, and the floor on which all tools are free."""
        self.table = table
        self.level = level
        self.below = below
        self.budget = budget
        self.unit = table.pack("tools")
        self.mask = ((1 << table.width["tools"]) - 1) << table.shift["tools"]
        self.only = [self._only(tool, goal) for tool in range(len(table.tools) + 1)]
        self._groups: dict[Tools, Search] = {}
        self._values: dict[Tools, int] = {}

    def _only(self, tool: int, goal: int) -> int:
        """The wanted moves that no other tool can make."""
        found = 0
        for index, ways in enumerate(self.table.ways):
            if goal >> index & 1 and ways and all(row.tool == tool for row in ways):
                found |= 1 << index
        return found

    def search(self, start: State) -> Search:
        """The floor on which all tools are dear, guided by the best partition found from this state."""
        tools = tuple(range(1, len(self.table.tools) + 1))
        bounds: list[Bound] = [self._count_bound(tools)]
        if len(tools) > 2:
            bounds.append(self._sum_bound(self._best_partition(tools, start)))
        return Search(self.level(tools), bounds, self.budget)

    def _count_bound(self, tools: Tools) -> Bound:
        """The floor below, and one change to each tool that is still needed and not in hand."""
        rows = [(tool, self.only[tool]) for tool in tools]

        def bound(state: State, enough: int) -> int:
            changes = 0
            for tool, moves in rows:
                if tool != state.tool and moves & ~state.made:
                    changes += self.unit
            return self.below.value(state, enough - changes) + changes

        return bound

    def _sum_bound(self, groups: list[Tools]) -> Bound:
        searches = [self._group(tools) for tools in groups]

        def bound(state: State, enough: int) -> int:
            changes = 0
            found = 0
            for search in searches:
                found = search.value(state, enough - changes)
                if found + changes > enough:
                    break
                changes += found & self.mask
            else:
                changes -= found & self.mask
            return found + changes

        return bound

    def _group(self, tools: Tools, start: State | None = None) -> Search:
        found = self._groups.get(tools)
        if found is None:
            bounds: list[Bound] = [self._count_bound(tools)]
            if len(tools) > 2 and start is not None:
                bounds.append(self._sum_bound(self._halves(tools, start)))
            found = self._groups[tools] = Search(self.level(tools), bounds, self.budget)
        return found

    def _changes(self, tools: Tools, start: State) -> int:
        """The fewest changes to these tools from the state now."""
        found = self._values.get(tools)
        if found is None:
            value = self._group(tools, start).value(start, self.table.never - 1)
            found = self._values[tools] = self.table.field(value, "tools")
        return found

    def _halves(self, tools: Tools, start: State) -> list[Tools]:
        """The best split of a group into a pair and the rest."""
        splits = []
        for pair in combinations(tools, 2):
            rest = tuple(tool for tool in tools if tool not in pair)
            splits.append((-self._changes(pair, start) - self._changes(rest, start), [pair, rest]))
        return min(splits)[1]

    def _best_partition(self, tools: Tools, start: State) -> list[Tools]:
        if len(tools) <= GROUP:
            return self._halves(tools, start)
        tried = []
        for groups in self._partitions(tools, start):
            tried.append((-sum(self._changes(group, start) for group in groups), groups))
        return min(tried)[1]

    def _partitions(self, tools: Tools, start: State) -> list[list[Tools]]:
        """The most promising ways to share the tools out, judged by what pairs need beyond each tool alone."""
        gain = {}
        for pair in combinations(tools, 2):
            alone = sum(self._changes((tool,), start) for tool in pair)
            gain[pair] = self._changes(pair, start) - alone

        def worth(groups: list[Tools]) -> int:
            return sum(gain[pair] for group in groups for pair in combinations(group, 2))

        found = [(-worth(groups), groups) for groups in _share_out(tools, gain)]
        return [groups for _, groups in sorted(found)[:TRIED]]


def _share_out(tools: Tools, gain: dict[tuple[int, int], int]) -> list[list[Tools]]:
    """Two groups in all ways; for more tools than that, groups grown around each tool in turn."""
    if len(tools) <= 2 * GROUP:
        sizes = range((len(tools) + 1) // 2, GROUP + 1)
        firsts = [first for size in sizes for first in combinations(tools, size)]
        return [[first, tuple(t for t in tools if t not in first)] for first in firsts]
    return [_grow(seed, tools, gain) for seed in tools]


def _grow(seed: int, tools: Tools, gain: dict[tuple[int, int], int]) -> list[Tools]:
    """Groups grown one after the other, each by the tool that its members take turns with most."""
    left = list(tools)
    groups = []
    while left:
        group = [seed if seed in left else left[0]]
        left.remove(group[0])
        while left and len(group) < GROUP:
            best = max(left, key=lambda t: (sum(gain[min(t, g), max(t, g)] for g in group), -t))
            left.remove(best)
            group.append(best)
        groups.append(tuple(sorted(group)))
    return groups
