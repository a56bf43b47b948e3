"""The command as a shell starts it: a program of its own, with streams, signals and a locale."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
COMMAND = [sys.executable, "-P", "-m", "layshaft"]


def variables(**more: str) -> dict[str, str]:
    """An environment with little in it but the way to the source."""
    return {"PYTHONPATH": str(ROOT / "src"), "PATH": os.environ["PATH"], **more}


def call(*words: str | bytes, folder: Path = ROOT, **more: Any) -> subprocess.CompletedProcess[str]:
    """Run the command to its end; a traceback is never an answer."""
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "stdin": subprocess.DEVNULL, "env": variables()}
    done = subprocess.run([*COMMAND, *words], cwd=folder, encoding="utf-8", timeout=60, **{**streams, **more})
    assert "Traceback" not in (done.stdout or "") + (done.stderr or "")
    assert "Exception ignored" not in (done.stderr or "")
    return done
