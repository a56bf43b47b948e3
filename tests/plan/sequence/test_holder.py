"""What fall rules say of the order of holders, on cases small enough to see."""

from dataclasses import replace

import pytest

from layshaft.plan.sequence import Fall, Move, NoOrder, Problem, Way, order_moves
from layshaft.plan.sequence.before import moves_before
from layshaft.plan.sequence.holder import with_early_needs, with_last_holders, with_short_rules

UP, DOWN = frozenset({"nose up"}), frozenset({"nose down"})
PART, FIRST, SECOND, OTHER = range(4)
FREE = Way()


def problem_of(first: Way, second: Way, part: Way, other: Way = FREE) -> Problem:
    """A part that falls nose down once two holders are off."""
    names = ("part", "first", "second", "other")
    moves = tuple(Move(name, (way,), mass=1) for name, way in zip(names, (part, first, second, other), strict=True))
    fall = Fall(PART, ((FIRST,), (SECOND,)), DOWN)
    return Problem(moves, (), (fall,), ("nose up", "nose down"), "nose up")


HELD = Way(needs=((FIRST,), (SECOND,)), attitudes=UP)


def test_holder_that_goes_only_where_the_part_falls_goes_before_the_last():
    found = with_last_holders(problem_of(Way(attitudes=DOWN), FREE, HELD))
    assert found.falls[0].needs == ((SECOND,),)
    assert found.moves[SECOND].ways[0].needs == ((FIRST,),)


def test_no_order_where_every_holder_goes_only_where_the_part_falls():
    with pytest.raises(NoOrder) as caught:
        order_moves(problem_of(Way(attitudes=DOWN), Way(attitudes=DOWN), HELD))
    assert caught.value.blocked is None


def test_nothing_is_said_where_the_part_has_a_way_out_past_a_holder():
    problem = problem_of(Way(attitudes=DOWN), FREE, Way(needs=((SECOND,),)))
    assert with_last_holders(problem) == problem


@pytest.mark.parametrize("spoilt", [{"is_optional": True}, {"parent": OTHER}])
def test_nothing_is_said_where_a_holder_may_stay_or_an_assembly_carries_the_part(spoilt):
    problem = problem_of(Way(attitudes=DOWN), FREE, HELD)
    index = FIRST if "is_optional" in spoilt else PART
    moves = list(problem.moves)
    moves[index] = replace(moves[index], **spoilt)
    problem = replace(problem, moves=tuple(moves))
    assert with_last_holders(problem) == problem


def test_rule_leaves_out_what_is_off_by_then_anyway():
    problem = problem_of(FREE, Way(needs=((FIRST,),)), HELD)
    assert with_short_rules(problem).falls[0].needs == ((SECOND,),)


def test_last_holder_waits_for_what_the_part_needs_where_it_would_fall():
    part = Way(needs=((SECOND,), (OTHER,)), attitudes=UP)
    problem = problem_of(FREE, FREE, part, Way(attitudes=DOWN))
    problem = replace(problem, falls=(Fall(PART, ((SECOND,),), DOWN),))
    assert with_early_needs(problem).moves[SECOND].ways[0].needs == ((OTHER,),)


def test_what_has_been_made_in_any_case_follows_needs_and_leaves_out_choices():
    either = Way(needs=((FIRST, SECOND),))
    problem = problem_of(Way(needs=((OTHER,),)), Way(needs=((OTHER,),)), either)
    assert moves_before(problem) == [1 << OTHER, 1 << OTHER, 1 << OTHER, 0]
