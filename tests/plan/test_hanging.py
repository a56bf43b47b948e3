"""What hangs on a tool alone, what only loose parts keep in, and pieces that are off already: told at their steps."""

from __future__ import annotations

from functools import cache

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.assembly import order_assembly
from layshaft.plan.bench import Bench
from layshaft.plan.hanging import hung, kept_in
from layshaft.plan.load import Loads
from layshaft.plan.state import Session, State
from layshaft.plan.step import Plan
from layshaft.plan.teardown import order_teardown, start_state

BOOK = """\
layshaft book: 1
id: screw-cap
name: Screw cap
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: SC-10
starts: front up
attitudes: [front up, front down]
axes: {main: {start: front, end: rear, start is up: front up, end is up: front down}}
tools: {key: {}, bridge: {rating: 5 kN}}
parts:
  SC-10: {name: Body, class: body, mass: 2 kg, faces: {front: 0 mm, shoulder: 60 ± 0.1 mm}}
  SC-20:
    name: Cap screw
    class: screw
    count: 6
    mass: 0.01 kg
    ways: [{toward: front, tool: key, time: 1.5 min}]
  SC-30:
    name: Cap
    class: cap
    mass: 0.5 kg
    faces: {under: 0 mm, seat: 10 ± 0.1 mm}
    ways: [{toward: front, held by: {SC-20: screws}, support: bridge, time: 0.5 min}]
  SC-40:
    name: Spring
    class: spring
    mass: 0.05 kg
    ways: [{toward: front, behind: [SC-30], time: 0.1 min}]
    spring: {kind: helical, rate: 20 ± 1 N/mm, free length: 70 ± 1 mm, solid length: 20 mm}
  SC-50:
    name: Thrust washer
    class: washer
    mass: 0.2 kg
    ways: [{toward: front, behind: [SC-40], time: 0.2 min}]
  SC-60:
    name: Plug
    class: plug
    mass: 0.2 kg
    ways: [{toward: rear, behind: [SC-40], tool: key, time: 0.2 min}]
stops:
  cap under screws: {a: SC-10 front, b: SC-30 under, toward: front, at most: 0 mm, by: [SC-20], rated count: 4}
loads:
  main spring:
    springs: [SC-40]
    seats: [SC-30 seat, SC-10 shoulder]
    could leave: [SC-30]
    releases:
      - {kind: press, tool: bridge, pushes: SC-30, stands on: SC-10, over: 1 mm, most over: 2 mm, reach: [SC-20],
         attitude: front down, time: 4 min}
"""
HANGS = (
    "From here on SC-30 cap points to the floor and hangs on the bridge alone: have that carry it before this step. "
    "Hands out of the way."
)
LOOSE = (
    "Loose in it: SC-30 cap; only that keeps in SC-40 spring, SC-50 thrust washer. Hold or strap what could slide or "
    "drop while it turns."
)


@cache
def bench() -> Bench:
    return Bench(load_book(BOOK, "screw-cap.yaml").unit("standard"))


def order_from(state: State) -> Plan:
    return order_teardown(bench(), Loads(bench(), Sizes(bench().unit)), state)


def test_what_hangs_on_its_tool_alone_is_told_at_the_step_that_leaves_it_there() -> None:
    """The cap is held by the screws, then by the press; let off, the bridge alone carries it, and it is turned so."""
    steps = order_from(start_state(bench().unit)).steps
    assert [step.kind for step in steps if HANGS in step.cautions] == ["let off"]
    assert [step.kind for step in steps if LOOSE in step.cautions] == ["turn"]


def test_a_turn_while_it_goes_together_tells_what_is_loose_as_taking_down_does() -> None:
    off = order_from(start_state(bench().unit)).taken_off
    steps = order_assembly(bench(), Loads(bench(), Sizes(bench().unit)), off).steps
    assert [step.kind for step in steps if LOOSE in step.cautions] == ["turn"]


def test_nothing_hangs_that_is_held_or_points_upward() -> None:
    whole = start_state(bench().unit)
    unscrewed = whole.detached | bench().bit("SC-20")
    assert hung(bench(), whole) == {}
    assert hung(bench(), State(unscrewed, "front up")) == {}
    assert hung(bench(), State(unscrewed, "front down")) == {"SC-30": "bridge"}
    assert hung(bench(), State(unscrewed, "front down", Session("main spring", 0))) == {}


def test_what_a_tool_has_to_free_is_not_kept_in_by_a_loose_part() -> None:
    state = State(bench().bit("SC-20"), "front down")
    assert kept_in(bench(), state, ["SC-30"]) == ("SC-40", "SC-50")
    assert kept_in(bench(), state, []) == ()


def test_pieces_that_are_off_already_are_told() -> None:
    steps = order_from(start_state(bench().unit).with_partial("SC-20", 2)).steps
    (screws,) = [step for step in steps if "SC-20" in step.parts]
    assert screws.what == "4 SC-20 Cap screw, toward front"
    assert "2 of 6 are off already." in screws.notes
    assert [step.what for step in order_from(start_state(bench().unit)).steps if "SC-20" in step.parts] == [
        "6 SC-20 Cap screw, toward front"
    ]
