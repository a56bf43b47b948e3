"""The best order of all moves, and the least work that reaches some of them."""

from layshaft.plan.sequence.blocked import Blocked, blocked
from layshaft.plan.sequence.exact import Tower
from layshaft.plan.sequence.fan import Link
from layshaft.plan.sequence.greedy import greedy, plain_bound
from layshaft.plan.sequence.landmark import helpful
from layshaft.plan.sequence.problem import Enter, Leave, Make, Order, Problem, Step, Turn
from layshaft.plan.sequence.replay import replay
from layshaft.plan.sequence.search import Budget, OutOfBudget
from layshaft.plan.sequence.table import ORDER_RANK, OUTSIDE, REACH_RANK, Table, bits
from layshaft.plan.sequence.wide import follow

STATES = 300_000
LARGE = 80
"""More moves than this are put in order setting by setting, with a bound instead of a proof."""
WIDTH = 8


class NoOrder(Exception):
    """There is no legal order; `blocked` says why, or is None where only fall rules stand in the way."""

    def __init__(self, why: Blocked | None) -> None:
        """Keep the reason."""
        super().__init__("no legal order makes all that is wanted")
        self.blocked = why


def steps_of(links: list[Link], table: Table, session: int) -> tuple[Step, ...]:
    """The links of a path as steps; an open session is left at the end."""
    steps: list[Step] = []
    for link in links:
        for kind, number, way in link.trail:
            if kind == "turn":
                steps.append(Turn(table.problem.attitudes[number]))
            elif kind == "make":
                steps.append(Make(number, way))
            elif kind == "enter":
                steps.append(Enter(number - 1))
                session = number
            else:
                steps.append(Leave(number - 1))
                session = OUTSIDE
    if session != OUTSIDE:
        steps.append(Leave(session - 1))
    return tuple(steps)


def _solve(problem: Problem, table: Table, targets: int, budget: int, allowed: int = -1) -> Order:
    tower = Tower(table, targets, Budget(budget), allowed)
    if targets & ~tower.visits.spread_all(table.start_made):
        raise NoOrder(blocked(problem))
    is_proved = True
    try:
        links = tower.solve()
    except OutOfBudget:
        is_proved = False
        links = follow(tower, WIDTH)
    if links is None:
        raise NoOrder(blocked(problem))
    total = sum(link.cost for link in links)
    bound = total if is_proved else min(total, tower.best_bound())
    return Order(
        steps_of(links, table, table.start_session), table.unpack(total), table.unpack(bound), is_proved
    )


def _by_settings(problem: Problem, goal: int) -> Order | None:
    """An order for a large problem, its cost by the checker, with a bound and no proof."""
    made = bits(problem.made)
    steps = greedy(problem, goal & ~made, made)
    if steps is None:
        return None
    found = replay(problem, steps)
    return Order(steps, found.cost, plain_bound(problem, goal & ~made), False) if found.is_legal else None


def order_moves(problem: Problem, budget: int = STATES) -> Order:
    """The best order of all but the optional moves: least risk, then turns, presses, tools, minutes.

    `budget` is the number of states that may be looked at for a proof. Raises NoOrder where there is none.
    """
    goal = bits(frozenset(i for i, move in enumerate(problem.moves) if not move.is_optional))
    if goal.bit_count() > LARGE and (order := _by_settings(problem, goal)) is not None:
        return order
    table = Table(problem, ORDER_RANK)
    return _solve(problem, table, goal & ~table.start_made, budget)


def reach(problem: Problem, targets: frozenset[int], budget: int = STATES) -> Order:
    """The least work that makes the targets: least in risk, then minutes, moves, turns, presses, tools.

    Minutes come before turns here because what is counted is work: a whole row of bolts is not taken out
    only to save a turn-over.
    """
    table = Table(problem, REACH_RANK)
    wanted = bits(targets) & ~table.start_made
    return _solve(problem, table, wanted, budget, helpful(table, wanted))
