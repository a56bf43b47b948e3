"""ISO 14253-1:2017, decision rules for verifying conformity or nonconformity with specifications.

The default of 95 % was seen in secondary texts only; the factor is from memory and printed there as 1.65.
"""

import pytest

from layshaft.gauging.conformity import DEFAULT_CONFIDENCE, guard_band
from tests.worked.check import MEMORY, SEEN, Check

CHECKS = [
    Check("default conformance probability", lambda: DEFAULT_CONFIDENCE, 0.95, 0.0, SEEN),
    Check("guard band of one end, in standard uncertainties", lambda: guard_band(1.0), 1.645, 0.0005, MEMORY),
]


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_agrees(check):
    check.hold()
