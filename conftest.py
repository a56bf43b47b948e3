"""What holds for every test, the doctests under src as well: tools that are missing, and strictness about it.

A test marked `needs_tool("pdftoppm")` is skipped, with a reason, where that program is not installed.  Under
LAYSHAFT_STRICT (CI sets it) any skip is a failure, so that nothing goes untested there unseen; only a reason
that begins with "only on" (another system) still passes.
"""

import atexit
import os
import shutil
import tempfile
from collections.abc import Generator
from typing import Any

import pytest

PACKAGES = {"pdftoppm": "poppler-utils", "git": "git", "chromium": "chromium, fonts-dejavu-core and libatomic1"}
IS_STRICT = bool(os.environ.get("LAYSHAFT_STRICT"))

if "LAYSHAFT_SHOP" not in os.environ:  # the shop that tests keep is never a person's own
    os.environ["LAYSHAFT_SHOP"] = tempfile.mkdtemp(prefix="layshaft-shop-")
    atexit.register(shutil.rmtree, os.environ["LAYSHAFT_SHOP"], ignore_errors=True)


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a test whose tool is missing."""
    for mark in item.iter_markers("needs_tool"):
        for tool in mark.args:
            if shutil.which(tool) is None:
                pytest.skip(f"{tool} is missing: install {PACKAGES.get(tool, tool)}")


def refuse_skip(report: Any) -> None:
    """Turn a skip into a failure where nothing may be skipped."""
    if not (IS_STRICT and report.skipped) or hasattr(report, "wasxfail"):
        return
    reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
    if not reason.removeprefix("Skipped: ").startswith("only on"):
        report.outcome = "failed"
        report.longrepr = f"Nothing may be skipped under LAYSHAFT_STRICT. {reason}"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Look at the outcome of each test."""
    report = yield
    refuse_skip(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Look at whole files that ask to be skipped."""
    report = yield
    refuse_skip(report)
    return report
