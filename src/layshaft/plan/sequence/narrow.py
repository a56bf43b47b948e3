"""Saying of a problem outright what its fall rules say only in passing, so that less is left to search.

Nothing here changes which orders are legal and cheapest; each rule says why.
"""

from dataclasses import replace
from itertools import chain

from layshaft.plan.sequence.attitude import without_dropping_ways, without_falling_ways
from layshaft.plan.sequence.holder import with_early_needs, with_last_holders, with_short_rules
from layshaft.plan.sequence.problem import Problem

ROUNDS = 20
"""So often it is looked at what follows from what was found; to stop sooner leaves more to search."""


def narrowed(problem: Problem, *, is_whole: bool) -> Problem:
    """The problem with all that can be said outright; `is_whole` where every move but the optional is made."""
    for _ in range(ROUNDS if problem.falls else 0):
        before = problem
        problem = without_falling_ways(problem)
        if is_whole:
            problem = with_last_holders(problem)
        problem = without_dropping_ways(with_short_rules(problem))
        if problem == before:
            break
    if is_whole and problem.falls:
        problem = with_early_needs(problem)
    return without_idle_attitudes(problem)


def without_idle_attitudes(problem: Problem) -> Problem:
    """The problem with only those attitudes that can be of use; itself where a fall could make a detour of use.

    A way or a session that names attitudes wants one of these; one that names none can be used in any. Where no part
    falls in an attitude that some way wants, or in the one the unit stands in, then an order that turns to another
    attitude stays legal, and is no dearer, without that turn. So the others, and the falls in them, may be left out.
    """
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
