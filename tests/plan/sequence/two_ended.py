"""Problems of parts that come out at two ends, from a seed: a hidden legal order, and many parts that would fall."""

from random import Random

from layshaft.plan.sequence import Fall, Move, Problem, Way

ATTITUDES = ("nose up", "nose down", "level")


def two_ended_problem(
    seed: int, count: int, blocks: int, *, attitudes: int = 2, near: int = 40, alone: float = 0.05, cross: float = 0.2
) -> Problem:
    """A problem whose hidden order goes in blocks, each in one attitude.

    A part is held by some before it, at least one of its own block, and by one of another block with the chance
    `cross`; a few are held by none. It falls in every attitude but that of its block once nothing holds it.
    """
    chance = Random(seed)
    names = ATTITUDES[:attitudes]
    cuts = sorted(chance.sample(range(1, count), blocks - 1))
    block = [sum(cut <= place for cut in cuts) for place in range(count)]
    number = list(range(count))
    chance.shuffle(number)
    moves: dict[int, Move] = {}
    falls = []
    for place in range(count):
        mine = [other for other in range(max(0, place - near), place) if block[other] == block[place]]
        far = [other for other in range(max(0, place - 3 * near), place) if block[other] != block[place]]
        holders: list[int] = []
        if mine and chance.random() > alone:
            holders = chance.sample(mine, min(len(mine), chance.choice((1, 1, 2, 3))))
            if far and chance.random() < cross:
                holders.append(chance.choice(far))
        needs = tuple((number[holder],) for holder in holders)
        tool = chance.choice((None, None, "puller", "spanner", "pliers"))
        way = Way(needs, None, None, tool, chance.randint(1, 20), 0)
        index = number[place]
        moves[index] = Move(f"part {index}", (way,), -1, chance.randint(1, 3000))
        if needs:
            falls.append(Fall(index, needs, frozenset(names) - {names[block[place] % attitudes]}))
    return Problem(tuple(moves[index] for index in range(count)), (), tuple(falls), names, names[0], 5000)
