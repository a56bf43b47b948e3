"""Screws broken, missing and off, and a backup ring gone: what is left of them holds, or may hold, or is gone.

The box: four screws hold a cover on a spring, two of them enough, and a ring backs them up. With 40 ± 2 N/mm and
60 ± 1 mm free, 35.93 mm long at least: at most half of 42 N/mm times 25.07 mm squared is 13.1986 J.
"""

from __future__ import annotations

import pytest

from layshaft.book import load_book
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.load_report import load_report
from layshaft.plan.so_far import SoFar
from layshaft.plan.teardown import order_teardown
from tests.plan.test_so_far import told as told_of

BOOK = """\
layshaft book: 1
id: screw-box
name: Screwed spring box
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: BX-01
starts: nose up
attitudes: [nose up, nose down]
axes: {main: {start: front, end: rear, start is up: nose up, end is up: nose down}}
tools: {ring pliers: {}, driver: {}, bridge: {rating: 3 kN}}
variants: {plain: {}}
parts:
  BX-01: {name: Box, class: case, mass: 2 kg, faces: {front: 0 mm, groove: -8.00 mm, shoulder: 40.00 ± 0.05 mm}}
  BX-02: {name: Screw, class: fastener, count: 4, mass: 0.01 kg, ways: [{toward: front, tool: driver, time: 1 min}]}
  BX-03:
    name: Backup ring
    class: snap ring
    mass: 0.01 kg
    faces: {front: 0 mm, rear: 1.50 mm}
    ways: [{toward: front, tool: ring pliers, time: 1 min}]
  BX-04:
    name: Cover
    class: cover
    mass: 0.3 kg
    faces: {front: 0 mm, seat: 4.00 ± 0.02 mm}
    ways: [{toward: front, held by: [BX-02, BX-03], time: 1 min}]
  BX-05:
    name: Spring
    class: spring
    mass: 0.05 kg
    ways: [{toward: front, behind: [BX-04], time: 1 min}]
    spring: {kind: helical, rate: 40 ± 2 N/mm, free length: 60 ± 1 mm, solid length: 18 mm}
stops:
  cover on box: {a: BX-01 front, b: BX-04 front, toward: front, at most: 0 mm, by: [BX-02], rated count: 2}
  ring in groove: {a: BX-01 groove, b: BX-03 front, toward: front, at most: 0 mm}
  cover on ring: {a: BX-03 rear, b: BX-04 front, toward: front, at most: 0 mm}
loads:
  main:
    springs: [BX-05]
    seats: [BX-04 seat, BX-01 shoulder]
    releases:
      - kind: press
        tool: bridge
        attitude: nose up
        pushes: BX-04
        stands on: BX-01
        over: 1 mm
        most over: 3 mm
        keep from solid: 2 mm
        margin: 5 mm
        reach: [BX-02, BX-03]
        time: 4 min
"""
UNIT = load_book(BOOK, "box.yaml").unit("plain")
BENCH = Bench(UNIT)
LOADS = Loads(BENCH, Sizes(UNIT))
NO_RING = "{part: BX-03, is: missing}"
STAND_CLEAR = "Stand clear of main: it may hold 13.2 J and nobody knows what holds it."


def told(noticed: str, done: str = "") -> SoFar:
    """What a job's record of the box says has happened."""
    return told_of(UNIT, noticed, done)


IN_DOUBT = [
    (f"{{part: BX-02, is: broken}}, {NO_RING}", ""),
    (f"{NO_RING}, {{part: BX-02, is: broken}}", ""),
    (NO_RING, "{seen: BX-02, is: broken}"),
    (f"{{part: BX-02, is: missing, pieces: 3}}, {NO_RING}", ""),
    (f"{{part: BX-02, is: broken, pieces: 3}}, {NO_RING}", "{partly: BX-02, pieces off: 1}"),
    (f"{{part: BX-02, is: broken, pieces: 1}}, {NO_RING}", "{partly: BX-02, pieces off: 2}"),
    (f"{{part: BX-02, is: broken, pieces: 2}}, {NO_RING}", "{partly: BX-02, pieces off: 2}"),
    (NO_RING, "{partly: BX-02, pieces off: 1}, {seen: BX-02, is: broken}"),
    (NO_RING, "{seen: BX-02, is: whole}, {partly: BX-02, pieces off: 2}, {seen: BX-02, is: broken}"),
    ("{part: BX-02, is: broken}, {part: BX-03, is: broken}", ""),
    ("{part: BX-03, is: broken}, {part: BX-02, is: broken}", ""),
    ("{part: BX-02, is: broken}", ""),
    ("{part: BX-02, is: broken}, {part: BX-03, is: not known}", ""),
    ("{part: BX-02, is: not known}, {part: BX-03, is: broken}", ""),
]


@pytest.mark.parametrize("noticed, done", IN_DOUBT)
def test_what_broke_may_still_hold_and_comes_off_under_the_press_alone(noticed: str, done: str) -> None:
    found = told(noticed, done)
    assert found.now[0].startswith(STAND_CLEAR)
    assert not any("free by now" in sentence for sentence in found.now)
    report = load_report(BENCH, LOADS, found.state)[0]
    assert not report.is_sure
    assert report.held.energy.high == pytest.approx(13.1986, abs=1e-4)
    steps = order_teardown(BENCH, LOADS, found.state).steps
    kinds = [step.kind for step in steps]
    held = steps[kinds.index("hold") + 1 : kinds.index("let off")]
    off_before = [part for step in steps[: kinds.index("hold")] for part in step.parts]
    assert kinds[0] == "hold", off_before
    assert "BX-02" in {part for step in held for part in step.parts}


GONE = [
    (f"{{part: BX-02, is: missing, pieces: 3}}, {NO_RING}", "{partly: BX-02, pieces off: 1}"),
    (f"{{part: BX-02, is: missing, pieces: 3}}, {{part: BX-02, is: missing, pieces: 1}}, {NO_RING}", ""),
    (NO_RING, "{partly: BX-02, pieces off: 2}, {seen: BX-02, is: missing}"),
]


@pytest.mark.parametrize("noticed, done", GONE)
def test_of_screws_all_missing_or_off_none_holds(noticed: str, done: str) -> None:
    found = told(noticed, done)
    assert load_report(BENCH, LOADS, found.state) == ()
    assert found.now[0].startswith("main: free by now, but nobody has shown it.")


def test_so_many_whole_screws_as_the_book_asks_for_hold_whatever_became_of_the_others() -> None:
    found = told(f"{{part: BX-02, is: broken, pieces: 1}}, {NO_RING}", "{partly: BX-02, pieces off: 1}")
    assert load_report(BENCH, LOADS, found.state)[0].is_sure
    assert found.now == ()


def test_broken_screws_are_told_as_still_to_come_off() -> None:
    found = told(f"{{part: BX-02, is: broken, pieces: 3}}, {NO_RING}", "{partly: BX-02, pieces off: 1}")
    told_as = [step.what for step in order_teardown(BENCH, LOADS, found.state).steps if "BX-02" in step.parts]
    assert told_as == ["3 BX-02 Screw, toward front"]
