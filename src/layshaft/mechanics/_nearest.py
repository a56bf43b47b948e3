"""The point nearest to zero that keeps linear bounds, found again cheaply each time a bound is added.

References
----------
D. Goldfarb, A. Idnani, A numerically stable dual method for solving strictly convex quadratic programs, Mathematical
Programming 27 (1983), pp. 1-33: the method, here for a unit matrix. It starts below all bounds, adds the one that
falls short most and lets go of those that would have to pull, and so meets each set of bearing bounds but once.
C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, Prentice-Hall 1974, chapter 23 (the problem, there named
LDP; chapter from memory).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

# Rows have length 1 and the figures are near 1: a bound is kept at this distance, and a row that is this close to
# what the bearing ones span is one of them.
LAST_DIGITS = 1e-13
SAME = 1e-9


class Unsettled(ArithmeticError):
    """No rest was found; the program has met its own limit and gives no figure."""


class Nearest:
    """Bearing bounds, by their row, and their multipliers; kept from one question to the next."""

    def __init__(self) -> None:
        self.bearing: list[int] = []

    def solve(self, rows: Floats, least: Floats) -> tuple[Floats, Floats]:
        """The point nearest to zero with rows @ point >= least, and the multiplier of each row, none negative."""
        import numpy as np

        force = self._start(rows, least)
        point: Floats = rows[self.bearing].T @ force
        for _ in range(20 * len(least)):
            short = least - rows @ point
            worst = int(short.argmax())
            if short[worst] <= LAST_DIGITS:
                multiplier = np.zeros(len(least))
                multiplier[self.bearing] = force
                return point, multiplier
            force = self._take_up(rows, force, worst, float(short[worst]))
            point = rows[self.bearing].T @ force
        raise Unsettled(f"{len(least)} bounds on springs and stops could not be kept together")

    def _start(self, rows: Floats, least: Floats) -> Floats:
        """Multipliers of the rows that bore last time, after those that would pull were let go."""
        import numpy as np

        while self.bearing:
            point = np.linalg.lstsq(rows[self.bearing], least[self.bearing])[0]
            force: Floats = np.linalg.lstsq(rows[self.bearing].T, point)[0]
            if force.min() >= 0:
                return force
            del self.bearing[int(force.argmin())]
        return np.zeros(0)

    def _take_up(self, rows: Floats, force: Floats, added: int, short: float) -> Floats:
        """Multipliers after one row more bears, and those were let go that had to."""
        import numpy as np

        own = 0.0
        while True:
            shares: Floats = np.linalg.lstsq(rows[self.bearing].T, rows[added])[0]
            left = rows[added] - rows[self.bearing].T @ shares
            room = float(left @ left)
            whole = short / room if room > SAME**2 else math.inf
            limits = np.full(len(shares), math.inf)
            np.divide(force, shares, out=limits, where=shares > LAST_DIGITS)
            first = int(limits.argmin()) if len(limits) else -1
            step = min(whole, float(limits[first])) if len(limits) else whole
            if math.isinf(step):
                raise Unsettled("bounds on springs and stops contradict each other")
            force = force - step * shares
            own += step
            if step == whole:
                self.bearing.append(added)
                return np.append(force, own)
            if room > SAME**2:
                short -= step * room
            del self.bearing[first]
            force = np.delete(force, first)
