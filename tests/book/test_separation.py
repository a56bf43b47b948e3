"""The tree of `lies in`, held against what it means: parts are together while they came out with the same part."""

from hypothesis import given
from hypothesis import strategies as st

from layshaft.book.definition import Need, NeedAll, NeedAny, NeedPart, Unit
from layshaft.book.separation import Tree, bits_of, is_met, smallest


def unit_of(parents):
    """A unit of parts p0 (the base), p1, .. where each lies in the one with the given number."""
    parts = {"p0": {"name": "base", "class": "case", "mass": "1 kg"}}
    for at, parent in enumerate(parents, 1):
        parts[f"p{at}"] = {"name": "x", "class": "x", "mass": "1 kg", "lies in": f"p{parent}"}
    return Unit.model_validate({
        "id": "u", "name": "u", "maker": "m", "revision": 1, "dated": "2026-10-01", "variant": "v", "base": "p0",
        "starts": "up", "attitudes": ["up"], "axes": {"a": {"start": "s", "end": "e"}}, "parts": parts,
    })


@st.composite
def trees(draw):
    size = draw(st.integers(1, 7))
    return Tree(unit_of([draw(st.integers(0, at)) for at in range(size)]))


def bench_piles(tree, state):
    """Play it through: every part that is out starts a pile of its own, and the rest stays in its parent's pile."""
    pile = {tree.base: tree.base}
    for at in range(len(tree)):
        trail = []
        while at not in pile:
            trail.append(at)
            if state >> at & 1:
                pile[at] = at
                break
            at = tree.parent[at]
        for one in trail:
            pile[one] = pile[at]
    return pile


@given(trees(), st.data())
def test_separated_is_lying_on_two_piles(tree, data):
    state = data.draw(st.integers(0, 2 ** len(tree) - 1)) & ~(1 << tree.base)
    pile = bench_piles(tree, state)
    for a in range(len(tree)):
        assert tree.root(state, a) == pile[a]
        assert set(bits_of(tree.assembly(state, a))) == {b for b in pile if pile[b] == pile[a]}
        for b in range(len(tree)):
            assert tree.separated(state, a, b) == (pile[a] != pile[b])


@given(trees(), st.data())
def test_carried_is_what_changes_its_pile(tree, data):
    state = data.draw(st.integers(0, 2 ** len(tree) - 1)) & ~(1 << tree.base)
    part = data.draw(st.integers(1, len(tree) - 1))
    before, after = bench_piles(tree, state & ~(1 << part)), bench_piles(tree, state | 1 << part)
    moved = {at for at in before if before[at] != after[at]}
    assert set(bits_of(tree.carried(state, part))) | {part} == moved


@given(trees(), st.data())
def test_parting_is_what_ends_that_all_are_on_one_pile(tree, data):
    state = data.draw(st.integers(0, 2 ** len(tree) - 1)) & ~(1 << tree.base)
    parts = data.draw(st.lists(st.integers(0, len(tree) - 1), min_size=1, max_size=4))
    pile = bench_piles(tree, state)
    assert any(state >> at & 1 for at in tree.parting(parts)) == (len({pile[at] for at in parts}) > 1)


def needs(names) -> st.SearchStrategy[Need]:
    single = st.sampled_from(names).map(lambda name: NeedPart(part=name))

    def grown(inner):
        some = st.lists(inner, min_size=1, max_size=3).map(tuple)
        return st.one_of(some.map(lambda items: NeedAny(items=items)), some.map(lambda items: NeedAll(items=items)))

    return st.recursive(single, grown, max_leaves=6)


def is_need_met(tree, state, part, need):
    """The meaning itself: the part named is on another pile, the part that wants to leave not yet being out."""
    match need:
        case NeedPart(part=name):
            return tree.separated(state & ~(1 << part), part, tree.index[name])
        case NeedAny(items=items):
            return any(is_need_met(tree, state, part, item) for item in items)
        case NeedAll(items=items):
            return all(is_need_met(tree, state, part, item) for item in items)


@given(trees(), st.data())
def test_clauses_of_a_need_say_when_it_is_met(tree, data):
    part = data.draw(st.integers(1, len(tree) - 1))
    need = data.draw(needs(tree.order))
    state = data.draw(st.integers(0, 2 ** len(tree) - 1)) & ~(1 << tree.base) & ~(1 << part)
    assert is_met(tree.need_clauses(part, need), state) == is_need_met(tree, state, part, need)


def test_smallest_keeps_the_clauses_that_ask_most():
    clauses = [frozenset({1, 2}), frozenset({1}), frozenset({2, 3}), frozenset({1})]
    assert smallest(clauses) == (frozenset({1}), frozenset({2, 3}))
