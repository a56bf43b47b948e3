"""What closed couplings can pass together, and the range of torque each may bear in a redundant loop.

Here are ``greatest_load`` and ``torque_range``. Where couplings hold a train more than once, the torque of
each depends on backlash and wear, not on statics: it lies in a range. What all of them can pass before the
train slips is settled all the same (limit analysis): it is the greatest load that any split within the limits
bears.

That holds for couplings that keep their torque as they slip. Friction that falls when it slips, or heat,
gives less.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from layshaft.mechanics._domain import OutOfRange
from layshaft.mechanics.torque import NotCarried

if TYPE_CHECKING:
    from layshaft.mechanics.train import Train

Limits = Mapping[str, tuple[float, float]]

_LOAD = "load"
# A linear programme is solved in floats: closer than this, relative, is the same.
_NEAR = 1e-6
# The solver's word for a programme whose aim can grow for ever.
_UNBOUNDED = 3


class _Balance:
    """Balance of every shaft as rows of a linear programme; unknowns are torques and the size of the load."""

    def __init__(
        self, train: Train, closed: Collection[str], load: Mapping[str, Fraction], reacting: Collection[str]
    ) -> None:
        train.require_shafts(*load, *reacting)
        tying = train.tying(closed)
        self.columns = [e.name for e in tying] + [f"outside {shaft}" for shaft in reacting] + [_LOAD]
        self.rows = []
        for shaft in train.shafts:
            row = [float(e.ties.get(shaft, 0)) for e in tying]
            row += [1.0 if shaft == other else 0.0 for other in reacting]
            self.rows.append([*row, float(load.get(shaft, 0))])
        self.bounds: dict[str, tuple[float | None, float | None]] = dict.fromkeys(self.columns, (None, None))
        self.closed = tuple(c.name for c in train.couplings if c.name in closed)

    def limit(self, limits: Limits) -> None:
        """Keep couplings inside their limits; what one passes is what its first side feels, turned round."""
        for name, (least, greatest) in limits.items():
            if not least <= 0 <= greatest:
                raise OutOfRange(f"limits_of_{name}", (least, greatest), "on either side of none")
            if name in self.closed:
                self.bounds[name] = (_open(-greatest), _open(-least))

    def best(self, column: str, direction: float) -> Any:
        """The solution in which a column is as far as it can go in a direction."""
        from scipy.optimize import linprog

        aim = [direction if name == column else 0.0 for name in self.columns]
        bounds = [self.bounds[name] for name in self.columns]
        zero = [0.0] * len(self.rows)
        return linprog([-a for a in aim], A_eq=self.rows, b_eq=zero, bounds=bounds, method="highs")


def _open(limit: float) -> float | None:
    return None if math.isinf(limit) else limit


def greatest_load(
    train: Train,
    closed: Collection[str],
    load: Mapping[str, Fraction],
    reacting: Collection[str],
    limits: Limits,
) -> tuple[float, tuple[str, ...]]:
    """How many times a load the closed couplings can bear before the train slips.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    load : mapping
        Torque put on shafts from outside, shaft to torque [N m].
    reacting : collection of str
        Shafts that outside parts hold back or drive as needed, the outputs.
    limits : mapping
        Coupling to the least and greatest torque it can pass from its first to its second side [N m]: a
        clutch (-T, T), a one-way clutch (0, T) or (-T, 0); a coupling left out is taken as a dog that passes
        anything.

    Returns
    -------
    tuple
        Multiple of the load [-], infinite where no limit is reached; and the couplings that are at their
        limit then, by name.

    Raises
    ------
    NotCarried
        Nothing bears the load at all, as in neutral or with a one-way clutch asked to hold its free way.
    OutOfRange
        A limit has the wrong order, or a coupling or shaft is unknown.

    References
    ----------
    Lower bound theorem of limit analysis, e.g. W. Prager, P. G. Hodge, Theory of Perfectly Plastic Solids,
    1951 (from memory), solved as a linear programme.

    Example
    -------
    A locked set held by its sun clutch alone passes the clutch's torque over the sun's share:

    >>> from layshaft.mechanics.train import Coupling, Train, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),), (Coupling("direct", "sun", "out"),))
    >>> limits = {"direct": (-300.0, 300.0)}
    >>> times, slipping = greatest_load(train, ["direct"], {"in": Fraction(1)}, ["out"], limits)
    >>> round(times), slipping
    (1000, ('direct',))
    """
    balance = _Balance(train, closed, load, reacting)
    balance.limit(limits)
    balance.bounds[_LOAD] = (0.0, None)
    found = balance.best(_LOAD, 1.0)
    if found.status == _UNBOUNDED:
        return math.inf, ()
    values = dict(zip(balance.columns, (float(x) for x in found.x), strict=True))
    if values[_LOAD] <= _NEAR:
        raise NotCarried(balance.closed)
    limited = [name for name in balance.closed if name in limits]
    return values[_LOAD], tuple(n for n in limited if _is_at_limit(-values[n], limits[n]))


def _is_at_limit(torque: float, limits: tuple[float, float]) -> bool:
    bounds = [bound for bound in limits if bound != 0 and not math.isinf(bound)]
    return any(abs(torque - bound) <= _NEAR * abs(bound) for bound in bounds)


def torque_range(
    train: Train,
    closed: Collection[str],
    load: Mapping[str, Fraction],
    reacting: Collection[str],
    limits: Limits,
    coupling: str,
) -> tuple[float, float]:
    """Least and greatest torque a closed coupling may be passing under a load.

    Parameters
    ----------
    train : Train
        The train.
    closed : collection of str
        Names of the closed couplings.
    load : mapping
        Torque put on shafts from outside, shaft to torque [N m].
    reacting : collection of str
        Shafts that outside parts hold back or drive as needed, the outputs.
    limits : mapping
        Coupling to the least and greatest torque it can pass from its first to its second side [N m].
    coupling : str
        The closed coupling that is asked about.

    Returns
    -------
    tuple
        Least and greatest torque from its first to its second side [N m], the same where statics settle it,
        infinite where a loop without limits could be wound up by anything.

    Raises
    ------
    NotCarried
        Nothing bears the load inside the limits.
    OutOfRange
        The coupling is not closed, a limit has the wrong order, or a coupling or shaft is unknown.

    References
    ----------
    All splits that keep every shaft in balance and every coupling inside its limits, as a linear programme.

    Example
    -------
    A clutch and a one-way clutch lock the same set: either may bear it.

    >>> from layshaft.mechanics.train import Coupling, Train, planetary
    >>> train = Train((planetary("set", "sun", "out", "in", 36, -84),),
    ...               (Coupling("direct", "sun", "out"), Coupling("one-way", "in", "out")))
    >>> limits = {"direct": (-300.0, 300.0), "one-way": (0.0, 2000.0)}
    >>> closed, load = ["direct", "one-way"], {"in": Fraction(400)}
    >>> least, most = torque_range(train, closed, load, ["out"], limits, "one-way")
    >>> round(least), round(most)
    (0, 1400)
    """
    balance = _Balance(train, closed, load, reacting)
    if coupling not in balance.closed:
        raise OutOfRange("coupling", coupling, f"one of the closed ones {list(balance.closed)}")
    balance.limit(limits)
    balance.bounds[_LOAD] = (1.0, 1.0)
    ends = []
    for direction in (1.0, -1.0):
        found = balance.best(coupling, direction)
        if found.status == _UNBOUNDED:
            ends.append(-direction * math.inf)
        elif found.x is None:
            raise NotCarried(balance.closed)
        else:
            ends.append(-float(found.x[balance.columns.index(coupling)]))
    return min(ends), max(ends)
