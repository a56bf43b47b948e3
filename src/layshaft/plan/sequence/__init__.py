"""Finding the best order of moves, abstractly: no book and no part is known here."""

from layshaft.plan.sequence.blocked import Blocked, blocked
from layshaft.plan.sequence.order import NoOrder, order_moves, reach
from layshaft.plan.sequence.problem import (
    Cost,
    Enter,
    Fall,
    Leave,
    Make,
    Move,
    Order,
    Problem,
    Session,
    Step,
    Turn,
    Way,
)
from layshaft.plan.sequence.replay import Replay, replay

__all__ = [
    "Blocked",
    "Cost",
    "Enter",
    "Fall",
    "Leave",
    "Make",
    "Move",
    "NoOrder",
    "Order",
    "Problem",
    "Replay",
    "Session",
    "Step",
    "Turn",
    "Way",
    "blocked",
    "order_moves",
    "reach",
    "replay",
]
