"""The demo shop served as in use, by a process and from a folder of its own."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
NUMBER = "KL-2611-07"
"""The demo's job that is taken down and judged."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve the demo shop from `folder` on a free port, and say where, once it answers."""
    command = [sys.executable, "-m", "layshaft.web", "--data", str(folder), "--books", str(ROOT / "books")]
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    with subprocess.Popen(
        [*command, "--port", "0", "--demo"], env=variables, stdout=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        try:
            lines = iter(process.stdout.readline, "")
            found = (re.search(r"open at (http://localhost:\d+)/", line) for line in lines)
            yield next(match.group(1) for match in found if match)
        finally:
            process.kill()
