"""How near a figure lies to its limit, so that figures of several pieces can be told apart."""

from __future__ import annotations

import math

from layshaft.book.definition import Part
from layshaft.plan.figure_verdict import limit_of
from layshaft.plan.judgement import FigureJudgement


def nearness(part: Part, judged: FigureJudgement) -> float:
    """Room to the nearest end as a share: of a limit's width where it has two ends, of its one end otherwise."""
    limit = limit_of(part.readings[judged.reading], judged.is_new)
    if limit is None:
        return math.inf
    one_end = limit.low if limit.low is not None else limit.high
    whole = limit.width if limit.width is not None else one_end
    room = float(limit.distance(judged.value))
    return room / abs(float(whole)) if whole else room
