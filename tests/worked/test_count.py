"""How many figures of published sources are checked: the number that the docs may claim."""

import importlib
from pathlib import Path

from tests.worked.check import CLOSED, MEMORY, OWN, SEEN, Check


def list_checks() -> list[Check]:
    """Every figure in every file of worked examples."""
    stems = sorted(path.stem for path in Path(__file__).parent.glob("test_*.py"))
    modules = [importlib.import_module(f"tests.worked.{stem}") for stem in stems if stem != "test_count"]
    return [
        check for module in modules for check in getattr(module, "CHECKS", []) if isinstance(check, Check)
    ]


def test_enough_published_figures_are_checked():
    """At least 120 figures that were read, and none without a known status."""
    checks = list_checks()
    assert {check.status for check in checks} <= {SEEN, MEMORY, CLOSED, OWN}
    assert sum(check.status == SEEN for check in checks) >= 120
