"""Fall rules told as what must come off before what.

Shorter rules hold for any order, the others for orders that make every move but the optional ones.
"""

from dataclasses import replace
from itertools import product

from layshaft.plan.sequence.before import falls_in, implies, moves_before, with_needs
from layshaft.plan.sequence.problem import Clauses, Fall, Move, Problem
from layshaft.plan.sequence.table import bits, indices

ROUNDS = 50
"""So many times it is looked at what follows from what was found; less than all is no less true."""


def with_last_holders(problem: Problem) -> Problem:
    """What holds a part last: fall rules that wait for no other holder, and moves that wait for all others.

    A part that no assembly carries out, and all of whose ways wait for all its holders, is there when the last of them
    goes. One that can go only where the part falls cannot be the last, so once all the others are gone it can never go:
    the rule may be taken as met by then. Where all but one are such, that one waits for them; where all are such there
    is no order, and one of them waits for any of nothing.
    """
    added: dict[int, list[tuple[int, ...]]] = {}
    falls = []
    for fall in problem.falls:
        first, last = _holders(problem, fall)
        falls.append(replace(fall, needs=last) if first and last else fall)
        if first and not last:
            for move in first[0]:
                added.setdefault(move, []).append(())
        if len(last) == 1:
            for move, clause in product(last[0], first):
                if move not in clause:
                    added.setdefault(move, []).append(tuple(sorted(set(clause) | set(last[0]) - {move})))

    return with_needs(replace(problem, falls=tuple(falls)), added)


def _holders(problem: Problem, fall: Fall) -> tuple[Clauses, Clauses]:
    """Of the clauses of a fall rule those that cannot be met last, and those that can; none where that is not known."""
    part = problem.moves[fall.move]
    left = tuple(clause for clause in fall.needs if not any(move in problem.made for move in clause))
    if not left or fall.move in problem.made or part.parent != -1:
        return (), ()
    if not all(implies(way, fall, problem.made) for way in part.ways):
        return (), ()
    if not all(any(not problem.moves[move].is_optional for move in clause) for clause in left):
        return (), ()
    where = falls_in(problem, fall)
    first = tuple(c for c in left if all(_goes_only_in(problem.moves[move], where) for move in c))
    return first, tuple(clause for clause in left if clause not in first)


def _goes_only_in(move: Move, attitudes: frozenset[str]) -> bool:
    return move.parent == -1 and all(way.attitudes is not None and way.attitudes <= attitudes for way in move.ways)


def with_short_rules(problem: Problem) -> Problem:
    """Fall rules without the clauses that are met by then whenever the others are."""
    if not problem.falls:
        return problem
    before = moves_before(problem)

    def short(fall: Fall) -> Fall:
        left = [clause for clause in fall.needs if not any(move in problem.made for move in clause)]
        for clause in list(left):
            others = (other for other in left if other != clause)
            if any(all(before[move] & bits(clause) for move in other) for other in others):
                left.remove(clause)
        return replace(fall, needs=tuple(left)) if left else fall

    return replace(problem, falls=tuple(short(fall) for fall in problem.falls))


def with_early_needs(problem: Problem) -> Problem:
    """The last holder of a part waits for what the part still needs in attitudes in which the part would fall.

    What the part cannot go without is made before it; where that can be done only in an attitude in which the part
    falls once its last holder has gone, it is done before that holder goes. Told anew until nothing new follows.
    """
    rules = [fall for fall in problem.falls if _is_held_by_one(problem, fall)]
    only: dict[frozenset[str], int] = {}
    for where in {falls_in(problem, fall) for fall in rules}:
        only[where] = bits(tuple(i for i, move in enumerate(problem.moves) if _goes_only_in(move, where)))
    for _ in range(ROUNDS):
        before = moves_before(problem)
        added: dict[int, list[tuple[int, ...]]] = {}
        for fall in rules:
            holders = fall.needs[0]
            early = before[fall.move] & only[falls_in(problem, fall)] & ~bits(holders)
            for move in holders:
                for need in _last_of(early & ~before[move], before):
                    added.setdefault(move, []).append(tuple(sorted({need, *holders} - {move})))
        if not added:
            break
        problem = with_needs(problem, added)
    return problem


def _is_held_by_one(problem: Problem, fall: Fall) -> bool:
    """Whether a part that must come off is held by one kind of holder alone, and that is still there."""
    part = problem.moves[fall.move]
    if len(fall.needs) != 1 or part.parent != -1 or part.is_optional or fall.move in problem.made:
        return False
    return not any(move in problem.made for move in fall.needs[0])


def _last_of(moves: int, before: list[int]) -> list[int]:
    """Of some moves those that no other of them waits for."""
    found = moves
    for index in indices(moves):
        found &= ~before[index]
    return indices(found)
