"""Small problems full of falls, from a seed, with all that can spoil a rule about them."""

from dataclasses import replace
from random import Random

from layshaft.plan.sequence import Move, Problem
from tests.plan.sequence.random_problem import random_problem
from tests.plan.sequence.two_ended import two_ended_problem


def falling_problem(seed: int) -> Problem:
    """Every other one is of parts that come out at two ends, some optional, without mass, carried, or off already."""
    chance = Random(seed)
    if seed % 2:
        return random_problem(
            seed,
            4 + seed % 6,
            tools=1 + seed % 4,
            attitudes=2 + seed // 2 % 2,
            sessions=seed % 3,
            falls=seed // 3 % 5,
            optional=0.2 * (seed // 5 % 2),
            loose=chance.choice((0.0, 0.5, 1.0)),
        )
    problem = two_ended_problem(seed, 5 + seed % 5, 1 + seed // 2 % 4, attitudes=2 + seed // 4 % 2, cross=0.5)
    moves = tuple(_spoilt(chance, index, move, problem.attitudes) for index, move in enumerate(problem.moves))
    made = frozenset(index for index in range(len(moves)) if chance.random() < 0.05)
    return replace(problem, moves=moves, made=made)


def _spoilt(chance: Random, index: int, move: Move, attitudes: tuple[str, ...]) -> Move:
    if chance.random() < 0.15:
        move = replace(move, is_optional=True)
    if chance.random() < 0.2:
        move = replace(move, mass=0)
    if chance.random() < 0.2 and index:
        move = replace(move, parent=chance.randrange(index))
    if chance.random() < 0.2:
        first = move.ways[0]
        other = replace(first, needs=first.needs[:1], attitudes=frozenset({chance.choice(attitudes)}), minutes=3)
        move = replace(move, ways=(first, other))
    return move
