"""Attitudes in which a way cannot be used, since something falls: the part itself, or one that it holds."""

from collections.abc import Mapping
from dataclasses import replace

from layshaft.plan.sequence.before import falls_in, implies, is_met
from layshaft.plan.sequence.problem import Problem, Way

Barred = Mapping[tuple[int, int], frozenset[str]]


def without_falling_ways(problem: Problem) -> Problem:
    """No way of a part in an attitude in which the part falls as soon as that way is free: it has fallen by then."""
    barred: dict[tuple[int, int], frozenset[str]] = {}
    for fall in problem.falls:
        if is_met(fall.needs, problem.made):
            continue
        for number, way in enumerate(problem.moves[fall.move].ways):
            if implies(way, fall, problem.made):
                key = fall.move, number
                barred[key] = barred.get(key, frozenset()) | falls_in(problem, fall)
    return _without(problem, barred)


def without_dropping_ways(problem: Problem) -> Problem:
    """No way of a last holder in an attitude in which the part that it holds falls, where that part is still there.

    It is where no assembly carries it out and all its ways wait for the holder. Of a holder that an assembly carries
    out nothing is said: on the bench its own attitude is free.
    """
    barred: dict[tuple[int, int], frozenset[str]] = {}
    for fall in problem.falls:
        part = problem.moves[fall.move]
        if len(fall.needs) != 1 or len(fall.needs[0]) != 1 or part.parent != -1 or fall.move in problem.made:
            continue
        holder = fall.needs[0][0]
        if holder in problem.made or problem.moves[holder].parent != -1:
            continue
        if all(implies(way, fall, problem.made) for way in part.ways):
            for number in range(len(problem.moves[holder].ways)):
                key = holder, number
                barred[key] = barred.get(key, frozenset()) | falls_in(problem, fall)
    return _without(problem, barred)


def _without(problem: Problem, barred: Barred) -> Problem:
    moves = list(problem.moves)
    for (index, number), out in barred.items():
        ways = list(moves[index].ways)
        ways[number] = _less(ways[number], out, frozenset(problem.attitudes))
        moves[index] = replace(moves[index], ways=tuple(ways))
    return replace(problem, moves=tuple(moves))


def _less(way: Way, out: frozenset[str], every: frozenset[str]) -> Way:
    stands = every if way.attitudes is None else way.attitudes
    return replace(way, attitudes=stands - out) if stands & out else way
