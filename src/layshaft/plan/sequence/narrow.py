"""Saying of a problem outright what its fall rules say only in passing, so that less is left to search.

Nothing here changes which orders are legal and cheapest; each rule says why.
"""

from dataclasses import replace
from itertools import chain

from layshaft.plan.sequence.before import implies, is_met
from layshaft.plan.sequence.holder import with_early_needs, with_last_holders, with_short_rules
from layshaft.plan.sequence.problem import Fall, Problem, Way


def narrowed(problem: Problem, *, is_whole: bool) -> Problem:
    """The problem with all that can be said outright; `is_whole` where every move but the optional is made."""
    problem = _without_falling_ways(problem)
    if not is_whole or not problem.falls:
        return without_idle_attitudes(with_short_rules(problem))
    problem = with_short_rules(with_last_holders(problem))
    return without_idle_attitudes(with_early_needs(problem))


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


def _pending(problem: Problem) -> list[Fall]:
    """The fall rules that can still come true and are not met as things stand."""
    return [
        fall for fall in problem.falls if fall.move not in problem.made and not is_met(fall.needs, problem.made)
    ]


def _without_falling_ways(problem: Problem) -> Problem:
    """No way of a part in an attitude in which the part falls as soon as that way is free: it has fallen by then."""
    barred: dict[tuple[int, int], frozenset[str]] = {}
    every = frozenset(problem.attitudes)
    for fall in _pending(problem):
        for number, way in enumerate(problem.moves[fall.move].ways):
            if implies(way, fall, problem.made):
                key = fall.move, number
                barred[key] = barred.get(key, frozenset()) | (every if fall.attitudes is None else fall.attitudes)
    if not barred:
        return problem

    def stands(index: int, number: int, way: Way) -> Way:
        out = barred.get((index, number))
        return way if out is None else replace(way, attitudes=(every if way.attitudes is None else way.attitudes) - out)

    return replace(
        problem,
        moves=tuple(
            replace(move, ways=tuple(stands(index, number, way) for number, way in enumerate(move.ways)))
            for index, move in enumerate(problem.moves)
        ),
    )
