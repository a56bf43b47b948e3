"""What was noticed at intake casts the same doubt on what is held as what is seen later."""

from __future__ import annotations

from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.sheet import load_job
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.so_far import SoFar, so_far
from layshaft.plan.state import Condition
from layshaft.plan.teardown import order_teardown
from tests.book.overtop import UNITS
from tests.plan.two_rings import TEXT as TWO_RINGS

TWINPATH = Path(__file__).parents[2] / "books" / "twinpath" / "book.yaml"
JOB = """\
layshaft job: 1
id: T-1
invented: true
book: {id: any, revision: 1}
shop: {id: any, revision: 1}
variant: plain
opened: 2026-11-23
today: 2026-11-25
"""


@pytest.fixture(scope="module")
def rail() -> Unit:
    """A unit with two alike rings on one rail: one carries a spring, the other keeps the fork on."""
    return load_book(TWINPATH.read_bytes(), "book.yaml").unit("TP2")


@pytest.fixture(scope="module")
def overtop() -> Unit:
    """The overdrive: a spring on a ring, and behind that on the adapter's screws."""
    return UNITS[2]


@pytest.fixture(scope="module")
def box() -> Unit:
    """One spring held by two rings, one a gap behind the other."""
    return load_book(TWO_RINGS, "two-rings.yaml").unit("plain")


def told(unit: Unit, noticed: str = "", done: str = "") -> SoFar:
    text = f"{JOB}intake: {{noticed: [{noticed}]}}\ndone: [{done}]\n"
    bench = Bench(unit)
    return so_far(bench, Loads(bench, Sizes(unit)), load_job(text, "job.yaml").content)


ONE_RING = [
    ("{part: TP-045, is: broken, pieces: 1}", ""),
    ("{part: TP-045, is: broken}", ""),
    ("{part: TP-045, is: missing, pieces: 1}", ""),
    ("", "{seen: TP-045, is: broken}"),
]


@pytest.mark.parametrize("noticed, done", ONE_RING)
def test_of_rings_at_two_places_nobody_said_which_is_gone(rail: Unit, noticed: str, done: str) -> None:
    found = told(rail, noticed, done)
    assert found.state.condition("TP-045") is Condition.UNKNOWN
    assert found.now[0].startswith("Stand clear of fork return: it may hold 6.2 J and nobody knows what holds it.")
    assert "as soon as it can be got at" in found.now[0]


def test_steps_that_move_a_load_in_doubt_say_so_and_it_is_let_off_under_its_clamp(rail: Unit) -> None:
    found = told(rail, "{part: TP-045, is: broken, pieces: 1}")
    bench = Bench(rail)
    plan = order_teardown(bench, Loads(bench, Sizes(rail)), found.state)
    warned = [step for step in plan.steps if step.cautions[:1] and "what holds fork return" in step.cautions[0]]
    parts = [part for step in warned for part in step.parts]
    assert "TP-043" in parts
    assert "TP-062" not in parts
    assert [step.load for step in warned if step.kind == "hold"] == ["fork return"]
    assert warned[0].number == 1


def test_of_screws_round_a_cover_so_many_are_enough(rail: Unit) -> None:
    found = told(rail, "{part: TP-012, is: missing, pieces: 2}")
    assert found.state.off_count("TP-012") == 2
    assert found.now == ()


def test_pieces_told_one_after_the_other_add_up(rail: Unit) -> None:
    found = told(rail, "{part: TP-012, is: missing, pieces: 2}, {part: TP-012, is: broken, pieces: 1}")
    assert found.state.lost_count("TP-012") == 3
    assert found.state.off_count("TP-012") == 2
    found = told(rail, "{part: TP-012, is: missing, pieces: 2}", "{partly: TP-012, pieces off: 2}")
    assert found.state.off_count("TP-012") == 4


def test_what_broke_before_it_came_in_has_jumped_too(box: Unit) -> None:
    found = told(box, "{part: BX-04, is: broken}")
    assert found.state.condition("BX-05") is Condition.UNKNOWN
    assert found.now[0].startswith("Stand clear of box spring")


BOTH = "{part: BX-05, is: missing}, {part: BX-04, is: broken}"


def test_what_alone_held_a_load_may_still_hold_it_broken(box: Unit) -> None:
    """Its pieces may jam. By hand at most: half of 65.693 N/mm times (133.8 mm - 76.0 mm) squared is 109.7 J."""
    found = told(box, BOTH)
    assert found.state.condition("BX-04") is Condition.UNKNOWN
    assert found.now[0].startswith("Stand clear of box spring: it may hold 110 J and nobody knows what holds it.")


def test_zero_that_was_proved_settles_a_doubt(box: Unit) -> None:
    assert told(box, BOTH, "{zero proved: box spring}").now == ()


def test_a_ring_that_is_missing_holds_nothing(box: Unit) -> None:
    found = told(box, "{part: BX-05, is: missing}, {part: BX-04, is: missing}")
    assert found.state.condition("BX-04") is Condition.MISSING
    assert found.now[0].startswith("box spring: free by now, but nobody has shown it.")


SLIPPED = [
    ("{off: BX-03}", "taking off BX-03 cap while box spring was held in the press"),
    ("{off: BX-02}", "taking off BX-02 spring while box spring was held in the press"),
]


@pytest.mark.parametrize(("off", "says"), SLIPPED)
def test_what_is_out_of_reach_comes_off_under_a_held_load(box: Unit, off: str, says: str) -> None:
    """Pressed 8 mm further it is 68 mm long: half of 65.693 N/mm times (133.8 mm - 68 mm) squared is 142.2 J."""
    found = told(box, done=f"{{off: BX-07}}, {{off: BX-06}}, {{held: box spring}}, {{off: BX-04}}, {off}")
    assert found.state.session is None
    (jolt,) = found.jolts
    assert jolt.entry == 4
    assert jolt.energy == pytest.approx(142.2, abs=0.1)
    assert f"{says}, which does not reach that, let go up to 143 J of it." in jolt.sentence
    assert jolt.sentence in found.now
    (against,) = found.against
    assert against.entry == 4
    only = "only BX-04 outer ring, BX-05 inner ring may come off until it is let off."
    assert against.sentence == f"box spring: held in the press now; {only}"
    plan = order_teardown(Bench(box), Loads(Bench(box), Sizes(box)), found.state)
    assert not [step.kind for step in plan.steps if step.load is not None]


def test_what_is_in_reach_comes_off_under_a_held_load(box: Unit) -> None:
    found = told(box, done="{off: BX-07}, {off: BX-06}, {held: box spring}, {off: BX-04}, {off: BX-05}")
    assert found.state.session is not None
    assert found.jolts == found.against == ()


HELD = "{off: BX-07}, {off: BX-06}, {held: box spring}"
AGAINST = [
    (f"{HELD}, {{turned: nose down}}", 3, "box spring: held in the press now; let it off before turning."),
    (
        "{off: BX-07}, {off: BX-06}, {turned: nose down}, {held: box spring}",
        3,
        "box spring: let go nose up; the unit stands nose down.",
    ),
    ("{held: box spring}", 0, "box spring: taken up in the press only when BX-06 cover is out of the way."),
    (
        f"{HELD}, {{off: BX-04}}, {{seen: BX-05, is: not known}}, {{let off: box spring}}",
        5,
        "box spring: let off onto BX-05 inner ring, which nobody has looked at.",
    ),
]


@pytest.mark.parametrize(("done", "entry", "says"), AGAINST)
def test_what_the_book_has_otherwise_is_told(box: Unit, done: str, entry: int, says: str) -> None:
    assert [(one.entry, one.sentence) for one in told(box, done=done).against] == [(entry, says)]


def test_of_a_load_held_as_the_unit_may_not_stand_the_first_line_says_so(box: Unit) -> None:
    found = told(box, done=AGAINST[0][0])
    assert "the unit stands nose down. Do not turn it while it is held." in found.now[0]


INNER_BY_FACES = (
    ("groove: 22.0 mm", "groove: 22.0 mm, inner groove: 18.7 mm"),
    ("mass: 0.05 kg\n    ways", "mass: 0.05 kg\n    faces: {a: 0 mm, b: 2 mm}\n    ways"),
    (
        "{a: BX-01 groove, b: BX-03 front, toward: front, at most: 0.7 mm, by: [BX-05]}",
        "{a: BX-05 b, b: BX-03 front, toward: front, at most: 0 mm}\n"
        "  inner ring in its groove: {a: BX-01 inner groove, b: BX-05 a, toward: front, at most: 0 mm}",
    ),
)


def test_what_caught_a_spring_is_in_doubt_where_its_stop_names_nobody() -> None:
    """The stops that caught it bear on the inner ring's own faces, and no `by` names it."""
    text = TWO_RINGS
    for old, new in INNER_BY_FACES:
        assert old in text
        text = text.replace(old, new)
    unit = load_book(text, "box.yaml").unit("plain")
    for noticed, done in (("", "{seen: BX-04, is: broken}"), ("{part: BX-04, is: broken}", ""), ("", "{off: BX-04}")):
        found = told(unit, noticed, done)
        assert found.state.condition("BX-05") is Condition.UNKNOWN
        assert found.state.condition("BX-03") is Condition.WHOLE
        assert "BX-05 inner ring from outside its line." in found.now[0]


def test_of_a_long_way_of_contacts_what_the_book_names_is_in_doubt_and_no_bearing_behind_it(overtop: Unit) -> None:
    """With the wave ring broken the adapter's screws caught the spring, or its pieces hold it all the same.

    Bearing and lock ring held it all along.
    """
    found = told(overtop, "{part: OT-043, is: broken}")
    unknown = {part for part, known in found.state.conditions if known is Condition.UNKNOWN}
    assert unknown == {"OT-011", "OT-012", "OT-043"}
