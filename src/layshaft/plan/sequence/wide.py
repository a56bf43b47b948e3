"""A good order where no proof is asked for or the proof ran out of states: a beam over closed states."""

from layshaft.plan.sequence.exact import Tower
from layshaft.plan.sequence.fan import Fan, Link
from layshaft.plan.sequence.level import State


def follow(tower: Tower, width: int) -> list[Link] | None:
    """Go on from the best few states of each round, judged by cost so far and by visits still to be paid."""
    level = tower.whole
    first = tower.first()
    front: list[tuple[int, State, tuple[Link, ...]]] = [(first.cost, first.state, (first,))]
    best: tuple[int, tuple[Link, ...]] | None = None
    while front:
        reached: dict[State, tuple[int, int, tuple[Link, ...]]] = {}
        for cost, state, links in front:
            if level.is_goal(state.made):
                if best is None or cost < best[0]:
                    best = (cost, links)
                continue
            for link in Fan(level, state).links:
                total = cost + link.cost
                known = reached.get(link.state)
                if known is None or total < known[1]:
                    to_go = _to_go(tower, link.state) if known is None else known[0] - known[1]
                    reached[link.state] = (total + to_go, total, (*links, link))
        ranked = sorted(reached.items(), key=lambda item: (item[1][0], item[0]))
        limit = tower.table.never if best is None else best[0]
        front = [(v[1], state, v[2]) for state, v in ranked[:width] if v[0] < limit]
    return None if best is None else list(best[1])


def _to_go(tower: Tower, state: State) -> int:
    """What the visits still to come and the moves themselves cost at least."""
    table = tower.table
    found = sum(tower.own_left(name, state.made) for name in tower.least)
    settings = [("attitude", "turns", a, state.attitude) for a in range(len(table.problem.attitudes))]
    settings += [("session", "presses", s, state.session) for s, r in enumerate(table.sessions) if r.is_press]
    settings += [("tool", "tools", t, state.tool) for t in range(1, len(table.tools) + 1)]
    for kind, name, index, here in settings:
        visits = tower.visits.count(kind, index, state.made, here == index)
        if visits is None:
            return table.never
        found += table.pack(name, visits)
    return found
