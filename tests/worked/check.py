"""One figure of a published source beside ours: what every file of worked examples is made of.

`status` says how the expected figure is known. Only SEEN and MEMORY count as published; a CLOSED one is an
own evaluation of the same formula and guards the coding, not the formula.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

SEEN = "seen in a published text"
MEMORY = "from memory"
CLOSED = "closed form, not counted"
OWN = "the project's own invented case"

# Exact by definition.
INCH = 0.0254
POUND = 0.45359237
LBF = POUND * 9.80665
PSI = LBF / INCH**2
RPM = 2 * math.pi / 60


@dataclass(frozen=True)
class Check:
    """A claim: what is compared, our figure, the printed one, how far they may differ, how it is known."""

    what: str
    ours: Callable[[], Any]
    printed: float
    tolerance: float
    status: str = SEEN

    def __str__(self) -> str:
        return self.what

    def hold(self) -> None:
        """Fail unless our figure lies within the tolerance of the printed one."""
        found = float(self.ours())
        assert abs(found - self.printed) <= self.tolerance, (
            f"{self.what}: {found!r} against {self.printed!r} ± {self.tolerance!r} ({self.status})"
        )
