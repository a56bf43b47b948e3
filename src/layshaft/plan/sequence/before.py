"""What has been made in any case by the time a move is made."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import reduce
from itertools import chain
from operator import and_, or_

from layshaft.plan.sequence.problem import Clauses, Fall, Problem, Way


def is_met(needs: Clauses, made: Collection[int]) -> bool:
    """Whether each clause names a move already made."""
    return all(any(move in made for move in clause) for clause in needs)


def falls_in(problem: Problem, fall: Fall) -> frozenset[str]:
    """The attitudes in which a part falls."""
    return frozenset(problem.attitudes) if fall.attitudes is None else fall.attitudes


def implies(way: Way, fall: Fall, made: frozenset[int]) -> bool:
    """Whether all that a fall rule waits for has been made once this way is free."""
    return all(
        any(move in made for move in clause) or any(set(need) <= set(clause) for need in way.needs)
        for clause in fall.needs
    )


def moves_before(problem: Problem) -> list[int]:
    """For each move, as bits, moves that have been made in any case when it is made; none where that is not known."""
    found = [0] * len(problem.moves)
    order = list(_some_order(problem))
    is_moving = True
    while is_moving:
        is_moving = False
        for index in order:
            sets = [_before_way(way, found) for way in problem.moves[index].ways]
            known = reduce(and_, sets)
            is_moving = is_moving or known != found[index]
            found[index] = known
    return found


def _before_way(way: Way, found: list[int]) -> int:
    sets = (reduce(and_, (found[move] | 1 << move for move in clause)) for clause in way.needs if clause)
    return reduce(or_, sets, 0)


def with_needs(problem: Problem, added: Mapping[int, Iterable[tuple[int, ...]]]) -> Problem:
    """The problem with clauses added to all the ways of some moves."""
    moves = list(problem.moves)
    for index, clauses in added.items():
        more = tuple(dict.fromkeys(clauses))
        ways = (replace(way, needs=(*way.needs, *more)) for way in moves[index].ways)
        moves[index] = replace(moves[index], ways=tuple(ways))
    return replace(problem, moves=tuple(moves))


def _some_order(problem: Problem) -> Iterator[int]:
    """Moves in an order in which each can be made after those before it, settings aside."""
    made = set(problem.made)
    waiting: dict[int, list[int]] = {}
    for index, move in enumerate(problem.moves):
        for need in chain.from_iterable(chain.from_iterable(way.needs for way in move.ways)):
            waiting.setdefault(need, []).append(index)
    todo = [index for index in range(len(problem.moves)) if index not in made]
    while todo:
        index = todo.pop()
        if index not in made and any(is_met(way.needs, made) for way in problem.moves[index].ways):
            made.add(index)
            yield index
            todo += waiting.get(index, ())
