"""What happened on the bench, read in its order: an entry that cannot follow those above it is noted, never refused."""

from __future__ import annotations

from collections.abc import Iterator

from layshaft.book.definition import Done
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.sheet_check.subject import Subject


def happening_faults(subject: Subject) -> Iterator[Fault]:
    """A note on each entry of `done` that contradicts itself or an earlier one."""
    off: dict[str, int] = {}
    held: tuple[str, int] | None = None
    for at, done in enumerate(subject.job.done):
        path: Path = ("done", at)
        yield from _part_notes(subject, done, off, path)
        if done.off is not None:
            off.setdefault(done.off, at)
        yield from _load_notes(done, held, path)
        if done.held is not None:
            held = (done.held, at)
        elif done.let_off is not None:
            held = None


def _part_notes(subject: Subject, done: Done, off: dict[str, int], path: Path) -> Iterator[Fault]:
    for key, part in (("off", done.off), ("partly", done.partly)):
        if part is not None and part in off:
            yield fault("off already", path=(*path, key), found=part, entry=_entry(off[part]))
        elif part is not None and part == subject.unit.base:
            yield fault("base off", path=(*path, key), found=part)
    if done.stuck is not None and done.stuck == done.to:
        yield fault("stuck to itself", path=(*path, "to"), found=done.stuck)


def _load_notes(done: Done, held: tuple[str, int] | None, path: Path) -> Iterator[Fault]:
    if done.held is not None and held is not None:
        yield fault("held already", path=(*path, "held"), found=done.held, held=held[0], entry=_entry(held[1]))
    if done.let_off is not None and (held is None or held[0] != done.let_off):
        state = "nothing is held at that moment" if held is None else f"`{held[0]}` is held, by {_entry(held[1])}"
        yield fault("let off unheld", path=(*path, "let off"), found=done.let_off, state=state)
    if done.zero_proved is not None and held is not None and held[0] == done.zero_proved:
        yield fault("proved while held", path=(*path, "zero proved"), found=done.zero_proved, entry=_entry(held[1]))


def _entry(at: int) -> str:
    """An entry of `done` as a person counts it."""
    return f"entry {at + 1}"
