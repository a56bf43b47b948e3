"""Random sequencing problems, from a seed, for the tests and the benchmark."""

from random import Random

from layshaft.plan.sequence import Fall, Move, Problem, Session, Way

ATTITUDES = ("nose up", "nose down", "level")


def _needs(chance: Random, before: list[int], density: float) -> tuple[tuple[int, ...], ...]:
    """A few clauses over moves that come earlier in a hidden order, so that the problem can be solved."""
    clauses = []
    while before and chance.random() < density:
        clauses.append(tuple(sorted(chance.sample(before, min(len(before), chance.choice((1, 1, 1, 2, 3)))))))
    return tuple(clauses)


def random_problem(
    seed: int,
    count: int,
    *,
    tools: int = 3,
    attitudes: int = 3,
    sessions: int = 2,
    falls: int = 0,
    density: float = 0.5,
    ways: int = 2,
    optional: float = 0.0,
    near: int | None = None,
    loose: float = 0.0,
) -> Problem:
    """A problem whose hidden order is legal, fall rules aside; `near` keeps needs to the last few moves.

    `falls` are rules over moves picked at random; `loose` is how many parts fall once nothing holds them, in
    an attitude in which they need not stand to come out.
    """
    chance = Random(seed)
    names = ATTITUDES[:attitudes]
    hidden = list(range(count))
    chance.shuffle(hidden)
    place = {move: at for at, move in enumerate(hidden)}

    def some_attitudes() -> frozenset[str] | None:
        if chance.random() < 0.5:
            return None
        return frozenset(chance.sample(names, chance.randint(1, attitudes)))

    made_sessions = tuple(
        Session(
            f"session {k}",
            _needs(chance, hidden[: count // 3], 0.4),
            some_attitudes(),
            chance.random() < 0.7,
            chance.randint(0, 30),
            chance.random(),
        )
        for k in range(sessions)
    )

    def way(index: int) -> Way:
        at = place[index]
        before = hidden[:at] if near is None else hidden[max(0, at - near): at]
        session = None
        stands = some_attitudes()
        if sessions and at > count // 3 and chance.random() < 0.25:
            session = frozenset(chance.sample(range(sessions), chance.randint(1, sessions)))
            stands = None
        tool = None if chance.random() < 0.2 or not tools else f"tool {chance.randrange(tools)}"
        return Way(_needs(chance, before, density), stands, session, tool, chance.randint(0, 20), 0)

    moves = []
    for index in range(count):
        later = hidden[place[index] + 1:]
        parent = chance.choice(later) if later and chance.random() < 0.3 else -1
        outs = tuple(way(index) for _ in range(1 + (chance.random() < 0.3) * (ways - 1)))
        risky = tuple(
            Way(w.needs, w.attitudes, w.session, w.tool, w.minutes, int(chance.random() < 0.1)) for w in outs
        )
        moves.append(
            Move(f"part {index}", risky, parent, chance.randint(0, 5000), chance.random() < optional)
        )
    found = []
    for _ in range(falls):
        move = chance.randrange(count)
        others = [i for i in range(count) if i != move]
        clauses = tuple((i,) for i in chance.sample(others, min(len(others), 2)))
        found.append(Fall(move, clauses, frozenset(chance.sample(names, 1))))
    for index, move in enumerate(moves):
        way = move.ways[0]
        others = [name for name in names if way.attitudes is None or name not in way.attitudes]
        if way.needs and others and chance.random() < loose:
            found.append(Fall(index, way.needs, frozenset(chance.sample(others, 1))))
    return Problem(tuple(moves), made_sessions, tuple(found), names, names[0], chance.randint(0, 20000))
