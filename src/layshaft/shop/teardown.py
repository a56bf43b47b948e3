"""The order to take a job's unit apart from the state that its record says it is in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from layshaft.paper.data import plain
from layshaft.paper.rebuild_text import teardown_text
from layshaft.paper.sheet import build_teardown
from layshaft.shop.rebuild import work_through
from layshaft.shop.shelf import kind_of, read_file


@dataclass(frozen=True)
class TakenDown:
    """What is left of taking a unit down, for a terminal and for other programs."""

    text: str
    data: dict[str, Any]


def is_job(name: str) -> bool:
    """Whether a word names a job file rather than a book."""
    path = Path(name)
    return path.is_file() and kind_of(read_file(path)) == "job"


def take_down_file(job: Path, shop: Path | None = None, books: tuple[Path, ...] = ()) -> TakenDown:
    """The steps that are left for a job file, what is loaded now, and what comes first."""
    _, rebuilt = work_through(job, shop, books)
    sheet = build_teardown(rebuilt)
    data = {"now": sheet["now"], "loaded": sheet["loaded"], **plain(rebuilt.teardown)}
    return TakenDown(teardown_text(sheet), data)
