"""A part that a spring stands on is missing: the spring may stand on whatever comes next, so it counts as loaded.

The box: four bolts hold a cover on a spring of 40 N/mm, 100 mm free, that stands on a piston of 12 mm on the floor;
with the piston there it is 60 mm long: half of 40 times 40 squared is 32 J. Without it nobody knows.
"""

from __future__ import annotations

import pytest

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.sheet import load_job
from layshaft.book.size import Sizes
from layshaft.plan.act import Hold, TakeOff
from layshaft.plan.bench import Bench
from layshaft.plan.happened import Seen, take_down
from layshaft.plan.job_order import take_down_job
from layshaft.plan.load import Loads
from layshaft.plan.load_report import load_report
from layshaft.plan.may import Judge
from layshaft.plan.refusal import NoAnswer
from layshaft.plan.so_far import SoFar, so_far
from layshaft.plan.state import Condition
from layshaft.plan.teardown import order_teardown, start_state
from tests.plan.test_so_far import JOB
from tests.plan.two_rings import TEXT as TWO_RINGS

BOOK = """\
layshaft book: 1
id: piston-box
name: Spring box with a piston
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: BX-01
starts: nose up
attitudes: [nose up]
axes: {main: {start: front, end: rear, start is up: nose up}}
tools: {guide screws: {rating: 20 kN}, key: {}}
parts:
  BX-01: {name: Box, class: case, mass: 5 kg, faces: {rim: 0 mm, floor: 72 mm}}
  BX-02:
    name: Cover
    class: cover
    mass: 0.5 kg
    faces: {front: -5 mm, rear: 0 mm}
    ways: [{toward: front, held by: {BX-03: bolts}, time: 1 min}]
  BX-03: {name: Cover bolt, class: fastener, count: 4, mass: 0.01 kg, ways: [{toward: front, tool: key, time: 4 min}]}
  BX-04:
    name: Spring
    class: spring
    mass: 0.2 kg
    ways: [{toward: front, behind: [BX-02], time: 1 min}]
    spring: {kind: helical, rate: 40 N/mm, free length: 100 mm, solid length: 30 mm}
  BX-05:
    name: Piston
    class: piston
    mass: 0.3 kg
    faces: {front: 0 mm, rear: 12 mm}
    ways: [{toward: front, behind: [BX-04], time: 1 min}]
  BX-06:
    name: Spacer
    class: spacer
    stays together: pressed in
    mass: 0.1 kg
    faces: {front: 0 mm, rear: 0 mm}
    ways: [{toward: front, behind: [BX-05], time: 1 min}]
stops:
  bolted: {a: BX-01 rim, b: BX-02 rear, toward: front, at most: 0 mm, by: [BX-03]}
  on the spacer: {a: BX-06 front, b: BX-05 rear, toward: rear, at most: 0 mm}
  on the floor: {a: BX-01 floor, b: BX-06 rear, toward: rear, at most: 0 mm}
loads:
  spring:
    springs: [BX-04]
    seats: [BX-02 rear, BX-05 front]
    could leave: [BX-02]
    releases:
      - kind: long screws
        tool: guide screws
        pushes: BX-02
        stands on: BX-01
        thread engaged: 80 mm
        reach: [BX-03]
        time: 2 min
"""
CLEAR = "Stand clear of spring: it may hold 32 J and nobody knows what holds it."


@pytest.fixture(scope="module")
def box() -> Unit:
    return load_book(BOOK, "piston-box.yaml").unit("standard")


def told(unit: Unit, noticed: str, done: str = "") -> tuple[SoFar, Loads]:
    text = f"{JOB}intake: {{noticed: [{noticed}]}}\ndone: [{done}]\n"
    loads = Loads(Bench(unit), Sizes(unit))
    return so_far(loads.bench, loads, load_job(text, "job.yaml").content), loads


LOST = [
    ("BX-05", "{part: BX-05, is: missing}", ""),
    ("BX-05", "", "{seen: BX-05, is: missing}"),
    ("BX-06", "{part: BX-06, is: missing}", ""),
    ("BX-02", "{part: BX-02, is: missing}", ""),
]


@pytest.mark.parametrize(("part", "noticed", "done"), LOST)
def test_a_spring_whose_seat_is_missing_counts_as_loaded_by_something(
    box: Unit, part: str, noticed: str, done: str
) -> None:
    found, loads = told(box, noticed, done)
    assert found.state.condition(part) is Condition.NOT_FOUND
    assert found.now[0].startswith(CLEAR)
    assert f"{part} {box.parts[part].name.lower()} is missing" in found.now[0]
    now = loads.could_be_loaded(found.state)["spring"]
    assert now.energy == pytest.approx(0.5 * 40e3 * 0.040**2)
    assert not loads.surely_held(found.state)["spring"].is_loaded
    assert not Judge(loads.bench, loads).may_i(found.state, TakeOff("BX-03")).is_yes


@pytest.mark.parametrize("part", ["BX-05", "BX-06"])
def test_its_bolts_come_off_under_the_long_screws_and_with_the_caution(box: Unit, part: str) -> None:
    found, loads = told(box, f"{{part: {part}, is: missing}}")
    steps = order_teardown(loads.bench, loads, found.state).steps
    kinds = [(step.kind, step.parts) for step in steps]
    assert kinds[:3] == [("hold", ()), ("take off", ("BX-03",)), ("let off", ())]
    assert steps[0].cautions[0] == "Nobody knows what holds spring, up to 32 J: stay clear of its line."
    lost = [step for step in steps if step.parts == (part,)]
    assert len(lost) == (part == "BX-05")
    assert all(step.notes == ("Noted as missing: take out what stands in its place.",) for step in lost)


def test_nothing_is_said_to_free_it(box: Unit) -> None:
    found, loads = told(box, "{part: BX-05, is: missing}")
    (report,) = load_report(loads.bench, loads, found.state)
    assert not report.is_sure
    assert report.freeing.sets == ()


FREE = [
    ("{part: BX-04, is: missing}, {part: BX-05, is: missing}", ""),
    ("{part: BX-05, is: missing}, {part: BX-04, is: missing}", ""),
    ("{part: BX-05, is: missing}", "{zero proved: spring}"),
    ("", "{held: spring}, {off: BX-03}, {let off: true}, {off: BX-02}, {off: BX-04}, {seen: BX-05, is: missing}"),
]


@pytest.mark.parametrize(("noticed", "done"), FREE)
def test_with_the_spring_gone_or_zero_proved_it_is_plainly_missing(box: Unit, noticed: str, done: str) -> None:
    found, loads = told(box, noticed, done)
    assert found.state.condition("BX-05") is Condition.MISSING
    assert not loads.could_be_loaded(found.state)["spring"].is_loaded
    assert not any("Stand clear" in line for line in found.now)


def test_what_a_release_way_presses_on_has_to_be_there(box: Unit) -> None:
    found, loads = told(box, "{part: BX-02, is: missing}")
    assert "No release way of the book can take it up as it is: ask its maker." in found.now[0]
    answer = Judge(loads.bench, loads).may_i(found.state, Hold("spring", 0))
    assert [reason.id for reason in answer.reasons] == ["lost"]
    with pytest.raises(NoAnswer, match="cannot be taken up with long screws, for BX-02 cover is missing"):
        order_teardown(loads.bench, loads, found.state)


def test_what_is_lost_has_to_go_in_again_though_it_usually_stays_where_it_is(box: Unit) -> None:
    found, loads = told(box, "{part: BX-06, is: missing}")
    job = load_job(f"{JOB}intake: {{noticed: [{{part: BX-06, is: missing}}]}}\n", "job.yaml").content
    assert "BX-06" in take_down_job(loads.bench, loads, found, job).off


def test_of_two_release_ways_the_one_that_has_all_its_parts_is_planned_by() -> None:
    """A cover that guide screws would push is missing; the press bears on the cap and does without it."""
    screws = "{kind: long screws, tool: wrench, pushes: BX-06, stands on: BX-01, thread engaged: 200 mm, reach: [BX-04]"
    text = TWO_RINGS.replace("    releases:\n", f"    releases:\n      - {screws}, time: 1 min}}\n")
    unit = load_book(text, "two-ways.yaml").unit("plain")
    bench = Bench(unit)
    loads = Loads(bench, Sizes(unit))
    gone = take_down(bench, loads, start_state(unit), Seen("BX-06", Condition.MISSING)).state
    held = [step.release for step in order_teardown(bench, loads, gone).steps if step.kind == "hold"]
    assert held == [1]
