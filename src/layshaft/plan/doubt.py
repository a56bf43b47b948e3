"""What nobody has looked at, taken every way it could be that makes a difference."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product

from layshaft.plan.bench import Bench

MOST_DOUBTS = 10


def readings(
    bench: Bench, springs: Mapping[str, tuple[str, ...]], known: int, doubtful: int
) -> tuple[int, ...] | None:
    """Every way that doubtful parts could be, as bits of what is gone; None when there are too many to go through.

    `known` are the parts gone in any case, `springs` the spring parts of each load. Parts that hold no stop and are no
    spring make no difference, and parts that hold the same stops and springs make the same one.
    """
    groups: dict[tuple[object, ...], int] = {}
    for part in bench.parts(doubtful):
        bit = bench.bit(part)
        stops = tuple(name for name, members in bench.stop_members.items() if members & bit)
        loads = tuple(name for name, parts in springs.items() if part in parts)
        if stops or loads:
            groups[stops, loads] = groups.get((stops, loads), 0) | bit
    if len(groups) > MOST_DOUBTS:
        return None
    return tuple(known | sum(chosen) for chosen in product(*((0, bits) for bits in groups.values())))
