"""What was noticed of a part's state, at intake or on the way: whole, broken, missing or not known."""

from __future__ import annotations

from dataclasses import dataclass

from layshaft.book.definition import Job


@dataclass(frozen=True, slots=True)
class NoticedState:
    """One thing noticed of one part; where it was not said of how many pieces, it is of all."""

    state: str
    count: int | None
    words: str | None

    @property
    def told(self) -> str:
        """The state, and what was seen."""
        said = "whether it is whole is not known" if self.state == "not known" else self.state
        return f"{said}{f': {self.words}' if self.words else ''}"

    def among(self, count: int) -> range:
        """Which of so many pieces it is, counted from 0: which one was not said, so the last ones stand for it."""
        return range(count - (count if self.count is None else min(self.count, count)), count)


def noticed_of(job: Job, part: str) -> tuple[NoticedState, ...]:
    """Everything noticed of a part, in the job's order."""
    intake = [NoticedState(one.is_, one.pieces, one.words) for one in job.intake.noticed if one.part == part]
    on_the_way = [
        NoticedState(one.is_, one.pieces_off, one.words)
        for one in job.done
        if one.seen == part and one.is_ is not None
    ]
    return (*intake, *on_the_way)


def unknown_of(job: Job, part: str) -> NoticedState | None:
    """What was last noticed of a part, if that is that its state is not known."""
    noticed = noticed_of(job, part)
    return noticed[-1] if noticed and noticed[-1].state == "not known" else None
