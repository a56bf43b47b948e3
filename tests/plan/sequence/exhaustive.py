"""The least cost by looking at every state there is: slow, plain, and apart from the solver."""

from heapq import heappop, heappush
from itertools import count

RANK = (0, 1, 2, 3, 4)
"""The places of risk, turns, presses, tools, minutes and (5) the number of moves, most important first."""


class Exhaustive:
    """Dijkstra over single steps, with costs as tuples."""

    def __init__(self, problem, targets=None, rank=RANK):
        self.problem = problem
        every = frozenset(i for i, m in enumerate(problem.moves) if not m.is_optional)
        self.targets = every if targets is None else targets
        self.rank = rank

    def _met(self, needs, made):
        return all(any(i in made for i in clause) for clause in needs)

    def _out(self, parent, made):
        while parent != -1:
            if parent in made:
                return True
            parent = self.problem.moves[parent].parent
        return False

    def _falls(self, made, attitude):
        return {
            k
            for k, f in enumerate(self.problem.falls)
            if f.move not in made
            and not self._out(self.problem.moves[f.move].parent, made)
            and (f.attitudes is None or attitude in f.attitudes)
            and self._met(f.needs, made)
        }

    def _next(self, where):
        problem = self.problem
        made, attitude, session, tool = where
        if session is None:
            grams = problem.base_mass + sum(
                m.mass for i, m in enumerate(problem.moves) if i not in made and not self._out(m.parent, made)
            )
            for other in problem.attitudes:
                if other != attitude and not self._falls(made, other):
                    yield (0, grams, 0, 0, 0, 0), (made, other, None, tool)
            for k, s in enumerate(problem.sessions):
                stands = s.attitudes is None or attitude in s.attitudes or self._out(s.parent, made)
                if stands and self._met(s.needs, made):
                    yield (0, 0, int(s.is_press), 0, s.minutes, 0), (made, attitude, k, tool)
        else:
            yield (0, 0, 0, 0, 0, 0), (made, attitude, None, tool)
        for i, m in enumerate(problem.moves):
            if i in made:
                continue
            for w in m.ways:
                if not self._met(w.needs, made):
                    continue
                if session not in ({None} if w.session is None else w.session):
                    continue
                if w.attitudes is not None and attitude not in w.attitudes and not self._out(m.parent, made):
                    continue
                after = made | {i}
                if self._falls(after, attitude) - self._falls(made, attitude):
                    continue
                change = int(w.tool is not None and w.tool != tool)
                yield (w.risk, 0, 0, change, w.minutes, 1), (after, attitude, session, w.tool or tool)

    def least(self):
        problem = self.problem
        start = (problem.made, problem.start, problem.session, problem.tool)
        serial = count()
        heap = [((0,) * len(self.rank), next(serial), start)]
        done = set()
        while heap:
            cost, _, where = heappop(heap)
            if where in done:
                continue
            done.add(where)
            if self.targets <= where[0]:
                back = [0] * 6
                for place, field in enumerate(self.rank):
                    back[field] = cost[place]
                return tuple(back[:5])
            for extra, after in self._next(where):
                if after not in done:
                    total = tuple(c + extra[f] for c, f in zip(cost, self.rank, strict=True))
                    heappush(heap, (total, next(serial), after))
        return None
