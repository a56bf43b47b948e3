"""D. C. Montgomery, Introduction to Statistical Quality Control, tolerances: a linkage of four parts.

Normal parts with means 2.0, 4.5, 3.0, 2.5 and variances 0.0004, 0.0009, 0.0004, 0.0001; the linkage is to
lie within 12 ± 0.10.
"""

import math
from fractions import Fraction

import pytest

from layshaft.gauging.stack import Term, stack
from layshaft.gauging.window import Window
from tests.worked.check import MEMORY, Check

PARTS = [("2.0", 0.0004), ("4.5", 0.0009), ("3.0", 0.0004), ("2.5", 0.0001)]
LINKAGE = stack(
    Term.measured(f"link {number}", 1, Fraction(mean), math.sqrt(variance))
    for number, (mean, variance) in enumerate(PARTS, 1)
)
WANTED = Window(Fraction("11.90"), Fraction("12.10"))

CHECKS = [
    Check("variance", lambda: LINKAGE.deviation**2, 0.0018, 1e-9, MEMORY),
    Check("probability inside", lambda: LINKAGE.probability_inside(WANTED), 0.9816, 0.0005, MEMORY),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
