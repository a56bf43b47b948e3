"""Leaving out of a problem the attitudes that no order gains by, and the fall rules of those alone.

A way or a session that names attitudes wants one of these; one that names none can be used in any. Where no part falls
in an attitude that some way wants, or in the one the unit stands in, then an order that turns to another attitude
stays legal, and is no dearer, without that turn. So the other attitudes, and the falls in them, may be left out.
"""

from dataclasses import replace
from itertools import chain

from layshaft.plan.sequence.problem import Problem


def without_idle_attitudes(problem: Problem) -> Problem:
    """The problem with only those attitudes that can be of use; itself where a fall could make a detour of use."""
    ways = (way for index, move in enumerate(problem.moves) if index not in problem.made for way in move.ways)
    wanted = chain((way.attitudes for way in ways), (session.attitudes for session in problem.sessions))
    used = frozenset({problem.start}).union(*(attitudes for attitudes in wanted if attitudes is not None))
    if len(used) == len(problem.attitudes):
        return problem
    if any(fall.attitudes is None or fall.attitudes & used for fall in problem.falls):
        return problem
    moves = tuple(
        replace(move, ways=tuple(replace(way, attitudes=way.attitudes and way.attitudes & used) for way in move.ways))
        for move in problem.moves
    )
    kept = tuple(name for name in problem.attitudes if name in used)
    return replace(problem, moves=moves, falls=(), attitudes=kept)
