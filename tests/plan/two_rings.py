"""A small book for the tests: one spring held by two rings, a gap apart; invented, as all units here are."""

from __future__ import annotations

from layshaft.book import load_book
from layshaft.book.definition import Unit
from layshaft.book.size import Sizes
from layshaft.plan.bench import Bench
from layshaft.plan.load import Loads
from layshaft.plan.may import Judge

TEXT = """\
layshaft book: 1
id: two-rings
name: Spring box with two rings
maker: Tarnwick Gear Works
invented: true
revision: 1
dated: 2026-10-01
base: BX-01
starts: nose up
attitudes: [nose up, nose down]
axes: {main: {start: front, end: rear, start is up: nose up, end is up: nose down}}
tools: {ring pliers: {}, bridge: {}, wrench: {}}
variants: {plain: {}}
parts:
  BX-01: {name: Box, class: case, mass: 5 kg, faces: {seat: 100.0 mm, groove: 22.0 mm}}
  BX-02:
    name: Spring
    class: spring
    mass: 1 kg
    spring: {kind: helical, free length: 132.3 ± 1.5 mm, rate: 65.693 N/mm, solid length: 57.75 mm}
    ways: [{toward: front, behind: {BX-03: cap}, time: 1 min}]
  BX-03:
    name: Cap
    class: cap
    mass: 1 kg
    faces: {front: 0 mm, seat: 0 mm}
    ways: [{toward: front, held by: {BX-04: outer ring, BX-05: inner ring}, time: 1 min}]
  BX-04:
    name: Outer ring
    class: snap ring
    mass: 0.05 kg
    faces: {front: 0 mm, rear: 2.0 mm}
    ways: [{toward: front, behind: {BX-06: cover}, tool: ring pliers, time: 1 min}]
  BX-05:
    name: Inner ring
    class: snap ring
    mass: 0.05 kg
    ways: [{toward: front, behind: {BX-06: cover}, tool: ring pliers, time: 1 min}]
  BX-06:
    name: Cover
    class: cover
    mass: 0.5 kg
    ways: [{toward: front, held by: {BX-07: four screws}, time: 1 min}]
  BX-07:
    name: Screw
    class: fastener
    count: 4
    mass: 0.01 kg
    fastener: {size: M6, torque: 9 N·m, lube: oil}
    ways: [{toward: front, tool: wrench, time: 2 min}]
stops:
  cap on the outer ring:
    {a: BX-01 groove, b: BX-03 front, toward: front, at most: [less BX-04 front to rear], by: [BX-04]}
  cap on the inner ring: {a: BX-01 groove, b: BX-03 front, toward: front, at most: 0.7 mm, by: [BX-05]}
loads:
  box spring:
    springs: [BX-02]
    seats: [BX-03 seat, BX-01 seat]
    confirmed by: [A. Rower, B. Lind]
    releases:
      - kind: press
        tool: bridge
        pushes: BX-03 front
        stands on: BX-01 seat
        over: 8 mm
        reach: [BX-04, BX-05]
        behind: {BX-06: cover}
        attitude: nose up
        time: 14 min
proofs:
  cap height:
    name: Cap height
    after: [BX-04]
    before: [BX-06]
    how: Depth gauge
    proves: the rings are seated
    does not prove: what the spring gives
    time: 1 min
"""


def unit() -> Unit:
    """The unit of the book's one variant."""
    return load_book(TEXT, "two-rings.yaml").unit("plain")


def judge() -> Judge:
    """A judge over the unit as drawn."""
    bench = Bench(unit())
    return Judge(bench, Loads(bench, Sizes(bench.unit)))
