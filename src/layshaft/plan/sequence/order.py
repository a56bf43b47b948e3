"""The best order of all moves, and the least work that reaches some of them."""

from layshaft.plan.sequence.blocked import Blocked, blocked
from layshaft.plan.sequence.bound import Visits
from layshaft.plan.sequence.exact import Tower
from layshaft.plan.sequence.fan import Trail
from layshaft.plan.sequence.landmark import Landmarks, helpful
from layshaft.plan.sequence.narrow import narrowed
from layshaft.plan.sequence.problem import Enter, Leave, Make, Order, Problem, Step, Turn
from layshaft.plan.sequence.search import Budget, OutOfBudget
from layshaft.plan.sequence.support import supported
from layshaft.plan.sequence.table import ORDER_RANK, OUTSIDE, REACH_RANK, Table, bits
from layshaft.plan.sequence.tally import cost_of
from layshaft.plan.sequence.wide import wide_trail

SMALL = 60
"""Up to so many moves the proof may take all the work of PROOF; above, less and less."""

PROOF = 200_000_000
"""Work for a proof; ten million is about a second on a common machine of 2026."""

LEAST = 4_000_000
LARGE = 300
"""Above so many moves a proof is not tried: a good order comes first, and bounds from its route."""

WIDTHS = 4_000
"""For a good order without proof, so many states times moves are kept."""


class NoOrder(Exception):
    """There is no legal order; `blocked` says why, or is None where only fall rules stand in the way."""

    def __init__(self, why: Blocked | None) -> None:
        """Keep the reason."""
        super().__init__("no legal order makes all that is wanted")
        self.blocked = why


def order_moves(problem: Problem, budget: int | None = None) -> Order:
    """The best order of all but the optional moves: least risk, then turns, presses, tools, minutes.

    `budget` is the work that may go into a proof (see PROOF). Raises NoOrder where there is no order, and
    OutOfBudget where none was found and none is proved not to be.
    """
    whole = problem
    problem = narrowed(problem, is_whole=True)
    goal = bits(frozenset(i for i, move in enumerate(problem.moves) if not move.is_optional))
    table = Table(problem, ORDER_RANK)
    return _order(whole, table, table, goal & ~table.start_made, frozenset(), budget)


def reach(problem: Problem, targets: frozenset[int], budget: int | None = None) -> Order:
    """The least work that makes the targets: least risk, then minutes, moves, turns, presses, tools.

    Minutes come before turns here because what is counted is work: a whole row of bolts is not taken out
    only to save a turn-over.
    """
    whole = problem
    problem = narrowed(problem, is_whole=False)
    table = Table(problem, REACH_RANK)
    wanted = bits(targets) & ~table.start_made
    allowed = helpful(table, wanted)
    barred = frozenset(row.number for row in table.rows if not row.bit & allowed)
    return _order(whole, table, Table(problem, ORDER_RANK), wanted, barred, budget)


def _order(
    whole: Problem, table: Table, guide: Table, targets: int, barred: frozenset[int], budget: int | None
) -> Order:
    """An order by ways of least risk, if there is one; else by any."""
    if targets & ~Visits(table, targets, barred).spread_all(table.start_made):
        raise NoOrder(blocked(whole))
    risky = _risky(table, targets) - barred
    for out in (barred | risky, barred) if risky else (barred,):
        order = _solve(table, guide, targets, out, budget)
        if order is not None:
            return order
    raise NoOrder(None)


def _risky(table: Table, targets: int) -> frozenset[int]:
    """Ways that no order uses which has only the risk that every order has.

    Such an order, if there is one, is less in risk than any other, so the others need not be looked at.
    """
    needed = Landmarks(table).needed(targets, table.start_made)
    found = set()
    for index, ways in enumerate(table.ways):
        least = min((row.risk for row in ways), default=0) if needed >> index & 1 else 0
        found |= {row.number for row in ways if row.risk > least}
    return frozenset(found)


def _solve(
    table: Table, guide: Table, targets: int, barred: frozenset[int], budget: int | None
) -> Order | None:
    tower = Tower(table, targets, Budget(table, 0), barred)
    if targets & ~tower.visits.spread_all(table.start_made):
        return None
    count = len({row.move for row in table.rows if row.number not in barred})
    if budget is None:
        budget = 0 if count > LARGE else PROOF if count <= SMALL else max(LEAST, PROOF * SMALL**3 // count**3)
    tower.budget.renew(budget)
    try:
        return _proved(tower)
    except OutOfBudget:
        guiding = tower if guide is table else Tower(guide, targets, Budget(guide, 0), barred)
        return _unproved(tower, guiding)


def _proved(tower: Tower) -> Order | None:
    links = tower.solve()
    if links is None:
        return None
    table = tower.table
    steps = steps_of(tuple(step for link in links for step in link.trail), table)
    cost = table.unpack(sum(link.cost for link in links))
    return Order(steps, cost, cost, True)


def _unproved(tower: Tower, guide: Tower) -> Order:
    """A good order, found along a route of the guide; the bound is what the tower had proved by then."""
    table = tower.table
    trail = wide_trail(guide, max(4, WIDTHS // table.count))
    if trail is None:
        raise OutOfBudget
    trail = min(trail, supported(table, trail, tower.targets), key=lambda steps: cost_of(table, steps))
    total = cost_of(table, trail)
    bound = min(total, table.rounded_up(tower.best_bound()))
    return Order(steps_of(trail, table), table.unpack(total), table.unpack(bound), bound == total)


def steps_of(trail: Trail, table: Table) -> tuple[Step, ...]:
    """A trail as steps; an open session is left at the end."""
    steps: list[Step] = []
    session = table.start_session
    for kind, number, way in trail:
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
