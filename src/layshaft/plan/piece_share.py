"""What each piece of a part carries while others of it are off, broken or missing, against what it is rated for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from layshaft.plan.bench import Bench
from layshaft.plan.loaded import Loaded
from layshaft.plan.state import State
from layshaft.quantity import is_more


@dataclass(frozen=True, slots=True)
class PieceShare:
    """So many pieces of a part are left of all, and loads hang on them."""

    part: str
    left: int
    count: int
    loads: tuple[str, ...]
    force: float
    """What each carries at most, the loads added up and shared alike [N]."""
    rating: Fraction | None
    """What each is rated for at least [N]."""

    @property
    def is_over(self) -> bool:
        """Whether each carries more than it is rated for."""
        return self.rating is not None and is_more(self.force, self.rating)


def piece_shares(
    bench: Bench, state: State, now: Mapping[str, Loaded], forces: Mapping[str, float]
) -> tuple[PieceShare, ...]:
    """Every part that is not all there and that something hangs on; `forces` are the greatest of the loads [N]."""
    return tuple(_shares(bench, state, now, forces))


def _shares(
    bench: Bench, state: State, now: Mapping[str, Loaded], forces: Mapping[str, float]
) -> Iterator[PieceShare]:
    for part in bench.parts(bench.thinned(state)):
        definition = bench.unit.parts[part]
        left = definition.count - state.lost_count(part)
        hung = tuple(
            name
            for name in forces
            if any(part in bench.stop_parts.get(stop, ()) for stop in now[name].held_by)
        )
        if hung and left > 0:
            rating = None if definition.rating is None else definition.rating.low
            each = sum(forces[name] for name in hung) / left
            yield PieceShare(part, left, definition.count, hung, each, rating)
