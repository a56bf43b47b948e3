"""The tree as the house tests see it: its rooms, its modules and its own files."""

import os
import subprocess
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "layshaft"
ROOMS = {"quantity", "mechanics", "gauging", "book", "plan", "drawing", "paper", "shop", "web", "cli"}
PURE_ROOMS = {"quantity", "mechanics", "gauging", "book", "plan", "drawing"}
LEFT_OUT = {".git", ".layshaft", "__pycache__", ".pytest_cache", ".mypy_cache", ".ruff_cache", ".hypothesis",
            ".import_linter_cache", "build", "dist"}


def list_files() -> list[Path]:
    """Every file that is or would be committed, or all but the caches where this is no clone."""
    if (ROOT / ".git").exists():
        command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        names = subprocess.run(command, cwd=ROOT, capture_output=True, check=True).stdout.decode().split("\0")
        return sorted(path for name in names if name and (path := ROOT / name).is_file())
    found = []
    for folder, below, files in os.walk(ROOT):
        below[:] = [name for name in below if name not in LEFT_OUT]
        found += [Path(folder) / name for name in files]
    return sorted(found)


def list_texts() -> Iterator[tuple[str, str]]:
    """Each text file's path from the root, and its text."""
    for path in list_files():
        try:
            yield path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue


def list_modules(*rooms: str) -> list[Path]:
    """The source modules of these rooms, or of the whole package."""
    folders = [SOURCE / room for room in rooms] or [SOURCE]
    return sorted(path for folder in folders for path in folder.rglob("*.py"))


def read_project() -> dict[str, Any]:
    """What pyproject.toml says."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def name_of(path: Path) -> str:
    """A path as a person would say it, from the root of the tree."""
    return path.relative_to(ROOT).as_posix()
