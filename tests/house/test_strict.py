"""Nothing goes untested unseen: where strictness is asked for, a skipped test counts as failed."""

import os
import shutil
import subprocess
import sys

import pytest

from tests.house.tree import ROOT

TESTS = """
import pytest
@pytest.mark.needs_tool("no-such-tool")
def test_tool(): pass
@pytest.mark.skip(reason="only on another system")
def test_elsewhere(): pass
@pytest.mark.xfail(strict=True)
def test_known(): assert False
"""


def run_pytest(folder, text, strict):
    """Run pytest on one test file beside our conftest.py and return its exit code and what it said."""
    shutil.copy(ROOT / "conftest.py", folder)
    (folder / "pytest.ini").write_text("[pytest]\nmarkers = needs_tool\n", encoding="utf-8")
    (folder / "test_it.py").write_text(text, encoding="utf-8")
    inherited = {name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"}
    run = subprocess.run([sys.executable, "-m", "pytest", "-rs", "-p", "no:cacheprovider"], cwd=folder,
                         env={**inherited, "LAYSHAFT_STRICT": strict}, capture_output=True, text=True)
    return run.returncode, run.stdout


@pytest.mark.parametrize("strict, code, closing, reason", [
    ("", 0, "2 skipped, 1 xfailed", "no-such-tool is missing: install no-such-tool"),
    ("1", 1, "1 skipped, 1 xfailed, 1 error", "Nothing may be skipped under LAYSHAFT_STRICT."),
])
def test_missing_tool_is_skipped_or_fails(tmp_path, strict, code, closing, reason):
    found, said = run_pytest(tmp_path, TESTS, strict)
    assert found == code
    assert closing in said
    assert reason in said


@pytest.mark.parametrize("strict, code", [("", 5), ("1", 2)])
def test_whole_file_that_skips_itself_fails_too(tmp_path, strict, code):
    assert run_pytest(tmp_path, "import pytest\npytest.importorskip('no_such_module')\n", strict)[0] == code
